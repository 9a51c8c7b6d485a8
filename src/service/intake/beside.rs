//! Fields of different modules that follow each other along their rails: rails and end clamps of either need
//! room there.

use crate::placement::Job;
use crate::placement::array;
use crate::placement::kept::Kept;
use crate::placement::rail_axis::RailAxis;
use crate::placement::rail_lines::RailLine;
use crate::wire::fault::FaultCode;

use super::Notes;

/// Looks whether fields with different modules leave each other the room that their rails and clamps need.
/// No rail and no clamp holds modules of two fields.
pub fn beside_others(job: &Job, kept: &Kept, notes: &mut Notes) {
    if array::kinds(&job.fields).len() < 2 {
        return;
    }
    let lines = &kept.lines(job);
    for later in 1..job.fields.len() {
        let kind = |field: usize| array::kind_of(&job.fields, field);
        let others = (0..later).filter(|earlier| kind(*earlier) != kind(later));
        for earlier in others {
            if let Some([have, need]) = least_room(job, lines, [earlier, later]) {
                let other = &job.fields[earlier].id;
                let detail = match job.rail_axis {
                    RailAxis::AlongEaves => format!(
                        "It lies {have:.0} mm beside field {other}, whose modules are others. Each has rails and end clamps of its own, which need {need:.0} mm there: move it, or give it another height."
                    ),
                    RailAxis::UpSlope => format!(
                        "It lies {have:.0} mm above or below field {other}, whose modules are others. Each has rails and end clamps of its own, which need {need:.0} mm there: move it."
                    ),
                };
                notes.fault(format!("/array/fields/{later}"), FaultCode::Overlap, detail);
            }
        }
    }
}

/// Room between two fields where it is too little, and what is needed, mm.
fn least_room(job: &Job, lines: &[RailLine], fields: [usize; 2]) -> Option<[f64; 2]> {
    let [one, other] = fields.map(|field| lines.iter().filter(move |line| line.field() == field));
    let pairs = one.flat_map(|a| other.clone().map(move |b| (a, b)));
    let short = pairs.filter_map(|(a, b)| too_near(job, a, b));
    short.reduce(|least, next| if next[0] < least[0] { next } else { least })
}

/// Room between the modules over two rails, where it is less than clamps and rails need.
fn too_near(job: &Job, a: &RailLine, b: &RailLine) -> Option<[f64; 2]> {
    // Along the rails and across them.
    let [over_a, over_b] = [a, b].map(|line| {
        let ends = [0, 1].map(|side| line.run.end(&job.fields, side));
        let [first, last] = ends.map(|module| line.axis().sides(&module));
        [[first[0][0], last[0][1]], first[1]]
    });
    let room = (over_b[0][0] - over_a[0][1]).max(over_a[0][0] - over_b[0][1]);
    let in_one_lane = over_a[1][0] < over_b[1][1] && over_b[1][0] < over_a[1][1];
    let on_one_line = (a.across - b.across).abs() < job.rail.depth;
    let clamp = if in_one_lane { job.clamp.end_width.mm() } else { 0.0 };
    let rails = if on_one_line { 2.0 * job.rail.end_projection.mm() } else { 0.0 };
    let need = clamp.max(rails);
    (need > 0.0 && room < need).then_some([room.max(0.0), need])
}
