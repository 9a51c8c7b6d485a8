//! What the ends of a slope are called on its plan.

use crate::language::Words;
use crate::placement::Job;
use crate::roof::{Edge, End, Side};

/// Its upper edge: a ridge, a wall, or a point.
pub fn upper(job: &Job, words: &Words) -> &'static str {
    let top = job.roof.outline.bounds().y[1];
    let reaches = |side: &Side| side.line.iter().any(|end| (end.y - top).abs() < 1.0);
    let is_level = |side: &Side| (side.line[0].y - side.line[1].y).abs() < 1.0;
    let sides = Side::all(&job.roof.outline, &job.roof.edges);
    match sides.iter().find(|side| reaches(side) && is_level(side)).map(|side| side.edge) {
        None => words.apex,
        Some(Edge::Abutment | Edge::PartyWall) => words.wall_above,
        Some(_) => words.ridge,
    }
}

/// Its left end.
pub fn left(job: &Job, words: &Words) -> &'static str {
    if is_verge(job, End::Left) { words.left_verge } else { words.left_end }
}

/// Its right end.
pub fn right(job: &Job, words: &Words) -> &'static str {
    if is_verge(job, End::Right) { words.right_verge } else { words.right_end }
}

/// Whether the slope ends at verges on this side and at nothing else.
fn is_verge(job: &Job, end: End) -> bool {
    let sides = Side::all(&job.roof.outline, &job.roof.edges);
    sides.iter().filter(|side| side.is_at(end)).all(|side| side.edge == Edge::Verge)
}
