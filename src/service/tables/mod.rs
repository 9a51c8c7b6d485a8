//! Answers as tables (`text/csv`), for spreadsheets and programs of orders: from the same answer as the JSON,
//! with the same numbers.
//!
//! Columns are named once for all languages, with the unit in the name; decimals have a point. Every line says
//! the verdict, for a table has no heading that could say that a job fails.

pub mod csv;
mod order;
mod setting_out;
mod utilisations;

use serde::Serialize;

use crate::wire::building::{BuildingAnswer, BuildingRequest};
use crate::wire::fault::{Fault, FaultCode};
use crate::wire::layout::{
    HookAnswer, LayoutAnswer, LayoutRequest, ModuleAnswer, RafterAnswer, RailAnswer,
};
use crate::wire::recheck::{RecheckAnswer, RecheckRequest};
use crate::wire::remarks::Verdict;
use crate::wire::survey::SurveyRequest;
use crate::wire::tables::TableName;

use super::building;
use super::layout::{Told, laid_out};
use super::recheck::rechecked;
use super::request::Options;
use super::shown::Shown;
use super::survey::surveyed;

/// A request whose answer has tables.
pub trait Tabled {
    /// Those it has.
    const TABLES: &'static [TableName];

    /// One of them, and its verdict.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see.
    fn told(&self, table: TableName, options: &Options) -> Result<(String, Verdict), Vec<Fault>>;

    /// The caller's own name of the job.
    fn reference(&self) -> Option<&str>;

    /// The table as a file.
    ///
    /// # Errors
    /// As [`Tabled::told`].
    fn table(
        &self,
        input_digest: &str,
        table: TableName,
        options: &Options,
    ) -> Result<Shown, Vec<Fault>> {
        let (text, verdict) = self.told(table, options)?;
        let file_name = Some(file_name(self.reference(), table, input_digest));
        Ok(Shown { text, verdict: Some(verdict), file_name })
    }
}

impl Tabled for LayoutRequest {
    const TABLES: &'static [TableName] = &TableName::ALL;

    fn told(&self, table: TableName, options: &Options) -> Result<(String, Verdict), Vec<Fault>> {
        let (_, _, answer) = laid_out(self, options, Told::WithoutRemedies)?;
        let slopes = [OnSlope::of_layout(&answer)];
        let text = match table {
            TableName::Order => order::order(&answer.parts, answer.phases.as_ref(), answer.verdict),
            TableName::SettingOut => setting_out::setting_out(&slopes),
            TableName::Utilisations => utilisations::utilisations(&slopes),
        };
        Ok((text, answer.verdict))
    }

    fn reference(&self) -> Option<&str> {
        self.reference.as_deref()
    }
}

impl Tabled for BuildingRequest {
    const TABLES: &'static [TableName] = &TableName::ALL;

    fn told(&self, table: TableName, options: &Options) -> Result<(String, Verdict), Vec<Fault>> {
        let (_, answer) = building::laid_out(self, options, Told::WithoutRemedies)?;
        let slopes = OnSlope::of_building(&answer);
        let text = match table {
            TableName::Order => order::order(&answer.parts, None, answer.verdict),
            TableName::SettingOut => setting_out::setting_out(&slopes),
            TableName::Utilisations => utilisations::utilisations(&slopes),
        };
        Ok((text, answer.verdict))
    }

    fn reference(&self) -> Option<&str> {
        self.reference.as_deref()
    }
}

impl Tabled for RecheckRequest {
    const TABLES: &'static [TableName] = &TableName::WITHOUT_ORDER;

    fn told(&self, table: TableName, options: &Options) -> Result<(String, Verdict), Vec<Fault>> {
        let (_, _, answer, _) = rechecked(self, options)?;
        Ok((of_built(&answer, table)?, answer.verdict))
    }

    fn reference(&self) -> Option<&str> {
        self.reference.as_deref()
    }
}

impl Tabled for SurveyRequest {
    const TABLES: &'static [TableName] = &TableName::WITHOUT_ORDER;

