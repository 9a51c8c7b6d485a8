//! What gathers snow beside the slope and on it: taller buildings, valleys, obstacles, and eaves close
//! below the array.

use crate::assessment::{Assumed, EdgeName, ObstacleUnknown};
use crate::codes::NotCovered;
use crate::codes::vocabulary::{Gatherer, Towards, Wall};
use crate::geometry::{Point, Ramp, Rect};
use crate::placement::array::Placed;
use crate::roof::{Edge, ObstacleKind, Roof};
use crate::units::{Angle, Length};
use crate::wire::fault::FaultCode;
use crate::wire::roof::{Abutment, Obstacle as WireObstacle, Roof as WireRoof, Valley};

use super::Notes;

/// Something that gathers snow, and the member to blame where the rules are silent on it.
#[derive(Debug, Clone)]
pub struct Gathering {
    /// What it is.
    pub what: Gatherer,
    /// Pointer into the request.
    pointer: String,
}

/// Everything that gathers snow on modules or rafters, as far as the request describes it.
pub fn gatherers(
    wire: &WireRoof,
    roof: &Roof,
    modules: &[Placed],
    notes: &mut Notes,
) -> Vec<Gathering> {
    let mut found = walls(wire, roof, notes);
    found.extend(valleys(wire, roof, notes));
    found.extend(obstacles(wire, roof, modules, notes));
    let eaves = roof.edges.iter().enumerate().filter(|(_, edge)| **edge == Edge::Eaves);
    found.extend(eaves.filter_map(|(side, _)| {
        let line = roof.side(side);
        let below =
            modules.iter().any(|module| Gatherer::eaves_below(&line, &module.rect).is_some());
        let pointer = format!("/roof/edges/{side}");
        below.then_some(Gathering { what: Gatherer::Eaves { side, line }, pointer })
    }));
    found
}

/// Notes what the rules do not say of something that gathers snow.
pub fn silent(gathering: &Gathering, rule: &NotCovered, notes: &mut Notes) {
    if let Gatherer::Obstacle { obstacle, .. } = gathering.what {
        notes.remarks.snow.obstacles.push((obstacle, ObstacleUnknown::Drift));
    } else {
        notes.fault(&gathering.pointer, FaultCode::NotCovered, format!("{rule}."));
    }
}

/// Sides of a kind, and of another kind that may have entries too, each with its entry if it has one.
/// Entries for other sides, or for one side twice, are faults.
fn described<'a, T>(
    (list, entries): (&str, &'a [T]),
    side_of: impl Fn(&T) -> u32,
    (kind, also, name): (Edge, Option<Edge>, EdgeName),
    roof: &Roof,
    notes: &mut Notes,
) -> Vec<(usize, usize, &'a T)> {
    let mut out: Vec<(usize, usize, &T)> = Vec::new();
    for (i, entry) in entries.iter().enumerate() {
        let side = side_of(entry) as usize;
        let called = roof.edges.get(side);
        let why = if called != Some(&kind) && (also.is_none() || called != also.as_ref()) {
            "No such side of the outline is called so in roof.edges, where sides are counted from 0."
        } else if out.iter().any(|(_, known, _)| *known == side) {
            "The side is described twice."
        } else {
            out.push((i, side, entry));
            continue;
        };
        notes.fault(format!("/roof/{list}/{i}/side"), FaultCode::Contradiction, why);
    }
    let of_kind = roof.edges.iter().enumerate().filter(|(_, edge)| **edge == kind);
    let unknown = of_kind.map(|(side, _)| side);
    let unknown = unknown.filter(|side| out.iter().all(|(_, known, _)| known != side));
    notes.remarks.snow.unknown_sides.extend(unknown.map(|side| (side, name)));
    out
}

fn walls(wire: &WireRoof, roof: &Roof, notes: &mut Notes) -> Vec<Gathering> {
    let entries = ("abutments", &wire.abutments[..]);
    let kind = (Edge::Abutment, Some(Edge::PartyWall), EdgeName::Abutment);
    let described = described(entries, |entry: &Abutment| entry.side, kind, roof, notes);
    let wall = |(i, side, entry): (usize, usize, &Abutment)| {
        let pointer = format!("/roof/abutments/{i}");
        if roof.edges[side] == Edge::PartyWall {
            rises_alone(&pointer, entry, notes);
        }
        let wall = wall(&pointer, (side, entry), (wire, roof), notes);
        Gathering { what: Gatherer::Wall(wall), pointer }
    };
    described.into_iter().map(wall).collect()
}

