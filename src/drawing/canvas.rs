//! Paper: shapes in the order they are drawn, labels on top of them, and the SVG they make.

use std::fmt;

use maud::{Markup, PreEscaped, Render, html};

use crate::geometry::Rect;

use super::text::{Anchor, Label, Run, Taken, Weight};

/// Dark ink.
pub const INK: &str = "#16222c";
/// Ink of what lies behind.
pub const FAINT: &str = "#8b98a3";
/// Ink of lines that only guide the eye.
pub const THIN: &str = "#c3ccd3";
/// Emphasis, always beside a shape of its own.
pub const ALARM: &str = "#a3231b";
/// Filling of what is there already.
pub const THERE: &str = "#c9cfd4";
/// Faces of the usual systems, and none that would be fetched.
const FACES: &str = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif";

/// A figure with fixed digits, without a minus in front of zero.
#[derive(Debug, Clone, Copy)]
pub struct N(pub f64);

impl fmt::Display for N {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", (self.0 * 100.0).round() / 100.0 + 0.0)
    }
}

impl Render for N {
    fn render_to(&self, to: &mut String) {
        use fmt::Write;
        // Writing to a String cannot fail.
        let _ = write!(to, "{self}");
    }
}

/// How a shape is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Pen {
    /// Colour of the line.
    pub line: &'static str,
    /// Width of the line.
    pub width: f64,
    /// Strokes and gaps; empty for a full line.
    pub dash: &'static str,
    /// Colour inside.
    pub fill: &'static str,
}

impl Pen {
    /// A full line without filling.
    #[must_use]
    pub const fn line(line: &'static str, width: f64) -> Self {
        Self { line, width, dash: "", fill: "none" }
    }
    /// With a filling.
    #[must_use]
    pub const fn filled(self, fill: &'static str) -> Self {
        Self { fill, ..self }
    }
    /// Dashed.
    #[must_use]
    pub const fn dashed(self, dash: &'static str) -> Self {
        Self { dash, ..self }
    }
}

/// A finished picture.
#[derive(Debug, Clone)]
pub struct Figure {
    /// The `svg` element.
    pub svg: Markup,
    /// Width and height at natural size.
    pub size: [f64; 2],
}

impl Figure {
    /// As a file of its own.
    #[must_use]
    pub fn into_file(self) -> String {
        format!("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}\n", self.svg.into_string())
    }
}

impl Figure {
    /// Pictures one below the other, in one.
    #[must_use]
    pub fn below_each_other(figures: &[Self], title: &str) -> Self {
        let width = figures.iter().map(|figure| figure.size[0]).fold(0.0, f64::max);
        let height = figures.iter().map(|figure| figure.size[1]).sum();
        let tops = figures.iter().scan(0.0, |end, figure| {
            let top = *end;
            *end += figure.size[1];
            Some(top)
        });
        let svg = html! {
            svg xmlns="http://www.w3.org/2000/svg" width=(N(width)) height=(N(height))
                viewBox={ "0 0 " (N(width)) " " (N(height)) } role="img" aria-label=(title) {
                rect width=(N(width)) height=(N(height)) fill="#fff" {}
                @for (figure, top) in figures.iter().zip(tops) {
                    g transform={ "translate(0 " (N(top)) ")" } { (figure.svg) }
                }
            }
        };
        Self { svg, size: [width, height] }
    }
}

/// Paper that is being drawn on.
#[derive(Debug, Default)]
pub struct Canvas {
    shapes: String,
    labels: Vec<Label>,
    taken: Taken,
}

impl Canvas {
    /// A line through points.
    pub fn line(&mut self, pen: &Pen, points: &[[f64; 2]]) {
        self.path(pen, &path_of(points));
    }

    /// A closed shape.
    pub fn polygon(&mut self, pen: &Pen, points: &[[f64; 2]]) {
        self.path(pen, &format!("{}Z", path_of(points)));
    }

    /// A rectangle.
    pub fn rect(&mut self, pen: &Pen, rect: &Rect) {
        self.polygon(pen, &rect.corners());
    }

    /// A circle.
    pub fn circle(&mut self, pen: &Pen, centre: [f64; 2], radius: f64) {
        self.push(&html! {
            circle cx=(N(centre[0])) cy=(N(centre[1])) r=(N(radius)) stroke=(pen.line)
                stroke-width=(N(pen.width)) fill=(pen.fill) {}
        });
    }

