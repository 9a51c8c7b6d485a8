//! Labels: how much room a text takes, and where there is room for it.

use crate::geometry::Rect;

/// Smallest size of text.
pub const SMALL: f64 = 12.0;
/// Size of ordinary labels.
pub const NORMAL: f64 = 14.0;
/// Size of headings.
pub const LARGE: f64 = 20.0;

/// Which point of a text its place names.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// How a text runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Run {
    /// Level.
    Level,
    /// Upwards, read from the right.
    Upwards,
}

/// How heavy a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// Ordinary.
    Plain,
    /// Heavy.
    Bold,
}

/// A text in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// The text.
    pub text: String,
    /// The point it is hung on: along the text by its anchor, across it in its middle.
    pub at: [f64; 2],
    /// Size.
    pub size: f64,
    /// Weight.
    pub weight: Weight,
    /// Anchor.
    pub anchor: Anchor,
    /// Direction.
    pub run: Run,
}

impl Label {
    /// A level label of ordinary size, hung on its middle.
    pub fn new(text: impl Into<String>, at: [f64; 2]) -> Self {
        Self {
            text: text.into(),
            at,
            size: NORMAL,
            weight: Weight::Plain,
            anchor: Anchor::Middle,
            run: Run::Level,
        }
    }
    /// With another size.
    #[must_use]
    pub fn size(self, size: f64) -> Self {
        Self { size, ..self }
    }
    /// In heavy type.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }
    /// Hung on its beginning.
    #[must_use]
    pub fn from_start(self) -> Self {
        Self { anchor: Anchor::Start, ..self }
    }
    /// Hung on its end.
    #[must_use]
    pub fn from_end(self) -> Self {
        Self { anchor: Anchor::End, ..self }
    }
    /// Running upwards.
    #[must_use]
    pub fn upwards(self) -> Self {
        Self { run: Run::Upwards, ..self }
    }
    /// Moved.
    #[must_use]
    pub const fn moved(mut self, by: [f64; 2]) -> Self {
        self.at = [self.at[0] + by[0], self.at[1] + by[1]];
        self
    }

    /// Length along the text.
    #[must_use]
    pub fn length(&self) -> f64 {
        width(&self.text, self.size, self.weight)
    }

    /// The room it takes.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let length = self.length();
        let before = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => length / 2.0,
            Anchor::End => length,
        };
        let [x, y] = self.at;
        let half = self.size * 0.58;
        match self.run {
            Run::Level => Rect { x: [x - before, x - before + length], y: [y - half, y + half] },
            Run::Upwards => Rect { x: [x - half, x + half], y: [y + before - length, y + before] },
        }
    }
}

/// Width of a text, on the wide side for every common sans-serif face.
#[must_use]
pub fn width(text: &str, size: f64, weight: Weight) -> f64 {
    // Advance widths in em of the widest of the usual faces, rounded up.
    let em: f64 = text
        .chars()
        .map(|c| match c {
            'i' | 'j' | 'l' | '\'' | '|' | '!' | '.' | ',' | ':' | ';' => 0.34,
            ' ' | 't' | 'f' | 'r' | 'I' | '(' | ')' | '/' | '-' | '·' => 0.42,
            'm' | 'w' | 'M' | 'W' | '%' | '−' | '→' | '←' | '↑' | '↓' | '×' | '≥' | '≤' => {
                0.98
            }
            'A'..='Z' | 'Ä' | 'Ö' | 'Ü' => 0.74,
            _ => 0.64,
        })
        .sum();
    em * size
        * match weight {
            Weight::Plain => 1.0,
            Weight::Bold => 1.1,
        }
}

/// A text in lines no longer than `room`; a single word may be longer.
#[must_use]
pub fn wrap(text: &str, size: f64, room: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if width(&format!("{line} {word}"), size, Weight::Plain) <= room => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Room already taken.
#[derive(Debug, Clone, Default)]
pub struct Taken(Vec<Rect>);

impl Taken {
    /// Whether nothing lies in a rectangle.
    #[must_use]
    pub fn is_clear(&self, room: &Rect) -> bool {
        self.0.iter().all(|other| other.overlap(room) <= 0.0)
    }

    /// Takes a rectangle.
    pub fn take(&mut self, room: Rect) {
        self.0.push(room);
    }
}

/// Moves things on a line apart, as little as possible, so that each has its width and neighbours
/// keep a gap; their order stays. `wanted` is a list of centres, ascending, with widths.
///
/// Things that would touch form a group whose centre is the mean of what its members want: the
/// least squares solution under the constraint of order, found by pooling.
#[must_use]
pub fn spread(wanted: &[(f64, f64)], gap: f64) -> Vec<f64> {
    struct Group {
        /// Sum over members of where each wants the first of the group to be.
        sum: f64,
        count: f64,
        /// Offsets of the members from the first.
        offsets: Vec<f64>,
        last_width: f64,
        first_width: f64,
    }
    impl Group {
        fn first(&self) -> f64 {
            self.sum / self.count
        }
        fn last(&self) -> f64 {
            self.first() + self.offsets.last().copied().unwrap_or(0.0)
        }
    }
    let mut groups: Vec<Group> = Vec::new();
    for &(centre, width) in wanted {
        let mut next = Group {
            sum: centre,
            count: 1.0,
            offsets: vec![0.0],
            last_width: width,
            first_width: width,
        };
        while let Some(before) = groups.pop() {
            let need = f64::midpoint(before.last_width, next.first_width) + gap;
            if next.first() - before.last() >= need {
                groups.push(before);
                break;
            }
            let shift = before.offsets.last().copied().unwrap_or(0.0) + need;
            let mut offsets = before.offsets;
            offsets.extend(next.offsets.iter().map(|offset| offset + shift));
            next = Group {
                sum: before.sum + next.sum - next.count * shift,
                count: before.count + next.count,
                offsets,
                last_width: next.last_width,
                first_width: before.first_width,
            };
        }
        groups.push(next);
    }
    groups
        .iter()
        .flat_map(|group| group.offsets.iter().map(|offset| group.first() + offset))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_room_stays_and_the_rest_moves_apart_evenly() {
        assert_eq!(spread(&[(0.0, 10.0), (50.0, 10.0)], 2.0), [0.0, 50.0]);
        // Worked by hand: three of width 10 and gap 2 want 0, 2, 4; the middle one stays.
        assert_eq!(spread(&[(0.0, 10.0), (2.0, 10.0), (4.0, 10.0)], 2.0), [-10.0, 2.0, 14.0]);
        // A pair pushed left meets a third: (0, 10, 13) at pitch 12 has its mean at 23/3.
        let three = spread(&[(0.0, 10.0), (10.0, 10.0), (13.0, 10.0)], 2.0);
        assert!((three[1] - 23.0 / 3.0).abs() < 1e-9, "{three:?}");
        assert!(three.windows(2).all(|pair| pair[1] - pair[0] >= 12.0 - 1e-9));
    }

    #[test]
    fn text_that_runs_upwards_ends_where_it_is_hung_on_its_end() {
        let label = Label::new("1234", [50.0, 100.0]).from_end().upwards();
        let room = label.bounds();
        assert!((room.y[0] - 100.0).abs() < 1e-9 && room.y[1] > 130.0, "{room:?}");
    }

    #[test]
    fn lines_are_no_longer_than_their_room() {
        for line in wrap("one two three four five six seven", 10.0, 80.0) {
            assert!(width(&line, 10.0, Weight::Plain) <= 80.0, "{line}");
        }
    }
}
