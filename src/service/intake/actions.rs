//! Actions: from site, building and what loads the rails; for whole jobs and for the question what
//! acts on a roof that has no array yet.

use crate::assessment::{Assumed, Remarks, RuleValue};
use crate::codes::vocabulary::{
    Building, CombinationBasis, Evidence, Exceptional, Face, FactorSet, GroundSnow, NetCoefficients,
};
use crate::codes::{Code, Rules};
use crate::placement::actions::{Actions, OnModules, Origin, Weight, Wind};
use crate::roof::{Edge, Form};
use crate::units::{Angle, Area, Force, Length, LineLoad, weight_of_kg};
use crate::wire::actions::{ActionsParts, ActionsRequest, ActionsRoof};
use crate::wire::array::RailDirection;
use crate::wire::fault::Fault;
use crate::wire::roof::RoofForm;

use super::edges::{self, Sides};
use super::event;
use super::gatherers::{self, Gathering};
use super::place::Place;
use super::site::{FixingArea, Site};
use super::{Noted, Notes, module, parts, roof, site};

/// A question for the actions alone, understood.
#[derive(Debug, Clone)]
pub struct TakenActions {
    /// Rules it is computed by.
    pub rules: Rules,
    /// What acts.
    pub actions: Actions,
    /// Weight and area of a module.
    pub module: (Force, Area),
    /// What was assumed.
    pub assumptions: Vec<Noted>,
    /// What the rest of the answer needs to know of the request.
    pub remarks: Remarks,
}

/// Understands a question for the actions alone.
///
/// # Errors
/// Every fault that the schema cannot see.
pub fn take_actions(request: &ActionsRequest) -> Result<TakenActions, Vec<Fault>> {
    let mut notes = Notes::default();
    let place = Place::from(request);
    let rules = site::rules(&request.rules, &mut notes);
    let site = site::site(&place, rules, &mut notes);
    let outline = roof::outline(&request.roof.outline_mm, &mut notes);
    let edges = edges(&request.roof, outline.is_some(), &mut notes);
    let module = &request.array.module;
    module::long_side_first(
        module::OF_THE_ARRAY.at,
        [module.length_mm, module.width_mm],
        &mut notes,
    );
    let area = Length::from_mm(module.length_mm) * Length::from_mm(module.width_mm);
    let module = (weight_of_kg(module.mass_kg), area);
    let weight = weight(&request.components.clone().unwrap_or_default(), &mut notes);
    // Only its weight acts: how its splices are made and where it hangs is no matter here.
    notes.assumptions.retain(|a| {
        !["/components/rail/splice_length_mm", "/components/rail/axis_offset_mm"]
            .contains(&a.pointer.as_str())
    });
    let taken = rules.zip(site).zip(outline).zip(weight);
    let taken = taken.and_then(|(((rules, site), outline), weight)| {
        let face = Face { outline: &outline, edges: &edges };
        let actions =
            actions(&place, rules, site, (&face, None), (weight, &[area], &[]), &mut notes)?;
        Some((rules, actions))
    });
    match taken {
        Some((rules, actions)) if notes.faults.is_empty() => Ok(TakenActions {
            rules,
            actions,
            module,
            assumptions: notes.assumptions,
            remarks: notes.remarks,
        }),
        _ => Err(notes.faults),
    }
}

/// What the sides of the slope are, as it is said or as they run.
fn edges(roof: &ActionsRoof, is_outline: bool, notes: &mut Notes) -> Vec<Edge> {
    let said = match &roof.edges {
        Some(said) => said.clone(),
        // Zones of other forms do not ask for them.
        None if roof.form != RoofForm::Hipped || !is_outline => return Vec::new(),
        None => {
            notes.note("/roof/edges", Assumed::EdgesByCourse);
            edges::by_course(&roof.outline_mm)
        }
    };
    let slope = Sides {
        form: roof.form,
        pitch_deg: roof.pitch_deg,
        points: &roof.outline_mm,
        edges: &said,
    };
    edges::edges(&slope, is_outline, notes)
}

