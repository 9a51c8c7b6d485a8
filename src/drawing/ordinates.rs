//! Dimensions from one datum: a column of heights beside the roof and a row of distances below it.
//! Where figures would touch they move apart and a kinked line leads to what they measure.

use super::canvas::{Canvas, FAINT, INK, Pen};
use super::text::{Label, NORMAL, Weight, spread};

/// One dimension.
#[derive(Debug, Clone)]
pub struct Ordinate {
    /// Place on paper of what it measures.
    pub at: f64,
    /// The text.
    pub text: String,
    /// How heavy.
    pub weight: Weight,
}

impl Ordinate {
    /// A dimension.
    pub fn new(at: f64, text: impl Into<String>, weight: Weight) -> Self {
        Self { at, text: text.into(), weight }
    }
    fn label(&self, at: [f64; 2]) -> Label {
        let label = Label::new(self.text.clone(), at);
        if self.weight == Weight::Bold { label.bold() } else { label }
    }
    /// Length of the text.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.label([0.0; 2]).length()
    }
}

/// Length of the leaders between roof and figures.
pub const LEADER: f64 = 34.0;

/// Pitch of neighbouring figures.
const PITCH: f64 = NORMAL * 1.2;

fn places(ordinates: &[Ordinate]) -> Vec<f64> {
    let wanted: Vec<(f64, f64)> = ordinates.iter().map(|o| (o.at, PITCH)).collect();
    spread(&wanted, 1.0)
}

/// How far the outermost figures stand beyond what they measure.
#[must_use]
pub fn overhang(ordinates: &[Ordinate]) -> [f64; 2] {
    let places = places(ordinates);
    let over = |place: Option<(&f64, &Ordinate)>| {
        place.map_or(0.0, |(place, ordinate)| (place - ordinate.at).abs()) + PITCH
    };
    [over(places.iter().zip(ordinates).next()), over(places.iter().zip(ordinates).next_back())]
}

/// Which side of the roof the figures stand on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Beside it on the left.
    Left,
    /// Below it.
    Below,
}

/// Draws dimensions, ascending along the side, beside an edge at `edge`.
pub fn draw(canvas: &mut Canvas, ordinates: &[Ordinate], side: Side, edge: f64) {
    let away = |d: f64| match side {
        Side::Left => edge - d,
        Side::Below => edge + d,
    };
    let point = |along: f64, d: f64| match side {
        Side::Left => [away(d), along],
        Side::Below => [along, away(d)],
    };
    for (ordinate, place) in ordinates.iter().zip(places(ordinates)) {
        let ink = if ordinate.weight == Weight::Bold { INK } else { FAINT };
        canvas.line(
            &Pen::line(ink, 1.0),
            &[
                point(ordinate.at, 3.0),
                point(ordinate.at, 11.0),
                point(place, LEADER - 10.0),
                point(place, LEADER - 3.0),
            ],
        );
        let label = ordinate.label(point(place, LEADER)).from_end();
        canvas.label(match side {
            Side::Left => label,
            Side::Below => label.upwards(),
        });
    }
}
