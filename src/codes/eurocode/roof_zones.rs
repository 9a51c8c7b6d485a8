//! The zones of the wind on a slope, whatever the form of its roof: laid out in plan by the clause of the
//! form and brought onto the slope, cut along its outline.

use super::en1991_1_4_2005::plan::{FacePlan, ZoneInPlan};
use super::en1991_1_4_2005::tables::RoofTables;
use super::en1991_1_4_2005::{coefficients, duopitch, hipped, monopitch};
use crate::codes::NotCovered;
use crate::codes::vocabulary::{Building, Coefficients, Direction, Evidence, Face};
use crate::geometry::{Border, Outline, Point, Rect, Region, split_all};
use crate::roof::{Edge, End, Form, Side, hip_at};
use crate::units::{Area, Length};

/// A zone on the slope, or one of its pieces.
pub(super) struct RoofZone {
    /// Letter.
    pub(super) name: &'static str,
    /// Where.
    pub(super) region: Region,
    /// Coefficients on elements of the loaded area.
    pub(super) coefficients: Coefficients,
    /// Clause and table.
    pub(super) clause: &'static str,
    /// What was read on the safe side.
    pub(super) reading: Option<&'static str>,
    /// How well the table is known.
    pub(super) evidence: Evidence,
}

/// The zones of a slope for one wind direction, covering it exactly once.
///
/// # Errors
/// [`NotCovered`] for pitches the tables do not have.
pub(super) fn roof_zones(
    tables: &RoofTables,
    building: &Building,
    face: &Face<'_>,
    direction: Direction,
    loaded_area: Area,
) -> Result<Vec<RoofZone>, NotCovered> {
    match building.form {
        Form::Duopitch => of_duopitch(tables, building, face, direction, loaded_area),
        Form::Monopitch => of_monopitch(tables, building, face, direction, loaded_area),
        Form::Hipped => {
            let sides = Side::all(face.outline, face.edges);
            if ends_at_gable(&sides, direction) {
                of_duopitch(tables, building, face, direction, loaded_area)
            } else {
                of_hipped(tables, building, (face.outline, &sides), direction, loaded_area)
            }
        }
    }
}

fn of_duopitch(
    tables: &RoofTables,
    building: &Building,
    face: &Face<'_>,
    direction: Direction,
    loaded_area: Area,
) -> Result<Vec<RoofZone>, NotCovered> {
    let clause = match direction {
        Direction::Front | Direction::Back => "7.2.5, Table 7.4a",
        Direction::Left | Direction::Right => "7.2.5, Table 7.4b",
    };
    let zones = duopitch::duopitch_zones(&plan(building, face), direction);
    on_slope(building, face, &zones, (clause, tables.evidence), |zone| {
        let found = coefficients::duopitch(tables, direction, zone, building.pitch, loaded_area)?;
        Ok((duopitch_letter(zone), found))
    })
}

fn of_monopitch(
    tables: &RoofTables,
    building: &Building,
    face: &Face<'_>,
    direction: Direction,
    loaded_area: Area,
) -> Result<Vec<RoofZone>, NotCovered> {
    let clause = match direction {
        Direction::Front | Direction::Back => "7.2.4, Table 7.3a",
        Direction::Left | Direction::Right => "7.2.4, Table 7.3b",
    };
    let zones = monopitch::zones(&plan(building, face), direction);
    on_slope(building, face, &zones, (clause, tables.evidence), |zone| {
        let found = monopitch::coefficients(tables, direction, zone, building.pitch, loaded_area)?;
        Ok((monopitch_letter(zone), found))
    })
}

fn of_hipped(
    tables: &RoofTables,
    building: &Building,
    (outline, sides): (&Outline, &[Side]),
    direction: Direction,
    loaded_area: Area,
) -> Result<Vec<RoofZone>, NotCovered> {
    let pitch = building.pitch;
    let plan = outline.region().mapped(|point| point.on_plan(pitch));
    let on_plan: Vec<Side> = sides.iter().map(|side| side.on_plan(pitch)).collect();
    let of_face = hipped::HippedFace {
        length: building.length,
        width: building.width,
        height: building.height,
        pitch,
        plan: &plan,
        sides: &on_plan,
    };
    let windward_hip = end_towards(direction).and_then(|end| hip_at(sides, end));
    let windward_pitch = windward_hip.map_or(pitch, |hip| hip.pitch_beyond(pitch));
    let zone = |(zone, region): (hipped::Zone, Region)| {
        let coefficients = hipped::coefficients(tables, zone, windward_pitch, loaded_area)?;
        Ok(RoofZone {
            name: hipped_letter(zone),
            region: region.mapped(|Point { x, y }| Point { x, y: y / pitch.cos() }),
            coefficients,
            clause: "7.2.6, Table 7.5",
            reading: (zone == hipped::Zone::M).then_some("zone N taken as M"),
            evidence: tables.hipped_evidence,
        })
    };
    hipped::zones(tables, &of_face, direction)?.into_iter().map(zone).collect()
}