    fn told(&self, table: TableName, options: &Options) -> Result<(String, Verdict), Vec<Fault>> {
        let (_, _, answer, _) = surveyed(self, options)?;
        Ok((of_built(&answer.recheck, table)?, answer.recheck.verdict))
    }

    fn reference(&self) -> Option<&str> {
        self.reference.as_deref()
    }
}

/// A table of what stands, which orders nothing.
fn of_built(answer: &RecheckAnswer, table: TableName) -> Result<String, Vec<Fault>> {
    let slopes = [OnSlope::of_recheck(answer)];
    match table {
        TableName::Order => {
            let detail = "A job that stands has no order.";
            Err(vec![Fault::new("", FaultCode::UnknownValue, detail)])
        }
        TableName::SettingOut => Ok(setting_out::setting_out(&slopes)),
        TableName::Utilisations => Ok(utilisations::utilisations(&slopes)),
    }
}

/// What an answer says of a slope.
#[derive(Clone, Copy)]
struct OnSlope<'a> {
    /// Its name, of a building.
    slope: Option<&'a str>,
    verdict: Verdict,
    hooks: &'a [HookAnswer],
    rails: &'a [RailAnswer],
    rafters: &'a [RafterAnswer],
    modules: &'a [ModuleAnswer],
}

/// The same members of answers of several kinds.
macro_rules! on_slope {
    ($answer:ident, $slope:expr) => {
        OnSlope {
            slope: $slope,
            verdict: $answer.verdict,
            hooks: &$answer.hooks,
            rails: &$answer.rails,
            rafters: &$answer.rafters,
            modules: &$answer.modules,
        }
    };
}

impl<'a> OnSlope<'a> {
    fn of_layout(answer: &'a LayoutAnswer) -> Self {
        on_slope!(answer, None)
    }

    fn of_recheck(answer: &'a RecheckAnswer) -> Self {
        on_slope!(answer, None)
    }

    fn of_building(answer: &'a BuildingAnswer) -> Vec<Self> {
        answer.slopes.iter().map(|slope| on_slope!(slope, Some(&slope.id))).collect()
    }
}

/// The name that a value of an enumeration has in JSON.
#[must_use]
pub fn name_of(value: &impl Serialize) -> String {
    // An enumeration is written as its name in quotes, and that does not fail.
    serde_json::to_string(value).unwrap_or_default().trim_matches('"').to_owned()
}

/// Most characters of the caller's name that a file is named by.
const MOST_CHARACTERS: usize = 60;

/// Digits of the digest in the name of a file.
const DIGITS: usize = 8;

/// Name of a file: the caller's own name of the job as far as every file system takes it, the table, and which
/// request it is of.
fn file_name(reference: Option<&str>, table: TableName, input_digest: &str) -> String {
    let mut name = String::new();
    for character in reference.unwrap_or_default().chars().take(MOST_CHARACTERS) {
        match character {
            'a'..='z' | 'A'..='Z' | '0'..='9' | '_' => name.push(character),
            _ if name.is_empty() || name.ends_with('-') => {}
            _ => name.push('-'),
        }
    }
    let name = match name.trim_end_matches('-') {
        "" => "job",
        name => name,
    };
    let digest = input_digest.get(..DIGITS).unwrap_or(input_digest);
    format!("{name}-{}-{digest}.csv", table.name().replace('_', "-"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_named_by_what_every_file_system_takes() {
        let name = |reference| file_name(reference, TableName::SettingOut, "0123456789abcdef");
        assert_eq!(name(Some("orchard barn/2")), "orchard-barn-2-setting-out-01234567.csv");
        assert_eq!(name(Some("../../etc")), "etc-setting-out-01234567.csv");
        assert_eq!(name(Some("\"\r\nx: y")), "x-y-setting-out-01234567.csv");
        assert_eq!(name(Some("Scheune Süd")), "Scheune-S-d-setting-out-01234567.csv");
        for nothing in [None, Some(""), Some("屋根"), Some("--")] {
            assert_eq!(name(nothing), "job-setting-out-01234567.csv");
        }
        assert!(name(Some(&"x".repeat(500))).len() < 90);
    }
}
