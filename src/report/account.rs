//! The account of many answers. Accounts of parts add up to that of the whole, in whatever order: there are
//! counts, sets of numbers, spreads in whole steps and the first rows of a total order, and nothing else.
//!
//! Memory: a bit for each line of the batch, the rows that are listed, and a count for each name that occurs
//! (of a rule set, a hook, a finding, an engine). It does not grow with what an answer says.

use std::collections::BTreeMap;
use std::ops::RangeInclusive;

use crate::assessment;
use crate::language::{Language, Reader};
use crate::service::answer::{cautions, scope_name};
use crate::service::mechanics::MODEL;
use crate::wire::batch::VerdictCounts;
use crate::wire::capacity::{CapacityOutcome, CapacityScope};
use crate::wire::kinds::{JobKind, ReportTag};
use crate::wire::remarks::{Severity, Verdict};
use crate::wire::report::{
    Capacities, CapacityRow, CauseCount, Changes, EngineCount, EventCount, FindingCount, KindCount,
    LinesAnswered, LinesRead, LoadCapacities, NameCount, ProblemCount, ProblemRow, Problems,
    Report, RowName, ScopeCount, Unread, UnreadCount, UnreadReason, UnreadRow, UtilisationSpread,
    VerdictChange, WorstRow,
};
use crate::wire::scopes::{ScopeName, ScopeVerdict, Verdicts};

use super::first::{First, Place};
use super::line::{Answer, Capacity, Difference, Failure, Line, Load, Problem};
use super::numbers::Numbers;
use super::spread::{self, Spread};

/// Ranges of lines, problems and unread lines that are listed.
pub const MOST_LISTED: usize = 1000;

/// Version of this program.
const VERSION: &str = env!("CARGO_PKG_VERSION");

/// The verdicts, the worst first.
const VERDICTS: [Verdict; 4] =
    [Verdict::Fails, Verdict::Incomplete, Verdict::HoldsWithWarnings, Verdict::Holds];

/// The scopes in the order of an answer.
const SCOPES: [ScopeName; 6] = [
    ScopeName::Fixing,
    ScopeName::Rail,
    ScopeName::Modules,
    ScopeName::Rafters,
    ScopeName::Covering,
    ScopeName::Data,
];

/// Answers, with their verdicts.
#[derive(Debug, Clone, Copy, Default)]
struct Group {
    answers: u64,
    verdicts: VerdictCounts,
}

impl Group {
    fn take(&mut self, verdict: Option<Verdict>) {
        self.answers += 1;
        if let Some(verdict) = verdict {
            *of_verdict(&mut self.verdicts, verdict) += 1;
        }
    }

    fn add(&mut self, other: &Self) {
        self.answers += other.answers;
        add_verdicts(&mut self.verdicts, &other.verdicts);
    }
}

/// What computed answers.
type EngineName = (String, u32, String, String);

/// What a cause of changes came to.
#[derive(Debug, Clone, Copy, Default)]
struct Caused {
    answers: u64,
    verdict_changed: u64,
}

/// Rechecks against their records.
#[derive(Debug)]
struct Compared {
    /// Its rows and causes are kept beside it.
    counts: Changes,
    verdicts: [[u64; 4]; 4],
    causes: BTreeMap<String, Caused>,
    worst: First<WorstRow>,
}

/// What jobs bear of a load.
#[derive(Debug)]
struct Borne {
    statements: u64,
    limited: u64,
    never: u64,
    spread: Spread,
    smallest: First<CapacityRow>,
}

/// The account of some lines.
#[derive(Debug)]
pub struct Account {
    lines: LinesRead,
    seen: Numbers,
    repeated: Numbers,
    engines: BTreeMap<EngineName, (u64, u64)>,
    whole: Group,
    kinds: [Group; JobKind::ALL.len()],
    rules: BTreeMap<String, Group>,
    hooks: BTreeMap<String, Group>,
    scopes: [(VerdictCounts, u64); SCOPES.len()],
    findings: BTreeMap<(Severity, String), u64>,
    used: Spread,
    used_by_check: BTreeMap<String, Spread>,
    compared: Compared,
    /// Of snow and of wind.
    borne: [Borne; 2],
    event: Group,
    event_within: u64,
    event_first: First<WorstRow>,
    worst: First<WorstRow>,
    problems: BTreeMap<String, u64>,
    problem_rows: First<ProblemRow>,
    unread: BTreeMap<UnreadReason, u64>,
    unread_rows: First<UnreadRow>,
}

