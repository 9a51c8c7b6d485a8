//! Findings by cause, and the reason of the verdict: what a reader is told first.

use std::cmp::Reverse;

use super::fact::Fact;
use super::value::{Utilisation, Value};
use super::{Assessment, Finding, Kind, Scope, TakenOver, Verdict};
use crate::units::Length;

/// All findings of one kind: one cause, wherever it shows.
#[derive(Debug, Clone)]
pub struct Cause<'a> {
    /// The most serious: what is used most, or misses by most what is asked for.
    pub first: &'a Finding,
    /// The others.
    pub others: Vec<&'a Finding>,
}

/// What of the roof a finding names.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Spot {
    /// A hook, rail, module, field or part, by its name.
    Named(String),
    /// A rafter, by index.
    Rafter(usize),
    /// An obstacle, by its index in the request.
    Obstacle(usize),
    /// A side of the outline, by index.
    Side(usize),
}

/// Why the verdict is what it is.
#[derive(Debug, Clone)]
pub enum Reason<'a> {
    /// Every check ran and passed, and nobody has to act.
    Nothing,
    /// The most serious cause, and how many causes leave that verdict.
    Found(&'a Finding, usize),
    /// Nothing but declarations: the first, and how many there are.
    Declared(&'a TakenOver, usize),
}

impl Cause<'_> {
    /// Its kind.
    #[must_use]
    pub const fn kind(&self) -> &'static Kind {
        self.first.kind()
    }

    /// Every finding of it.
    pub fn findings(&self) -> impl Iterator<Item = &Finding> {
        std::iter::once(self.first).chain(self.others.iter().copied())
    }

    /// Whether the figures of all its findings are the same, so that those of one can stand for all.
    #[must_use]
    pub fn is_alike(&self) -> bool {
        let figures = |finding: &Finding| -> Vec<(&str, Value)> {
            let all = finding.fact.parameters().into_iter();
            all.filter(|(name, _)| !says_where(name)).collect()
        };
        let of_first = figures(self.first);
        self.others.iter().all(|other| figures(other) == of_first)
    }

    /// Whether its first finding is known to be the worst of them: it is used most, or misses by most what
    /// is asked for.
    #[must_use]
    pub fn is_ranked(&self) -> bool {
        let fact = &self.first.fact;
        fact.utilisation().is_some() || fact.misses_by().is_some()
    }

    /// The lowest and the highest utilisation of the others, where each has one and tells of one place.
    #[must_use]
    pub fn others_used(&self) -> Option<[Utilisation; 2]> {
        if self.others.iter().any(|other| other.fact.spots().len() != 1) {
            return None;
        }
        let used = self.others.iter().map(|other| other.fact.utilisation());
        let used: Vec<f64> =
            used.map(|used| used.map(Utilisation::written)).collect::<Option<_>>()?;
        let low = used.iter().copied().reduce(f64::min)?;
        let high = used.iter().copied().reduce(f64::max)?;
        Some([low, high].map(Utilisation::new))
    }

    /// What the other findings name and the first does not, each once.
    #[must_use]
    pub fn elsewhere(&self) -> Vec<Spot> {
        let named = self.first.fact.spots();
        let mut out: Vec<Spot> = Vec::new();
        for spot in self.others.iter().flat_map(|finding| finding.fact.spots()) {
            if !named.contains(&spot) && !out.contains(&spot) {
                out.push(spot);
            }
        }
        out
    }
}

impl Assessment {
    /// The findings by cause, most serious first.
    #[must_use]
    pub fn causes(&self) -> Vec<Cause<'_>> {
        by_cause(self.findings.iter())
    }

    /// Why the verdict is what it is.
    #[must_use]
    pub fn reason(&self) -> Reason<'_> {
        let verdict = self.verdict();
        if verdict == Verdict::Holds {
            return Reason::Nothing;
        }
        let decides = |finding: &&Finding| Verdict::from(finding.kind().severity) == verdict;
        let causes = by_cause(self.that_matter().filter(decides));
        let declared = if verdict == Verdict::HoldsWithWarnings { &*self.taken_over } else { &[] };
        match (causes.first(), declared.first()) {
            (Some(cause), _) => Reason::Found(cause.first, causes.len() + declared.len()),
            (None, Some(taken)) => Reason::Declared(taken, declared.len()),
            (None, None) => Reason::Nothing,
        }
    }

    /// The scopes that were not asked.
    pub fn not_assessed(&self) -> impl Iterator<Item = Scope> {
        Scope::ALL.into_iter().filter(|scope| self.verdicts.on(*scope).is_none())
    }
}

