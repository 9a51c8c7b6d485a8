//! Why a body does not pass the gate.

use crate::wire::fault::Fault;

/// Most faults that are listed: a body made of faults must not cost more than an honest one.
pub const MOST_FAULTS: usize = 1000;

/// Why a body did not pass.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BodyFault {
    /// The bytes are not JSON.
    NotJson {
        /// Line, counted from 1.
        line: usize,
        /// Byte of the line, counted from 1; 0 just before the first.
        column: usize,
        /// What is wrong there, without a full stop.
        what: String,
    },
    /// The document has faults.
    Faults(Vec<Fault>),
}
