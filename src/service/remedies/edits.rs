//! A change as it is made to a request: to the value in hand, and as edits for whoever asked.

use crate::assessment::remedies::{Change, Move};
use crate::components;
use crate::units::Length;
use crate::wire::array::{FilledField, Objective, Wishes};
use crate::wire::components::{
    Hook, HookChoice, Packers, PackersChoice, Rail, RailChoice, Screw, ScrewChoice,
};
use crate::wire::evidence::EvidenceKind;
use crate::wire::layout::LayoutRequest;
use crate::wire::remedies::{Edit, EditOperation, EditValue};

/// The request with its filled fields as they were filled, and the edit that says so; `None` where none
/// was. What is tried is the layout at hand, whatever the fields would be filled with under a change.
pub fn in_full(request: &LayoutRequest, filled: &[FilledField]) -> Option<(LayoutRequest, Edit)> {
    if filled.is_empty() {
        return None;
    }
    let mut in_full = request.clone();
    for FilledField { place, field, .. } in filled {
        let place = usize::try_from(*place).ok()?;
        *in_full.array.fields.get_mut(place)? = field.clone();
    }
    let value = EditValue::Fields(in_full.array.fields.clone());
    let edit = Edit { op: EditOperation::Add, path: "/array/fields".to_owned(), value };
    Some((in_full, edit))
}

/// The request with changes made one after another, and the edits that make them.
pub fn made(request: &LayoutRequest, changes: &[Change]) -> (LayoutRequest, Vec<Edit>) {
    let mut changed = request.clone();
    let mut edits = Vec::new();
    for change in changes {
        let earlier = edits.len();
        make(&mut changed, change, &mut edits);
        let now = edits[earlier..].iter().map(|edit| edit.path.clone());
        let others: Vec<String> =
            now.chain(change.to_ask().into_iter().map(str::to_owned)).collect();
        forget_evidence(&mut changed, &others, &mut edits);
    }
    (changed, edits)
}

/// Takes away what is said of figures that are now those of another part: nobody has tested or approved
/// them. That a figure is the arm's as a flat bar stays: it is no more than that in any case.
fn forget_evidence(request: &mut LayoutRequest, others: &[String], edits: &mut Vec<Edit>) {
    let parts = &mut request.components;
    let of_hook = parts.hook.part().ok().map(|hook| (HookChoice::PATH, &mut hook.evidence));
    let of_screw = parts.screw.part().ok().map(|screw| (ScrewChoice::PATH, &mut screw.evidence));
    let of_rail = parts.rail.part().ok().map(|rail| (RailChoice::PATH, &mut rail.evidence));
    for (part, evidence) in [of_hook, of_screw, of_rail].into_iter().flatten() {
        let before = evidence.len();
        evidence.retain(|stated| {
            let figure = format!("{part}{}", stated.figure);
            let is_of_another = |other: &String| is_within(&figure, other);
            stated.by == EvidenceKind::Bar || !others.iter().any(is_of_another)
        });
        if evidence.len() < before {
            add(edits, format!("{part}/evidence"), EditValue::Evidence(evidence.clone()));
        }
    }
}

/// Whether a pointer leads to a member or into it.
fn is_within(pointer: &str, member: &str) -> bool {
    let rest = pointer.strip_prefix(member);
    rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}

fn make(request: &mut LayoutRequest, change: &Change, edits: &mut Vec<Edit>) {
    match change {
        Change::AnyPattern => wish(
            request,
            ("objective", EditValue::Objective(Objective::FewestHooks)),
            |wishes| wishes.objective = Some(Objective::FewestHooks),
            edits,
        ),
        Change::WiderSearch { weighed } => wish(
            request,
            ("search_limit", EditValue::Count(*weighed)),
            |wishes| wishes.search_limit = Some(*weighed),
            edits,
        ),
        Change::MoveAlong(moves) => moved(request, moves, 0, edits),
        Change::MoveUp(moves) => moved(request, moves, 1, edits),
        Change::RailEnds { to, .. } => {
            let figures = [figure("end_projection_mm", to.mm(), |rail: &mut Rail, to| {
                rail.end_projection_mm = to;
            })];
            part(&mut request.components.rail, figures, edits);
        }
        Change::HigherPackers { clearance, limit, piece, .. } => {
            packers(&mut request.components.packers, (*limit, *piece), edits);
            let clearance = clearance.mm();
            wish(
                request,
                ("min_clearance_mm", EditValue::Number(clearance)),
                |wishes| wishes.min_clearance_mm = Some(clearance),
                edits,
            );
        }
        Change::ScrewLength { to, thread, .. } => {
            let figures = [
                figure("length_mm", to.mm(), |screw: &mut Screw, to| screw.length_mm = to),
                figure("thread_length_mm", thread.mm(), |screw: &mut Screw, to| {
                    screw.thread_length_mm = to;
                }),
            ];
            part(&mut request.components.screw, figures, edits);
        }
        Change::ThickerScrew { to, core, withdrawal, .. } => {
            let mut figures = vec![
                figure("diameter_mm", to.mm(), |screw: &mut Screw, to| screw.diameter_mm = to),
                figure("core_diameter_mm", core.mm(), |screw: &mut Screw, to| {
                    screw.core_diameter_mm = to;
                }),
            ];
            figures.extend(withdrawal.map(|f| {
                figure("withdrawal_n_per_mm2", f.n_per_mm2(), |screw: &mut Screw, to| {
                    screw.withdrawal_n_per_mm2 = Some(to);
                })
            }));
            part(&mut request.components.screw, figures, edits);
        }
        Change::WiderFoot { to, width, .. } => {
            let figures = [
                figure("foot/lateral_range_mm", to.mm(), |hook: &mut Hook, to| {
                    hook.foot.lateral_range_mm = to;
                }),
                figure("foot/width_mm", width.mm(), |hook: &mut Hook, to| {
                    hook.foot.width_mm = to;
                }),
            ];
            part(&mut request.components.hook, figures, edits);
        }
    }
}

