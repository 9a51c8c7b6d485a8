//! The covering as the answer shows it, and what is to be done to its tiles at one hook.

use crate::checks::segment::Candidate;
use crate::covering::opening::{self, Opening, Row, Run, Tile};
use crate::covering::watertight::{self, PRACTICE, Watertight};
use crate::covering::{Laying, courses, passage, stack};
use crate::hardware::Hook;
use crate::placement::Job;
use crate::service::rounding::mm;
use crate::units::{Angle, Length};
use crate::wire::layout::{
    CoveringAnswer, SubstitutePlace, SubstituteTile, TilePlace, TileRow, TileRun, TileWork,
};
use crate::wire::watertight::{RulePitchAnswer, RulePitchBy};

/// The covering.
pub fn covering(job: &Job) -> CoveringAnswer {
    let (covering, hook) = (&job.covering, &job.hook);
    let slope = stack::tile_slope(covering).atan().to_degrees();
    let room = foot_room(job);
    // Along a tile the arm keeps its distance, and the tile's underside lies on the batten.
    let over_exit = hook.arm_underside - job.roof.layers.battens_above_foot;
    let fall = passage::covered_length(covering) * stack::tile_slope(covering);
    CoveringAnswer {
        headlap_mm: mm(stack::headlap(covering).mm()),
        tile_slope_deg: mm(slope),
        tile_pitch_deg: mm(job.roof.pitch.deg() - slope),
        tiles_per_m2: mm(stack::tiles_per_m2(covering)),
        lower_tile_top_mm: mm(stack::lower_tile_top(covering).mm()),
        covered_length_mm: mm(passage::covered_length(covering).mm()),
        clear_bay_mm: mm(passage::clear_bay(covering).mm()),
        foot_above_head_mm: mm(room.above_head.mm()),
        foot_below_batten_mm: mm(room.below_batten.mm()),
        arm_over_batten_mm: mm((over_exit - fall - covering.batten_thickness).mm()),
        rule_pitch: rule_pitch(&job.watertight, job.roof.pitch),
    }
}

fn rule_pitch(of: &Watertight, pitch: Angle) -> RulePitchAnswer {
    RulePitchAnswer {
        rule_pitch_deg: mm(of.rule.deg()),
        least_pitch_deg: mm(of.least.deg()),
        by: match of.by {
            watertight::RulePitchBy::Guild => RulePitchBy::Guild,
            watertight::RulePitchBy::Maker => RulePitchBy::Maker,
            watertight::RulePitchBy::Practice => RulePitchBy::CommonPractice,
        },
        source: of.source.clone().unwrap_or_else(|| PRACTICE.to_owned()),
        agreed_in: of.agreed_in.clone(),
        underlay_class_needed: of.underlay_needed(pitch),
        underlay_class: of.underlay.as_ref().map(|(class, _)| *class),
        underlay_source: of.underlay.as_ref().map(|(_, source)| source.clone()),
    }
}

fn foot_room(job: &Job) -> passage::FootRoom {
    let hook = &job.hook;
    passage::foot_room(&job.covering, hook.reach - hook.bolt_beyond_exit, hook.foot.length)
}

/// Number of a tile counted from the left verge at the height of its course.
pub fn from_verge(job: &Job, tile: Tile, row: Row) -> i64 {
    let covering = &job.covering;
    let shift = opening::row_shift(covering, row);
    let middle = courses::left_joint(covering, tile.course, tile.column)
        + shift
        + covering.cover_width / 2.0;
    let y = courses::tail_edge(covering, tile.course);
    let edges = job.roof.outline.edges_beside(middle.mm(), y.mm());
    let verge = edges.map_or(Length::ZERO, |edges| Length::from_mm(edges[0]));
    courses::from_verge(covering, tile.course, tile.column, verge - shift)
}

