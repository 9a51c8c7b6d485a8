//! Short requests: what is left out and has a usual value, and what is named by id, is completed before
//! the request is read, and noted when it is understood.
//!
//! What decides whether a roof holds and has to be measured is told as a value taken for granted: the
//! data of such a job are incomplete until somebody says them.

use serde::Serialize;

use crate::assessment::{Assumed, Provenance};
use crate::components;
use crate::components::usual::{IllustrativeModule, UsualCovering, UsualLayers};
use crate::units::Length;
use crate::wire::array::{Module, Orientation, RailDirection};
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::roof::{Covering, EdgeKind, Layers, Point, StrengthClass};
use crate::wire::short::Completion;

use super::roof::{RAFTER_CLASS as RAFTER_CLASS_AT, class_name};
use super::{Common, Notes};

/// That an id names nothing.
#[must_use]
pub fn nothing_called(id: &str) -> String {
    format!("Nothing usual is called \"{id}\"; see GET /v1/usual.")
}

/// A request before it is read: what it says where.
pub trait Said {
    /// The number at a pointer.
    fn number(&self, pointer: &str) -> Option<f64>;
    /// The text at a pointer.
    fn text(&self, pointer: &str) -> Option<&str>;
    /// How many entries the list at a pointer has.
    fn count(&self, pointer: &str) -> usize;
    /// Whether anything is at a pointer.
    fn has(&self, pointer: &str) -> bool;
}

/// What comes where, in a request that leaves it out.
#[derive(Debug, Clone)]
pub struct Filled {
    /// Pointer into the request.
    pub pointer: String,
    /// What comes there.
    pub filling: Filling,
}

/// A value for a request.
#[derive(Debug, Clone, Serialize)]
#[serde(untagged)]
#[expect(missing_docs, reason = "the names are those of the members")]
pub enum Filling {
    Number(f64),
    Text(String),
    Point(Point),
    Outline(Vec<Point>),
    Edges(Vec<EdgeKind>),
    Class(StrengthClass),
    Covering(Box<Covering>),
    Layers(Layers),
    Module(Box<Module>),
    Direction(RailDirection),
    Orientation(Orientation),
}

/// Strength class of rafters nobody says one of: the lowest softwood is graded to for roofs.
const RAFTER_CLASS: StrengthClass = StrengthClass::C16;

/// Gap between rows where nobody says one, mm (common practice, no source).
const ROW_GAP_MM: f64 = 20.0;

/// What completes a request, and what that was.
#[derive(Debug, Default)]
pub struct Completed {
    /// What was completed.
    pub completions: Vec<Completion>,
    /// Values for it.
    pub filled: Vec<Filled>,
    /// Ids that name nothing.
    pub faults: Vec<Fault>,
}

impl Completed {
    fn fill(&mut self, what: Completion, pointer: &str, filling: Filling) {
        self.completions.push(what);
        self.filled.push(Filled { pointer: pointer.to_owned(), filling });
    }

    /// A member that is not there and that nothing usual stands for.
    fn missing(&mut self, pointer: &str, why: &str) {
        let name = pointer.rsplit('/').next().unwrap_or_default();
        let detail = format!("\"{name}\" is required and is not there: {why}.");
        self.faults.push(Fault::new(pointer, FaultCode::Missing, detail));
    }

    /// What a name stands for, where there is a name.
    fn named(
        &mut self,
        said: &dyn Said,
        pointer: &str,
        find: impl FnOnce(&str) -> Option<Filling>,
        what: impl FnOnce(String) -> Completion,
    ) {
        let Some(id) = said.text(pointer) else { return };
        match find(id) {
            Some(filling) => self.fill(what(id.to_owned()), pointer, filling),
            None => self.faults.push(Fault::new(
                pointer,
                FaultCode::UnknownComponent,
                nothing_called(id),
            )),
        }
    }
}

/// Completes a request for a layout, a survey or a recheck.
#[must_use]
pub fn completed(said: &dyn Said) -> Completed {
    let mut out = Completed::default();
    let pitch = said.number("/roof/pitch_deg").unwrap_or_default();
    let covering = |id: &str| {
        let usual = UsualCovering::find(id)?;
        Some(Filling::Covering(Box::new(usual.laid(pitch))))
    };
    out.named(said, "/roof/covering", covering, Completion::Covering);
    let layers = |id: &str| UsualLayers::find(id).map(|usual| Filling::Layers(usual.built()));
    out.named(said, "/roof/layers", layers, Completion::Layers);
    let module = |id: &str| Some(Filling::Module(Box::new(IllustrativeModule::find(id)?.whole())));
    out.named(said, "/array/module", module, Completion::Module);
    let slope = complete_outline(said, &mut out);
    if said.has("/roof/rafters") && !said.has(RAFTER_CLASS_AT) {
        let class = Filling::Class(RAFTER_CLASS);
        out.fill(Completion::RafterClass, RAFTER_CLASS_AT, class);
    }
    if said.has("/array") && !said.has("/array/rail_direction") {
        let along = Filling::Direction(RailDirection::AlongEaves);
        out.fill(Completion::RailDirection, "/array/rail_direction", along);
    }
    let fields = said.count("/array/fields");
    for field in 0..fields {
        complete_field(said, field, (fields, slope), &mut out);
    }
    out
}

