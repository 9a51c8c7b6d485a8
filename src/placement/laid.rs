//! What laying out results in: rails, hooks, modules and rafters, each with its checks.

use crate::checks::clearance;
use crate::checks::foot::FootModel;
use crate::checks::module::ModuleCheck;
use crate::checks::segment::{Candidate, Limit, Segment, SegmentResult, Setting, Workspace};
use crate::checks::{Check, Governing, most_used};
use crate::codes::RafterSection;
use crate::codes::cited::Step;
use crate::hardware::NormalSpring;
use crate::mechanics::sweep::Deflection;
use crate::units::{Force, Length, Moment, Pressure};

use super::Job;
use super::array::Placed;
use super::footing::Footing;
use super::rail_lines::RailLine;
use super::search::Found;

/// A layout with all its checks.
#[derive(Debug, Clone)]
pub struct Layout {
    /// Ways the feet are set; every hook's place names one of them.
    pub footings: Vec<Footing>,
    /// Rails with their hooks.
    pub rails: Vec<Rail>,
    /// Modules.
    pub modules: Vec<ModuleResult>,
    /// Rafters that carry hooks.
    pub rafters: Vec<RafterResult>,
    /// What hooks in any pattern come to, where all rails of a field have theirs on the same rafters.
    pub in_any_pattern: Option<InAnyPattern>,
}

/// The layout of the same job with hooks in any pattern, where every rail holds on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct InAnyPattern {
    /// Its hooks.
    pub hooks: usize,
    /// No fewer pass on any rail.
    pub proven: bool,
}

impl Layout {
    /// Every segment of every rail.
    pub fn segments(&self) -> impl Iterator<Item = &LaidSegment> {
        self.rails.iter().flat_map(|r| &r.segments)
    }

    /// Every hook, rail by rail from left to right: rail, segment and hook, and its place.
    pub fn hooks(&self) -> impl Iterator<Item = ([usize; 3], &Candidate)> {
        hooks_of(&self.rails)
    }

    /// The lower rail that an upper one lies on here.
    #[must_use]
    pub fn lower_rail_at(&self, upper: &RailLine, x: Length) -> Option<&RailLine> {
        let lines = self.rails.iter().map(|rail| &rail.line).filter(|line| line.is_beneath());
        let mut under = lines.filter(|line| line.across == x && line.field() == upper.field());
        under.find(|line| {
            line.segments.iter().any(|of| of[0] <= upper.across && upper.across <= of[1])
        })
    }

    /// Every check that was run, with what governs it.
    pub fn checks(&self) -> impl Iterator<Item = ((Check, Element), Governing)> {
        let of_rails = self.rails.iter().enumerate().flat_map(|(r, rail)| {
            rail.segments.iter().enumerate().flat_map(move |(s, laid)| {
                let checks = laid.result.iter().flat_map(SegmentResult::checks);
                checks.map(move |((check, hook), governing)| {
                    let element = hook.map_or(Element::Rail(r), |h| Element::Hook([r, s, h]));
                    ((check, element), governing)
                })
            })
        });
        let of_modules = self.modules.iter().enumerate().flat_map(|(m, module)| {
            module.by_check().map(|(check, governing)| ((check, Element::Module(m)), governing))
        });
        let of_rafters = self.rafters.iter().enumerate().flat_map(|(r, rafter)| {
            let checks = rafter.utilisation.into_iter().flatten();
            checks.map(move |governing| ((Check::Rafter, Element::Rafter(r)), governing))
        });
        of_rails.chain(of_modules).chain(of_rafters)
    }

    /// How far the arm of a hook, by rail, segment and place, comes down at most on its foot; `None` where it
    /// is taken as rigid.
    #[must_use]
    pub fn movement(&self, [rail, segment, hook]: [usize; 3]) -> Option<Length> {
        let laid = &self.rails[rail].segments[segment];
        let stands = &laid.segment.candidates[laid.found.subset[hook]];
        laid.movement(hook, &self.footings[stands.setting].spring)
    }

    /// The least height of rail bolts in their slots, from the end nearer to the roof, at which rails on feet
    /// set in this way are as far from the tile below as they come down, and as far as is asked for; and that
    /// distance. `None` where no hook is set so.
    #[must_use]
    pub fn least_slot(&self, job: &Job, setting: usize) -> Option<[Length; 2]> {
        let footing = self.footings.get(setting)?;
        let set = self.hooks().filter(|(_, place)| place.setting == setting);
        let moved = set.map(|(at, _)| self.movement(at).unwrap_or_default());
        let apart = moved.reduce(Length::max)?.max(job.wishes.min_clearance);
        Some([apart - footing.lowest_rail, apart])
    }

