//! Pictures of a layout as SVG: the slope with everything on it, whole or page by page, the wind
//! zones of all directions, the section through one hook, plots along one rail, and bars of counts.
//!
//! **Language of the pictures.** Ink on white, readable without colour: what matters differs in
//! shape and carries its figure as text. Colour only repeats it. A utilisation is the dark sector
//! of a disc, a failure a square, what is not verified a diamond. Every dimension runs from one
//! datum (the left end of the eaves, the eaves line), so that setting out adds up no errors.
//!
//! **Units.** Roof and parts in mm; on paper one unit is one pixel at natural size, with text no
//! smaller than [`text::SMALL`].
//!
//! **Deterministic.** Figures are printed with fixed digits and nothing depends on fonts of the
//! machine: widths of text are estimated on the wide side.
//!
//! **Left out.** Rails up the slope and hidden edges. Outlines of hooks are simplified, because a
//! request tells dimensions of a hook and not its form.
//!
//! **Numbers.** Courses count from 1 at the first full one, as people count; every drawing says how
//! that goes with the data.
//!
//! **Checked by** `tests/api/drawings.rs`: well-formed, no two labels overlap, places to scale; by
//! `.ci/browser/check.js` with the boxes a browser gives the labels.
//!
//! **Layer.** Beside `survey`: core types in, text out; knows nothing of requests.

pub mod bars;
mod canvas;
mod legend;
mod marks;
mod pens;
mod ordinates;
pub mod plan;
pub mod plots;
pub mod section;
pub mod text;

pub use canvas::Figure;
pub use marks::{HookMark, State, hook_marks, most_used};

/// What a drawing says of its job; written by whoever knows the request.
#[derive(Debug, Clone, Default)]
pub struct Caption {
    /// Name of the job.
    pub title: Option<String>,
    /// The result in one line.
    pub result: String,
    /// Origin and caution, in small print.
    pub footer: Vec<String>,
}

/// A drawing cannot show what is not there.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum CannotDraw {
    /// No hook has the name asked for.
    #[error("no hook of this layout has this id")]
    NoSuchHook,
    /// There is no hook at all.
    #[error("the layout has no hook")]
    NoHook,
}
