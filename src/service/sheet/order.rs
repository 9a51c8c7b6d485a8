//! What to order, how to cut the rails, what to carry up to each field.

use maud::{Markup, html};

use crate::language::{Language, Words};
use crate::wire::parts::{
    BarAnswer, CuttingAnswer, FieldParts, OrderedKind, PartLine, PartsAnswer,
};
use crate::wire::phases::{PhaseAnswer, PhasesAnswer};

use super::{head, mm};
use crate::service::answer::on_slope;
use crate::service::wording::verdict;

/// The three lists, under a title. Where rafters are not measured, the order is the one that suffices
/// wherever they stand, and those places come with it.
pub fn order(
    (parts, phases): (&PartsAnswer, Option<&PhasesAnswer>),
    title: &str,
    language: Language,
) -> Markup {
    let words = language.words();
    let suffices = phases.filter(|phases| !phases.order.is_empty());
    let lines = suffices.map_or(&parts.lines, |phases| &phases.order);
    html! {
        h3 { (title) }
        @if suffices.is_some() { p { (words.order_of_phases_note) } }
        p { (words.order_note) }
        table .order tabindex="0" {
            (head(&[words.part, words.needed, words.spare, words.ordered, words.mass, words.why]))
            tbody { @for line in lines { (ordered(line, words)) } }
        }
        @if let Some(phases) = phases { (places(phases, words)) }
        (cutting(&parts.cutting, words))
        h3 { (words.carry_up) }
        @for field in &parts.fields { (carried(field, words)) }
    }
}

/// Every place of the first rafter that was looked at, and what it comes to.
fn places(phases: &PhasesAnswer, words: &Words) -> Markup {
    html! {
        h3 { (words.phases) }
        table tabindex="0" {
            (head(&[words.first_rafter_at, words.centres, words.hooks, words.used_most, words.verdict]))
            tbody {
                @for (at, phase) in (0..).zip(&phases.phases) {
                    (place(phase, at == phases.shown, words))
                }
            }
        }
    }
}

fn place(phase: &PhaseAnswer, is_shown: bool, words: &Words) -> Markup {
    html! {
        tr {
            th scope="row" {
                (words.number(phase.first_mm, 1)) " mm"
                @if is_shown { ", " (words.shown_here) }
            }
            td { (words.number(phase.spacing_mm, 1)) " mm" }
            td { (phase.hooks) }
            td { (words.used(phase.utilisation, 1)) }
            td {
                (verdict(phase.verdict, words))
                @if let Some(code) = phase.fails_by { " " code { (code) } }
            }
        }
    }
}

fn ordered(line: &PartLine, words: &Words) -> Markup {
    html! {
        tr {
            th scope="row" {
                (name(line.kind, line.part.as_deref(), line.size_mm, words))
                @if let Some(measures) = line.module_mm {
                    " " (measures.map(|measure| words.number(measure, 1)).join(" × ")) " mm"
                }
            }
            td { (line.needed) }
            td { (line.spare) }
            td .main { (line.ordered) }
            td { (mass(line.mass_kg, words)) }
            td .reason { (line.why) }
        }
    }
}

fn cutting(cutting: &CuttingAnswer, words: &Words) -> Markup {
    html! {
        h3 { (words.cutting) }
        table tabindex="0" {
            (head(&[words.bar, words.length, words.pieces, words.offcut]))
            tbody { @for bar in &cutting.bars { (self::bar(bar)) } }
        }
    }
}

fn bar(bar: &BarAnswer) -> Markup {
    html! {
        tr {
            th scope="row" { (bar.bar) }
            td { (mm(bar.stock_mm)) }
            td {
                @for (i, piece) in bar.pieces.iter().enumerate() {
                    @if i > 0 { "; " }
                    (named(piece.slope.as_deref(), &piece.rail)) ": " (mm(piece.length_mm))
                }
            }
            td { (mm(bar.offcut_mm)) @if bar.offcut_kept { " ✓" } }
        }
    }
}

fn carried(field: &FieldParts, words: &Words) -> Markup {
    html! {
        table tabindex="0" {
            caption {
                (words.module_field) " " (named(field.slope.as_deref(), &field.field)) " · " (mass(Some(field.mass_kg), words))
            }
            (head(&[words.part, words.needed, words.mass, "☐"]))
            tbody {
                @for line in &field.lines {
                    tr {
                        th scope="row" { (name(line.kind, line.part.as_deref(), line.size_mm, words)) }
                        td .main { (line.count) }
                        td { (mass(line.mass_kg, words)) }
                        td .tick { "☐" }
                    }
                }
            }
        }
    }
}

/// A rail or field, of a building with its slope before it.
fn named(slope: Option<&str>, id: &str) -> String {
    slope.map_or_else(|| id.to_owned(), |slope| on_slope(slope, id))
}

fn mass(kg: Option<f64>, words: &Words) -> String {
    kg.map_or_else(|| "–".to_owned(), |kg| format!("{} kg", words.figure(kg, 1)))
}

fn name(kind: OrderedKind, part: Option<&str>, size_mm: Option<f64>, words: &Words) -> Markup {
    let kind = match kind {
        OrderedKind::Module => words.part_module,
        OrderedKind::Hook => words.part_hook,
        OrderedKind::Screw => words.part_screw,
        OrderedKind::SubstituteTile => words.part_substitute_tile,
        OrderedKind::Packer => words.part_packer,
        OrderedKind::BoltSet => words.part_bolt_set,
        OrderedKind::CrossingConnector => words.part_crossing_connector,
        OrderedKind::RailBar => words.part_rail_bar,
        OrderedKind::RailPiece => words.part_rail_piece,
        OrderedKind::Splice => words.part_splice,
        OrderedKind::MidClamp => words.part_mid_clamp,
        OrderedKind::EndClamp => words.part_end_clamp,
        OrderedKind::EndCap => words.part_end_cap,
    };
    html! {
        (kind)
        @if let Some(size) = size_mm { " " (words.number(size, 1)) " mm" }
        @if let Some(part) = part { " (" (part) ")" }
    }
}