    /// What bends the plate of a foot most in any combination of strength, by what it bears as a bar: its
    /// hook, the combination, the moment, and how far that uses it. `None` where tests or an approval stand
    /// behind the resistance of the hook, which then covers the plate.
    #[must_use]
    pub fn plate_bent_most(&self, job: &Job) -> Option<BentPlate> {
        let bears = job.hook.plate_bending?;
        let mut most: Option<BentPlate> = None;
        for (hook, place) in self.hooks() {
            let laid = &self.rails[hook[0]].segments[hook[1]];
            let forces = laid.result.iter().flat_map(|result| result.forces.iter());
            for (combination, (case, of_hooks)) in laid.segment.cases.iter().zip(forces).enumerate()
            {
                let [normal, slope] = of_hooks[hook[2]];
                let moment = place.foot.root_moment(normal, slope);
                let is_more = most.is_none_or(|most| moment > most.moment);
                if matches!(case.limit, Limit::Strength) && is_more {
                    most = Some(BentPlate { hook, combination, moment, used: moment / bears });
                }
            }
        }
        most
    }

    /// The rail that a check of rails uses most.
    #[must_use]
    pub fn rail_used_most_by(&self, check: Check) -> Option<usize> {
        match most_used(self.checks().filter(|((of, _), _)| *of == check))?.0 {
            (_, Element::Rail(rail)) => Some(rail),
            _ => None,
        }
    }

    /// The hook with the largest utilisation, of equals the first: rail, segment and hook.
    #[must_use]
    pub fn most_used_hook(&self) -> Option<[usize; 3]> {
        let used = |[r, s, h]: [usize; 3]| {
            let result = self.rails[r].segments[s].result.as_ref();
            result.map_or(0.0, |result| result.hooks[h].governing().1.utilisation)
        };
        let hooks = self.hooks().map(|(at, _)| (at, used(at)));
        hooks.reduce(|most, next| if next.1 > most.1 { next } else { most }).map(|(at, _)| at)
    }
}

/// The plate of a foot under the moment of its hook.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BentPlate {
    /// Rail, segment and hook.
    pub hook: [usize; 3],
    /// Combination.
    pub combination: usize,
    /// Moment where the arm rises from it.
    pub moment: Moment,
    /// By what it bears as a bar.
    pub used: f64,
}

/// What a check is of: places in the lists of a layout.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Element {
    /// A rail.
    Rail(usize),
    /// A hook: rail, segment and hook.
    Hook([usize; 3]),
    /// A module.
    Module(usize),
    /// A rafter of those that carry hooks.
    Rafter(usize),
}

/// A rail with its hooks.
#[derive(Debug, Clone)]
pub struct Rail {
    /// Its line.
    pub line: RailLine,
    /// Its segments, left to right.
    pub segments: Vec<LaidSegment>,
    /// Names of its hooks, left to right.
    pub hooks: Vec<String>,
}

impl Rail {
    /// How far the most used of it and its hooks is used; `None` where nothing could be checked.
    #[must_use]
    pub fn most_used(&self) -> Option<f64> {
        let results = self.segments.iter().filter_map(|laid| laid.result.as_ref());
        let most = most_used(results.flat_map(SegmentResult::checks));
        most.map(|(_, governing)| governing.utilisation)
    }

    /// Name of a hook, by segment and place in it: numbers run through the segments.
    #[must_use]
    pub fn name_of(&self, [segment, hook]: [usize; 2]) -> &str {
        let before: usize = self.segments[..segment].iter().map(|s| s.found.subset.len()).sum();
        self.hooks.get(before + hook).map_or("", String::as_str)
    }

    /// How far the arm of the hook of this name would come down at most if it had this spring: not at all
    /// where it carries nothing. `None` where the arm is taken as rigid.
    #[must_use]
    pub fn movement_of(&self, hook: &str, spring: &NormalSpring) -> Option<Length> {
        let mut places = self
            .segments
            .iter()
            .flat_map(|laid| (0..laid.found.subset.len()).map(move |h| (laid, h)));
        let at = self.hooks.iter().position(|name| name == hook);
        match at.and_then(|at| places.nth(at)) {
            Some((laid, h)) => laid.movement(h, spring),
            None => spring.stiffness.map(|_| Length::ZERO),
        }
    }

