//! A report as tables (`text/csv`): the same figures as the JSON, columns named once for all languages.

use crate::service::tables::csv::{Column, write};
use crate::service::tables::name_of;
use crate::wire::batch::VerdictCounts;
use crate::wire::report::{
    Bin, CapacityRow, CauseCount, FindingCount, Report, ReportTable, UtilisationSpread, WorstRow,
};

/// One table of a report.
#[must_use]
pub fn table(report: &Report, table: ReportTable) -> String {
    match table {
        ReportTable::Worst => answers(&report.worst),
        ReportTable::Counts => counts(report),
        ReportTable::Findings => findings(&report.findings),
        ReportTable::Utilisations => utilisations(&report.utilisation),
        ReportTable::Causes => {
            causes(report.changes.as_ref().map_or(&[], |changes| &changes.causes))
        }
        ReportTable::Changed => {
            answers(report.changes.as_ref().map_or(&[], |changes| &changes.worst))
        }
        ReportTable::Capacities => capacities(report),
        ReportTable::Event => answers(report.event.as_ref().map_or(&[], |event| &event.look_at)),
        ReportTable::Left => left(report),
    }
}

fn answers(rows: &[WorstRow]) -> String {
    let columns: [Column<&WorstRow>; 16] = [
        Column { name: "line", cell: |row| row.of.line.into() },
        Column { name: "id", cell: |row| row.of.id.clone().into() },
        Column { name: "reference", cell: |row| row.of.reference.clone().into() },
        Column { name: "job", cell: |row| name_of(&row.job).into() },
        Column { name: "rules", cell: |row| row.rules.clone().into() },
        Column { name: "other_engine", cell: |row| row.other_engine.clone().into() },
        Column { name: "hook_part", cell: |row| row.hook_part.clone().into() },
        Column { name: "verdict", cell: |row| name_of(&row.verdict).into() },
        Column {
            name: "recorded_verdict",
            cell: |row| row.recorded_verdict.as_ref().map(name_of).into(),
        },
        Column { name: "utilisation", cell: |row| row.utilisation.into() },
        Column { name: "slope", cell: |row| row.slope.clone().into() },
        Column { name: "element", cell: |row| row.element.clone().into() },
        Column { name: "check", cell: |row| row.check.clone().into() },
        Column { name: "combination", cell: |row| row.combination.clone().into() },
        Column { name: "codes", cell: |row| row.codes.join(" ").into() },
        Column { name: "headline", cell: |row| row.headline.clone().into() },
    ];
    write(&columns, rows)
}

/// A line of the table of counts.
struct Counted {
    by: &'static str,
    name: String,
    answers: u64,
    verdicts: VerdictCounts,
    not_assessed: Option<u64>,
}

fn counts(report: &Report) -> String {
    let columns: [Column<Counted>; 8] = [
        Column { name: "by", cell: |row| row.by.into() },
        Column { name: "name", cell: |row| row.name.clone().into() },
        Column { name: "answers", cell: |row| row.answers.into() },
        Column { name: "holds", cell: |row| row.verdicts.holds.into() },
        Column { name: "holds_with_warnings", cell: |row| row.verdicts.holds_with_warnings.into() },
        Column { name: "fails", cell: |row| row.verdicts.fails.into() },
        Column { name: "incomplete", cell: |row| row.verdicts.incomplete.into() },
        Column { name: "not_assessed", cell: |row| row.not_assessed.into() },
    ];
    let of = |by, name: String, answers, verdicts| Counted {
        by,
        name,
        answers,
        verdicts,
        not_assessed: None,
    };
    let all = of("all", String::new(), report.lines.answers, report.verdicts);
    let kinds =
        report.by_kind.iter().map(|row| of("kind", name_of(&row.of), row.answers, row.verdicts));
    let rules =
        report.by_rules.iter().map(|row| of("rules", row.name.clone(), row.answers, row.verdicts));
    let hooks =
        report.by_hook.iter().map(|row| of("hook", row.name.clone(), row.answers, row.verdicts));
    let scopes = report.by_scope.iter().map(|row| {
        let VerdictCounts { holds, holds_with_warnings, fails, incomplete } = row.verdicts;
        let answers = holds + holds_with_warnings + fails + incomplete + row.not_assessed;
        let not_assessed = Some(row.not_assessed);
        Counted { not_assessed, ..of("scope", name_of(&row.scope), answers, row.verdicts) }
    });
    write(&columns, std::iter::once(all).chain(kinds).chain(rules).chain(hooks).chain(scopes))
}

