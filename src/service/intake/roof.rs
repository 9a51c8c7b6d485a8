//! The roof: outline, rafters, layers, covering.

use crate::assessment::Assumed;
use crate::codes::{Code, Rules, Timber};
use crate::covering::watertight::Watertight;
use crate::covering::{Covering, Laying, stack};
use crate::geometry::Outline;
use crate::roof::{
    BearingFace as Face, FITTING, Form, Layers, Obstacle, ObstacleKind, Rafters, Roof,
};
use crate::units::{Angle, Length, Pressure};
use crate::wire::fault::FaultCode;
use crate::wire::roof::{
    BearingFace, Bond, Covering as WireCovering, CoveringKind, Layers as WireLayers,
    Obstacle as WireObstacle, ObstacleKind as WireObstacleKind, Point, Rafters as WireRafters,
    Roof as WireRoof, RoofForm, StrengthClass,
};

use super::distances::distances;
use super::edges::{Sides, edges};
use super::watertight::watertight;
use super::{Common, Notes, provenance};

/// The roof, resolved.
pub struct TakenRoof {
    /// Slope, rafters, layers.
    pub roof: Roof,
    /// Covering.
    pub covering: Covering,
    /// What keeps the water out of it.
    pub watertight: Watertight,
    /// Strength class of the rafters' timber.
    pub strength_class: StrengthClass,
    /// Strength class of the timber the feet bear on.
    pub bearing_strength_class: StrengthClass,
}

/// Outline, rafters, layers and covering of a request.
pub fn roof(request: &Common<'_>, notes: &mut Notes) -> Option<TakenRoof> {
    let wire = &request.roof;
    let outline = outline(&wire.outline_mm, notes);
    let slope = Sides {
        form: wire.form,
        pitch_deg: wire.pitch_deg,
        points: &wire.outline_mm,
        edges: &wire.edges,
    };
    let edges = edges(&slope, outline.is_some(), notes);
    let rafters = rafters(wire, notes);
    let count = rafters.as_ref().map(|rafters| rafters.positions.len());
    let obstacles = obstacles(wire, count, notes);
    if request.site.snow_held == Some(false) {
        let guards = wire.obstacles.iter().enumerate();
        let guards = guards.filter(|(_, o)| o.kind == WireObstacleKind::SnowGuard);
        notes.remarks.snow.guards = guards.map(|(i, _)| i).collect();
    }
    let layers = layers(wire, notes);
    let covering = covering(&wire.covering, notes);
    let pitch = Angle::from_deg(wire.pitch_deg);
    let watertight = watertight(&wire.covering, pitch, notes);
    let distances = distances(wire, &edges, notes);
    provenance::of_roof(wire, notes);
    Some(TakenRoof {
        roof: Roof {
            form: form(wire.form),
            pitch,
            outline: outline?,
            edges,
            obstacles,
            rafters: rafters?,
            layers: layers?,
            distances,
        },
        covering: covering?,
        watertight,
        strength_class: wire.rafters.strength_class,
        bearing_strength_class: bearing_class(wire, notes),
    })
}

/// The form of the whole roof.
pub const fn form(wire: RoofForm) -> Form {
    match wire {
        RoofForm::Duopitch => Form::Duopitch,
        RoofForm::Monopitch => Form::Monopitch,
        RoofForm::Hipped => Form::Hipped,
    }
}

/// The outline of the slope.
pub fn outline(points: &[Point], notes: &mut Notes) -> Option<Outline> {
    Outline::new(points)
        .map_err(|bad| {
            notes.fault("/roof/outline_mm", FaultCode::BadOutline, sentence(&bad.to_string()));
        })
        .ok()
}

const fn kind_of(wire: WireObstacleKind) -> ObstacleKind {
    match wire {
        WireObstacleKind::Chimney => ObstacleKind::Chimney,
        WireObstacleKind::RoofWindow => ObstacleKind::RoofWindow,
        WireObstacleKind::Dormer => ObstacleKind::Dormer,
        WireObstacleKind::Vent => ObstacleKind::Vent,
        WireObstacleKind::Flue => ObstacleKind::Flue,
        WireObstacleKind::SnowGuard => ObstacleKind::SnowGuard,
        WireObstacleKind::StepIron => ObstacleKind::StepIron,
        WireObstacleKind::Aerial => ObstacleKind::Aerial,
        WireObstacleKind::Other => ObstacleKind::Other,
    }
}