/// Whether the wind from one side meets a gable instead of a hip: one end of a roof can be hipped and the
/// other not. What runs on beyond a party wall, or ends at a taller one, is taken to be a gable too.
fn ends_at_gable(sides: &[Side], direction: Direction) -> bool {
    let Some(end) = end_towards(direction) else { return false };
    let is_gable = |side: &Side| {
        side.is_at(end) && matches!(side.edge, Edge::Verge | Edge::PartyWall | Edge::Abutment)
    };
    hip_at(sides, end).is_none() && sides.iter().any(is_gable)
}

/// The end of the slope the wind comes from.
const fn end_towards(direction: Direction) -> Option<End> {
    match direction {
        Direction::Left => Some(End::Left),
        Direction::Right => Some(End::Right),
        Direction::Front | Direction::Back => None,
    }
}

/// The face as a rectangle in plan: the zones of gable and monopitch roofs are laid out on its bounds.
fn plan(building: &Building, face: &Face<'_>) -> FacePlan {
    let Rect { x, y } = face.outline.bounds();
    FacePlan {
        length: building.length,
        width: building.width,
        face_run: Length::from_mm((y[1] - y[0]) * building.pitch.cos()),
        face_length: Length::from_mm(x[1] - x[0]),
        height: building.height,
    }
}

/// Rectangles in plan as they lie on the slope, each within its outline.
fn on_slope<Z: Copy>(
    building: &Building,
    face: &Face<'_>,
    zones: &[ZoneInPlan<Z>],
    (clause, evidence): (&'static str, Evidence),
    of: impl Fn(Z) -> Result<(&'static str, Coefficients), NotCovered>,
) -> Result<Vec<RoofZone>, NotCovered> {
    let outline = face.outline.region();
    let bounds = *outline.bounds();
    let mut out = Vec::with_capacity(zones.len());
    for ZoneInPlan { zone, x, run } in zones {
        let (name, coefficients) = of(*zone)?;
        let rect = Rect {
            x: x.map(|x| bounds.x[0] + x.mm()),
            y: run.map(|run| bounds.y[0] + run.mm() / building.pitch.cos()),
        };
        let pieces = pieces_within(&outline, rect).into_iter();
        out.extend(pieces.map(|region| RoofZone {
            name,
            region,
            coefficients,
            clause,
            reading: None,
            evidence,
        }));
    }
    Ok(out)
}

/// The pieces of an outline within a rectangle.
fn pieces_within(outline: &Region, rect: Rect) -> Vec<Region> {
    if outline.is_rect() {
        return vec![rect.into()];
    }
    let sides = [
        Border::upright(rect.x[1]),
        Border::upright(rect.x[0]).reversed(),
        Border::level(rect.y[0]),
        Border::level(rect.y[1]).reversed(),
    ];
    sides.iter().fold(vec![outline.clone()], |pieces, side| {
        let [inside, _] = split_all(&pieces, side);
        inside
    })
}

const fn duopitch_letter(zone: duopitch::Zone) -> &'static str {
    use duopitch::Zone;
    match zone {
        Zone::F => "F",
        Zone::G => "G",
        Zone::H => "H",
        Zone::I => "I",
        Zone::J => "J",
    }
}

const fn monopitch_letter(zone: monopitch::Zone) -> &'static str {
    use monopitch::Zone;
    match zone {
        Zone::F => "F",
        Zone::FUp => "Fup",
        Zone::FLow => "Flow",
        Zone::G => "G",
        Zone::H => "H",
        Zone::I => "I",
    }
}

const fn hipped_letter(zone: hipped::Zone) -> &'static str {
    use hipped::Zone;
    match zone {
        Zone::F => "F",
        Zone::G => "G",
        Zone::H => "H",
        Zone::I => "I",
        Zone::J => "J",
        Zone::K => "K",
        Zone::L => "L",
        Zone::M => "M",
        Zone::N => "N",
    }
}
