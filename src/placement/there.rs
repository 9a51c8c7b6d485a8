//! What of a rail is there already, segment by segment.

use crate::units::Length;

/// What the last digit of a recorded end may be off by.
const SAME: Length = Length::from_mm(0.5);

/// A rail that is there already and stays on its line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct There {
    /// The rail, by place among those kept.
    pub rail: usize,
    /// From where to where it reaches.
    pub reach: [Length; 2],
    /// Whether it is known where its bars meet.
    pub told: bool,
}

impl There {
    /// A rail with these ends on the line of segments that are as long as their modules need: where an
    /// end is not known it is where they end, and where it reaches beyond them they go as far.
    #[must_use]
    pub fn along(
        rail: usize,
        ends: [Option<Length>; 2],
        mut segments: Vec<[Length; 2]>,
    ) -> (Self, Vec<[Length; 2]>) {
        let mut reach = [Length::ZERO; 2];
        if let Some(first) = segments.first_mut() {
            reach[0] = ends[0].unwrap_or(first[0]);
            if reach[0] <= first[0] + SAME {
                first[0] = reach[0];
            }
        }
        if let Some(last) = segments.last_mut() {
            reach[1] = ends[1].unwrap_or(last[1]);
            if last[1] - SAME <= reach[1] {
                last[1] = reach[1];
            }
        }
        (Self { rail, reach, told: false }, segments)
    }

    /// The part of a segment that is there, if any.
    #[must_use]
    pub fn of(&self, ends: [Length; 2]) -> Option<[Length; 2]> {
        let part = [self.reach[0].max(ends[0]), self.reach[1].min(ends[1])];
        (part[0] < part[1]).then_some(part)
    }

    /// The parts of a segment that are to be added, left to right.
    #[must_use]
    pub fn added(&self, ends: [Length; 2]) -> Vec<[Length; 2]> {
        let Some([from, to]) = self.of(ends) else { return vec![ends] };
        let beside = [[ends[0], from], [to, ends[1]]];
        beside.into_iter().filter(|part| part[0] < part[1]).collect()
    }

    /// Where what is there goes on with what is added, left to right.
    #[must_use]
    pub fn joints(&self, ends: [Length; 2]) -> Vec<Length> {
        let part = self.of(ends).into_iter().flatten();
        part.filter(|at| ends[0] < *at && *at < ends[1]).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm([from, to]: [f64; 2]) -> [Length; 2] {
        [from, to].map(Length::from_mm)
    }

    fn along(ends: [Option<f64>; 2], segments: &[[f64; 2]]) -> (There, Vec<[Length; 2]>) {
        let segments = segments.iter().copied().map(mm).collect();
        There::along(0, ends.map(|end| end.map(Length::from_mm)), segments)
    }

    #[test]
    fn a_rail_as_long_as_its_modules_need_has_nothing_added() {
        for ends in [[None, None], [Some(0.0), Some(9000.0)], [Some(0.4), Some(8999.6)]] {
            let (there, segments) = along(ends, &[[0.0, 9000.0]]);
            assert_eq!(there.added(segments[0]), Vec::<[Length; 2]>::new(), "{ends:?}");
            assert_eq!(there.joints(segments[0]), Vec::new(), "{ends:?}");
        }
    }

    #[test]
    fn a_shorter_rail_goes_on_at_its_ends() {
        let (there, segments) = along([Some(1000.0), Some(6000.0)], &[[0.0, 9000.0]]);
        assert_eq!(segments, [mm([0.0, 9000.0])]);
        assert_eq!(there.added(segments[0]), [mm([0.0, 1000.0]), mm([6000.0, 9000.0])]);
        assert_eq!(there.joints(segments[0]), mm([1000.0, 6000.0]));
    }

    #[test]
    fn a_longer_rail_lengthens_its_line() {
        let (there, segments) =
            along([Some(-500.0), Some(9700.0)], &[[0.0, 4000.0], [4020.0, 9000.0]]);
        assert_eq!(segments, [mm([-500.0, 4000.0]), mm([4020.0, 9700.0])]);
        assert!(segments.iter().all(|ends| there.added(*ends).is_empty()));
    }

    #[test]
    fn a_segment_the_rail_does_not_reach_is_added_whole() {
        let (there, segments) = along([None, Some(3000.0)], &[[0.0, 4000.0], [4020.0, 9000.0]]);
        assert_eq!(there.added(segments[0]), [mm([3000.0, 4000.0])]);
        assert_eq!(there.added(segments[1]), [segments[1]]);
        assert_eq!(there.joints(segments[1]), Vec::new());
    }
}