impl Account {
    /// An empty account that lists so many answers at most.
    #[must_use]
    pub fn of(worst: usize) -> Self {
        let borne = || Borne {
            statements: 0,
            limited: 0,
            never: 0,
            spread: Spread::default(),
            smallest: First::of(worst),
        };
        Self {
            lines: LinesRead::default(),
            seen: Numbers::default(),
            repeated: Numbers::default(),
            engines: BTreeMap::new(),
            whole: Group::default(),
            kinds: Default::default(),
            rules: BTreeMap::new(),
            hooks: BTreeMap::new(),
            scopes: Default::default(),
            findings: BTreeMap::new(),
            used: Spread::default(),
            used_by_check: BTreeMap::new(),
            compared: Compared {
                counts: Changes::default(),
                verdicts: Default::default(),
                causes: BTreeMap::new(),
                worst: First::of(worst),
            },
            borne: [borne(), borne()],
            event: Group::default(),
            event_within: 0,
            event_first: First::of(worst),
            worst: First::of(worst),
            problems: BTreeMap::new(),
            problem_rows: First::of(MOST_LISTED),
            unread: BTreeMap::new(),
            unread_rows: First::of(MOST_LISTED),
        }
    }

    /// Takes a line that is not empty, from its place in a file.
    pub fn enter(&mut self, line: Line<'_>, file: &str, line_of_file: u64) {
        self.lines.read += 1;
        match line {
            Line::Answer(answer) => self.answer(&answer),
            Line::Problem(problem) => self.problem(&problem),
            Line::End { complete } => {
                self.lines.ends += 1;
                self.lines.broken_off += u64::from(!complete);
            }
            Line::Unread(failure) => self.unread(failure, file, line_of_file),
        }
    }

    /// Takes what another account has.
    pub fn add(&mut self, other: Self) {
        add_lines(&mut self.lines, &other.lines);
        self.repeated.add(&other.repeated);
        let both = self.seen.add(&other.seen);
        self.repeated.add(&both);
        for (name, (answers, first)) in other.engines {
            let (count, line) = self.engines.entry(name).or_insert((0, u64::MAX));
            *count += answers;
            *line = first.min(*line);
        }
        self.whole.add(&other.whole);
        for (ours, theirs) in self.kinds.iter_mut().zip(&other.kinds) {
            ours.add(theirs);
        }
        merge(&mut self.rules, other.rules, |ours, theirs| ours.add(&theirs));
        merge(&mut self.hooks, other.hooks, |ours, theirs| ours.add(&theirs));
        for ((ours, not_asked), (theirs, nor_there)) in self.scopes.iter_mut().zip(&other.scopes) {
            add_verdicts(ours, theirs);
            *not_asked += nor_there;
        }
        merge(&mut self.findings, other.findings, |ours, theirs| *ours += theirs);
        self.used.add(&other.used);
        merge(&mut self.used_by_check, other.used_by_check, |ours, theirs| ours.add(&theirs));
        self.compared.add(other.compared);
        for (ours, theirs) in self.borne.iter_mut().zip(other.borne) {
            ours.add(theirs);
        }
        self.event.add(&other.event);
        self.event_within += other.event_within;
        self.event_first.add(other.event_first);
        self.worst.add(other.worst);
        merge(&mut self.problems, other.problems, |ours, theirs| *ours += theirs);
        self.problem_rows.add(other.problem_rows);
        merge(&mut self.unread, other.unread, |ours, theirs| *ours += theirs);
        self.unread_rows.add(other.unread_rows);
    }

