//! Query parameters. An unknown one is a fault, as an unknown field of the body is: a misspelt
//! `trace` must not pass for a request without.

use serde::Serialize;
use utoipa::ToSchema;

use crate::http::problem::Problem;
use crate::jobs::layout::Options;
use crate::model::fault::{Fault, FaultCode};

/// How much of the calculation an answer shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub enum TraceLevel {
    /// Results only.
    #[default]
    None,
    /// Every quantity with symbol, value, unit and clause.
    Full,
}

impl TraceLevel {
    /// Reads `trace` from a query that can have nothing else.
    ///
    /// # Errors
    /// `invalid_request` with one fault for every parameter that is unknown, repeated or has an
    /// unknown value. Their pointer is `""`: a query has no place in the body.
    pub fn from_query(query: Option<&str>) -> Result<Self, Problem> {
        let mut level = None;
        let mut faults = Vec::new();
        let mut refuse = |code, detail: &str| faults.push(Fault::new("", code, detail));
        for pair in query.unwrap_or_default().split('&').filter(|pair| !pair.is_empty()) {
            let (name, value) = pair.split_once('=').unwrap_or((pair, ""));
            let wanted = match (name, value) {
                ("trace", "full") => Self::Full,
                ("trace", "none") => Self::None,
                ("trace", _) => {
                    refuse(
                        FaultCode::UnknownValue,
                        "The query parameter \"trace\" has an unknown value; allowed are: none, full.",
                    );
                    continue;
                }
                _ => {
                    refuse(
                        FaultCode::UnknownField,
                        "The query has an unknown parameter; the only one is \"trace\".",
                    );
                    continue;
                }
            };
            if level.replace(wanted).is_some() {
                refuse(FaultCode::Contradiction, "The query gives \"trace\" more than once.");
            }
        }
        faults.dedup();
        if faults.is_empty() { Ok(level.unwrap_or_default()) } else { Err(Problem::faults(faults)) }
    }
}

impl From<TraceLevel> for Options {
    fn from(level: TraceLevel) -> Self {
        Self { trace: level == TraceLevel::Full }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_known_parameter_passes() {
        let read = |query| TraceLevel::from_query(query);
        assert_eq!(read(None).expect("no query"), TraceLevel::None);
        assert_eq!(read(Some("")).expect("empty query"), TraceLevel::None);
        assert_eq!(read(Some("trace=full")).expect("known"), TraceLevel::Full);
        assert_eq!(read(Some("trace=none")).expect("known"), TraceLevel::None);
        for wrong in ["trace", "trace=Full", "Trace=full", "x=1", "trace=full&trace=none"] {
            assert!(read(Some(wrong)).is_err(), "{wrong}");
        }
    }
}
