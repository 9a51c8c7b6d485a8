//! What an arm off the rafter axis asks of the screws' place.
//!
//! The slope force then turns the foot in its plane: every screw gets its share along the grain and
//! a part across it, which grows with its distance from the screws' centre. The edge of the rafter
//! becomes a loaded one.
//!
//! **Sources.** Statics of a group of screws; the rules for the distance.

use crate::checks::screws;
use crate::codes::Rules;
use crate::hardware::{Foot, Screw};
use crate::units::{Angle, Length};

/// Distance of the outermost screw to the loaded edge of a rafter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadedEdge {
    /// Angle of its load to the grain.
    pub angle: Angle,
    /// Distance there is.
    pub have: Length,
    /// Distance needed.
    pub need: Length,
}

/// The loaded edge with an arm `offset` off the axis of a rafter; `None` when nothing turns, or all
/// screws stand in one point.
#[must_use]
pub fn loaded_edge(
    rules: Rules,
    foot: &Foot,
    screw: &Screw,
    offset: Length,
    rafter_width: Length,
) -> Option<LoadedEdge> {
    let n = foot.screws.len() as f64;
    let centre = |axis: usize| foot.screws.iter().map(|s| s[axis]).sum::<Length>() / n;
    let (across, up) = (centre(0), centre(1));
    let from = |s: &[Length; 2]| [(s[0] - across).mm(), (s[1] - up).mm()];
    let polar: f64 = foot.screws.iter().map(|s| from(s).iter().map(|d| d * d).sum::<f64>()).sum();
    if offset == Length::ZERO || polar <= 0.0 {
        return None;
    }
    // Per unit of slope force, for the screw whose load points farthest off the grain.
    let turn = (offset.abs() + across.abs()).mm() / polar;
    let angle = foot
        .screws
        .iter()
        .map(|s| {
            let [x, y] = from(s);
            (turn * y.abs()).atan2((1.0 / n - turn * x.abs()).max(0.0))
        })
        .fold(0.0, f64::max);
    let angle = Angle::from_deg(angle.to_degrees());
    let need = screws::least_distances(rules, screw, angle).loaded_edge;
    Some(LoadedEdge { angle, have: screws::edge_distance(foot, rafter_width), need })
}

/// How far, in whole millimetres, an arm may stand off the axis within the foot's own range without
/// asking more of the edge than there is.
#[must_use]
pub fn largest_offset(rules: Rules, foot: &Foot, screw: &Screw, rafter_width: Length) -> Length {
    let fits = |offset: &Length| {
        let edge = loaded_edge(rules, foot, screw, *offset, rafter_width);
        edge.is_none_or(|edge| edge.need <= edge.have)
    };
    let mut offset = Length::from_mm(foot.lateral_range.mm().floor());
    while offset > Length::ZERO && !fits(&offset) {
        offset -= Length::from_mm(1.0);
    }
    offset.max(Length::ZERO)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Force, Moment};

    fn rules() -> Rules {
        Rules::all().next().expect("a rule set")
    }

    fn foot() -> Foot {
        let mm = Length::from_mm;
        Foot {
            length: mm(90.0),
            width: mm(140.0),
            thickness: mm(6.0),
            lateral_range: mm(45.0),
            screws: vec![[mm(0.0), mm(15.0)], [mm(0.0), mm(75.0)]],
        }
    }

    fn screw() -> Screw {
        let mm = Length::from_mm;
        Screw {
            diameter: mm(8.0),
            core: mm(5.4),
            length: mm(140.0),
            thread: mm(80.0),
            point: Length::from_mm(8.0),
            withdrawal: None,
            tension: Force::from_kn(20.0),
            yield_moment: Moment::from_nmm(20_000.0),
            predrilled: true,
            spacings: None,
        }
    }

    /// By hand: two screws 60 mm apart, arm 30 mm off: half the force along, 30·30/1800 = half
    /// across, so 45°; Table 8.2 predrilled: (3 + 4·sin 45°)·8 = 46.6 mm.
    #[test]
    fn the_load_turns_as_worked_by_hand() {
        let at = |offset: f64, width: f64| {
            loaded_edge(rules(), &foot(), &screw(), Length::from_mm(offset), Length::from_mm(width))
        };
        let edge = at(30.0, 100.0).expect("it turns");
        assert!((edge.angle.deg() - 45.0).abs() < 1e-9);
        assert!((edge.need.mm() - 46.627).abs() < 1e-3 && (edge.have.mm() - 50.0).abs() < 1e-9);
        assert_eq!(at(0.0, 100.0), None);
    }

    #[test]
    fn the_largest_offset_is_the_last_that_fits() {
        for width in [60.0, 80.0, 90.0, 100.0, 160.0] {
            let width = Length::from_mm(width);
            let most = largest_offset(rules(), &foot(), &screw(), width);
            let fits = |offset| {
                loaded_edge(rules(), &foot(), &screw(), offset, width)
                    .is_none_or(|e| e.need <= e.have)
            };
            assert!(fits(most));
            assert!(most == Length::from_mm(45.0) || !fits(most + Length::from_mm(1.0)));
        }
    }
}