    /// The checks of the rail over all its segments.
    #[must_use]
    pub fn used(&self) -> RailUsed {
        let mut used = RailUsed {
            bending: Governing::NONE,
            deflection: Governing::NONE,
            deflected: None,
            splice: None,
            crossing: None,
        };
        for result in self.segments.iter().filter_map(|laid| laid.result.as_ref()) {
            let SegmentResult { bending, deflection, deflected, splice, crossings, .. } = result;
            used.splice = used.splice.into_iter().chain(*splice).reduce(larger);
            let crossings = crossings.iter().map(|crossing| crossing.used);
            used.crossing = used.crossing.into_iter().chain(crossings).reduce(larger);
            used.bending.see(bending.utilisation, bending.combination);
            if deflection.utilisation > used.deflection.utilisation {
                used.deflected = *deflected;
            }
            used.deflection.see(deflection.utilisation, deflection.combination);
        }
        used
    }

    /// Names the hooks by rail and number.
    pub(super) fn count_hooks(&mut self) {
        let count: usize = self.segments.iter().map(|s| s.found.subset.len()).sum();
        self.hooks = (1..=count).map(|number| format!("{}-{number}", self.line.id)).collect();
    }
}

/// What governs the checks of a rail over all its segments.
#[derive(Debug, Clone, Copy)]
pub struct RailUsed {
    /// Bending.
    pub bending: Governing,
    /// Deflection.
    pub deflection: Governing,
    /// Where deflection governs.
    pub deflected: Option<Deflection>,
    /// Bending of splices, where it is checked.
    pub splice: Option<Governing>,
    /// Connectors on lower rails, where it crosses some.
    pub crossing: Option<Governing>,
}

impl RailUsed {
    /// What governs the rail.
    #[must_use]
    pub fn governing(&self) -> Governing {
        let rail = larger(self.bending, self.deflection);
        self.splice.into_iter().chain(self.crossing).fold(rail, larger)
    }
}

/// The one that uses more, or the first.
#[must_use]
pub fn larger(first: Governing, second: Governing) -> Governing {
    most_used([((), first), ((), second)]).map_or(first, |most| most.1)
}

/// A segment with its hooks.
#[derive(Debug, Clone)]
pub struct LaidSegment {
    /// Loads, candidates and checks.
    pub segment: Segment,
    /// What the search found.
    pub found: Found,
    /// Checks of the subset taken; `None` when the rail is not stable on it.
    pub result: Option<SegmentResult>,
    /// Where its pieces meet: as the statics have them, until the rails are cut.
    pub splices: Vec<Length>,
}

impl LaidSegment {
    /// A segment on the hooks found, checked.
    pub(super) fn checked(segment: Segment, found: Found, splices: Vec<Length>) -> Self {
        let mut laid = Self { segment, found, result: None, splices };
        laid.check();
        laid
    }

    /// Checks it on the hooks it has.
    fn check(&mut self) {
        self.result = self.segment.check_all(&self.found.subset);
        self.check_splices();
    }

    /// Has the pieces meet elsewhere.
    pub fn splice_at(&mut self, splices: Vec<Length>) {
        self.splices = splices;
        self.check_splices();
    }

    fn check_splices(&mut self) {
        if let Some(result) = &mut self.result {
            result.splice = self.segment.splices_used(&self.found.subset, &self.splices);
        }
    }

    /// What bends its splices most in one case, with its provenance.
    #[must_use]
    pub fn splice_steps(&self, case: usize) -> Vec<Step> {
        self.segment.splice_steps(&self.found.subset, &self.splices, case)
    }

    /// Where it lies on lower rails, left to right; nowhere where hooks hold it.
    pub fn crossings(&self) -> impl Iterator<Item = Length> {
        let borne = self.segment.borne.as_ref().map(|_| self.segment.normal.candidates());
        borne.into_iter().flatten().copied().map(Length::from_mm)
    }

    /// The places taken, left to right.
    pub fn hooks(&self) -> impl Iterator<Item = &Candidate> {
        self.found.subset.iter().map(|place| &self.segment.candidates[*place])
    }