/// What is to be done to the tiles at one hook whose arm stands `clearance` above the tile below.
pub fn work(
    job: &Job,
    course: i64,
    place: &Candidate,
    side_joint: Length,
    clearance: Length,
) -> TileWork {
    let hook = &job.hook;
    let across = [place.x, place.arm_x];
    let opening = opening::opening(&job.covering, course, across, hook.foot.width);
    let at_joint = opening::concerns_both(side_joint, hook.arm_width);
    let substitute = substitutes(hook, &opening, at_joint);
    let room = clearance.max(Length::ZERO) + hook.arm_thickness + job.wishes.min_room_above;
    let nib_to_remove = nib(job, place, &opening, &substitute);
    let notch_beside = (at_joint && substitute.len() < 3).then(|| self::place(opening.beside));
    let replaced = substitute.iter().map(|tile| Tile { course: tile.course, column: tile.column });
    let worked = nib_to_remove.iter().chain(&notch_beside);
    let worked = worked.map(|tile| Tile { course: tile.course, column: tile.column });
    let lift = replaced.chain(worked).fold(opening.lift, opening::with);
    TileWork {
        lift_count: lift.iter().map(|run| run.tiles().unsigned_abs()).sum(),
        lift: lift.iter().map(|run| self::run(job, *run)).collect(),
        nib_to_remove,
        notch_beside,
        substitute,
        lower_joint_mm: mm(opening.lower_joint.mm()),
        room_for_arm_mm: mm(room.mm()),
    }
}

/// Metal tiles round an arm that stands so far from the nearest side joint.
pub fn substitutes_round_arm(hook: &Hook, side_joint: Length) -> u64 {
    let at_joint = opening::concerns_both(side_joint, hook.arm_width);
    substitute_places(hook, at_joint).count() as u64
}

/// Metal tiles in the order they are laid: a single one goes over the arm, a second under it, a
/// third beside the upper one where the arm stands at a joint.
fn substitutes(hook: &Hook, opening: &Opening, at_joint: bool) -> Vec<SubstituteTile> {
    let tile = |place| {
        let Tile { course, column } = match place {
            SubstitutePlace::Below => opening.below,
            SubstitutePlace::Above => opening.above,
            SubstitutePlace::Beside => opening.beside,
        };
        SubstituteTile { course, column, place }
    };
    substitute_places(hook, at_joint).map(tile).collect()
}

fn substitute_places(hook: &Hook, at_joint: bool) -> impl Iterator<Item = SubstitutePlace> {
    let places = [
        (opening::replaces_below(hook), SubstitutePlace::Below),
        (hook.substitute_tiles >= 1, SubstitutePlace::Above),
        (at_joint && hook.substitute_tiles >= 3, SubstitutePlace::Beside),
    ];
    places.into_iter().filter(|(is_laid, _)| *is_laid).map(|(_, place)| place)
}

/// The first tile that stays a tile and whose nib is in the way: the one over the arm rides on it
/// when it is slid back, the one below stands where the foot is to stand.
fn nib(
    job: &Job,
    place: &Candidate,
    opening: &Opening,
    substitute: &[SubstituteTile],
) -> Option<TilePlace> {
    let stays = |at: SubstitutePlace| substitute.iter().all(|tile| tile.place != at);
    let met = |tile, x, width: Length| opening::nib_within(&job.covering, tile, x, width / 2.0);
    let above =
        stays(SubstitutePlace::Above) && met(opening.above, place.arm_x, job.hook.arm_width);
    let below = stays(SubstitutePlace::Below)
        && foot_room(job).above_head < Length::ZERO
        && met(opening.below, place.x, job.hook.foot.width);
    if above { Some(self::place(opening.above)) } else { below.then(|| self::place(opening.below)) }
}

fn run(job: &Job, run: Run) -> TileRun {
    let Run { course, row, columns } = run;
    TileRun {
        course,
        columns,
        from_verge: columns.map(|column| from_verge(job, Tile { course, column }, row)),
        row: (job.covering.laying == Laying::Crown).then_some(match row {
            Row::Cover => TileRow::Cover,
            Row::Bed => TileRow::Bed,
        }),
    }
}

const fn place(tile: Tile) -> TilePlace {
    TilePlace { course: tile.course, column: tile.column }
}