    fn answer(&mut self, answer: &Answer<'_>) {
        let Answer { line, of, told, .. } = answer;
        self.lines.answers += 1;
        self.number(*line);
        let rules = &told.engine.rules;
        let engine = (
            told.engine.version.clone().into_owned(),
            told.engine.model,
            rules.id.clone().into_owned(),
            rules.revision.clone().into_owned(),
        );
        let (answers, first) = self.engines.entry(engine).or_insert((0, u64::MAX));
        *answers += 1;
        *first = (*line).min(*first);
        self.whole.take(told.verdict);
        if let Some(kind) = place_of(JobKind::ALL, of).and_then(|at| self.kinds.get_mut(at)) {
            kind.take(told.verdict);
        }
        entry(&mut self.rules, &rules.id).take(told.verdict);
        if let Some(hook) = told.hook_part() {
            entry(&mut self.hooks, hook).take(told.verdict);
        }
        if let Some(verdicts) = told.verdicts() {
            self.scopes(*verdicts);
        }
        let codes = told.codes();
        for (severity, code) in &codes {
            *self.findings.entry((*severity, (*code).to_owned())).or_default() += 1;
        }
        if let Some(used) = told.used() {
            self.used.take(used.max);
            entry(&mut self.used_by_check, &used.check).take(used.max);
        }
        for (slope, capacity) in told.capacities() {
            self.capacity(answer, slope, capacity);
        }
        let Some(verdict) = told.verdict else { return };
        let place = place_of_verdict(answer, verdict);
        let row = || worst_row(answer, verdict, &codes);
        if let Some(difference) = &told.difference {
            self.compared.take(difference, verdict, place, row);
        }
        if let Some(event) = &told.event {
            self.event.take(Some(verdict));
            self.event_within += u64::from(event.within_resistances);
            if matches!(verdict, Verdict::Fails | Verdict::Incomplete) {
                self.event_first.offer(place, row);
            }
        }
        self.worst.offer(place, row);
    }

    fn number(&mut self, line: u64) {
        if self.seen.put(line) {
            self.repeated.put(line);
        }
    }

    fn scopes(&mut self, verdicts: Verdicts) {
        let Verdicts { fixing, rail, modules, rafters, covering, data } = verdicts;
        let told = [fixing, rail, modules, rafters, covering, data];
        for ((counts, not_assessed), on) in self.scopes.iter_mut().zip(told) {
            let verdict = match on {
                ScopeVerdict::Holds => Verdict::Holds,
                ScopeVerdict::HoldsWithWarnings => Verdict::HoldsWithWarnings,
                ScopeVerdict::Fails => Verdict::Fails,
                ScopeVerdict::Incomplete => Verdict::Incomplete,
                ScopeVerdict::NotAssessed => {
                    *not_assessed += 1;
                    continue;
                }
            };
            *of_verdict(counts, verdict) += 1;
        }
    }

    fn capacity(&mut self, answer: &Answer<'_>, slope: Option<&str>, capacity: &Capacity<'_>) {
        let [snow, wind] = &mut self.borne;
        snow.take(answer, slope, &capacity.ground_snow);
        wind.take(answer, slope, &capacity.peak_pressure);
    }

    fn problem(&mut self, problem: &Problem<'_>) {
        let Problem { line, id, told } = problem;
        self.lines.problems += 1;
        self.number(*line);
        *entry(&mut self.problems, &told.code) += 1;
        self.problem_rows.offer(Place { group: 0, then: 0, line: *line }, || {
            let (pointer, detail) = told.said();
            ProblemRow {
                line: *line,
                id: id.as_deref().map(str::to_owned),
                code: told.code.clone().into_owned(),
                detail: detail.to_owned(),
                pointer: pointer.map(str::to_owned),
            }
        });
    }

    fn unread(&mut self, failure: Failure, file: &str, line_of_file: u64) {
        let Failure { line, reason, detail } = failure;
        self.lines.unread += 1;
        *self.unread.entry(reason).or_default() += 1;
        let place =
            Place { group: u8::from(line.is_none()), then: 0, line: line.unwrap_or(line_of_file) };
        self.unread_rows.offer(place, || UnreadRow {
            line,
            file: line.is_none().then(|| file.to_owned()),
            line_of_file: line.is_none().then_some(line_of_file),
            reason,
            detail,
        });
    }