fn by_cause<'a>(findings: impl Iterator<Item = &'a Finding>) -> Vec<Cause<'a>> {
    let mut causes: Vec<Cause<'_>> = Vec::new();
    for finding in findings {
        match causes.iter_mut().find(|cause| cause.kind().code == finding.kind().code) {
            Some(cause) if finding.fact.misses_by() > cause.first.fact.misses_by() => {
                cause.others.insert(0, std::mem::replace(&mut cause.first, finding));
            }
            Some(cause) => cause.others.push(finding),
            None => causes.push(Cause { first: finding, others: Vec::new() }),
        }
    }
    causes
}

/// Sorts findings, most serious first: by severity, and those that can be neither built nor used
/// before those that are used too much, which go by how much.
pub(super) fn sort(findings: &mut [Finding]) {
    let used = |fact: &Fact| fact.utilisation().map_or(f64::INFINITY, Utilisation::written);
    // All utilisations are positive: their bits have their order.
    findings.sort_by_cached_key(|f| (f.kind().severity, Reverse(used(&f.fact).to_bits())));
}

/// Parameters that say where, those that say it best first; of one row all that are there.
const SAYING_WHERE: &[&[&str]] = &[
    &["hooks"],
    &["hook"],
    &["rail"],
    &["element", "others"],
    &["module"],
    &["obstacle"],
    &["rafters"],
    &["rafter"],
    &["sides"],
    &["field"],
    &["parts"],
];

fn says_where(parameter: &str) -> bool {
    SAYING_WHERE.iter().any(|row| row.contains(&parameter))
}

impl Fact {
    /// By how much it misses a distance or length asked for, where it has no utilisation to tell.
    fn misses_by(&self) -> Option<Length> {
        match self {
            Self::FreeEnd { free, limit, .. } => {
                // Where nothing holds the rail at all, all of it is free.
                Some(free.map_or(Length::from_mm(f64::INFINITY), |free| free - *limit))
            }
            Self::LongerThanContinuous { length, limit, .. } => Some(*length - *limit),
            Self::OutsideClampZone { off, .. } | Self::MissesRafter { off, .. } => Some(*off),
            Self::InsideObstacleClearance { gap, clearance, .. } => Some(*clearance - *gap),
            Self::InsideEdgeDistance { have, need, .. }
            | Self::NearEdge { have, need, .. }
            | Self::InsideFireDistance { have, need, .. } => Some(*need - *have),
            _ => None,
        }
    }

    /// What of the roof it names.
    #[must_use]
    pub fn spots(&self) -> Vec<Spot> {
        let parameters = self.parameters();
        let said_by = |names: &&[&str]| -> Vec<Spot> {
            let said = parameters.iter().filter(|(name, _)| names.contains(name));
            said.flat_map(|(name, value)| spots(name, value)).collect()
        };
        let mut rows = SAYING_WHERE.iter().map(said_by);
        rows.find(|spots| !spots.is_empty()).unwrap_or_default()
    }
}