/// Outline and edges, where both are left out; the size of the slope they are then of.
fn complete_outline(said: &dyn Said, out: &mut Completed) -> Option<[f64; 2]> {
    let slope = slope(said);
    match (said.has("/roof/outline_mm"), said.has("/roof/edges"), slope) {
        (true, true, _) => return None,
        (true, false, _) => out.missing("/roof/edges", "an outline goes with what its sides are"),
        (false, true, _) => out.missing("/roof/outline_mm", "edges are the sides of an outline"),
        (false, false, Some([length, height])) => {
            let corners = vec![[0.0, 0.0], [length, 0.0], [length, height], [0.0, height]];
            out.fill(Completion::Outline, "/roof/outline_mm", Filling::Outline(corners));
            let edges = vec![EdgeKind::Eaves, EdgeKind::Verge, EdgeKind::Ridge, EdgeKind::Verge];
            let filling = Filling::Edges(edges);
            out.filled.push(Filled { pointer: "/roof/edges".to_owned(), filling });
            return slope;
        }
        (false, false, None) => {
            for pointer in ["/roof/outline_mm", "/roof/edges"] {
                out.missing(
                    pointer,
                    "a usual outline is that of a slope of a duopitch or monopitch roof",
                );
            }
        }
    }
    None
}

/// Length along the eaves and from eaves to ridge of a slope that is a rectangle over its building, mm;
/// whole millimetres, the second no longer than it is.
fn slope(said: &dyn Said) -> Option<[f64; 2]> {
    let [length, width, pitch] =
        ["/roof/length_m", "/roof/width_m", "/roof/pitch_deg"].map(|pointer| said.number(pointer));
    let share = match said.text("/roof/form")? {
        "duopitch" => 0.5,
        "monopitch" => 1.0,
        _ => return None,
    };
    let rise = (width? * 1000.0 * share / pitch?.to_radians().cos()).floor();
    Some([(length? * 1000.0).floor(), rise])
}

fn complete_field(
    said: &dyn Said,
    field: usize,
    (fields, slope): (usize, Option<[f64; 2]>),
    out: &mut Completed,
) {
    let at = |member: &str| format!("/array/fields/{field}/{member}");
    let open = |member: &str| !said.has(&at(member));
    if open("id") {
        out.fill(Completion::FieldId(field), &at("id"), Filling::Text(letter(field)));
    }
    if open("orientation") {
        let portrait = Filling::Orientation(Orientation::Portrait);
        out.fill(Completion::Orientation(field), &at("orientation"), portrait);
    }
    rows_or_fill(said, field, out);
    let given = said.number("/components/clamp/mid_gap_mm");
    let named = said.text("/components/clamp").and_then(components::clamp);
    let clamp = given.or(named.map(|clamp| clamp.mid_gap_mm));
    let gap = said.number(&at("column_gap_mm")).or(clamp);
    match clamp.filter(|_| open("column_gap_mm")) {
        Some(gap) => {
            let filling = Filling::Number(gap);
            out.fill(Completion::ColumnGap(field), &at("column_gap_mm"), filling);
        }
        None if open("column_gap_mm") => {
            out.missing(&at("column_gap_mm"), "no clamp says what it takes");
        }
        None => {}
    }
    if open("row_gap_mm") {
        out.fill(Completion::RowGap(field), &at("row_gap_mm"), Filling::Number(ROW_GAP_MM));
    }
    let row_gap = said.number(&at("row_gap_mm")).unwrap_or(ROW_GAP_MM);
    let module = said
        .text("/array/module")
        .and_then(IllustrativeModule::find)
        .map(IllustrativeModule::whole);
    let size =
        |member: &str, of: Option<f64>| said.number(&format!("/array/module/{member}")).or(of);
    let length = size("length_mm", module.as_ref().map(|module| module.length_mm));
    let width = size("width_mm", module.as_ref().map(|module| module.width_mm));
    let counts = [said.number(&at("columns")), said.number(&at("rows"))];
    let upright = said.text(&at("orientation")) != Some("landscape");
    if !open("origin_mm") || !open("fill") {
        return;
    }
    // In the middle of the slope; where several fields lie is for the caller to say.
    if let (Some(slope), Some(length), Some(width), Some(gap), [Some(columns), Some(rows)]) =
        (slope, length, width, gap, counts)
        && fields == 1
    {
        let [across, up] = if upright { [width, length] } else { [length, width] };
        let size = [columns * (across + gap) - gap, rows * (up + row_gap) - row_gap];
        let origin = [0, 1].map(|axis: usize| ((slope[axis] - size[axis]) / 2.0).floor());
        out.fill(Completion::Origin(field), &at("origin_mm"), Filling::Point(origin));
    } else if length.is_some() && width.is_some() {
        let why = "only the single field of a roof without an outline lies in the middle of it";
        out.missing(&at("origin_mm"), why);
    }
}