    /// What it comes to, for a reader; the lines that the batch has, where that was said.
    #[must_use]
    pub fn close(self, expected: Option<RangeInclusive<u64>>, language: Language) -> Report {
        let answered = answered(&self.seen, &self.repeated, expected);
        let engines = self.engines.into_iter().map(|(name, (answers, first_line))| {
            let (version, model, rules, revision) = name;
            let own = version == VERSION && model == MODEL;
            EngineCount { version, model, rules, revision, own, answers, first_line }
        });
        let engines: Vec<EngineCount> = engines.collect();
        let kinds = JobKind::ALL.iter().zip(self.kinds).filter(|(_, group)| group.answers > 0);
        let by_scope = SCOPES.into_iter().zip(self.scopes);
        let checks = self.used_by_check.into_iter().map(|(check, spread)| (Some(check), spread));
        let whole = (self.used.count() > 0).then_some((None, self.used));
        let [snow, wind] = self.borne;
        let bears = snow.statements > 0;
        Report {
            kind: ReportTag,
            version: VERSION.to_owned(),
            model: MODEL,
            lines: self.lines,
            answered,
            comparable: comparable(&engines),
            engines,
            verdicts: self.whole.verdicts,
            by_kind: kinds
                .map(|(of, Group { answers, verdicts })| KindCount { of: *of, answers, verdicts })
                .collect(),
            by_rules: named(self.rules),
            by_hook: named(self.hooks),
            by_scope: by_scope
                .map(|(scope, (verdicts, not_assessed))| ScopeCount {
                    scope,
                    verdicts,
                    not_assessed,
                })
                .collect(),
            findings: findings(self.findings),
            utilisation: whole.into_iter().chain(checks).map(utilisation).collect(),
            resolution: spread::resolution(),
            changes: self.compared.close(),
            capacity: bears
                .then(|| Capacities { ground_snow: snow.close(), peak_pressure: wind.close() }),
            event: (self.event.answers > 0).then(|| EventCount {
                answers: self.event.answers,
                within_resistances: self.event_within,
                verdicts: self.event.verdicts,
                look_at: self.event_first.into_rows(),
            }),
            worst: self.worst.into_rows(),
            problems: Problems {
                codes: by_number(self.problems)
                    .map(|(code, lines)| ProblemCount { code, lines })
                    .collect(),
                listed: self.problem_rows.into_rows(),
            },
            unread: Unread {
                reasons: self
                    .unread
                    .into_iter()
                    .map(|(reason, lines)| UnreadCount { reason, lines })
                    .collect(),
                listed: self.unread_rows.into_rows(),
            },
            cautions: cautions(Reader { language, ..Reader::default() }),
        }
    }
}

impl Compared {
    fn take(
        &mut self,
        difference: &Difference<'_>,
        verdict: Verdict,
        place: Place,
        row: impl FnOnce() -> WorstRow,
    ) {
        let counts = &mut self.counts;
        counts.compared += 1;
        let changed = difference.verdict_changed;
        *match changed {
            Some(true) => &mut counts.verdict_changed,
            Some(false) => &mut counts.verdict_kept,
            None => &mut counts.verdict_unknown,
        } += 1;
        *match difference.change {
            Some(change) if change > 0.0 => &mut counts.used_more,
            Some(change) if change < 0.0 => &mut counts.used_less,
            Some(_) => &mut counts.used_alike,
            None => &mut counts.used_unknown,
        } += 1;
        counts.engine_changed += u64::from(difference.engine_changed == Some(true));
        counts.model_changed += u64::from(difference.model_changed == Some(true));
        counts.rules_changed += u64::from(difference.rules_changed == Some(true));
        counts.input_changed += u64::from(difference.input_changed == Some(true));
        let from = difference.recorded_verdict.and_then(|from| place_of(&VERDICTS, &from));
        let to = place_of(&VERDICTS, &verdict);
        let cell = from.zip(to).and_then(|(from, to)| self.verdicts.get_mut(from)?.get_mut(to));
        if let Some(cell) = cell {
            *cell += 1;
        }
        for cause in &difference.causes {
            let caused = entry(&mut self.causes, cause);
            caused.answers += 1;
            caused.verdict_changed += u64::from(changed == Some(true));
        }
        if changed == Some(true) {
            self.worst.offer(place, row);
        }
    }

