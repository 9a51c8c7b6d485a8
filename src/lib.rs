//! hookspan
pub mod model;
pub mod rules;
pub mod units;