/// A field says where its rows and columns lie, or that it is to be filled.
fn rows_or_fill(said: &dyn Said, field: usize, out: &mut Completed) {
    let at = |member: &str| format!("/array/fields/{field}/{member}");
    if said.has(&at("fill")) {
        let members = ["origin_mm", "rows", "columns"].map(|name| (name, said.has(&at(name))));
        let lists = ["omitted", "row_shifts_mm"].map(|name| (name, said.count(&at(name)) > 0));
        for (name, _) in members.into_iter().chain(lists).filter(|(_, given)| *given) {
            let why = format!("A field with \"fill\" has no \"{name}\": it is found.");
            out.faults.push(Fault::new(at(name), FaultCode::ChooseOne, why));
        }
    } else {
        for name in ["rows", "columns"].into_iter().filter(|name| !said.has(&at(name))) {
            out.missing(&at(name), "a field without \"fill\" says how many it has");
        }
    }
}

/// A, B, ... Z, AA, AB, ...
fn letter(mut index: usize) -> String {
    let mut name = String::new();
    loop {
        #[expect(clippy::cast_possible_truncation, reason = "less than 26")]
        name.insert(0, char::from(b'A' + (index % 26) as u8));
        index /= 26;
        if index == 0 {
            return name;
        }
        index -= 1;
    }
}

/// Notes what was completed.
pub fn noted(completions: &[Completion], request: &Common<'_>, notes: &mut Notes) {
    for completion in completions {
        note(completion, request, notes);
    }
}

fn note(completion: &Completion, request: &Common<'_>, notes: &mut Notes) {
    let field = |field: &usize| request.array.fields.get(*field);
    let at = |field: &usize, member: &str| format!("/array/fields/{field}/{member}");
    let (pointer, assumed, to_be_measured) = match completion {
        Completion::Outline => {
            let height = request.roof.outline_mm.get(2).map_or(0.0, |corner| corner[1]);
            let assumed = Assumed::RectangularSlope(Length::from_mm(height));
            ("/roof/outline_mm".to_owned(), assumed, true)
        }
        Completion::RafterClass => {
            let class = class_name(request.roof.rafters.strength_class);
            (RAFTER_CLASS_AT.to_owned(), Assumed::RafterClass(class), true)
        }
        Completion::Covering(id) => {
            let gauge = Length::from_mm(request.roof.covering.gauge_mm);
            notes.note("/roof/covering", Assumed::UsualGauge(gauge));
            ("/roof/covering".to_owned(), Assumed::UsualCovering(id.clone()), true)
        }
        Completion::Layers(id) => {
            ("/roof/layers".to_owned(), Assumed::UsualLayers(id.clone()), true)
        }
        Completion::Module(id) => {
            notes.remarks.invented.push(("module", id.clone()));
            return;
        }
        Completion::RailDirection => {
            ("/array/rail_direction".to_owned(), Assumed::AlongEaves, false)
        }
        Completion::FieldId(of) => {
            let name = field(of).map_or_else(String::new, |field| field.id.clone());
            (at(of, "id"), Assumed::FieldName(name), false)
        }
        Completion::Orientation(of) => (at(of, "orientation"), Assumed::Portrait, false),
        Completion::ColumnGap(of) => {
            let gap = field(of).map_or(0.0, |field| field.column_gap_mm);
            (at(of, "column_gap_mm"), Assumed::ColumnGap(Length::from_mm(gap)), false)
        }
        Completion::RowGap(of) => {
            let gap = field(of).map_or(0.0, |field| field.row_gap_mm);
            (at(of, "row_gap_mm"), Assumed::RowGap(Length::from_mm(gap)), false)
        }
        Completion::Origin(of) => {
            let [x, y] = field(of).map_or([0.0; 2], |field| field.origin_mm).map(Length::from_mm);
            notes.note(&at(of, "origin_mm/0"), Assumed::MiddleOfSlope(x));
            (at(of, "origin_mm/1"), Assumed::MiddleOfSlopeUp(y), false)
        }
        Completion::OnSlope(_, what) => return note(what, request, notes),
    };
    notes.note(&pointer, assumed);
    if to_be_measured {
        // It is to be measured or looked at before the job can be said to hold.
        notes.remarks.provenance.push((pointer, Provenance::Assumed));
    }
}
