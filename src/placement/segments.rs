//! A rail segment built for the checks: its beam, its candidates and its load cases.

use crate::checks::rail::RailLimits;
use crate::checks::segment::{Candidate, Segment};
use crate::geometry::Rect;
use crate::mechanics::beam::{Member, Strip, StripParts};
use crate::units::{FlexuralRigidity, Length, Stiffness};

use super::Job;
use super::footing::Footing;
use super::loads::Loads;
use super::rail_lines::RailLine;
use super::splices::splices;

/// Columns and places of the modules a segment of a rail carries, left to right.
pub fn modules_over(
    job: &Job,
    line: &RailLine,
    ends: [Length; 2],
) -> impl Iterator<Item = (u32, Rect)> {
    let field = &job.fields[line.field];
    let within = move |rect: &Rect| ends[0].mm() <= rect.x[0] && rect.x[1] <= ends[1].mm();
    (line.columns[0]..=line.columns[1])
        .map(move |column| (column, field.place(&job.module, line.row, column)))
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
    let load_points: Vec<f64> = modules.iter().flat_map(|module| module.x).collect();

    let strip = |stiffness: Option<Stiffness>, rigidity: FlexuralRigidity, cases| {
        Strip::new(StripParts {
            member: Member::Beam,
            start: ends[0].mm(),
            end: ends[1].mm(),
            rigidity: rigidity.nmm2(),
            stiffness: stiffness.map(Stiffness::n_per_mm),
            candidates: candidates.iter().map(|c| c.arm_x.mm()).collect(),
            hinges: if job.rail.hinged_splices {
                splices(job, line.spliced_at.as_deref(), ends).iter().map(|at| at.mm()).collect()
            } else {
                Vec::new()
            },
            load_points: load_points.clone(),
            cases,
        })
    };
    let loads = Loads::on(job, line, &modules);
    let cases = job.actions.combinations.iter().enumerate();
    let cases = cases.map(|(index, combination)| loads.case(job, index, combination)).collect();
    let least_foot = Segment::least_foot(&candidates);
    Segment {
        normal: strip(job.hook.normal_spring.stiffness, job.rail.normal_rigidity, loads.normal),
        slope: strip(job.hook.slope_stiffness, job.rail.slope_rigidity, loads.slope),
        cases,
        candidates,
        hook: job.hook.clone(),
        bolt: job.bolt,
        limits: RailLimits::of(&job.rail, job.rules),
        settings: footings.iter().map(Footing::setting).collect(),
        least_foot,
    }
}