fn add(edits: &mut Vec<Edit>, path: impl Into<String>, value: EditValue) {
    edits.push(Edit { op: EditOperation::Add, path: path.into(), value });
}

/// A wish, or all of them where there were none: a member cannot be put where its parent is not.
fn wish(
    request: &mut LayoutRequest,
    (name, value): (&str, EditValue),
    put: impl FnOnce(&mut Wishes),
    edits: &mut Vec<Edit>,
) {
    let had_some = request.wishes.is_some();
    let wishes = request.wishes.get_or_insert_default();
    put(wishes);
    if had_some {
        add(edits, format!("/wishes/{name}"), value);
    } else {
        add(edits, "/wishes", EditValue::Wishes(Box::new(wishes.clone())));
    }
}

fn moved(request: &mut LayoutRequest, moves: &[Move], axis: usize, edits: &mut Vec<Edit>) {
    for Move { field, by, .. } in moves {
        let Some(wire) = request.array.fields.get_mut(*field) else { continue };
        wire.origin_mm[axis] += by.mm();
        let origin = EditValue::Numbers(wire.origin_mm.to_vec());
        add(edits, format!("/array/fields/{field}/origin_mm"), origin);
    }
}

/// A member of a part and what comes there.
struct Figure<P> {
    name: &'static str,
    value: EditValue,
    put: Box<dyn Fn(&mut P)>,
}

fn figure<P: 'static>(name: &'static str, to: f64, put: fn(&mut P, f64)) -> Figure<P> {
    Figure { name, value: EditValue::Number(to), put: Box::new(move |part| put(part, to)) }
}

/// A part of the request, in full or by id.
trait Choice {
    type Part: Clone + 'static;
    const PATH: &'static str;

    /// The part where it is given in full, or the embedded one that is named.
    fn part(&mut self) -> Result<&mut Self::Part, Option<&'static Self::Part>>;

    /// The choice of a part in full, and the same as it is edited in.
    fn in_full(part: Self::Part) -> (Self, EditValue)
    where
        Self: Sized;
}

macro_rules! choices {
    ($($choice:ident($part:ident), $path:literal, $find:path;)+) => {
        $(impl Choice for $choice {
            type Part = $part;
            const PATH: &'static str = $path;

            fn part(&mut self) -> Result<&mut $part, Option<&'static $part>> {
                match self {
                    Self::Inline(part) => Ok(part),
                    Self::Id(id) => Err($find(id)),
                }
            }

            fn in_full(part: $part) -> (Self, EditValue) {
                let value = EditValue::$part(Box::new(part.clone()));
                (Self::Inline(Box::new(part)), value)
            }
        })+
    };
}
choices! {
    HookChoice(Hook), "/components/hook", components::hook;
    ScrewChoice(Screw), "/components/screw", components::screw;
    RailChoice(Rail), "/components/rail", components::rail;
    PackersChoice(Packers), "/components/packers", components::packers;
}

/// Changes a part member by member where it is given in full. One that is named is put in its place in
/// full: under its own id, by which it stays known as invented.
fn part<C: Choice>(
    choice: &mut C,
    figures: impl IntoIterator<Item = Figure<C::Part>>,
    edits: &mut Vec<Edit>,
) {
    match choice.part() {
        Ok(part) => {
            for Figure { name, value, put } in figures {
                put(part);
                add(edits, format!("{}/{name}", C::PATH), value);
            }
        }
        // A request that names no part there is was refused before.
        Err(None) => {}
        Err(Some(embedded)) => {
            let mut part = embedded.clone();
            figures.into_iter().for_each(|figure| (figure.put)(&mut part));
            let (now, value) = C::in_full(part);
            *choice = now;
            add(edits, C::PATH, value);
        }
    }
}

fn packers(
    choice: &mut PackersChoice,
    (limit, piece): (Option<Length>, Option<Length>),
    edits: &mut Vec<Edit>,
) {
    let limit = limit.map(|limit| {
        figure("max_stack_mm", limit.mm(), |packers: &mut Packers, to| packers.max_stack_mm = to)
    });
    let piece = piece.map(|piece| {
        let mut all = match choice.part() {
            Ok(packers) => packers.thicknesses_mm.clone(),
            Err(embedded) => embedded.map(|of| of.thicknesses_mm.clone()).unwrap_or_default(),
        };
        all.push(piece.mm());
        let value = EditValue::Numbers(all.clone());
        let put = move |packers: &mut Packers| packers.thicknesses_mm.clone_from(&all);
        Figure { name: "thicknesses_mm", value, put: Box::new(put) }
    });
    let figures: Vec<Figure<Packers>> = limit.into_iter().chain(piece).collect();
    if !figures.is_empty() {
        part(choice, figures, edits);
    }
}