    fn add(&mut self, other: Self) {
        let (ours, theirs) = (&mut self.counts, &other.counts);
        for (ours, theirs) in [
            (&mut ours.compared, theirs.compared),
            (&mut ours.verdict_changed, theirs.verdict_changed),
            (&mut ours.verdict_kept, theirs.verdict_kept),
            (&mut ours.verdict_unknown, theirs.verdict_unknown),
            (&mut ours.used_more, theirs.used_more),
            (&mut ours.used_less, theirs.used_less),
            (&mut ours.used_alike, theirs.used_alike),
            (&mut ours.used_unknown, theirs.used_unknown),
            (&mut ours.engine_changed, theirs.engine_changed),
            (&mut ours.model_changed, theirs.model_changed),
            (&mut ours.rules_changed, theirs.rules_changed),
            (&mut ours.input_changed, theirs.input_changed),
        ] {
            *ours += theirs;
        }
        for (ours, theirs) in
            self.verdicts.iter_mut().flatten().zip(other.verdicts.iter().flatten())
        {
            *ours += theirs;
        }
        merge(&mut self.causes, other.causes, |ours, theirs| {
            ours.answers += theirs.answers;
            ours.verdict_changed += theirs.verdict_changed;
        });
        self.worst.add(other.worst);
    }

    fn close(self) -> Option<Changes> {
        let pairs = VERDICTS.into_iter().zip(self.verdicts).flat_map(|(from, row)| {
            VERDICTS.into_iter().zip(row).map(move |(to, answers)| VerdictChange {
                from,
                to,
                answers,
            })
        });
        let mut causes: Vec<CauseCount> = self
            .causes
            .into_iter()
            .map(|(cause, Caused { answers, verdict_changed })| CauseCount {
                cause,
                answers,
                verdict_changed,
            })
            .collect();
        causes.sort_by(|a, b| b.answers.cmp(&a.answers).then_with(|| a.cause.cmp(&b.cause)));
        (self.counts.compared > 0).then(|| Changes {
            verdicts: pairs.filter(|pair| pair.answers > 0).collect(),
            causes,
            worst: self.worst.into_rows(),
            ..self.counts
        })
    }
}

impl Borne {
    fn take(&mut self, answer: &Answer<'_>, slope: Option<&str>, load: &Load<'_>) {
        self.statements += 1;
        let borne = load.observed.iter().filter_map(|scope| match scope.outcome {
            CapacityOutcome::Never => Some((0.0, scope)),
            CapacityOutcome::Limited => Some((scope.load_kn_per_m2?, scope)),
            _ => None,
        });
        let least = borne.min_by(|a, b| {
            let order = |scope| scope_order(scope);
            a.0.total_cmp(&b.0).then_with(|| order(a.1.scope).cmp(&order(b.1.scope)))
        });
        let Some((kn_per_m2, scope)) = least else { return };
        if scope.outcome == CapacityOutcome::Never {
            self.never += 1;
        } else {
            self.limited += 1;
        }
        self.spread.take(kn_per_m2);
        let complete = load.observed.iter().all(|scope| {
            let open =
                matches!(scope.outcome, CapacityOutcome::NotChecked | CapacityOutcome::Undecided);
            scope.complete && !open
        });
        let place = Place { group: 0, then: spread::steps(kn_per_m2), line: answer.line };
        self.smallest.offer(place, || CapacityRow {
            of: row_name(answer),
            slope: slope.map(str::to_owned),
            load_kn_per_m2: kn_per_m2,
            of_the_job_kn_per_m2: load.of_the_job_kn_per_m2,
            scope: scope.scope,
            complete,
            check: scope.check.as_deref().map(str::to_owned),
            element: scope.element.as_deref().map(str::to_owned),
        });
    }