fn spots(name: &str, value: &Value) -> Vec<Spot> {
    let index: fn(usize) -> Spot = match name {
        "obstacle" => Spot::Obstacle,
        "sides" => Spot::Side,
        "rafter" | "rafters" => Spot::Rafter,
        // How many hooks there are says nothing of where.
        _ => match value {
            Value::Name(name) => return vec![Spot::Named(name.clone())],
            Value::Names(names) => return names.iter().cloned().map(Spot::Named).collect(),
            _ => return Vec::new(),
        },
    };
    let at = |one: u64| usize::try_from(one).ok().map(index);
    match value {
        Value::Count(one) => at(*one).into_iter().collect(),
        Value::Numbers(several) => several.iter().filter_map(|one| at(*one)).collect(),
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assessment::{Declaration, DeclaredBy, Findings, Place, Remarks};
    use crate::checks::Check;

    fn screws(element: &str, used: f64) -> Fact {
        Fact::ScrewOverloaded {
            element: element.to_owned(),
            check: Check::Screws,
            utilisation: Utilisation::new(used),
            combination: "1".to_owned(),
            others: Vec::new(),
            bound: None,
        }
    }

    fn assessed(facts: Vec<Fact>, declared: &[&str]) -> Assessment {
        let found = facts.into_iter().map(|fact| Finding { fact, place: Place::Whole });
        let declarations = declared.iter().map(|code| Declaration {
            check: Kind::of_code(code).expect("a code"),
            by: DeclaredBy::Approved,
            who: "A. Engineer".to_owned(),
            document: "S-1".to_owned(),
        });
        let remarks = Remarks { declarations: declarations.collect(), ..Remarks::default() };
        Assessment::of(Findings(found.collect()), &remarks)
    }

    #[test]
    fn one_cause_is_one_line_with_all_its_places_the_worst_first() {
        let short = Fact::TooFewHooks { rail: "A3".to_owned(), hooks: 1 };
        let facts = vec![
            screws("A1-2", 1.1),
            Fact::StiffnessUnknown {},
            screws("A2-1", 1.4),
            short,
            screws("A1-4", 1.2),
        ];
        let assessed = assessed(facts, &[]);
        let causes = assessed.causes();
        let codes: Vec<&str> = causes.iter().map(|cause| cause.kind().code).collect();
        let all = ["rail.too-few-hooks", "screw.overloaded", "clearance.stiffness-unknown"];
        assert_eq!(codes, all);
        let named = |name: &str| Spot::Named(name.to_owned());
        assert_eq!(causes[1].first.fact.spots(), [named("A2-1")]);
        assert_eq!(causes[1].elsewhere(), [named("A1-4"), named("A1-2")]);
        assert!(matches!(
            assessed.reason(),
            Reason::Found(Finding { fact: Fact::TooFewHooks { .. }, .. }, 2)
        ));
    }

    /// The figures of one place are never told as those of another.
    #[test]
    fn figures_stand_for_all_only_where_they_are_all_the_same() {
        let free_end = |rail: &str, free: f64| Fact::FreeEnd {
            rail: rail.to_owned(),
            end: crate::assessment::End::Left,
            limit: Length::from_mm(400.0),
            free: Some(Length::from_mm(free)),
            rafter_inside: None,
            rafter_inside_x: None,
            arm: None,
            rafter_outside: None,
            rafter_outside_x: None,
            longer: None,
            field: Some("A".to_owned()),
        };
        let first = |facts: Vec<Fact>| {
            let assessed = assessed(facts, &[]);
            let causes = assessed.causes();
            let [cause] = &causes[..] else { panic!("{causes:?}") };
            let used = cause.others_used().map(|range| range.map(Utilisation::written));
            (cause.first.fact.spots(), cause.is_alike(), used)
        };
        let named = |name: &str| vec![Spot::Named(name.to_owned())];
        let alike = vec![free_end("A1", 431.0), free_end("A2", 431.0)];
        assert_eq!(first(alike), (named("A1"), true, None));
        let differing = vec![free_end("A1", 431.0), free_end("A2", 520.0), free_end("A3", 431.0)];
        assert_eq!(first(differing), (named("A2"), false, None));
        let used = vec![screws("A1-2", 1.1), screws("A2-1", 1.4), screws("A1-4", 1.2)];
        assert_eq!(first(used), (named("A2-1"), false, Some([1.1, 1.2])));
    }

    #[test]
    fn a_declaration_is_the_reason_where_nothing_else_is() {
        let stiffness = "clearance.stiffness-unknown";
        let held = assessed(vec![Fact::StiffnessUnknown {}], &[stiffness]);
        assert_eq!(held.verdict(), Verdict::HoldsWithWarnings);
        assert!(held.findings.is_empty());
        assert!(matches!(held.reason(), Reason::Declared(_, 1)));
        let fails = assessed(vec![Fact::StiffnessUnknown {}, screws("A1-1", 1.2)], &[stiffness]);
        assert!(matches!(fails.reason(), Reason::Found(_, 1)));
        assert!(matches!(assessed(Vec::new(), &[]).reason(), Reason::Nothing));
    }
}
