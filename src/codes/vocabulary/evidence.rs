//! How well what the rules say is known.

/// How well a value or a table is known. The printed standards were not at hand, so none was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Evidence {
    /// The caller states it.
    Given,
    /// By two or more independent sources, or a printed example.
    Confirmed,
    /// By a single source.
    OneSource,
    /// By none: written from memory.
    FromMemory,
    /// The rule of the country was not seen, and that of the standard stands in for it.
    StandIn,
}