    fn add(&mut self, other: Self) {
        self.statements += other.statements;
        self.limited += other.limited;
        self.never += other.never;
        self.spread.add(&other.spread);
        self.smallest.add(other.smallest);
    }

    fn close(self) -> LoadCapacities {
        LoadCapacities {
            statements: self.statements,
            limited: self.limited,
            never: self.never,
            open: self.statements - self.limited - self.never,
            quantiles: self.spread.quantiles(),
            smallest: self.smallest.into_rows(),
        }
    }
}

/// Which lines are there, twice or not at all.
fn answered(
    seen: &Numbers,
    repeated: &Numbers,
    expected: Option<RangeInclusive<u64>>,
) -> LinesAnswered {
    let ends = seen.ends();
    // A range without an end goes on to the last line there is.
    let wanted = match (expected, ends) {
        (Some(of), ends) if *of.end() == u64::MAX => ends.map(|(_, last)| *of.start()..=last),
        (Some(of), _) => Some(of),
        (None, ends) => ends.map(|(first, last)| first..=last),
    };
    let gaps = || wanted.clone().into_iter().flat_map(|of| seen.gaps(of));
    LinesAnswered {
        first: ends.map(|(first, _)| first),
        last: ends.map(|(_, last)| last),
        without: gaps().map(|gap| gap.last - gap.first + 1).sum(),
        without_ranges: gaps().take(MOST_LISTED).collect(),
        repeated: repeated.count(),
        repeated_ranges: repeated.ranges().take(MOST_LISTED).collect(),
    }
}

/// Whether the figures of all answers are comparable: one number of the mechanics, and one revision of each set
/// of rules.
fn comparable(engines: &[EngineCount]) -> bool {
    let apart = |a: &EngineCount, b: &EngineCount| {
        a.model != b.model || (a.rules == b.rules && a.revision != b.revision)
    };
    engines.iter().enumerate().all(|(at, a)| engines.iter().skip(at).all(|b| !apart(a, b)))
}

fn named(groups: BTreeMap<String, Group>) -> Vec<NameCount> {
    let groups = groups.into_iter();
    groups
        .map(|(name, Group { answers, verdicts })| NameCount { name, answers, verdicts })
        .collect()
}

/// The most frequent first.
fn by_number(counts: BTreeMap<String, u64>) -> impl Iterator<Item = (String, u64)> {
    let mut counts: Vec<(String, u64)> = counts.into_iter().collect();
    counts.sort_by(|a, b| b.1.cmp(&a.1).then_with(|| a.0.cmp(&b.0)));
    counts.into_iter()
}

fn findings(found: BTreeMap<(Severity, String), u64>) -> Vec<FindingCount> {
    let mut counts: Vec<FindingCount> = found
        .into_iter()
        .map(|((severity, code), answers)| {
            let known = assessment::Kind::of_code(&code);
            FindingCount {
                severity,
                answers,
                scopes: known
                    .map(|kind| kind.scopes.iter().copied().map(scope_name).collect())
                    .unwrap_or_default(),
                source: known.map(|kind| kind.source.to_owned()),
                code,
            }
        })
        .collect();
    counts.sort_by(|a, b| {
        let number = b.answers.cmp(&a.answers);
        a.severity.cmp(&b.severity).then(number).then_with(|| a.code.cmp(&b.code))
    });
    counts
}

fn utilisation((check, spread): (Option<String>, Spread)) -> UtilisationSpread {
    UtilisationSpread {
        check,
        answers: spread.count(),
        max: spread.max(),
        quantiles: spread.quantiles(),
        bins: spread.bins(),
    }
}

