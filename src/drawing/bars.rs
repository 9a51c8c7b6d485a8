//! Bars beside each other: how many there are in each of some ranges.

use crate::geometry::Rect;

use super::canvas::{ALARM, Canvas, Figure, INK, Pen};
use super::text::{Label, SMALL};

const WIDTH: f64 = 1000.0;
const MARGIN: f64 = 10.0;
/// Height of the longest bar.
const HIGH: f64 = 120.0;
/// Above the longest bar, for the heading and its number.
const TOP: f64 = 56.0;
const BAR: Pen = Pen::line(INK, 1.2).filled("#7d8a95");
/// Beyond the limit bars are open, with a thick rim.
const BEYOND: Pen = Pen::line(ALARM, 2.4).filled("#fff");

/// One bar.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bar {
    /// Its range, below it.
    pub range: String,
    /// How many there are.
    pub count: u64,
    /// Whether the range lies beyond the limit. Those that do come last.
    pub beyond: bool,
}

/// Draws bars below a heading, with a dashed line at the limit.
#[must_use]
pub fn draw(heading: &str, bars: &[Bar]) -> Figure {
    let mut canvas = Canvas::default();
    canvas.label(Label::new(heading, [MARGIN, 14.0]).bold().from_start());
    let pitch = (WIDTH - 2.0 * MARGIN) / (bars.len().max(1) as f64);
    let floor = TOP + HIGH;
    let most = bars.iter().map(|bar| bar.count).max().unwrap_or_default().max(1) as f64;
    let left = |at: usize| MARGIN + at as f64 * pitch;
    for (at, bar) in bars.iter().enumerate() {
        let middle = left(at) + pitch / 2.0;
        let top = floor - bar.count as f64 / most * HIGH;
        let half = pitch * 0.36;
        if bar.count > 0 {
            let pen = if bar.beyond { &BEYOND } else { &BAR };
            canvas.rect(pen, &Rect { x: [middle - half, middle + half], y: [top, floor] });
            let label = Label::new(bar.count.to_string(), [middle, top - 9.0]).size(SMALL);
            canvas.label_where_clear(&label, [[middle, top - 9.0], [middle, top - 23.0]]);
        }
        let label = Label::new(bar.range.clone(), [middle, 0.0]).size(SMALL);
        canvas.label_where_clear(&label, [[middle, floor + 12.0], [middle, floor + 26.0]]);
    }
    canvas.line(&Pen::line(INK, 1.2), &[[MARGIN, floor], [WIDTH - MARGIN, floor]]);
    if let Some(at) = bars.iter().position(|bar| bar.beyond) {
        let limit = Pen::line(ALARM, 1.2).dashed("6 4");
        canvas.line(&limit, &[[left(at), TOP - 26.0], [left(at), floor]]);
    }
    canvas.finish([WIDTH, floor + 36.0], heading)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bar_is_as_high_as_its_share_of_the_most() {
        let bar = |count, beyond| Bar { range: format!("{count}"), count, beyond };
        let svg = draw("x", &[bar(10, false), bar(5, false), bar(0, true), bar(1, true)]);
        let svg = svg.svg.into_string();
        // From the floor, 176, up by 120, 60 and 12.
        for top in [56, 116, 164] {
            assert!(svg.contains(&format!(" {top}")), "{top}: {svg}");
        }
        assert_eq!(svg.matches("stroke-dasharray").count(), 1, "{svg}");
        assert_eq!(svg.matches("Z\"").count(), 3, "bars that count nothing are not drawn: {svg}");
    }
}
