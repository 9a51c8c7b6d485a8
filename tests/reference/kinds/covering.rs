//! Geometry of coverings.

use hookspan::covering::{Covering, Laying, passage, stack};
use hookspan::units::Length;

use super::{Values, values};
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    (kind == "covering").then(|| {
        let covering = covering(inputs);
        values([
            ("headlap_mm", stack::headlap(&covering).mm()),
            ("tiles_per_m2", stack::tiles_per_m2(&covering)),
            ("tile_slope_deg", stack::tile_slope(&covering).atan().to_degrees()),
            ("lower_tile_top_mm", stack::lower_tile_top(&covering).mm()),
            ("covered_length_mm", passage::covered_length(&covering).mm()),
            ("clear_bay_mm", passage::clear_bay(&covering).mm()),
        ])
    })
}

fn covering(inputs: &Inputs) -> Covering {
    let mm = |name: &str| Length::from_mm(inputs.number(name));
    Covering {
        laying: match inputs.text("laying") {
            "double_lap" => Laying::DoubleLap,
            "crown" => Laying::Crown,
            "interlocking" => Laying::Interlocking,
            other => panic!("nobody lays {other}"),
        },
        tile_length: mm("length_mm"),
        tile_thickness: mm("thickness_mm"),
        camber: Length::ZERO,
        cover_width: mm("cover_width_mm"),
        gauge: mm("gauge_mm"),
        first_course: Length::ZERO,
        batten_thickness: mm("batten_thickness_mm"),
        batten_width: mm("batten_width_mm"),
        half_bond: true,
        joint_origin: Length::ZERO,
        troughs: Vec::new(),
        head_projection: mm("head_projection_mm"),
        nibs: Vec::new(),
    }
}