/// As high as a party wall may rise above the covering and still be no building beside it; judgement.
const PARAPET_M: f64 = 1.0;

/// A party wall that rises above the covering does so by itself: a building that does is an abutment.
fn rises_alone(pointer: &str, entry: &Abutment, notes: &mut Notes) {
    let why = "A party wall rises above the covering by itself and by 1 m at most; where the house next \
               door is taller, the side is an abutment.";
    for (member, beyond) in [
        ("height_m", entry.height_m > PARAPET_M),
        ("upper_width_m", entry.upper_width_m > 0.0),
        ("upper_pitch_deg", entry.upper_pitch_deg > 0.0),
    ] {
        if beyond {
            notes.fault(format!("{pointer}/{member}"), FaultCode::Contradiction, why);
        }
    }
}

fn wall(
    pointer: &str,
    (side, entry): (usize, &Abutment),
    (wire, roof): (&WireRoof, &Roof),
    notes: &mut Notes,
) -> Wall {
    let line = roof.side(side);
    let is_level = (line[0].y - line[1].y).abs() < 1.0;
    let height = Length::from_m(entry.height_m);
    // Beside a slope a wall with a level top is lower above the ridge than above the eaves.
    let usual = if is_level { height } else { Length::ZERO };
    let least = notes.assume(
        &format!("{pointer}/least_height_m"),
        entry.least_height_m.map(Length::from_m),
        usual,
        Assumed::LeastWallHeight,
    );
    if least > height {
        notes.fault(
            format!("{pointer}/least_height_m"),
            FaultCode::Contradiction,
            "It is more than the greatest height, height_m.",
        );
    }
    let upper_width = Length::from_m(entry.upper_width_m);
    let upper_pitch = Angle::from_deg(entry.upper_pitch_deg);
    let upper_run = if entry.upper_pitch_deg > 0.0 {
        notes.assume(
            &format!("{pointer}/upper_run_m"),
            entry.upper_run_m.map(Length::from_m),
            upper_width,
            Assumed::UpperRun,
        )
    } else {
        Length::ZERO
    };
    let on_plan = line.map(|end| end.on_plan(roof.pitch));
    Wall {
        side,
        line,
        towards: towards(on_plan),
        heights: [least, height],
        widths: [upper_width, width_beside(wire, roof, on_plan)],
        upper_slope: (upper_pitch, upper_run),
    }
}

/// Which way on plan the outside of a side lies: to its right, as the slope lies to its left.
fn towards([from, to]: [Point; 2]) -> Towards {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    match (dx.abs() >= dy.abs(), dx > 0.0, dy > 0.0) {
        (true, true, _) => Towards::Below,
        (true, false, _) => Towards::Above,
        (false, _, true) => Towards::Right,
        (false, _, false) => Towards::Left,
    }
}

/// How far the building reaches from one side of the slope, on plan and square to it: at least as far as
/// the slope, and as its plan says.
fn width_beside(wire: &WireRoof, roof: &Roof, on_plan: [Point; 2]) -> Length {
    let beside = Ramp::new(on_plan, 1.0);
    let points = roof.outline.points().iter().map(|point| point.on_plan(roof.pitch));
    let slope = Length::from_mm(points.map(|point| beside.distance(point)).fold(0.0, f64::max));
    let plan = match towards(on_plan) {
        Towards::Above | Towards::Below => wire.width_m,
        Towards::Left | Towards::Right => wire.length_m,
    };
    slope.max(Length::from_m(plan))
}