fn findings(rows: &[FindingCount]) -> String {
    let columns: [Column<&FindingCount>; 5] = [
        Column { name: "code", cell: |row| row.code.clone().into() },
        Column { name: "severity", cell: |row| name_of(&row.severity).into() },
        Column { name: "answers", cell: |row| row.answers.into() },
        Column {
            name: "scopes",
            cell: |row| row.scopes.iter().map(name_of).collect::<Vec<_>>().join(" ").into(),
        },
        Column { name: "source", cell: |row| row.source.clone().into() },
    ];
    write(&columns, rows)
}

fn utilisations(spreads: &[UtilisationSpread]) -> String {
    let columns: [Column<(&UtilisationSpread, &Bin)>; 4] = [
        Column { name: "check", cell: |(spread, _)| spread.check.clone().into() },
        Column { name: "above", cell: |(_, bin)| bin.above.into() },
        Column { name: "up_to", cell: |(_, bin)| bin.up_to.into() },
        Column { name: "answers", cell: |(_, bin)| bin.answers.into() },
    ];
    let rows = spreads.iter().flat_map(|spread| spread.bins.iter().map(move |bin| (spread, bin)));
    write(&columns, rows)
}

fn causes(rows: &[CauseCount]) -> String {
    let columns: [Column<&CauseCount>; 3] = [
        Column { name: "cause", cell: |row| row.cause.clone().into() },
        Column { name: "answers", cell: |row| row.answers.into() },
        Column { name: "verdict_changed", cell: |row| row.verdict_changed.into() },
    ];
    write(&columns, rows)
}

fn capacities(report: &Report) -> String {
    let columns: [Column<(&'static str, &CapacityRow)>; 11] = [
        Column { name: "load", cell: |(load, _)| (*load).into() },
        Column { name: "line", cell: |(_, row)| row.of.line.into() },
        Column { name: "id", cell: |(_, row)| row.of.id.clone().into() },
        Column { name: "reference", cell: |(_, row)| row.of.reference.clone().into() },
        Column { name: "slope", cell: |(_, row)| row.slope.clone().into() },
        Column { name: "load_kn_per_m2", cell: |(_, row)| row.load_kn_per_m2.into() },
        Column { name: "of_the_job_kn_per_m2", cell: |(_, row)| row.of_the_job_kn_per_m2.into() },
        Column { name: "scope", cell: |(_, row)| name_of(&row.scope).into() },
        Column {
            name: "complete",
            cell: |(_, row)| if row.complete { "yes" } else { "no" }.into(),
        },
        Column { name: "check", cell: |(_, row)| row.check.clone().into() },
        Column { name: "element", cell: |(_, row)| row.element.clone().into() },
    ];
    let rows = report.capacity.iter().flat_map(|capacity| {
        let snow = capacity.ground_snow.smallest.iter().map(|row| ("ground_snow", row));
        snow.chain(capacity.peak_pressure.smallest.iter().map(|row| ("peak_pressure", row)))
    });
    write(&columns, rows)
}

/// A line that has no answer.
struct Left {
    what: String,
    line: Option<u64>,
    id: Option<String>,
    file: Option<String>,
    line_of_file: Option<u64>,
    pointer: Option<String>,
    detail: String,
}

fn left(report: &Report) -> String {
    let columns: [Column<Left>; 7] = [
        Column { name: "what", cell: |row| row.what.clone().into() },
        Column { name: "line", cell: |row| row.line.into() },
        Column { name: "id", cell: |row| row.id.clone().into() },
        Column { name: "file", cell: |row| row.file.clone().into() },
        Column { name: "line_of_file", cell: |row| row.line_of_file.into() },
        Column { name: "pointer", cell: |row| row.pointer.clone().into() },
        Column { name: "detail", cell: |row| row.detail.clone().into() },
    ];
    let problems = report.problems.listed.iter().map(|row| Left {
        what: row.code.clone(),
        line: Some(row.line),
        id: row.id.clone(),
        file: None,
        line_of_file: None,
        pointer: row.pointer.clone(),
        detail: row.detail.clone(),
    });
    let unread = report.unread.listed.iter().map(|row| Left {
        what: name_of(&row.reason),
        line: row.line,
        id: None,
        file: row.file.clone(),
        line_of_file: row.line_of_file,
        pointer: None,
        detail: row.detail.clone(),
    });
    write(&columns, problems.chain(unread))
}