    /// Whether screws and timber of one of its hooks, with this foot set in this way, bear its forces
    /// as far as is `allowed` in every strength combination; false where the rail is not stable. Where
    /// the rules are silent on the screws the timber alone is asked about.
    pub(super) fn foot_holds(
        &self,
        hook: usize,
        foot: &FootModel,
        setting: &Setting,
        allowed: impl Fn(f64) -> bool,
    ) -> bool {
        let Some(result) = &self.result else { return false };
        let cases = self.segment.cases.iter().zip(result.forces.iter()).enumerate();
        cases.filter(|(_, (case, _))| matches!(case.limit, Limit::Strength)).all(
            |(case, (_, forces))| {
                let [normal, slope] = forces[hook];
                allowed(setting.foot_used(foot, case, normal, slope))
            },
        )
    }

    /// How far a hook's arm comes down at most if it had this spring; `None` where it is taken as rigid.
    pub(super) fn movement(&self, hook: usize, spring: &NormalSpring) -> Option<Length> {
        let stiffness = spring.stiffness?;
        let forces = self.result.iter().flat_map(|result| result.forces.iter());
        let cases = self.segment.cases.iter().zip(forces);
        let in_service = cases.filter(|(case, _)| matches!(case.limit, Limit::Service));
        let pressing = in_service.map(|(_, forces)| {
            let [normal, slope] = forces[hook];
            clearance::pressing(spring, normal, slope)
        });
        Some(pressing.fold(Force::ZERO, Force::max) / stiffness)
    }

    /// Takes another subset if it passes on this segment; leaves everything as it was otherwise.
    pub(super) fn take(&mut self, subset: Vec<usize>, bound: f64, space: &mut Workspace) -> bool {
        let passes = self.segment.within_alone(&subset, bound, space).is_some();
        if passes {
            self.found.subset = subset;
            self.check();
        }
        passes
    }
}

/// A module with its checks.
#[derive(Debug, Clone)]
pub struct ModuleResult {
    /// Where it is.
    pub placed: Placed,
    /// Largest pressing design load.
    pub press: Pressure,
    /// Largest lifting design load.
    pub lift: Pressure,
    /// Combinations these occur in, the largest lift on one of its clamps, and the worst slip.
    pub combinations: [usize; 4],
    /// Rail lines from the nearer module end, lower and upper.
    pub clamps: [Length; 2],
    /// Utilisation.
    pub check: ModuleCheck,
}

impl ModuleResult {
    /// Every check of the module and its clamps with what governs it.
    #[must_use]
    pub const fn by_check(&self) -> [(Check, Governing); 4] {
        let ModuleCheck { press, lift, clamp, clamp_lift: _, clamp_slope: _, slip } = self.check;
        let [pressing, lifting, clamped, slipping] = self.combinations;
        let slip = match slip {
            Some(slip) => slip,
            None => 0.0,
        };
        [
            (Check::Module, Governing { utilisation: press, combination: pressing }),
            (Check::Module, Governing { utilisation: lift, combination: lifting }),
            (Check::Clamp, Governing { utilisation: clamp, combination: clamped }),
            (Check::ClampSlip, Governing { utilisation: slip, combination: slipping }),
        ]
    }
}

/// A rafter with the hooks it carries.
#[derive(Debug, Clone)]
pub struct RafterResult {
    /// Which.
    pub rafter: usize,
    /// Its hooks: rail, segment, hook.
    pub hooks: Vec<[usize; 3]>,
    /// Largest pressing sum.
    pub press: Force,
    /// Largest lifting sum, as a magnitude.
    pub lift: Force,
    /// Largest sum down the slope.
    pub slope: Force,
    /// Weight of the array on it against what it carries already.
    pub added_share: f64,
    /// Its section, as narrow as it was found.
    pub section: RafterSection,
    /// Bending, shear, when its span is known.
    pub utilisation: Option<[Governing; 2]>,
    /// The same without the array, as soon as the layout stands.
    pub before: Option<[Governing; 2]>,
}

impl RafterResult {
    /// What governs the rafter, when its span is known.
    #[must_use]
    pub fn governing(&self) -> Option<Governing> {
        self.utilisation.map(|[bending, shear]| larger(bending, shear))
    }
}

/// Every hook, rail by rail from left to right: rail, segment and hook, and its place.
pub(super) fn hooks_of(rails: &[Rail]) -> impl Iterator<Item = ([usize; 3], &Candidate)> {
    rails.iter().enumerate().flat_map(|(r, rail)| {
        rail.segments.iter().enumerate().flat_map(move |(s, laid)| {
            laid.hooks().enumerate().map(move |(h, place)| ([r, s, h], place))
        })
    })
}
