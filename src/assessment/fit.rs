//! Whether the hook can be fitted: its foot between tile and batten, on the roof, off obstacles; its
//! rail on the roof.

use crate::covering::passage::{self, Fit};
use crate::geometry::Rect;
use crate::placement::laid::{Layout, Rail};
use crate::placement::rail_lines::RailLine;
use crate::placement::{Job, feet};
use crate::units::Length;

use super::{Fact, Findings, Place};

/// Everything about the place of feet and rails that no calculation of forces sees.
pub(super) fn fit(job: &Job, layout: &Layout, out: &mut Findings) {
    between_battens(job, layout, out);
    rails_on_the_roof(job, layout, out);
    feet_on_the_roof(job, layout, out);
}

/// Whether the foot fits between two battens, and stands there where the arm wants it.
fn between_battens(job: &Job, layout: &Layout, out: &mut Findings) {
    let (covering, hook) = (&job.covering, &job.hook);
    let foot = hook.foot.length;
    let bay = passage::between_battens(covering);
    let clear = passage::clear_bay(covering);
    if foot > bay {
        out.add(Place::Covering, Fact::FootLongerThanBay { foot, bay, clear });
        return;
    }
    let fits = layout.rails.iter().map(|rail| (feet::fit(job, rail), &rail.line));
    let Some((fit, line)) = fits.reduce(worse) else { return };
    let fact = match fit {
        Fit::Free => return,
        Fit::Worked { lower, trim_head, trim_batten } if foot > clear => Fact::FootTightInBay {
            foot,
            bay,
            clear,
            lower,
            trim_head,
            trim_batten,
            rail: line.id.clone(),
            y: line.course().map(|_| line.across),
        },
        Fit::Worked { lower, trim_head, trim_batten } => Fact::FootMeetsBattenOrTile {
            beyond: hook.bolt_beyond_exit,
            lower,
            trim_head,
            trim_batten,
            rail: line.id.clone(),
            y: line.course().map(|_| line.across),
        },
        Fit::Blocked { on_head, under_batten } => {
            let reach = passage::fitting_reach(covering, foot, hook.bolt_beyond_exit);
            Fact::FootDoesNotFit {
                on_head,
                under_batten,
                reach: hook.reach,
                foot,
                clear: clear.max(Length::ZERO),
                fitting_from: reach.map(|reach| reach[0]),
                fitting_to: reach.map(|reach| reach[1]),
            }
        }
    };
    out.add(Place::Covering, fact);
}

/// The one of two that asks for more; of equals the first.
fn worse<'a>(a: (Fit, &'a RailLine), b: (Fit, &'a RailLine)) -> (Fit, &'a RailLine) {
    if b.0.weight() > a.0.weight() { b } else { a }
}

/// Rails that run off the roof or into an obstacle.
fn rails_on_the_roof(job: &Job, layout: &Layout, out: &mut Findings) {
    let half = job.rail.depth / 2.0;
    for (r, Rail { line, .. }) in layout.rails.iter().enumerate() {
        let (start, end) = (line.start(), line.end());
        let rail = line.rect(half);
        let mut off = |obstacle| {
            let rail = line.id.clone();
            out.add(Place::Rail(r), Fact::RailOffRoof { rail, start, end, obstacle });
        };
        if !job.roof.outline.covers(&rail) {
            off(None);
        }
        for (i, obstacle) in job.roof.obstacles.iter().enumerate() {
            if obstacle.outline.overlaps(&rail) {
                off(Some(i));
            }
        }
    }
}

/// Feet that would stand off the slope or on an obstacle.
fn feet_on_the_roof(job: &Job, layout: &Layout, out: &mut Findings) {
    /// Half the width of a line, mm.
    const AXIS: f64 = 0.5;
    let hook = &job.hook;
    let half = hook.foot.width.mm() / 2.0;
    let off = layout.hooks().filter(|(at, place)| {
        let low = (layout.rails[at[0]].line.height_at(place.at) + hook.reach).mm();
        let strip = |half: f64| Rect {
            x: [place.x.mm() - half, place.x.mm() + half],
            y: [low, low + hook.foot.length.mm()],
        };
        let on_obstacle = job.roof.obstacles.iter().any(|o| o.outline.overlaps(&strip(half)));
        // Its sides may stand out beyond a rafter at the verge; its axis may not.
        on_obstacle || !job.roof.outline.covers(&strip(AXIS))
    });
    let hooks: Vec<String> = off.map(|(at, _)| layout.hook_name(at).to_owned()).collect();
    if !hooks.is_empty() {
        let (from, to) = (hook.reach, hook.reach + hook.foot.length);
        out.add(Place::Hooks, Fact::FootOffRoof { hooks, from, to });
    }
}
