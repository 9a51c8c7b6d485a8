//! How things on the slope are drawn, on the plan and in its legend.

use super::canvas::{FAINT, INK, Pen, THERE, THIN};

/// Edge of the slope.
pub const ROOF: Pen = Pen::line(INK, 2.4);
/// Tail edges of a course.
pub const COURSE: Pen = Pen::line(THIN, 0.7);
/// Timber of a rafter.
pub const RAFTER: Pen = Pen::line("none", 0.0).filled("#e6e0d6");
/// Its axis.
pub const AXIS: Pen = Pen::line(FAINT, 0.9).dashed("11 3 2 3");
/// A module of the only kind, or of the first.
pub const MODULE: Pen = Pen::line("#51606c", 1.2).filled("#dfe7ee99");
/// Modules of further kinds, in turn.
const OTHER_MODULES: [Pen; 3] = [
    Pen::line("#6c5a3c", 1.2).filled("#f2e3c899"),
    Pen::line("#4d6650", 1.2).filled("#dcebd799"),
    Pen::line("#635272", 1.2).filled("#e7ddee99"),
];

/// Modules of a kind, by its place among the kinds. What tells kinds apart is written beside them: colours
/// come again.
#[must_use]
pub const fn module(kind: usize) -> &'static Pen {
    match kind.checked_sub(1) {
        None => &MODULE,
        Some(other) => &OTHER_MODULES[other % OTHER_MODULES.len()],
    }
}
/// A rail.
pub const RAIL: Pen = Pen::line(INK, 1.2).filled("#fff");
/// A rail that is there already.
pub const RAIL_THERE: Pen = Pen::line(INK, 1.2).filled(THERE);
/// Mark of a rafter that takes no hook.
pub const BARRED: Pen = Pen::line(FAINT, 1.4);
/// Border of a wind zone.
pub const ZONE: Pen = Pen::line(INK, 1.4).dashed("2 5");
/// What stands on the slope.
pub const OBSTACLE: Pen = Pen::line(INK, 1.6).filled("#fff");
/// Strip to be kept clear.
pub const STRIP: Pen = Pen::line(FAINT, 1.1).dashed("5 4");