/// Where an answer stands among the worst.
fn place_of_verdict(answer: &Answer<'_>, verdict: Verdict) -> Place {
    let group = match verdict {
        Verdict::Fails => 0,
        Verdict::Incomplete => 1,
        Verdict::HoldsWithWarnings => 2,
        Verdict::Holds => 3,
    };
    let used = answer.told.used().map_or(0, |used| spread::steps(used.max));
    Place { group, then: u64::MAX - used, line: answer.line }
}

fn worst_row(answer: &Answer<'_>, verdict: Verdict, codes: &[(Severity, &str)]) -> WorstRow {
    let Answer { of, told, .. } = answer;
    let engine = &told.engine;
    let used = told.used();
    let owned = |text: Option<&str>| text.map(str::to_owned);
    let decides = match verdict {
        Verdict::Fails => Some(Severity::Failure),
        Verdict::Incomplete => Some(Severity::Incomplete),
        Verdict::HoldsWithWarnings => Some(Severity::Warning),
        Verdict::Holds => None,
    };
    let codes = codes.iter().filter(|(severity, _)| Some(*severity) == decides);
    let own = engine.version == VERSION && engine.model == MODEL;
    WorstRow {
        of: row_name(answer),
        job: *of,
        rules: engine.rules.id.clone().into_owned(),
        other_engine: (!own).then(|| format!("{} ({})", engine.version, engine.model)),
        hook_part: owned(told.hook_part()),
        verdict,
        recorded_verdict: told
            .difference
            .as_ref()
            .and_then(|difference| difference.recorded_verdict),
        utilisation: used.map(|used| used.max),
        slope: owned(used.and_then(|used| used.slope.as_deref())),
        element: used.map(|used| used.element.clone().into_owned()),
        check: used.map(|used| used.check.clone().into_owned()),
        combination: used.map(|used| used.combination.clone().into_owned()),
        codes: codes.map(|(_, code)| (*code).to_owned()).collect(),
        headline: owned(told.headline()),
    }
}

fn row_name(answer: &Answer<'_>) -> RowName {
    RowName {
        line: answer.line,
        id: answer.id.as_deref().map(str::to_owned),
        reference: answer.told.reference().map(str::to_owned),
    }
}

const fn scope_order(scope: CapacityScope) -> u8 {
    match scope {
        CapacityScope::Fixing => 0,
        CapacityScope::Rail => 1,
        CapacityScope::Modules => 2,
        CapacityScope::Rafters => 3,
    }
}

const fn of_verdict(counts: &mut VerdictCounts, verdict: Verdict) -> &mut u64 {
    match verdict {
        Verdict::Holds => &mut counts.holds,
        Verdict::HoldsWithWarnings => &mut counts.holds_with_warnings,
        Verdict::Fails => &mut counts.fails,
        Verdict::Incomplete => &mut counts.incomplete,
    }
}

const fn add_verdicts(ours: &mut VerdictCounts, theirs: &VerdictCounts) {
    let VerdictCounts { holds, holds_with_warnings, fails, incomplete } = theirs;
    ours.holds += *holds;
    ours.holds_with_warnings += *holds_with_warnings;
    ours.fails += *fails;
    ours.incomplete += *incomplete;
}

const fn add_lines(ours: &mut LinesRead, theirs: &LinesRead) {
    let LinesRead { read, answers, problems, ends, broken_off, unread } = theirs;
    ours.read += *read;
    ours.answers += *answers;
    ours.problems += *problems;
    ours.ends += *ends;
    ours.broken_off += *broken_off;
    ours.unread += *unread;
}

fn place_of<T: PartialEq>(all: &[T], one: &T) -> Option<usize> {
    all.iter().position(|other| other == one)
}

fn entry<'m, T: Default>(map: &'m mut BTreeMap<String, T>, name: &str) -> &'m mut T {
    map.entry(name.to_owned()).or_default()
}

fn merge<K: Ord, T: Default>(
    ours: &mut BTreeMap<K, T>,
    theirs: BTreeMap<K, T>,
    add: fn(&mut T, T),
) {
    for (name, of) in theirs {
        add(ours.entry(name).or_default(), of);
    }
}