fn valleys(wire: &WireRoof, roof: &Roof, notes: &mut Notes) -> Vec<Gathering> {
    let kind = (Edge::Valley, None, EdgeName::Valley);
    let entries = ("valleys", &wire.valleys[..]);
    let described = described(entries, |entry| entry.side, kind, roof, notes);
    let valley = |(i, side, entry): (usize, usize, &Valley)| {
        let line = roof.side(side);
        let top = roof.outline.bounds().y[1];
        let run = Length::from_mm((top - line[0].y.min(line[1].y)) * roof.pitch.cos());
        let other_pitch = Angle::from_deg(entry.other_pitch_deg);
        let pointer = format!("/roof/valleys/{i}/other_pitch_deg");
        Gathering { what: Gatherer::Valley { side, line, run, other_pitch }, pointer }
    };
    described.into_iter().map(valley).collect()
}

/// What stands lower than this gathers no snow to speak of; judgement.
const LOW: Length = Length::from_m(0.5);

/// What is narrower than this lets the wind past; judgement.
const NARROW_MM: f64 = 1000.0;

/// How far the longest drift of all reaches on plan.
const FARTHEST_MM: f64 = 15_000.0;

fn obstacles(
    wire: &WireRoof,
    roof: &Roof,
    modules: &[Placed],
    notes: &mut Notes,
) -> Vec<Gathering> {
    let mut found = Vec::new();
    let all = roof.obstacles.iter().zip(&wire.obstacles).enumerate();
    for (obstacle, (stands, entry)) in all {
        let bounds = stands.outline.bounds();
        let height = entry.height_mm.map(Length::from_mm);
        let narrow = bounds.x[1] - bounds.x[0] < NARROW_MM && bounds.y[1] - bounds.y[0] < NARROW_MM;
        let near = modules.iter().any(|module| lies_before(&module.rect, &bounds));
        if narrow || !near || height.is_some_and(|height| height < LOW) {
            continue;
        }
        if height.is_none() && !is_usually_high(stands.kind) {
            notes.note(&format!("/roof/obstacles/{obstacle}/height_mm"), Assumed::ObstacleLow);
            continue;
        }
        let factor = entry.drift_shape_factor;
        match height {
            None => notes.remarks.snow.obstacles.push((obstacle, ObstacleUnknown::Height)),
            Some(height) => {
                let what = Gatherer::Obstacle { obstacle, bounds, height, factor };
                let pointer = format!("/roof/obstacles/{obstacle}/drift_shape_factor");
                found.push(Gathering { what, pointer });
            }
        }
    }
    unused(&wire.obstacles, &found, notes);
    found
}

/// A coefficient for an obstacle that gathers nothing would be read and forgotten.
fn unused(wire: &[WireObstacle], found: &[Gathering], notes: &mut Notes) {
    for (i, _) in wire.iter().enumerate().filter(|(_, o)| o.drift_shape_factor.is_some()) {
        let is_this =
            |what: &Gatherer| matches!(what, Gatherer::Obstacle { obstacle, .. } if *obstacle == i);
        let waits = notes.remarks.snow.obstacles.iter().any(|(obstacle, _)| *obstacle == i);
        if !waits && !found.iter().any(|gathering| is_this(&gathering.what)) {
            notes.fault(
                format!("/roof/obstacles/{i}/drift_shape_factor"),
                FaultCode::Contradiction,
                "No drift is looked at there: the obstacle is less than 0.5 m high or 1 m wide, of a \
                 kind that is low where no height is given, or no module lies beside it.",
            );
        }
    }
}

/// Whether a module lies beside one of the four sides of an obstacle, as near as any drift reaches.
fn lies_before(module: &Rect, obstacle: &Rect) -> bool {
    let shares = |a: [f64; 2], b: [f64; 2], more: f64| a[0] < b[1] + more && b[0] - more < a[1];
    (shares(module.x, obstacle.x, 0.0) && shares(module.y, obstacle.y, 2.0 * FARTHEST_MM))
        || (shares(module.y, obstacle.y, 0.0) && shares(module.x, obstacle.x, FARTHEST_MM))
}

/// Whether something of this kind stands high above the covering where nobody says how high.
const fn is_usually_high(kind: ObstacleKind) -> bool {
    match kind {
        ObstacleKind::RoofWindow
        | ObstacleKind::SnowGuard
        | ObstacleKind::StepIron
        | ObstacleKind::Aerial => false,
        ObstacleKind::Chimney
        | ObstacleKind::Dormer
        | ObstacleKind::Vent
        | ObstacleKind::Flue
        | ObstacleKind::Other => true,
    }
}