/// The obstacles of a slope with this many rafters, where that is known.
fn obstacles(wire: &WireRoof, rafters: Option<usize>, notes: &mut Notes) -> Vec<Obstacle> {
    let mut out = Vec::with_capacity(wire.obstacles.len());
    for (i, obstacle) in wire.obstacles.iter().enumerate() {
        let clearance = notes.assume(
            &format!("/roof/obstacles/{i}/clearance_mm"),
            obstacle.clearance_mm.map(Length::from_mm),
            Length::ZERO,
            Assumed::ObstacleStrip,
        );
        let cuts = said_to_cut(obstacle, i, notes).map(|said| {
            named_rafters(said, rafters, &format!("/roof/obstacles/{i}/cuts_rafters"), notes)
        });
        let kind = kind_of(obstacle.kind);
        match Outline::new(&obstacle.outline_mm) {
            Ok(outline) => {
                let obstacle = Obstacle { kind, outline, clearance, cuts };
                if obstacle.cuts.is_none() && obstacle.is_an_opening() {
                    let pointer = format!("/roof/obstacles/{i}/cuts_rafters");
                    notes.note(&pointer, Assumed::OpeningFitting(FITTING));
                }
                out.push(obstacle);
            }
            Err(bad) => notes.fault(
                format!("/roof/obstacles/{i}/outline_mm"),
                FaultCode::BadOutline,
                sentence(&bad.to_string()),
            ),
        }
    }
    out
}

/// The rafters an obstacle is said to cut, where somebody looked.
fn said_to_cut<'a>(wire: &'a WireObstacle, at: usize, notes: &mut Notes) -> Option<&'a [u32]> {
    let some = wire.cuts_rafters.as_deref().filter(|said| !said.is_empty());
    let none = wire.cuts_no_rafter == Some(true);
    if some.is_some() && none {
        let why = "An obstacle that cuts no rafter has no \"cuts_rafters\".";
        notes.fault(
            format!("/roof/obstacles/{at}/cuts_no_rafter"),
            FaultCode::Contradiction,
            why.to_owned(),
        );
    }
    some.or(none.then_some(&[]))
}

/// Rafters that are named in a list, from left to right.
fn named_rafters(said: &[u32], count: Option<usize>, list: &str, notes: &mut Notes) -> Vec<usize> {
    for (i, rafter) in said.iter().enumerate() {
        let pointer = || format!("{list}/{i}");
        if count.is_some_and(|count| *rafter as usize >= count) {
            let why = format!("There is no rafter {rafter}: they are counted from 0 at the left.");
            notes.fault(pointer(), FaultCode::Contradiction, why);
        } else if said[..i].contains(rafter) {
            let why = format!("Rafter {rafter} is named twice.");
            notes.fault(pointer(), FaultCode::Contradiction, why);
        }
    }
    let mut rafters: Vec<usize> = said.iter().map(|rafter| *rafter as usize).collect();
    rafters.sort_unstable();
    rafters
}

/// A message as a sentence.
pub fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).chain(['.']).collect()
    })
}

fn rafters(wire: &WireRoof, notes: &mut Notes) -> Option<Rafters> {
    let given = &wire.rafters;
    let positions = positions(given, notes);
    let permanent = notes.assume(
        "/roof/rafters/existing_load_kn_per_m2",
        given.existing_load_kn_per_m2.map(Pressure::from_kn_per_m2),
        Pressure::from_kn_per_m2(usual_weight(wire.covering.kind)),
        Assumed::ExistingLoad,
    );
    let trussed =
        notes.assume("/roof/rafters/trussed", given.trussed, false, |_| Assumed::NoTrusses);
    let count = positions.as_ref().map(Vec::len);
    let barred = named_rafters(&given.barred, count, "/roof/rafters/barred", notes);
    Some(Rafters {
        trussed,
        barred,
        unsound: Vec::new(),
        positions: positions?,
        width: Length::from_mm(given.width_mm),
        depth: Length::from_mm(given.depth_mm),
        span: given.span_m.map(Length::from_m),
        permanent,
    })
}

/// Weight of covering, battens and rafters per area of slope, kN/m².
///
/// From memory: national tables give about 0.75 for double-lap plain tile and a little more for
/// crown, 0.55 for interlocking tile, 0.50 for slate on battens; 0.10 for the rafters.
const fn usual_weight(kind: CoveringKind) -> f64 {
    match kind {
        CoveringKind::PlainTileDoubleLap => 0.85,
        CoveringKind::PlainTileCrown => 0.90,
        CoveringKind::SlateDoubleLap => 0.60,
        CoveringKind::Interlocking => 0.65,
    }
}

