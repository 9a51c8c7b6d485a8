//! What layouts come to wherever the first rafter stands, as the answer shows it.

use crate::assessment::{Assessment, Finding, Severity, Verdict};
use crate::language::{Language, tally};
use crate::parts::tally::Tally;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::service::intake::Phase;
use crate::service::rounding::{mm, utilisation};
use crate::units::Length;
use crate::wire::parts::{OrderedKind, PartLine};
use crate::wire::phases::{PhaseAnswer, PhasesAnswer, ShownBecause};

use super::findings::verdict;
use super::parts::{Ordered, OrderedSlope, lines};
use super::worst_of;

/// A phase laid out.
#[derive(Debug)]
pub struct LaidPhase<'a> {
    /// Where its rafters stand.
    pub phase: &'a Phase,
    /// Its job.
    pub job: &'a Job,
    /// Its layout.
    pub layout: &'a Layout,
    /// What that comes to.
    pub assessed: &'a Assessment,
    /// What is ordered for it.
    pub ordered: Ordered<'a>,
    /// Whether a limit ended its search.
    pub cut_short: bool,
}

/// Phases by their index that are spoken of.
#[derive(Debug, Clone, Copy)]
pub struct Picked {
    /// Needs the fewest hooks of those that do not fail.
    pub best: Option<usize>,
    /// Needs the most hooks of those that do not fail.
    pub worst: Option<usize>,
    /// Is shown.
    pub shown: usize,
    /// Why that one.
    pub because: ShownBecause,
}

/// All phases, and the order that suffices for those that do not fail.
#[must_use]
pub fn phases(
    each: &[LaidPhase<'_>],
    step: Length,
    picked: Picked,
    language: Language,
) -> PhasesAnswer {
    let Picked { best, worst, shown, because } = picked;
    let hooks = |at: usize| each.get(at).map(LaidPhase::hooks);
    let passing = || each.iter().filter(|of| !of.fails());
    let orders: Vec<Vec<PartLine>> = passing().map(|of| of.lines(language)).collect();
    PhasesAnswer {
        step_mm: mm(step.mm()),
        failing: (each.len() - passing().count()) as u64,
        least_hooks: best.and_then(hooks),
        most_hooks: worst.and_then(hooks),
        best: best.map(|at| at as u64),
        worst: worst.map(|at| at as u64),
        shown: shown as u64,
        shown_because: because,
        order: most_of(&orders, language),
        phases: each.iter().map(LaidPhase::answer).collect(),
    }
}

impl LaidPhase<'_> {
    fn fails(&self) -> bool {
        self.assessed.verdict() == Verdict::Fails
    }

    fn hooks(&self) -> u64 {
        self.layout.hooks().count() as u64
    }

    fn lines(&self, language: Language) -> Vec<PartLine> {
        lines(&[OrderedSlope::alone(self.job, self.layout)], &self.ordered, language)
    }

    fn answer(&self) -> PhaseAnswer {
        let Phase { first_mm, spacing_mm, count } = *self.phase;
        let mut matter = self.assessed.that_matter().map(Finding::kind);
        PhaseAnswer {
            first_mm,
            spacing_mm,
            count: u64::from(count),
            verdict: verdict(self.assessed.verdict()),
            hooks: self.hooks(),
            utilisation: utilisation(worst_of(self.job, self.layout).used),
            fails_by: matter.find(|kind| kind.severity == Severity::Failure).map(|kind| kind.code),
            cut_short: self.cut_short,
        }
    }
}

/// Of every line the most that any of several orders has.
fn most_of(orders: &[Vec<PartLine>], language: Language) -> Vec<PartLine> {
    let mut most: Vec<PartLine> = Vec::new();
    for line in orders.iter().flatten() {
        match most.iter_mut().find(|known| is_same(known, line)) {
            Some(known) if line.needed > known.needed => *known = line.clone(),
            Some(_) => {}
            None => most.push(line.clone()),
        }
    }
    for line in &mut most {
        let alike = |own: &PartLine| is_same(own, line) && own.needed == line.needed;
        if !orders.iter().all(|order| order.iter().any(alike)) {
            let places = orders.len() as u64;
            line.why = tally::reason(&Tally::MostOfPlaces { places }, language);
        }
    }
    // As in any order: by kind, the longest and thickest first, but clamps in the order of the fields.
    let size = |line: &PartLine| match line.kind {
        OrderedKind::MidClamp | OrderedKind::EndClamp => 0.0,
        _ => line.size_mm.unwrap_or_default(),
    };
    most.sort_by(|a, b| a.kind.cmp(&b.kind).then(size(b).total_cmp(&size(a))));
    most
}

/// Whether two lines are of the same part.
fn is_same(a: &PartLine, b: &PartLine) -> bool {
    (a.kind, &a.part, a.size_mm, a.module_mm) == (b.kind, &b.part, b.size_mm, b.module_mm)
}
