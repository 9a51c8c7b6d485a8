//! Handlers, one file per resource: translation and nothing else.

pub mod catalogue;
pub mod layouts;
pub mod meta;
pub mod rechecks;
pub mod surveys;