    /// A path in SVG's own notation.
    pub fn path(&mut self, pen: &Pen, d: &str) {
        let dash = (!pen.dash.is_empty()).then_some(pen.dash);
        self.push(&html! {
            path d=(d) stroke=(pen.line) stroke-width=(N(pen.width)) stroke-dasharray=[dash]
                fill=(pen.fill) {}
        });
    }

    /// Opens a group that tells its title to who points at it; closed by [`Self::end_group`].
    pub fn begin_group(&mut self, name: &str, title: &str) {
        self.shapes.push_str("<g data-name=\"");
        self.push(&html! { (name) });
        self.shapes.push_str("\">");
        self.push(&html! { title { (title) } });
    }

    /// Closes the group.
    pub fn end_group(&mut self) {
        self.shapes.push_str("</g>");
    }

    /// From here on shapes are cut where they leave a window, until [`Self::end_window`]. The
    /// stroke of its own border is spared.
    pub fn begin_window(&mut self, window: &Rect) {
        const STROKE: f64 = 2.0;
        let [x, y] = [window.x[0] - STROKE, window.y[0] - STROKE];
        let [width, height] =
            [window.x, window.y].map(|[low, high]| N(high - low + 2.0 * STROKE).to_string());
        let opening = format!(
            "<svg x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\" viewBox=\"{x} {y} {width} {height}\">",
            x = N(x),
            y = N(y),
        );
        self.shapes.push_str(&opening);
    }

    /// Ends the window.
    pub fn end_window(&mut self) {
        self.shapes.push_str("</svg>");
    }

    /// Keeps labels away from a place.
    pub fn keep_clear(&mut self, room: Rect) {
        self.taken.take(room);
    }

    /// Writes a label where it is.
    pub fn label(&mut self, label: Label) {
        self.taken.take(label.bounds());
        self.labels.push(label);
    }

    /// Writes a label at the first of its places that is clear.
    pub fn label_where_clear(
        &mut self,
        label: &Label,
        places: impl IntoIterator<Item = [f64; 2]>,
    ) -> Option<[f64; 2]> {
        let at = places.into_iter().find(|at| {
            let there = Label { at: *at, ..label.clone() };
            self.taken.is_clear(&there.bounds())
        })?;
        self.label(Label { at, ..label.clone() });
        Some(at)
    }

    /// The picture, of the given size; `title` is what a reader without eyes hears.
    #[must_use]
    pub fn finish(self, size: [f64; 2], title: &str) -> Figure {
        let [width, height] = size.map(f64::ceil);
        let svg = html! {
            svg xmlns="http://www.w3.org/2000/svg" width=(N(width)) height=(N(height))
                viewBox={ "0 0 " (N(width)) " " (N(height)) } role="img" aria-label=(title)
                font-family=(FACES) stroke-linejoin="round" {
                rect width=(N(width)) height=(N(height)) fill="#fff" {}
                g { (PreEscaped(&self.shapes)) }
                // A white rim keeps text readable over lines.
                g fill=(INK) stroke="#fff" stroke-width="3" paint-order="stroke" {
                    @for label in &self.labels { (written(label)) }
                }
            }
        };
        Figure { svg, size: [width, height] }
    }

    fn push(&mut self, markup: &Markup) {
        self.shapes.push_str(&markup.0);
    }
}

fn written(label: &Label) -> Markup {
    let [x, y] = label.at;
    let anchor = match label.anchor {
        Anchor::Start => None,
        Anchor::Middle => Some("middle"),
        Anchor::End => Some("end"),
    };
    let weight = (label.weight == Weight::Bold).then_some("bold");
    // Capitals and figures are as high above the base line as 0.7 of the size.
    let drop = label.size * 0.35;
    html! {
        @match label.run {
            Run::Level => {
                text x=(N(x)) y=(N(y + drop)) font-size=(N(label.size)) text-anchor=[anchor]
                    font-weight=[weight] { (label.text) }
            }
            Run::Upwards => {
                text transform={ "translate(" (N(x + drop)) " " (N(y)) ") rotate(-90)" }
                    font-size=(N(label.size)) text-anchor=[anchor] font-weight=[weight] {
                    (label.text)
                }
            }
        }
    }
}

fn path_of(points: &[[f64; 2]]) -> String {
    let mut d = String::with_capacity(points.len() * 16);
    for (i, [x, y]) in points.iter().enumerate() {
        d.push(if i == 0 { 'M' } else { 'L' });
        N(*x).render_to(&mut d);
        d.push(' ');
        N(*y).render_to(&mut d);
    }
    d
}