fn positions(given: &WireRafters, notes: &mut Notes) -> Option<Vec<Length>> {
    if given.unmeasured.is_some() {
        notes.fault(
            "/roof/rafters/unmeasured",
            FaultCode::Contradiction,
            "Rafters have to be measured here. A layout of one slope by itself looks at the places they may have.",
        );
        return None;
    }
    let spaced = given.first_mm.is_some() || given.spacing_mm.is_some() || given.count.is_some();
    let Some(measured) = &given.positions_mm else {
        let (Some(first), Some(spacing), Some(count)) =
            (given.first_mm, given.spacing_mm, given.count)
        else {
            notes.fault(
                "/roof/rafters",
                FaultCode::ChooseOne,
                "Give positions_mm, or first_mm, spacing_mm and count together.",
            );
            return None;
        };
        return Some((0..count).map(|i| Length::from_mm(first + spacing * f64::from(i))).collect());
    };
    if spaced {
        notes.fault(
            "/roof/rafters",
            FaultCode::ChooseOne,
            "Give positions_mm, or first_mm, spacing_mm and count, not both.",
        );
        return None;
    }
    let mut rising = true;
    for (i, pair) in measured.windows(2).enumerate() {
        if pair[1] <= pair[0] {
            rising = false;
            notes.fault(
                format!("/roof/rafters/positions_mm/{}", i + 1),
                FaultCode::NotAscending,
                format!("{} does not lie right of the rafter before it, {}.", pair[1], pair[0]),
            );
        }
    }
    rising.then(|| measured.iter().copied().map(Length::from_mm).collect())
}

/// Where the strength class of the rafters is given.
pub const RAFTER_CLASS: &str = "/roof/rafters/strength_class";

/// Where the strength class of the timber under the feet is given, if it is not the rafters'.
pub const BEARING_CLASS: &str = "/roof/layers/bearing_strength_class";

/// Timber of the strength class given at `pointer`, if the rules have it.
pub fn timber(
    rules: Rules,
    class: StrengthClass,
    pointer: &'static str,
    notes: &mut Notes,
) -> Option<Timber> {
    let found = rules.timber(class_name(class));
    if found.is_none() {
        notes.fault(
            pointer,
            FaultCode::NotCovered,
            format!("The properties of {} are not at hand.", class_name(class)),
        );
    }
    found
}

/// A strength class as the standard writes it.
pub const fn class_name(class: StrengthClass) -> &'static str {
    match class {
        StrengthClass::C16 => "C16",
        StrengthClass::C18 => "C18",
        StrengthClass::C20 => "C20",
        StrengthClass::C22 => "C22",
        StrengthClass::C24 => "C24",
        StrengthClass::C27 => "C27",
        StrengthClass::C30 => "C30",
        StrengthClass::C35 => "C35",
        StrengthClass::C40 => "C40",
    }
}

fn layers(wire: &WireRoof, notes: &mut Notes) -> Option<Layers> {
    let given = &wire.layers;
    let on_counter_batten = given.foot_bears_on == BearingFace::CounterBatten;
    let rafter = [wire.rafters.width_mm, wire.rafters.depth_mm];
    let Some(layers) = layers_of(given, given.counter_batten_mm, rafter) else {
        notes.fault(
            "/roof/layers/foot_bears_on",
            FaultCode::Contradiction,
            "The foot bears on a layer whose thickness is 0.",
        );
        return None;
    };
    if on_counter_batten {
        notes.assume(
            "/roof/layers/counter_batten_width_mm",
            given.counter_batten_width_mm.map(Length::from_mm),
            layers.bearing_width,
            Assumed::CounterBattenWidth,
        );
    }
    notes.remarks.insulation_crossed = given.insulation_mm > 0.0 && on_counter_batten;
    Some(layers)
}

/// Strength class of the timber the feet bear on.
fn bearing_class(wire: &WireRoof, notes: &mut Notes) -> StrengthClass {
    let (given, rafter) = (wire.layers.bearing_strength_class, wire.rafters.strength_class);
    if wire.layers.foot_bears_on == BearingFace::Rafter {
        if given.is_some_and(|given| given != rafter) {
            notes.fault(
                BEARING_CLASS,
                FaultCode::Contradiction,
                "The feet bear on the rafters, whose strength class is another.",
            );
        }
        return rafter;
    }
    let usual = rafter.min(StrengthClass::C24);
    notes.assume(BEARING_CLASS, given, usual, |class| Assumed::BearingClass(class_name(class)))
}

/// Width of a counter-batten when none is given, mm.
const COUNTER_BATTEN_WIDTH: f64 = 50.0;

