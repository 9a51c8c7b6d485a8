//! EN 1991-1-1:2002, densities, self-weight and imposed loads: who walks on a roof.

use crate::units::Force;

pub(super) const EN1991_1_1: &str = "EN 1991-1-1:2002";

/// `Q_k`: a person at work on a roof that is entered for maintenance and repair only.
///
/// EN 1991-1-1:2002, 6.3.4.2, Table 6.10, category H: recommended 1.0 kN, vertical, on a square of
/// 50 mm (6.3.4.2(3)), for roofs of any pitch. Category H acts without snow and wind (3.3.2(1)).
///
/// From memory.
#[must_use]
pub const fn maintenance_force() -> Force {
    Force::from_kn(1.0)
}
