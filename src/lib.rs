//! hookspan
pub mod rules;
pub mod units;