/// The layers with a counter-batten of one thickness on a rafter of one width and depth, mm; `None` when the
/// foot would bear on nothing.
pub fn layers_of(
    given: &WireLayers,
    counter_batten: f64,
    [rafter_width, rafter_depth]: [f64; 2],
) -> Option<Layers> {
    let mm = Length::from_mm;
    let (counter, boarding, insulation) =
        (mm(counter_batten), mm(given.boarding_mm), mm(given.insulation_mm));
    let all = counter + boarding + insulation;
    let (under_foot, soft_under_foot, face, bears_on) = match given.foot_bears_on {
        BearingFace::Rafter => (Length::ZERO, Length::ZERO, Face::Rafter(mm(rafter_depth)), None),
        BearingFace::Boarding => (boarding, Length::ZERO, Face::Boarding, Some(boarding)),
        BearingFace::CounterBatten => {
            (all, insulation, Face::CounterBatten(counter), Some(counter))
        }
    };
    let bearing_width = mm(match given.foot_bears_on {
        BearingFace::CounterBatten => given.counter_batten_width_mm.unwrap_or(COUNTER_BATTEN_WIDTH),
        BearingFace::Rafter | BearingFace::Boarding => rafter_width,
    });
    let stands_on_nothing = bears_on == Some(Length::ZERO);
    (!stands_on_nothing).then_some(Layers {
        under_foot,
        soft_under_foot,
        face,
        battens_above_foot: all - under_foot,
        bearing_width,
    })
}

/// How far the head of a flat tile stands above its batten when nothing is said, mm.
const HEAD_PROJECTION: f64 = 15.0;

fn nibs(wire: &WireCovering, notes: &mut Notes) -> Vec<Length> {
    let middle = || vec![wire.tile.width_mm / 2.0];
    let some = wire.tile.nib_offsets_mm.clone().filter(|nibs| !nibs.is_empty());
    let none = wire.tile.without_nibs == Some(true);
    if some.is_some() && none {
        let why = "A tile without nibs has no \"nib_offsets_mm\".".to_owned();
        notes.fault("/roof/covering/tile/without_nibs", FaultCode::Contradiction, why);
    }
    let given = some.or(none.then(Vec::new));
    let nibs = match wire.kind {
        CoveringKind::PlainTileDoubleLap | CoveringKind::PlainTileCrown => {
            notes.assume("/roof/covering/tile/nib_offsets_mm", given, middle(), |_| {
                Assumed::MiddleNib
            })
        }
        CoveringKind::SlateDoubleLap => given.unwrap_or_default(),
        // They are pushed up whole, and their nibs with them.
        CoveringKind::Interlocking => Vec::new(),
    };
    nibs.into_iter().map(Length::from_mm).collect()
}

fn covering(wire: &WireCovering, notes: &mut Notes) -> Option<Covering> {
    let mm = Length::from_mm;
    let laying = match wire.kind {
        CoveringKind::PlainTileDoubleLap | CoveringKind::SlateDoubleLap => Laying::DoubleLap,
        CoveringKind::PlainTileCrown => Laying::Crown,
        CoveringKind::Interlocking => Laying::Interlocking,
    };
    let interlocking = laying == Laying::Interlocking;
    if interlocking && wire.cover_width_mm.is_none() {
        notes.fault(
            "/roof/covering/cover_width_mm",
            FaultCode::Missing,
            "Interlocking tiles need their cover width.",
        );
    }
    if interlocking && wire.trough_offsets_mm.is_none() {
        notes.note("/roof/covering/trough_offsets_mm", Assumed::TroughsAnywhere);
    }
    let usual = if interlocking { 0.0 } else { HEAD_PROJECTION };
    let head_projection = notes.assume(
        "/roof/covering/tile/head_projection_mm",
        wire.tile.head_projection_mm.map(mm),
        mm(usual),
        Assumed::HeadProjection,
    );
    let cover_width = wire.cover_width_mm.unwrap_or(wire.tile.width_mm + wire.joint_mm);
    let covering = Covering {
        laying,
        tile_length: mm(wire.tile.length_mm),
        tile_thickness: mm(wire.tile.thickness_mm),
        camber: mm(wire.tile.camber_mm),
        cover_width: mm(cover_width),
        gauge: mm(wire.gauge_mm),
        first_course: mm(wire.first_course_mm),
        batten_thickness: mm(wire.batten.thickness_mm),
        batten_width: mm(wire.batten.width_mm),
        half_bond: wire.bond == Bond::Half,
        joint_origin: mm(wire.joint_origin_mm),
        troughs: wire.trough_offsets_mm.iter().flatten().copied().map(mm).collect(),
        head_projection,
        nibs: nibs(wire, notes),
    };
    let headlap = stack::headlap(&covering);
    if headlap <= Length::ZERO {
        notes.fault(
            "/roof/covering/gauge_mm",
            FaultCode::Contradiction,
            format!(
                "At this gauge a tile of {} mm has a headlap of {:.0} mm: the roof would not be \
                 covered. For a crown covering the gauge is the distance of its battens.",
                wire.tile.length_mm,
                headlap.mm()
            ),
        );
        return None;
    }
    Some(covering)
}
