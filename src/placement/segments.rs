//! A rail segment built for the checks: its beam, its candidates and its load cases.

use crate::checks::rail::RailLimits;
use crate::checks::segment::{Candidate, Case, Segment};
use crate::geometry::Rect;
use crate::mechanics::beam::{self, Member, Strip, StripParts};
use crate::units::{FlexuralRigidity, Length, Stiffness};

use super::footing::Footing;
use super::loads::Loads;
use super::rail_axis::RailAxis;
use super::rail_lines::RailLine;
use super::splices::splices;
use super::{Job, up_slope};

/// What the edge of a module and the end of a rail there may differ by in rounding, mm: a rail that is cut between
/// modules may end where one does.
const ROUNDING_MM: f64 = 1e-6;

/// The modules a segment of a rail carries, along the rail: row and column, and place.
pub fn modules_over(
    job: &Job,
    line: &RailLine,
    ends: [Length; 2],
) -> impl Iterator<Item = ([u32; 2], Rect)> {
    let (field, axis) = (&job.fields[line.field()], line.axis());
    let within = move |rect: &Rect| {
        let [along, _] = axis.sides(rect);
        ends[0].mm() - ROUNDING_MM <= along[0] && along[1] <= ends[1].mm() + ROUNDING_MM
    };
    let run = (!line.is_beneath()).then(|| line.run.modules());
    run.into_iter()
        .flatten()
        .map(|[row, column]| ([row, column], field.place(row, column)))
        .filter(move |(_, rect)| within(rect))
}

/// Builds one segment of a rail with all its load cases over its candidates, whose settings are
/// places in `footings`.
#[must_use]
pub fn segment(
    job: &Job,
    footings: &[Footing],
    line: &RailLine,
    ends: [Length; 2],
    candidates: Vec<Candidate>,
) -> Segment {
    let modules: Vec<Rect> = modules_over(job, line, ends).map(|(_, rect)| rect).collect();
    let axis = line.axis();
    let on_the_rail = |frame: f64| frame.max(ends[0].mm()).min(ends[1].mm());
    let frames = modules.iter().flat_map(|module| axis.sides(module)[0]);
    let frames: Vec<f64> = frames.map(on_the_rail).collect();
    let loads = Loads::on(job, line, &modules);
    let cases = job.actions.combinations.iter().enumerate();
    let cases = cases.map(|(index, combination)| loads.case(job, index, combination)).collect();
    let loads = On { points: frames, cases: [loads.normal, loads.slope] };
    under(job, footings, (line, ends), candidates, (loads, cases))
}

/// What acts on a rail: places of loads along it, mm, and load cases square to the slope and down it.
pub(super) struct On {
    /// Where loads act, in both directions.
    pub(super) points: Vec<f64>,
    /// How much.
    pub(super) cases: [Vec<beam::Case>; 2],
}

/// Builds one segment of a rail under loads that its combinations are put together of.
pub(super) fn under(
    job: &Job,
    footings: &[Footing],
    (line, ends): (&RailLine, [Length; 2]),
    candidates: Vec<Candidate>,
    (on, cases): (On, Vec<Case>),
) -> Segment {
    let axis = line.axis();
    let strip = |(member, rigidity): (Member, f64),
                 stiffness: Option<Stiffness>,
                 cases: Vec<beam::Case>| {
        Strip::new(StripParts {
            member,
            start: ends[0].mm(),
            end: ends[1].mm(),
            rigidity,
            stiffness: stiffness.map(Stiffness::n_per_mm),
            candidates: candidates.iter().map(|c| c.at.mm()).collect(),
            hinges: if job.rail.hinged_splices && member == Member::Beam {
                splices(job, line.spliced_at.as_deref(), ends).iter().map(|at| at.mm()).collect()
            } else {
                Vec::new()
            },
            load_points: on.points.clone(),
            cases,
        })
    };
    let least_foot = Segment::least_foot(&candidates);
    let bends = |rigidity: FlexuralRigidity| (Member::Beam, rigidity.nmm2());
    let normal_spring = job.hook.normal_spring.stiffness;
    let (along, least_apart) = match axis {
        RailAxis::AlongEaves => (bends(job.rail.slope_rigidity), Length::ZERO),
        RailAxis::UpSlope => {
            ((Member::Bar, job.rail.axial_rigidity().n()), up_slope::least_apart(job))
        }
    };
    let [normal_cases, slope_cases] = on.cases;
    let normal = bends(job.rail.normal_rigidity);
    Segment {
        normal: strip(normal, normal_spring, normal_cases),
        slope: strip(along, job.hook.slope_stiffness, slope_cases),
        hold: job.hold,
        gathered: None,
        borne: None,
        cases,
        candidates,
        hook: job.hook.clone(),
        bolt: job.bolt,
        limits: RailLimits::of(&job.rail, job.rules, axis == RailAxis::UpSlope),
        least_apart,
        settings: footings.iter().map(Footing::setting).collect(),
        least_foot,
    }
}
