//! Numbers on the section, and what they stand for.

use crate::drawing::canvas::{Canvas, INK, Pen};
use crate::drawing::text::{self, Label, NORMAL};

/// Explanations of the numbers on the drawing, in the order they are given.
#[derive(Default)]
pub struct Key(Vec<String>);

impl Key {
    /// Writes the next number and keeps its explanation.
    pub fn add(&mut self, canvas: &mut Canvas, [x, y]: [f64; 2], text: impl Into<String>) {
        self.0.push(text.into());
        Self::number(canvas, [x, y], self.0.len());
    }
    fn number(canvas: &mut Canvas, at: [f64; 2], number: usize) {
        canvas.circle(&Pen::line(INK, 1.2).filled("#fff"), at, 11.0);
        canvas.label(Label::new(number.to_string(), at).bold());
    }

    /// Lists the explanations from `top` downwards; says where they end.
    pub fn list(&self, canvas: &mut Canvas, [left, top]: [f64; 2], room: f64) -> f64 {
        const SIGN: f64 = 34.0;
        let mut y = top;
        for (i, text) in self.0.iter().enumerate() {
            Self::number(canvas, [left + 11.0, y], i + 1);
            for line in text::wrap(text, NORMAL, room - SIGN) {
                canvas.label(Label::new(line, [left + SIGN, y]).from_start());
                y += NORMAL * 1.35;
            }
            y += 9.0;
        }
        y
    }
}
