//! Weight of the array.

use crate::units::{Force, LineLoad};

/// Weight of the parts that load the rails.
#[derive(Debug, Clone, Copy)]
pub struct Weight {
    /// One module.
    pub module: Force,
    /// One clamp.
    pub clamp: Force,
    /// A rail.
    pub rail: LineLoad,
}