/// What acts on a slope with modules of these areas, those of the first field first, and on the rafters,
/// which collect wind from an area where they are checked.
pub fn actions(
    place: &Place<'_>,
    rules: Rules,
    site: Site,
    (face, rafters): (&Face<'_>, Option<Area>),
    (weight, areas, gatherings): (Weight, &[Area], &[Gathering]),
    notes: &mut Notes,
) -> Option<Actions> {
    let building = Building {
        form: roof::form(place.form),
        length: Length::from_m(place.length_m),
        width: Length::from_m(place.width_m),
        height: Length::from_m(place.ridge_height_m),
        pitch: Angle::from_deg(place.pitch_deg),
    };
    if building.form == Form::Hipped && !matches!(site.net, NetCoefficients::Given(_)) {
        notes.note("/roof/form", Assumed::HippedZones);
    }
    let [low, high] = face.outline.bounds().y;
    let run = Length::from_mm((high - low) * building.pitch.cos());
    plan_mismatch(run, expected_run(&building, face), notes);
    let site = match place.event {
        Some(event) => event::observed(event, rules, site, building.pitch, notes)?,
        None => site,
    };
    let basis = CombinationBasis {
        consequence: site.consequence,
        altitude: site.altitude,
        exceptional_snow: site.snow.exceptional,
        factors: FactorSet::Design,
    };
    // What the sides have wrong is said already, and their zones are of no use.
    let sides_are_wrong = notes.faults.iter().any(|fault| fault.pointer.starts_with("/roof/edges"));
    if building.form == Form::Hipped && sides_are_wrong {
        return None;
    }
    let mut wind_on = |area: Area, net: NetCoefficients| {
        rules
            .wind(site.wind.clone(), &building, face, area, net)
            .map_err(|fault| site::note_fault(rules, &fault, notes))
            .ok()
    };
    let (fixing, reason) = match site.fixing_area {
        FixingArea::Module => (None, None),
        FixingArea::Fixing(area, reason) => (Some(area), reason),
    };
    let covering = match rafters {
        // What is given for modules says nothing of the covering beside them.
        Some(area) => Some(wind_on(area, NetCoefficients::RoofSurface)?),
        None => None,
    };
    let mut on_modules = |area: &Area| {
        let fixings = wind_on(fixing.unwrap_or(*area), site.net)?;
        Some(OnModules { area: *area, fixings, modules: wind_on(*area, site.net)? })
    };
    let (first, others) = areas.split_first()?;
    let first = on_modules(first)?;
    let others = others.iter().map(on_modules).collect::<Option<Vec<_>>>()?;
    let wind = Wind { first, others, covering, reason };
    notes.remarks.rules = evidence(&site.ground_snow, &wind);
    let gatherers = gatherings.iter().map(|gathering| gathering.what).collect();
    let origin = Origin { pitch: building.pitch, run, gatherers, basis };
    let (snow, silent, stands_in) = origin.snow(rules, site.ground_snow, site.snow);
    if stands_in {
        notes.remarks.rules.push((RuleValue::SnowDrifts, Evidence::StandIn));
    }
    // An event is combined with factors of 1.
    if place.event.is_none() {
        let known = rules.combination_evidence();
        notes.remarks.rules.push((RuleValue::CombinationFactors, known));
    }
    for (i, rule) in &silent {
        gatherers::silent(&gatherings[*i], rule, notes);
    }
    Some(Actions {
        combinations: match place.event {
            Some(_) => rules.observed(&basis, wind.strongest(), &snow),
            None => rules.combinations(&basis, wind.strongest(), &snow.arrangements),
        },
        snow,
        weight,
        wind,
        // Of an event only what was observed acts.
        person: place.event.is_none().then(|| rules.person(&basis)),
        origin,
    })
}

/// How well what the rules say of snow and wind is known.
fn evidence(ground: &GroundSnow, wind: &Wind) -> Vec<(RuleValue, Evidence)> {
    let exceptional = match ground.exceptional {
        Exceptional::Considered(there) => Some((RuleValue::ExceptionalSnow, there.evidence)),
        Exceptional::NotSaid | Exceptional::None => None,
    };
    let on_modules = wind.all().flat_map(|of| [&of.fixings, &of.modules]);
    let coefficients = on_modules.chain(&wind.covering).map(|field| field.evidence).max();
    let known = [
        Some((RuleValue::GroundSnow, ground.evidence)),
        exceptional,
        Some((RuleValue::PeakPressure, wind.zoned().peak.evidence)),
        coefficients.map(|evidence| (RuleValue::WindCoefficients, evidence)),
    ];
    known.into_iter().flatten().collect()
}

/// How far the slope reaches in plan by the width of the building; nothing is known of a hip end, which
/// has no ridge.
fn expected_run(building: &Building, face: &Face<'_>) -> Option<Length> {
    match building.form {
        Form::Duopitch => Some(building.width / 2.0),
        Form::Monopitch => Some(building.width),
        Form::Hipped => face.edges.contains(&Edge::Ridge).then_some(building.width / 2.0),
    }
}

/// The outline should reach about as far in plan as the building says.
fn plan_mismatch(run: Length, expected: Option<Length>, notes: &mut Notes) {
    const ODD: f64 = 0.15;
    if let Some(expected) = expected.filter(|expected| (run - *expected).abs() > *expected * ODD) {
        notes.remarks.plan_mismatch = Some([run, expected]);
    }
}

/// Weight of the parts that are chosen already.
fn weight(chosen: &ActionsParts, notes: &mut Notes) -> Option<Weight> {
    let noted = notes.assumptions.len();
    let rail = chosen
        .rail
        .as_ref()
        .map(|rail| parts::chosen_rail(rail, None, RailDirection::AlongEaves, notes));
    let clamp = chosen.clamp.as_ref().map(|clamp| parts::chosen_clamp(clamp, notes));
    // Their mass alone acts: whatever else is assumed of them is of no effect.
    notes.assumptions.truncate(noted);
    // A part that is named and not found is a fault; one that is not named weighs nothing.
    let rail = match rail {
        Some(found) => Some(found?.weight),
        None => None,
    };
    let clamp = match clamp {
        Some(found) => Some(found?.weight),
        None => None,
    };
    Some(Weight {
        rail: notes.assume("/components/rail", rail, LineLoad::ZERO, |_| Assumed::RailWeightless),
        clamp: notes.assume("/components/clamp", clamp, Force::ZERO, |_| Assumed::ClampWeightless),
    })
}
