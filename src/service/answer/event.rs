//! Whether an observed event was within the resistances.

use crate::checks::Check;
use crate::placement::Job;
use crate::placement::capacity::within_limits;
use crate::placement::laid::Layout;
use crate::service::rounding::{load, utilisation};
use crate::units::Pressure;
use crate::wire::capacity::{EventAnswer, InspectedElement};

use super::elements;

/// What the event came to on a layout that was checked under it, beside snow on the ground and peak
/// pressure of the site.
pub fn event(job: &Job, layout: &Layout, of_site: [Pressure; 2]) -> EventAnswer {
    let kn = |pressure: Pressure| load(pressure.kn_per_m2());
    let [site_snow, site_peak] = of_site.map(kn);
    EventAnswer {
        within_resistances: within_limits(job, layout),
        ground_snow_kn_per_m2: kn(job.actions.snow.ground.load),
        snow_on_roof_kn_per_m2: kn(job.actions.snow.roof),
        peak_pressure_kn_per_m2: kn(job.actions.wind.zoned().peak.pressure),
        site_ground_snow_kn_per_m2: site_snow,
        site_peak_pressure_kn_per_m2: site_peak,
        inspect_first: hooks(layout),
    }
}

/// Every hook, the most used first; of equals from left to right.
fn hooks(layout: &Layout) -> Vec<InspectedElement> {
    let of = |[r, s, h]: [usize; 3]| {
        let result = layout.rails[r].segments[s].result.as_ref()?;
        let (check, governing) = result.hooks[h].governing();
        Some((elements::hook_id(layout, [r, s, h]), check, governing.utilisation))
    };
    let mut hooks: Vec<_> = layout.hooks().filter_map(|(at, _)| of(at)).collect();
    hooks.sort_by(|a, b| b.2.total_cmp(&a.2));
    let inspected = |(element, check, used): (String, Check, f64)| {
        let (check, utilisation) = (check.name().to_owned(), utilisation(used));
        InspectedElement { element, check, utilisation }
    };
    hooks.into_iter().map(inspected).collect()
}
