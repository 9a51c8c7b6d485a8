//! Everything an assessment can find: a code, what it means, how much it matters to which scope, and
//! the figures it comes with.
//!
//! A fact has no words: `language` makes a sentence of each, in every language, or does not compile.

use super::value::{
    Bound, CuttingAim, EdgeName, End, HeldBy, ObstacleUnknown, Parameter, PartName, PassageName,
    PatternAsked, RafterCheck, RuleOf, RuleValue, Sense, Share, SideName, SlopeEnd, SpliceKind,
    SplicePlace, Utilisation, Value, ValueKind,
};
use super::{Act, DeclaredBy, Scope, Severity};
use crate::checks::Check;
use crate::units::{Angle, Force, Length, Pressure, Stiffness};

/// One kind of fact.
#[derive(Debug)]
pub struct Kind {
    /// Stable code: never renamed or reused.
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What lifts it, where it is that something did not run; the usual act first.
    pub acts: &'static [Act],
    /// What the maker of a part has to state so that it does not arise: pointers into a request, any of
    /// which settles it, the usual one first.
    pub stated_at: &'static [&'static str],
    /// What it matters to.
    pub scopes: &'static [Scope],
    /// What it says.
    pub meaning: &'static str,
    /// Clause or practice it rests on.
    pub source: &'static str,
    /// Its figures and names.
    pub parameters: &'static [ParameterKind],
}

/// A figure or name of a kind of fact.
#[derive(Debug)]
pub struct ParameterKind {
    /// Name in answers, with its unit.
    pub name: &'static str,
    /// What it is.
    pub meaning: &'static str,
    /// Kind of value.
    pub kind: ValueKind,
}

macro_rules! facts {
    ($(
        $name:ident = $code:literal, $severity:ident $(by $($act:ident)or+)? $(at $($member:literal)or+)?, [$($scope:ident),+], $meaning:literal, $source:literal {
            $($field:ident: $type:ty = $wire:literal, $what:literal;)*
        }
    )+) => {
        /// Something found.
        #[derive(Debug, Clone)]
        pub enum Fact {
            $(
                #[doc = $meaning]
                $name {
                    $(#[doc = $what] $field: $type,)*
                },
            )+
        }

        /// Every kind of fact.
        pub const CATALOGUE: &[Kind] = &[$(
            Kind {
                code: $code,
                severity: Severity::$severity,
                acts: &[$($(Act::$act),+)?],
                stated_at: &[$($($member),+)?],
                scopes: &[$(Scope::$scope),+],
                meaning: $meaning,
                source: $source,
                parameters: &[$(
                    ParameterKind { name: $wire, meaning: $what, kind: <$type as Parameter>::KIND },
                )*],
            },
        )+];

        /// Places in the catalogue.
        #[derive(Clone, Copy)]
        enum At { $($name),+ }

        /// One of every kind: with all that can be there, or with nothing that need not.
        #[cfg(test)]
        pub fn samples(full: bool) -> Vec<Fact> {
            vec![$(Fact::$name { $($field: Parameter::sample(full)),* }),+]
        }

        impl Fact {
            /// What kind of fact it is.
            #[must_use]
            pub const fn kind(&self) -> &'static Kind {
                match self { $(Self::$name { .. } => &CATALOGUE[At::$name as usize],)+ }
            }

            /// Its figures and names, those that apply.
            #[must_use]
            pub fn parameters(&self) -> Vec<(&'static str, Value)> {
                match self {
                    $(Self::$name { $($field),* } => {
                        let all: Vec<(&'static str, Option<Value>)> =
                            vec![$(($wire, $field.value())),*];
                        all.into_iter().filter_map(|(name, value)| Some((name, value?))).collect()
                    })+
                }
            }
        }
    };
}

const fn asks_the_maker(acts: &[Act]) -> bool {
    let mut at = 0;
    while at < acts.len() {
        if matches!(acts[at], Act::AskMaker) {
            return true;
        }
        at += 1;
    }
    false
}

// What did not run names what lifts it, and nothing else does.
const _: () = {
    let mut at = 0;
    while at < CATALOGUE.len() {
        let Kind { severity, acts, stated_at, .. } = &CATALOGUE[at];
        assert!(matches!(severity, Severity::Incomplete) != acts.is_empty());
        // Whoever is to be asked is told for what.
        assert!(!asks_the_maker(acts) || !stated_at.is_empty());
        at += 1;
    }
};

impl Kind {
    /// The kind with this code.
    #[must_use]
    pub fn of_code(code: &str) -> Option<&'static Self> {
        CATALOGUE.iter().find(|kind| kind.code == code)
    }

    /// Whether somebody can take it over by a declaration of this kind.
    #[must_use]
    pub fn yields_to(&self, by: DeclaredBy) -> bool {
        let evidence = matches!(by, DeclaredBy::Tested | DeclaredBy::Approved);
        self.acts.contains(&Act::Declare) || (evidence && self.acts.contains(&Act::Prove))
    }
}

impl Fact {
    /// What lifts it, where it is that something did not run.
    #[must_use]
    pub fn act(&self) -> Option<Act> {
        match self {
            // No code has the coefficient: nobody can measure it. What an opening cuts is known.
            Self::ObstacleDriftUnknown { unknown: ObstacleUnknown::Drift, .. }
            | Self::RafterCut { stated: true, .. } => Some(Act::AskEngineer),
            // Nothing is left to ask the maker of the screw for; what is under the covering is known, and
            // something else has to come there.
            Self::ScrewOutsideRules { declared: true, .. }
            | Self::UnderlayNotEnough { have: Some(_), .. } => Some(Act::Change),
            _ => self.kind().acts.first().copied(),
        }
    }

    /// The utilisation it tells of, where it does.
    pub(super) fn utilisation(&self) -> Option<Utilisation> {
        let mut figures = self.parameters().into_iter();
        figures.find_map(|(name, value)| match value {
            Value::Utilisation(used) if name == "utilisation" => Some(used),
            _ => None,
        })
    }
}

/// What a check of a hook or a rail tells when its utilisation is over the limit.
pub(super) struct Over {
    /// Hook or rail that uses most.
    pub element: String,
    /// Its utilisation.
    pub utilisation: Utilisation,
    /// Combination that governs.
    pub combination: String,
    /// Others over their limit.
    pub others: Vec<String>,
    /// Limit of utilisation asked for, where it is not the usual one.
    pub bound: Option<Bound>,
}

impl Over {
    /// The fact of a check; checks of other members have facts of their own.
    pub(super) fn fact(self, check: Check) -> Option<Fact> {
        let Self { element, utilisation, combination, others, bound } = self;
        macro_rules! over {
            ($kind:ident) => {
                Some(Fact::$kind { element, check, utilisation, combination, others, bound })
            };
        }
        match check {
            Check::Hook => over!(HookOverloaded),
            Check::Bolt => over!(BoltOverloaded),
            Check::Screws => over!(ScrewOverloaded),
            Check::FootBearing => over!(FootBearingOver),
            Check::Clearance => over!(ClearanceCloses),
            Check::RailBending => over!(RailOverloaded),
            Check::RailDeflection => over!(RailDeflects),
            Check::Splice => over!(SpliceOverloaded),
            Check::Crossing => over!(CrossingOverloaded),
            Check::Module | Check::Clamp | Check::ClampSlip | Check::Rafter => None,
        }
    }
}

facts! {
    // Failures: a check ran and failed, or the thing cannot be built.
    NoHookPattern = "rail.no-hook-pattern-passes", Failure, [Rail, Fixing],
        "No choice of hooks on the rail passes every check; every candidate is used and the governing check is named.",
        "all checks of the layout" {
            rail: String = "rail", "Rail.";
            candidates: usize = "candidates", "Rafters under it that can take a hook.";
            pattern: PatternAsked = "pattern", "Whether the hooks were to follow a pattern.";
            free_end: Option<Length> = "limit_mm", "How far the rail may overhang, where every choice leaves an end free for more.";
            element: Option<String> = "element", "Hook or rail that governs, with all candidates used.";
            check: Option<Check> = "check", "Check that governs.";
            utilisation: Option<Utilisation> = "utilisation", "Its utilisation.";
            combination: Option<String> = "combination", "Combination that governs.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    FreeEnd = "rail.free-end-too-long", Failure, [Rail],
        "The outermost rafter inside a rail lies farther from the rail's end than the rail may overhang.",
        "limit declared for the rail" {
            rail: String = "rail", "Rail.";
            end: End = "end", "End of it.";
            limit: Length = "limit_mm", "How far it may overhang.";
            free: Option<Length> = "free_end_mm", "Length from the rail's end to the outermost rafter, or in a built job hook, inside.";
            rafter_inside: Option<usize> = "rafter_inside", "The outermost rafter inside, counted from 0.";
            rafter_inside_x: Option<Length> = "rafter_inside_x_mm", "Where that is.";
            arm: Option<Length> = "arm_mm", "Length from the rail's end to the arm of a hook on it, where that differs.";
            rafter_outside: Option<usize> = "rafter_outside", "The nearest rafter outside, counted from 0.";
            rafter_outside_x: Option<Length> = "rafter_outside_x_mm", "Where that is.";
            longer: Option<Length> = "longer_end_mm", "How much longer the rail would reach it.";
            field: Option<String> = "field", "Field of modules over the rail.";
        }
    FreeEndUpSlope = "rail.free-end-beyond-courses", Failure, [Rail],
        "The outermost course that can hold a rail up the slope lies farther from the rail's end than the rail may overhang.",
        "limit declared for the rail" {
            rail: String = "rail", "Rail.";
            end: SlopeEnd = "end", "End of it.";
            limit: Length = "limit_mm", "How far it may overhang.";
            free: Option<Length> = "free_end_mm", "Length from the rail's end to where a hook would hold it under the outermost course inside.";
            course_inside: Option<usize> = "course_inside", "That course, counted from 0 at the first full one.";
            course_outside: Option<usize> = "course_outside", "The nearest course outside.";
            longer: Option<Length> = "longer_end_mm", "How much longer the rail would reach a hook under it.";
            field: String = "field", "Field of modules over the rail.";
        }
    TooFewCourses = "rail.too-few-courses", Failure, [Rail],
        "Fewer than two hooks can stand under a segment of a rail up the slope.",
        "statics: a rail needs two supports" {
            rail: String = "rail", "Rail.";
            candidates: usize = "candidates", "Courses that let an arm out where the rail lies.";
        }
    TooFewRafters = "rail.too-few-rafters", Failure, [Rail],
        "Fewer than two hooks can stand under a rail segment.",
        "statics: a rail needs two supports" {
            rail: String = "rail", "Rail.";
            candidates: usize = "candidates", "Rafters that can take a hook.";
        }
    Unstable = "rail.not-stable", Failure, [Rail],
        "Hinged splices leave the rail free to move.",
        "statics" {
            rail: String = "rail", "Rail.";
        }
    InsideObstacleClearance = "array.inside-obstacle-clearance", Failure, [Modules],
        "Modules lie inside the strip an obstacle is to keep free.",
        "clearance given with the obstacle" {
            obstacle: usize = "obstacle", "Obstacle, by its index in the request.";
            modules: Vec<String> = "modules", "Modules in its strip.";
            gap: Length = "gap_mm", "What lies between it and the nearest.";
            clearance: Length = "clearance_mm", "What is to stay free.";
        }
    UpperRailNotHeld = "rail.upper-rail-not-held", Failure, [Rail],
        "Rails cross, and no lower rails can lie so that an upper one rests on two of them with its ends short enough.",
        "geometry of rafters, covering and foot; longest free end declared for the rail" {
            rail: String = "rail", "Upper rail.";
            lower_rails: usize = "lower_rails", "Lower rails that can lie under it.";
            limit: Length = "limit_mm", "How far it may overhang.";
        }
    RailsOverlap = "rail.rails-overlap", Failure, [Rail],
        "Two rails lie over each other or touch.",
        "geometry" {
            rail: String = "rail", "One rail.";
            other: String = "other", "The other.";
            x: Length = "x_mm", "Where they meet.";
        }
    FootLongerThanBay = "hook.foot-longer-than-bay", Failure, [Covering, Fixing],
        "The foot is longer than the clear space between two battens.",
        "geometry of covering and foot" {
            foot: Length = "foot_mm", "Length of the foot.";
            bay: Length = "bay_mm", "Length between two battens.";
            clear: Length = "clear_mm", "What the heads of tiles leave of it.";
        }
    FootDoesNotFit = "hook.foot-does-not-fit", Failure, [Covering, Fixing],
        "The foot comes to stand on the head of a tile or under a batten by more than can be cut away: the hook cannot be fitted.",
        "geometry of covering and hook; how much can be cut is common practice, no source" {
            on_head: Length = "on_head_mm", "How far the foot stands over the head of the tile below.";
            under_batten: Length = "under_batten_mm", "How far it stands under the next batten.";
            reach: Length = "reach_mm", "Reach of the hook.";
            foot: Length = "foot_mm", "Length of its foot.";
            clear: Length = "clear_mm", "Length between the head of a tile and the next batten.";
            fitting_from: Option<Length> = "fitting_reach_from_mm", "Least reach that fits.";
            fitting_to: Option<Length> = "fitting_reach_to_mm", "Largest reach that fits.";
        }
    FootOffRoof = "hook.foot-off-roof", Failure, [Fixing, Covering],
        "The foot of a hook would stand beyond the edge of the slope or on an obstacle.",
        "geometry" {
            hooks: Vec<String> = "hooks", "Hooks.";
            from: Length = "from_mm", "Lower end of the foot above the rail, up the slope.";
            to: Length = "to_mm", "Upper end of it.";
        }
    RailOffRoof = "rail.off-roof", Failure, [Rail],
        "A rail runs beyond the edge of the slope or into an obstacle.",
        "geometry" {
            rail: String = "rail", "Rail.";
            start: Length = "start_mm", "Its left end.";
            end: Length = "end_mm", "Its right end.";
            obstacle: Option<usize> = "obstacle", "Obstacle it runs into, by its index in the request.";
        }
    ClearanceLittleLeft = "clearance.little-left", Warning, [Fixing],
        "An arm is left little of its clearance under load, and what the foot gives rests on stiffnesses from memory.",
        "own judgement" {
            hook: String = "hook", "The hook that is left least.";
            left: Length = "left_mm", "What it is left.";
            least: Length = "least_mm", "Less than this is little.";
        }
    RailOnTile = "rail.on-tile", Failure, [Fixing],
        "A rail would come too near the tile below it under load, as high as it can lie in its slots or as it was set.",
        "geometry of covering, hook and rail; characteristic combinations" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, where not all are set alike.";
            short: Length = "short_mm", "Height it lacks.";
            need: Length = "need_mm", "Clearance it needs before load.";
            slot: Option<Length> = "slot_mm", "The bolt in its slot, from the end nearer to the roof, where it is set.";
        }
    RailLowInSlot = "rail.low-in-slot", Warning, [Fixing],
        "A rail must not lie at the lower end of its slots: there it would come too near the tile below it under load.",
        "geometry of covering, hook and rail; characteristic combinations" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, where not all are set alike.";
            least: Length = "least_mm", "Least height of the bolt in its slot, from the end nearer to the roof.";
            range: Length = "range_mm", "Length of the slot.";
            need: Length = "need_mm", "Clearance the rail needs before load.";
        }
    NoCourse = "rail.no-course-in-clamp-zone", Failure, [Rail, Covering, Modules],
        "No course of the covering lets a rail lie inside both clamp zones of a row of modules.",
        "clamp zones declared for the module; geometry of the covering" {
            field: String = "field", "Field.";
            row: u64 = "row", "Row of it.";
        }
    NoRafter = "rail.no-rafter-in-clamp-zone", Failure, [Rail, Covering, Modules],
        "No rafter lets a rail up the slope lie inside both clamp zones of a column of modules, where arms leave the covering.",
        "clamp zones declared for the module; rafters; geometry of the covering" {
            field: String = "field", "Field.";
            column: u64 = "column", "Column of it.";
        }
    ClearanceBelowMinimum = "clearance.below-minimum", Failure, [Fixing],
        "The arm stands nearer to the tile below than asked for; in a layout, no stack of packers lifts it enough.",
        "common practice, no source: at least 5 mm before load" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, in a built job.";
            clearance: Length = "clearance_mm", "Clearance before load.";
            least: Length = "min_clearance_mm", "What is asked for.";
            highest_stack: Option<Length> = "max_stack_mm", "Highest stack of packers, in a layout.";
        }
    ScrewTooShort = "screw.too-short", Failure, [Fixing],
        "Less than six diameters of thread reach into the rafter: the screw has no withdrawal capacity.",
        "EN 1995-1-1 8.7.2(3)" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, in a built job.";
            embedment: Length = "embedment_mm", "Length in the rafter.";
            threaded: Length = "threaded_mm", "Thread of that.";
            least: Length = "least_mm", "Least thread.";
            depth: Option<Length> = "depth_mm", "Depth of the rafter, where the screw comes out below it.";
        }
    ModuleOverloaded = "module.overloaded", Failure, [Modules],
        "The design load on a module exceeds what it takes.",
        "capacity declared for the module" {
            module: String = "module", "The module loaded most.";
            sense: Sense = "sense", "How it is loaded.";
            load: Pressure = "load_kn_per_m2", "Design load on it.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            modules: usize = "modules", "Modules over the limit.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    ClampOverloaded = "clamp.overloaded", Failure, [Modules],
        "The design lift on a clamp exceeds what it holds.",
        "capacity declared for the clamp" {
            module: String = "module", "Module of the clamp loaded most.";
            lift: Force = "lift_kn", "Design lift on it.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            modules: usize = "modules", "Modules with clamps over the limit.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    ClampSlips = "clamp.slips", Failure, [Modules],
        "The modules at a clamp push down the slope, while wind lifts them, with more than the clamp or the stop below them holds.",
        "resistances declared for the clamp; their linear interaction is our own judgement" {
            module: String = "module", "Module of the clamp nearest to slipping.";
            slope: Force = "slope_kn", "Design force down the slope on it.";
            held_by: HeldBy = "held_by", "Whether a clamp takes the force or a stop.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            modules: usize = "modules", "Modules with clamps or stops over the limit.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    RafterOverloadedBefore = "rafter.overloaded-before", Failure, [Rafters],
        "A rafter fails in bending or shear, and does so under the bare roof too.",
        "EN 1995-1-1, 6.1" {
            rafter: usize = "rafter", "The rafter used most, counted from 0.";
            check: RafterCheck = "check", "What governs.";
            utilisation: Utilisation = "utilisation", "Its utilisation with the array.";
            before: Utilisation = "before", "Its utilisation in the same check without the array.";
            combination: String = "combination", "Combination that governs with the array.";
            rafters: Vec<usize> = "rafters", "Rafters over the limit with and without the array, counted from 0.";
        }
    RafterOverloaded = "rafter.overloaded", Failure, [Rafters],
        "A rafter fails in bending or shear under its hooks, the roof's own weight and the bare covering beside the array.",
        "EN 1995-1-1 6.1.6, 6.1.7" {
            rafter: usize = "rafter", "The rafter used most, counted from 0.";
            check: RafterCheck = "check", "What governs.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            rafters: Vec<usize> = "rafters", "Rafters over the limit, counted from 0.";
        }
    HookOverloaded = "hook.overloaded", Failure, [Fixing],
        "A hook is loaded beyond its declared resistance.",
        "resistance declared for the hook" {
            element: String = "element", "Hook used most.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Others over the limit on this rail, in a layout.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    ScrewOverloaded = "screw.overloaded", Failure, [Fixing],
        "The screws of a hook are loaded beyond their resistance.",
        "EN 1995-1-1 8.3.3, Eq. (8.28)" {
            element: String = "element", "Hook used most.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Others over the limit on this rail, in a layout.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    BoltOverloaded = "bolt.overloaded", Failure, [Fixing],
        "The bolt that holds the rail to a hook is loaded beyond its resistance, or slips in its slot.",
        "EN 1993-1-8 Table 3.4; slip as declared" {
            element: String = "element", "Hook used most.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Others over the limit on this rail, in a layout.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    FootBearingOver = "foot.bearing", Failure, [Fixing],
        "The foot of a hook presses harder on its timber than that bears across the grain.",
        "EN 1995-1-1 6.1.5, on a strip by our own model" {
            element: String = "element", "Hook used most.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Others over the limit on this rail, in a layout.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    ClearanceCloses = "clearance.closes-under-load", Failure, [Fixing],
        "The arm of a hook comes down on the tile below under load.",
        "stiffness declared for the hook; contact with the tile is the limit" {
            element: String = "element", "Hook used most.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Others over the limit on this rail, in a layout.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    RailOverloaded = "rail.overloaded", Failure, [Rail],
        "A rail is bent beyond its strength.",
        "EN 1999-1-1 6.2.5" {
            element: String = "element", "Rail.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Nothing: each rail is named by itself.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    CrossingOverloaded = "rail.crossing-overloaded", Failure, [Rail],
        "A connector that holds an upper rail on a lower one takes more than it bears.",
        "declared for the rail" {
            element: String = "element", "Upper rail.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Nothing: each rail is named by itself.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    SpliceOverloaded = "rail.splice-overloaded", Failure, [Rail],
        "Where pieces of the rail meet, it is bent by more than the splice bears.",
        "declared for the rail" {
            element: String = "element", "Rail.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Nothing: each rail is named by itself.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    RailDeflects = "rail.deflects-too-far", Failure, [Rail],
        "A rail deflects more than its limit.",
        "limit declared for the rail" {
            element: String = "element", "Rail.";
            check: Check = "check", "The check.";
            utilisation: Utilisation = "utilisation", "Its utilisation.";
            combination: String = "combination", "Combination that governs.";
            others: Vec<String> = "others", "Nothing: each rail is named by itself.";
            bound: Option<Bound> = "bound", "Limit of utilisation asked for, where it is below 1.";
        }
    TooFewHooks = "rail.too-few-hooks", Failure, [Rail],
        "Fewer than two hooks hold a part of a built rail.",
        "statics: a rail needs two supports" {
            rail: String = "rail", "Rail.";
            hooks: usize = "hooks", "Hooks that hold it.";
        }
    OutsideClampZone = "rail.outside-clamp-zone", Failure, [Modules, Rail],
        "A built rail lies where the modules over it may not be clamped.",
        "clamp zones declared for the module" {
            rail: String = "rail", "Rail.";
            y: Option<Length> = "y_mm", "Height of a rail along the eaves above the eaves line.";
            x: Option<Length> = "x_mm", "Distance of a rail up the slope from the left end of the eaves line.";
            off: Length = "off_mm", "How far it lies outside.";
        }
    RowWithoutTwoRails = "array.row-without-two-rails", Failure, [Modules],
        "Modules of a row, or of a column where rails run up the slope, do not lie on two rails.",
        "statics: a module needs two rails" {
            field: String = "field", "Field.";
            row: Option<u64> = "row", "Row of it.";
            column: Option<u64> = "column", "Column of it, where rails run up the slope.";
            rails: usize = "rails", "Rails it has.";
        }
    LongerThanContinuous = "rail.longer-than-continuous", Failure, [Rail],
        "A built rail is longer without a gap than its expansion allows.",
        "limit declared for the rail" {
            rail: String = "rail", "Rail.";
            length: Length = "length_mm", "Length without a gap.";
            limit: Length = "limit_mm", "What is allowed.";
        }
    MissesRafter = "hook.misses-rafter", Failure, [Fixing],
        "No rafter lies under a built hook: it is counted as carrying nothing.",
        "a foot needs timber under it" {
            hook: String = "hook", "Hook.";
            rail: String = "rail", "Its rail.";
            x: Length = "x_mm", "Where it stands.";
            off: Length = "off_mm", "How far the nearest rafter is away.";
        }
    OnRottenRafter = "hook.on-rotten-rafter", Failure, [Fixing, Rafters],
        "A built hook stands on a rafter that was found rotten: it is counted as carrying nothing.",
        "common practice: rotten timber holds no screw; the strength classes of EN 338 are of timber graded by EN 14081-1, which limits rot" {
            hook: String = "hook", "Hook.";
            rail: String = "rail", "Its rail.";
            rafter: usize = "rafter", "The rafter, counted from 0.";
            x: Length = "x_mm", "Where it stands.";
        }
    BeyondRailEnd = "hook.beyond-rail-end", Failure, [Fixing],
        "A built hook stands where its rail does not reach, or in an expansion gap: it is counted as carrying nothing.",
        "geometry" {
            hook: String = "hook", "Hook.";
            rail: String = "rail", "Its rail.";
            x: Length = "x_mm", "Where it stands.";
            y: Option<Length> = "y_mm", "At which height, where its rail runs up the slope.";
        }
    ArmBesideRail = "hook.arm-beside-rail", Failure, [Fixing],
        "The arm of a built hook does not leave the covering where its rail up the slope has its arms: it is counted as carrying nothing.",
        "geometry: a rail is bolted to the side of the uprights of its hooks" {
            hook: String = "hook", "Hook.";
            rail: String = "rail", "Its rail.";
            off: Length = "off_mm", "How far from there the arm leaves.";
            limit: Length = "limit_mm", "How far it may and still count as there.";
        }
    OnAnotherHook = "hook.on-another-hook", Failure, [Fixing],
        "Two built hooks of a rail stand in one place: the second is counted as carrying nothing.",
        "geometry: arms are wider than that" {
            hook: String = "hook", "Hook.";
            rail: String = "rail", "Its rail.";
            x: Length = "x_mm", "Where it stands.";
        }
    FootOnAnotherFoot = "hook.foot-on-another-foot", Failure, [Fixing],
        "The feet of two built hooks on one rafter would take the same place: the upper hook is counted as carrying nothing.",
        "geometry: feet under rails up the slope stand one above the other" {
            hook: String = "hook", "Upper hook.";
            rail: String = "rail", "Its rail.";
            below: String = "below", "Hook below it.";
            apart: Length = "apart_mm", "How far they are apart along the rafter.";
            need: Length = "need_mm", "Length of a foot.";
        }
    StackTooHigh = "packers.stack-too-high", Failure, [Fixing],
        "The packers under a built hook are a higher stack than they allow.",
        "limit declared for the packers" {
            hooks: Vec<String> = "hooks", "Hooks.";
            stack: Length = "stack_mm", "Height of the stack.";
            limit: Length = "limit_mm", "What it may have.";
        }
    NoStackClearsTile = "survey.no-stack-clears-tile", Failure, [Fixing],
        "At a surveyed hook no stack of packers lifts the arm clear of the tile below and keeps it off the tile above.",
        "measurements of the survey; limit declared for the packers" {
            rail: String = "rail", "Rail.";
            hooks: Vec<String> = "hooks", "Hooks without a stack.";
            by: Length = "by_mm", "What the highest stack lacks.";
        }
    RailNotStraight = "survey.rail-not-straight", Failure, [Rail],
        "No packers and slot settings bring a surveyed rail out straight.",
        "measurements of the survey; slot range declared for the hook" {
            rail: String = "rail", "Rail.";
            hooks: Vec<String> = "hooks", "Hooks that stand out too far, or that cannot be lined up.";
            low: Vec<String> = "low_hooks", "Hooks that lie too low for them.";
            by: Length = "by_mm", "How much longer slots would have to be; 0 where that does not say it.";
        }

    BelowLeastPitch = "covering.below-least-pitch", Failure, [Covering],
        "The roof is flatter than the covering may be laid at all, whatever lies under it.",
        "rules of the German roofers' guild, as quoted by a trade encyclopedia: tiles 12° below their rule pitch and 10° in any case; a glossary of building: slates 10° below theirs" {
            pitch: Angle = "pitch_deg", "Pitch of the roof.";
            least: Angle = "least_pitch_deg", "Least pitch of the covering.";
            rule: Angle = "rule_pitch_deg", "Its rule pitch.";
            by: RuleOf = "by", "Whose that is.";
            stated: Option<String> = "stated_in", "The document, as the caller names it.";
        }
    InsideEdgeDistance = "array.inside-edge-distance", Failure, [Covering, Modules],
        "Part of the array lies nearer to an edge of the slope than the rule the caller gives allows.",
        "rule given with the request" {
            part: PartName = "part", "Part of the array.";
            edge: SideName = "edge", "Kind of edge.";
            side: usize = "side", "The nearest such side of the outline, counted from 0.";
            element: String = "element", "Module, rail or hook nearest to it.";
            have: Length = "have_mm", "What lies between them.";
            need: Length = "need_mm", "What has to.";
            stated: String = "stated_in", "The rule, as the caller names it.";
        }
    InsideFireDistance = "array.inside-fire-distance", Failure, [Covering],
        "Modules or rails lie nearer to a party wall than the building regulations the caller names allow.",
        "building regulations given with the request" {
            side: usize = "side", "Side of the outline, counted from 0.";
            part: PartName = "part", "Part of the array.";
            element: String = "element", "Module or rail nearest to the wall.";
            have: Length = "have_mm", "What lies between it and the wall.";
            need: Length = "need_mm", "What has to.";
            stated: String = "stated_in", "The regulation, as the caller names it.";
        }

    // Incomplete: something that decides did not run.
    ValuesAssumed = "provenance.assumed", Incomplete by Measure or Declare, [Data],
        "Values of the request are marked as assumed: nobody has looked.",
        "common practice: what was assumed is measured before anything is ordered" {
            values: Vec<String> = "values", "Pointers into the request.";
        }
    FireDistanceUnknown = "array.fire-distance-unknown", Incomplete by LookUp or Declare, [Covering],
        "Modules or rails lie near a party wall, and how far they have to stay from it is not given.",
        "building regulations: the German model of 2022 asks for 0.5 m, older and other ones for 1.25 m; second-hand" {
            side: usize = "side", "Side of the outline, counted from 0.";
            element: String = "element", "Module or rail nearest to the wall.";
            have: Length = "have_mm", "What lies between it and the wall.";
        }
    UnderlayNotEnough = "covering.underlay-not-enough", Incomplete by Measure or Declare, [Covering],
        "The roof is flatter than the rule pitch of its covering, and the underlay that has to keep the water out is not known, or too little.",
        "rules of the German roofers' guild, as quoted by a trade encyclopedia; the rules themselves were not seen" {
            pitch: Angle = "pitch_deg", "Pitch of the roof.";
            rule: Angle = "rule_pitch_deg", "Rule pitch of the covering.";
            need: u64 = "need_class", "Class that is needed at least; 1 is the tightest.";
            have: Option<u64> = "have_class", "Class there is, where it is given.";
        }
    HooksThroughLaps = "covering.hooks-through-laps", Incomplete by Change or Declare, [Covering],
        "The roof is flatter than the rule pitch of its covering, where hooks may pass only through parts made for the tile.",
        "rules of the German roofers' guild of 2024, as quoted by a trade encyclopedia" {
            pitch: Angle = "pitch_deg", "Pitch of the roof.";
            rule: Angle = "rule_pitch_deg", "Rule pitch of the covering.";
            passage: PassageName = "passage", "How hooks pass through it.";
        }
    NotMeasured = "survey.not-measured", Incomplete by Measure, [Data, Fixing],
        "Clearance or level of hooks on a surveyed rail is not measured: packers and slots cannot be chosen.",
        "a straight rail needs every hook of it" {
            rail: String = "rail", "Rail.";
            hooks: Vec<String> = "hooks", "Hooks where something is not measured.";
        }
    PackingNotDecided = "survey.search-ended", Incomplete by Change, [Fixing],
        "The search for packers and slots ended at its limit before it found any.",
        "the search is exact and bounded" {
            rail: String = "rail", "Rail.";
            steps: u64 = "steps", "Steps it took.";
        }
    ScrewOutsideRules = "screw.outside-rules", Incomplete by AskMaker or Declare at "/components/screw/withdrawal_n_per_mm2", [Fixing],
        "The rules do not cover the screw or its spacing; its resistance is not verified.",
        "EN 1995-1-1 8.7.2, Table 8.1" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, in a built job.";
            embedment: Length = "embedment_mm", "Length in the rafter.";
            threaded: Length = "threaded_mm", "Thread of that.";
            clause: String = "clause", "Clause that is silent.";
            condition: &'static str = "condition", "Where it speaks.";
            declared: bool = "withdrawal_declared", "Whether the screw's withdrawal parameter is given; it is then the pattern of screws in the foot that the rules do not cover.";
        }
    ScrewNearRafterEdge = "screw.too-near-rafter-edge", Incomplete by AskMaker or Declare at "/components/screw/spacings", [Fixing],
        "A screw stands nearer to the edge of the rafter than the rules allow; its own approval may allow it.",
        "EN 1995-1-1 Tables 8.2 and 8.6" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, in a built job.";
            have: Length = "have_mm", "Distance there is.";
            need: Length = "need_mm", "Distance needed.";
        }
    ScrewNearAnother = "screw.too-near-another", Incomplete by AskMaker or Declare at "/components/screw/spacings", [Fixing],
        "Two screws of a foot stand nearer to each other than the rules allow; their approval may allow it.",
        "EN 1995-1-1 Table 8.6" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, in a built job.";
            have: Length = "have_mm", "Distance there is.";
            need: Length = "need_mm", "Distance needed.";
        }
    RafterThinForScrew = "screw.rafter-too-thin", Incomplete by AskMaker or Declare at "/components/screw/spacings/timber_mm", [Fixing],
        "The rafter is thinner than the rules for screws in withdrawal cover; their approval may allow it.",
        "EN 1995-1-1 8.7.2(2), Table 8.6" {
            depth: Length = "depth_mm", "Depth of the rafter.";
            least: Length = "least_mm", "Least depth, 12 diameters by the rules.";
        }
    BasisUnknown = "hook.resistance-basis-unknown", Incomplete by AskMaker or Prove at "/components/hook/resistance/basis", [Data, Fixing],
        "Nobody knows what the declared resistances of the hook rest on; the layout cannot be said to hold.",
        "common practice: resistances come from tests, an approval or a calculation" {}
    ResistanceOfBar = "hook.resistance-of-its-bar", Incomplete by AskMaker or Prove at "/components/hook/resistance", [Data, Fixing],
        "The hook's resistance is that of its arm as a flat bar; the joint between arm and foot and the plate of the foot are not verified.",
        "EN 1993-1-1 6.2.5 and 6.2.7" {}
    FootRolls = "foot.roll-not-carried", Incomplete by Change or Declare, [Fixing],
        "Screws that pull stand beside the rafter's axis, so the foot tends to roll; the rail has to hold it, and the most that may add is not borne by every hook and the rail.",
        "own derivation: equilibrium of the foot about the line of the slope" {
            hook: String = "hook", "The hook used most with it.";
            force: Force = "force_kn", "Most it may add to a hook, or take from it.";
            utilisation: Utilisation = "utilisation", "Utilisation of hook, bolt, screws, timber or rail with that.";
        }
    RollUnderRailUpSlope = "foot.roll-under-rail-up-slope", Incomplete by Change or Declare, [Fixing],
        "Screws that pull stand beside the rafter's axis, so the foot tends to roll; a rail up the slope twists and does not hold it.",
        "own derivation: equilibrium of the foot about the line of the slope" {
            hook: String = "hook", "A hook whose foot rolls.";
        }
    HoldAlongUnknown = "rail.hold-along-unknown", Incomplete by Declare, [Fixing],
        "Rails up the slope are held along their axis by the bolts in their grooves, and restrained by them where temperature changes: neither is computed.",
        "own derivation: spring of a hook times the expansion of the rail over 30 K" {
            slope: Force = "slope_kn", "Largest force along the rail at a bolt.";
            declared: Option<Force> = "declared_kn", "Design force along the rail that a bolt is declared to hold, which is checked; absent where nothing is declared.";
            restraint: Option<Force> = "restraint_kn", "What 30 K add at most to a hook if no bolt slips; absent where hooks are taken as rigid down the slope.";
        }
    HoldOfOneUnknown = "rail.hold-of-one-hook-unknown", Incomplete by AskMaker or Declare at "/components/rail/groove_slip_kn", [Fixing],
        "Each rail up the slope is held along its axis by one hook, and what the bolt there holds along the groove of the rail is not declared.",
        "statics: that hook bears all that acts along the rail" {
            hook: String = "hook", "The hook that bears most.";
            slope: Force = "slope_kn", "Force along the rail at its bolt.";
        }
    PlateBends = "foot.plate-not-shown", Incomplete by AskMaker or Prove at "/components/hook/resistance/basis", [Fixing],
        "The plate of the foot, as a bar from arm to farthest screws, would yield where the arm rises from it, and neither tests nor an approval stand behind the hook's resistance.",
        "EN 1993-1-1 6.2.5; width of plate that counts: own judgement" {
            hook: String = "hook", "The hook whose plate is bent most.";
            utilisation: Utilisation = "utilisation", "Its moment, by what the plate bears as a bar.";
            combination: String = "combination", "Combination of that.";
        }
    SplicePlacesUnknown = "rail.splice-places-unknown", Incomplete by Declare, [Rail],
        "It is declared what a splice bears, but not where the built rails are spliced.",
        "statics of the rail" {}
    StrongerThanBar = "hook.stronger-than-its-bar", Incomplete by AskMaker or Prove at "/components/hook/resistance/basis", [Data],
        "A declared resistance of the hook is far above what its arm bears as a flat bar, and neither tests nor an approval stand behind it.",
        "EN 1993-1-1 6.2.5; more than one and a half times as much, own judgement" {
            declared: Force = "declared_kn", "Declared design resistance.";
            bar: Force = "bar_kn", "Design resistance of the arm as a flat bar.";
        }
    StifferThanBar = "hook.stiffer-than-its-bar", Incomplete by AskMaker or Prove at "/components/hook/resistance/basis", [Data],
        "The declared stiffness of the hook is far above that of its arm as a flat bar, and neither tests nor an approval stand behind it.",
        "elastic bending of the arm; more than one and a half times as much, own judgement" {
            declared: Stiffness = "declared_kn_per_mm", "Declared stiffness square to the roof.";
            bar: Stiffness = "bar_kn_per_mm", "Stiffness of the arm as a flat bar.";
        }
    StiffnessUnknown = "clearance.stiffness-unknown", Incomplete by AskMaker or Declare at "/components/hook/stiffness/normal_kn_per_mm", [Fixing],
        "The hook's stiffness is not given, so nobody knows whether its arm touches the tile under load.",
        "clearance under load needs the stiffness square to the roof" {}
    BoltUnknown = "bolt.unknown", Incomplete by AskMaker or Declare at "/components/hook/bolt" or "/components/hook/resistance/includes_bolt", [Fixing],
        "The bolt that holds the rail to the hook is not known, and the hook's resistance does not say that it includes it.",
        "EN 1993-1-8 Table 3.4 needs diameter and class" {}
    SlotSlipUnknown = "bolt.slot-slip-unknown", Incomplete by AskMaker or Declare at "/components/hook/bolt/slot_slip_kn" or "/components/hook/resistance/includes_bolt", [Fixing],
        "What the bolt holds along its slot is not declared, and the hook's resistance does not say that it includes it.",
        "EN 1993-1-8 3.9 knows slip of preloaded bolts only" {
            normal: Force = "normal_kn", "Largest design force along a slot.";
        }
    InventedParts = "parts.invented", Incomplete by AskMaker at "/array/module" or "/components/hook" or "/components/screw" or "/components/rail" or "/components/clamp" or "/components/packers", [Data],
        "Embedded parts are used, whose figures are invented: no result with them is one for a real roof.",
        "the embedded parts stand for no product" {
            parts: Vec<String> = "parts", "Kind and id of each.";
            place: Option<usize> = "field_place", "Field whose own module it is, by its place in the request counted from 0; none of parts of the job.";
        }
    EdgeNotComputed = "roof.edge-not-computed", Incomplete by AskEngineer or Declare, [Fixing, Rail, Modules, Rafters],
        "The slope has a side along which the wind is not computed: a hip, a valley, an abutment, or one that does not lie on the rectangle around the slope.",
        "EN 1991-1-4 7.2" {
            sides: Vec<usize> = "sides", "Sides of the outline, counted from 0.";
            edge: EdgeName = "edge", "What they are.";
        }
    ExceptionalSnowUnasked = "snow.exceptional-not-said", Incomplete by LookUp or Declare, [Fixing, Rail, Modules, Rafters],
        "The request does not say whether the site calls for exceptional snow, so that no combination has any.",
        "EN 1991-1-3 4.3 and Annex A, as the national annex has it" {}
    RuleStandsIn = "rules.stand-in", Incomplete by LookUp or Declare, [Data],
        "What the rules of the country say was not seen, and what the standard recommends stands in for it.",
        "the annex: each of its values says how it was confirmed" {
            value: RuleValue = "value", "What it is of.";
        }
    GuardNotComputed = "snow.guard-not-computed", Incomplete by LookUp or Declare, [Fixing, Rail, Modules, Rafters],
        "A snow guard stands on the slope and the snow is said not to be held: the load would be too low above it.",
        "EN 1991-1-3 5.3.3(4)" {
            obstacle: usize = "obstacle", "Obstacle, by its index in the request.";
        }
    DriftUnknown = "snow.drift-unknown", Incomplete by Measure or Declare, [Fixing, Rail, Modules, Rafters],
        "Snow drifts into a valley or against a wall of which the request does not say enough to compute it.",
        "EN 1991-1-3 5.3.4 and 5.3.6" {
            sides: Vec<usize> = "sides", "Sides of the outline, counted from 0.";
            edge: EdgeName = "edge", "What they are.";
        }
    ObstacleDriftUnknown = "snow.obstacle-drift-unknown", Incomplete by Measure or Declare, [Fixing, Rail, Modules, Rafters],
        "Snow drifts against an obstacle beside the array whose height is not given, or on a pitch for which no coefficient is known.",
        "EN 1991-1-3 6.2, for nearly flat roofs only; which obstacles count is a judgement" {
            obstacle: usize = "obstacle", "Obstacle, by its index in the request.";
            unknown: ObstacleUnknown = "unknown", "What is not known.";
        }
    EdgeWindOnRafters = "roof.edge-wind-on-rafters", Incomplete by Declare, [Rafters],
        "The wind on modules is given, but that on the covering beside them is not computed along a side of the slope.",
        "EN 1991-1-4 7.2" {
            sides: Vec<usize> = "sides", "Sides of the outline, counted from 0.";
        }
    RafterCut = "rafter.cut-by-opening", Incomplete by Measure or Declare, [Rafters],
        "An opening cuts a rafter that carries hooks, or lays the load of a cut one on a rafter that does.",
        "common practice: openings wider than a bay have trimmers" {
            obstacle: usize = "obstacle", "Obstacle, by its index in the request.";
            rafters: Vec<usize> = "rafters", "Rafters it cuts, counted from 0.";
            beside: Vec<usize> = "beside", "Rafters that trimmers lay their load on, counted from 0.";
            hooks_on: Vec<usize> = "hooks_on", "Rafters among all of these that carry hooks, counted from 0.";
            stated: bool = "stated", "Whether the request says which rafters it cuts.";
        }
    RafterSplit = "rafter.split", Incomplete by Declare, [Fixing, Rafters],
        "A rafter that carries hooks was found split: what screws and rafter bear there no rule says.",
        "the strength classes of EN 338 are of timber graded by EN 14081-1, which limits fissures" {
            rafters: Vec<usize> = "rafters", "Rafters found split that carry hooks, counted from 0.";
        }
    InsulationUnderFoot = "layers.insulation-under-foot", Incomplete by Declare, [Fixing],
        "The screws cross insulation: the counter-batten must pass the load on by itself, which is for a structural engineer.",
        "common practice, no source" {}
    RaftersUnmeasured = "rafters.not-measured", Incomplete by Measure, [Data],
        "Nobody has seen yet where the rafters stand: the layout is one to order from, at the places of the first rafter that were looked at and at no others.",
        "common practice: every rafter is measured before hooks are fixed, centres are not taken to be equal" {
            places: usize = "places", "Places of the first rafter that were looked at.";
            step: Length = "step_mm", "From one of them to the next.";
            failing: usize = "failing", "Of these, how many fail.";
        }
    RafterTrussed = "rafter.trussed", Incomplete by Declare, [Fixing, Rafters],
        "The rafters are chords of trusses: their designer has to say where they may be drilled and loaded.",
        "common practice, no source" {}
    RafterNotVerified = "rafter.not-verified", Incomplete by Measure or Declare, [Rafters],
        "No span is given: the rafters are not verified, only their forces are reported.",
        "EN 1995-1-1 needs span and section" {}
    SidewaysEdge = "screw.edge-under-sideways-load", Incomplete by AskMaker or Declare at "/components/screw/spacings", [Fixing],
        "An arm off the rafter axis turns its foot; the screws' distance to the rafter's edge is too short for the sideways part of their load. Their approval may allow it.",
        "EN 1995-1-1 Table 8.2, loaded edge" {
            offset: Length = "offset_mm", "How far the arm stands off the axis.";
            angle: Angle = "angle_deg", "Angle of the screw's load to the grain.";
            have: Length = "have_mm", "Distance there is.";
            need: Length = "need_mm", "Distance needed.";
        }
    ClampSlipUnknown = "clamp.slip-unknown", Incomplete by AskMaker or Declare at "/components/clamp/slope_kn", [Modules],
        "What a clamp holds down the slope is not declared, so nobody knows whether the modules stay where they are.",
        "slip of clamps needs a declared resistance; friction between frame and rail is not assumed" {
            slope: Force = "slope_kn", "Largest design force down the slope on a clamp.";
            modules: usize = "modules", "Modules without the check.";
        }
    SpliceForceUnknown = "rail.splice-force-unknown", Incomplete by AskMaker or Declare at "/components/rail/splice_force_kn", [Rail],
        "Bars of a rail up the slope meet, and what force along its axis a splice passes on is not known.",
        "EN 1993-1-8 2.4: a joint bears the force that is in it" {
            rail: String = "rail", "Rail.";
            force: Force = "force_kn", "Largest force along its axis.";
        }
    CrossingUnknown = "rail.crossing-unknown", Incomplete by AskMaker or Declare at "/components/rail/crossing", [Rail],
        "Rails cross, and what the connectors bear that hold the upper ones on the lower ones is not known.",
        "EN 1993-1-8 2.4: a joint bears the force that is in it" {
            crossings: usize = "crossings", "Connectors.";
            lift: Force = "lift_kn", "Largest design force that lifts an upper rail off.";
            slide: Force = "slide_kn", "Largest design force along a lower rail.";
        }
    ShortSideZoneUnknown = "clamp.short-side-zone-unknown", Incomplete by AskMaker or Declare at "/array/module/short_side_clamp_zone_mm", [Modules],
        "Modules lie landscape and are clamped on their short sides, for which no clamp zone is given.",
        "clamp zones declared for the module" {
            field: String = "field", "Field.";
            place: Option<usize> = "field_place", "Its place in the request counted from 0, where its module is its own.";
        }

    // Warnings: what a person must act on.
    SlotNearlyUsedUp = "survey.slot-nearly-used-up", Warning, [Fixing],
        "A bolt comes to sit near the end of its slot: nothing is left to adjust for what was measured a little wrong.",
        "common practice, no source: a millimetre is about what a string line is read to" {
            hook: String = "hook", "Hook.";
            left: Length = "left_mm", "What is left of the slot.";
        }
    SpliceOutsideRules = "rail.splice-outside-rules", Warning, [Rail],
        "A splice lies in an end span, in a free end, at a hook or under a clamp: no cutting of the rail avoids it, or the splices are hinges.",
        "common practice: pieces on two hooks each, splices off hooks and clamps" {
            rail: String = "rail", "Rail.";
            splices: usize = "splices", "Splices of this part of it.";
            at: SplicePlace = "place", "Where one lies.";
            splice: SpliceKind = "splice", "Kind of splice.";
        }
    EarlierRevision = "rules.earlier-revision", Warning, [Data],
        "The job asks for values of an annex that have been replaced since.",
        "values of an annex stay callable, so that a past job can be followed" {
            asked: String = "asked", "Revision asked for.";
            today: String = "today", "Revision of today.";
        }
    ValuesInferred = "provenance.inferred", Warning, [Data],
        "Values of the request are marked as inferred: confirm them on the roof.",
        "common practice: what was inferred is confirmed before it is final" {
            values: Vec<String> = "values", "Pointers into the request.";
        }
    NearEdge = "array.near-edge", Warning, [Covering, Modules],
        "Modules lie nearer to an edge of the slope than is usual; ask what the maker of the rails and local rules allow.",
        "common practice: 300 mm from every edge in the training of British installers, 300 to 500 mm in German advice to owners" {
            edge: SideName = "edge", "Kind of edge.";
            side: usize = "side", "The nearest such side of the outline, counted from 0.";
            element: String = "element", "Module nearest to it.";
            have: Length = "have_mm", "What lies between them.";
            need: Length = "need_mm", "What is usual.";
        }
    BelowRulePitch = "covering.below-rule-pitch", Warning, [Covering],
        "The roof is flatter than the rule pitch of its covering: what lies under it has to keep the water out.",
        "rule pitch given with the request; else common practice: 30° flat tile, 22° slate and interlocking tile" {
            pitch: Angle = "pitch_deg", "Pitch of the roof.";
            rule: Angle = "rule_pitch_deg", "Rule pitch that governs.";
            by: RuleOf = "by", "Whose that is.";
            stated: Option<String> = "stated_in", "The document, as the caller names it.";
            of_maker: Option<Angle> = "maker_pitch_deg", "A lower rule pitch of the maker, which would govern if the contract agreed it.";
        }
    RulePitchAssumed = "covering.rule-pitch-assumed", Warning, [Covering],
        "No rule pitch is given, and some tiles or slates of this kind have a steeper one than the roof has.",
        "common practice: rule pitches up to 35° flat and interlocking tile, 30° slate" {
            pitch: Angle = "pitch_deg", "Pitch of the roof.";
            rule: Angle = "rule_pitch_deg", "Rule pitch assumed.";
            steepest: Angle = "steepest_rule_pitch_deg", "Steepest rule pitch of such coverings.";
        }
    MakersPitchAlone = "covering.maker-pitch-not-agreed", Warning, [Covering],
        "The roof is flatter than the usual rule pitch of such a covering; only its maker states a lower one, and no contract agrees it.",
        "trade practice: a maker's pitch below that of the guild has to be agreed" {
            pitch: Angle = "pitch_deg", "Pitch of the roof.";
            rule: Angle = "maker_pitch_deg", "Rule pitch of the maker.";
            usual: Angle = "usual_rule_pitch_deg", "Usual rule pitch of such coverings.";
            stated: String = "stated_in", "The maker's document, as the caller names it.";
        }
    ArmBeyondRange = "hook.arm-beyond-lateral-range", Warning, [Fixing],
        "An arm of a built hook stands farther off the rafter axis than the foot is made for; check that the hook's declared figures hold for that.",
        "trade press on hook tests: the place of the arm on the foot changes strength and stiffness" {
            hooks: Vec<String> = "hooks", "Hooks.";
            offset: Length = "offset_mm", "How far the farthest stands off.";
            range: Length = "range_mm", "How far an arm may stand off.";
        }
    FootTightInBay = "hook.foot-tight-in-bay", Warning, [Covering],
        "The foot fills the clear space between two battens; heads of tiles stand into it.",
        "common practice, no source: heads stand about 15 mm into the space" {
            foot: Length = "foot_mm", "Length of the foot.";
            bay: Length = "bay_mm", "Length between two battens.";
            clear: Length = "clear_mm", "What the heads of tiles leave of it.";
            lower: Length = "lower_mm", "How much lower hooks and rail are set.";
            trim_head: Length = "trim_head_mm", "What is to be cut off the head of the tile below.";
            trim_batten: Length = "trim_batten_mm", "What is to be cut out of the batten above.";
            rail: String = "rail", "The rail whose feet need most.";
            y: Option<Length> = "y_mm", "Height of that rail above the eaves line, with that in it; of a rail up the slope there is none.";
        }
    FootMeetsBattenOrTile = "hook.foot-meets-batten-or-tile", Warning, [Covering],
        "The foot fits between tile and batten, but not where it comes to stand when the arm leaves as the hook is made.",
        "geometry of covering and hook" {
            beyond: Length = "bolt_beyond_exit_mm", "The bolt below the tail edge the arm leaves under.";
            lower: Length = "lower_mm", "How much lower hooks and rail are set.";
            trim_head: Length = "trim_head_mm", "What is to be cut off the head of the tile below.";
            trim_batten: Length = "trim_batten_mm", "What is to be cut out of the batten above.";
            rail: String = "rail", "The rail whose feet need most.";
            y: Option<Length> = "y_mm", "Height of that rail above the eaves line, with that in it; of a rail up the slope there is none.";
        }
    ArmAlongJoint = "tile.arm-along-joint-below", Warning, [Covering],
        "An arm lies along a side joint of the tiles below it instead of over the middle of one.",
        "common practice, no source: that joint is to stay covered and free of load" {
            hooks: Vec<String> = "hooks", "Hooks.";
            count: usize = "count", "How many.";
        }
    NotchDeeperThanTile = "tile.notch-deeper-than-tile", Warning, [Covering],
        "The arm takes more height than the tile above it is thick: no notch leaves a tile, and no substitute tiles are given.",
        "geometry of covering and hook" {
            room: Length = "room_mm", "Height the arm takes.";
            tile: Length = "tile_mm", "Thickness of the tile.";
        }
    ProfileMustTakeArm = "tile.profile-must-take-arm", Warning, [Covering],
        "The arm takes more height over the trough than the tile above it is thick; whether its profile leaves that much is not known.",
        "geometry of covering and hook; the profile of the tile is not in the request" {
            room: Length = "room_mm", "Height the arm takes.";
            tile: Length = "tile_mm", "Thickness of the tile.";
        }
    CounterBattenEdge = "screw.near-counter-batten-edge", Warning, [Fixing],
        "Screws stand near the edge of the counter-batten and may split it.",
        "EN 1995-1-1 Table 8.2, taken for the counter-batten too" {
            width: Length = "width_mm", "Width of the counter-batten.";
            have: Length = "have_mm", "Distance there is.";
            need: Length = "need_mm", "Distance asked for.";
            width_needed: Length = "width_needed_mm", "Width of a counter-batten that has it.";
            predrilling_helps: bool = "predrilling_helps", "Whether holes drilled first would do as well.";
        }
    ScrewLongerThanRafter = "screw.longer-than-rafter", Warning, [Fixing],
        "The screw comes out below the rafter.",
        "geometry" {
            hooks: Option<Vec<String>> = "hooks", "Hooks, in a built job.";
            reach: Length = "reach_mm", "How far it reaches below the rafter's face.";
            depth: Length = "depth_mm", "Depth of the rafter.";
        }
    AddedLoad = "rafter.added-load", Warning, [Rafters],
        "The array adds more than 15 % to the permanent load of a rafter: ask whether the structure needs an engineer's proof.",
        "benchmark of building control guidance on retrofitted arrays" {
            share: Share = "share", "Share added to a rafter.";
        }
    RuleFromMemory = "rules.from-memory", Warning, [Data],
        "What the rules of the country say is written from memory.",
        "the annex: each of its values says how it was confirmed" {
            value: RuleValue = "value", "What it is of.";
        }
    SnowFromMemory = "snow.table-from-memory", Warning, [Data],
        "The ground snow follows EN 1991-1-3 Annex C as remembered; check it against the printed map and table.",
        "EN 1991-1-3 Table C.1, from memory" {}
    PlanMismatch = "roof.plan-mismatch", Warning, [Data],
        "The slope's outline and the building's width do not fit a roof of this form and pitch.",
        "geometry" {
            outline: Length = "outline_run_mm", "Horizontal length of the slope by its outline.";
            expected: Length = "expected_run_mm", "What it is by the building's width: half of that, of a monopitch roof all of it.";
        }
    ExpansionGapNeedsRoom = "rail.expansion-gap-needs-room", Failure, [Rail, Modules],
        "At an expansion gap both modules need end clamps; the gap between them is too narrow for that.",
        "common practice: no module or clamp bridges an expansion gap" {
            field: String = "field", "Field.";
            limit: Length = "limit_mm", "Longest rail without a gap.";
            gap: Length = "gap_mm", "Distance of its columns.";
            need: Length = "need_mm", "Distance needed.";
            fields: usize = "fields", "Fields to make of it.";
        }
    ClampGapDiffers = "clamp.gap-differs", Warning, [Modules],
        "The gap between modules is not the one the mid clamp makes.",
        "geometry of the clamp" {
            field: String = "field", "Field.";
            gap: Length = "gap_mm", "Distance of its columns.";
            clamp: Length = "clamp_gap_mm", "What the mid clamp makes.";
        }
    OffCourseLine = "rail.off-course-line", Warning, [Covering],
        "A built rail does not lie where its arms would leave a regular covering.",
        "geometry of the covering" {
            rail: String = "rail", "Rail.";
            y: Length = "y_mm", "Its height above the eaves line.";
            off: Length = "off_mm", "What is let go.";
        }
    OffRafterLine = "rail.off-rafter-line", Warning, [Covering],
        "A rail up the slope that stands does not lie where arms on its rafter can leave the covering.",
        "geometry of covering and foot" {
            rail: String = "rail", "Rail.";
            x: Length = "x_mm", "Its distance from the left end of the eaves line.";
            beside: Length = "beside_mm", "How far its arms stand beside the axis of their rafter.";
            range: Length = "range_mm", "How far they may.";
            off: Length = "off_mm", "What is let go.";
        }
    OffCourse = "hook.off-course", Warning, [Covering],
        "Built hooks under rails up the slope do not stand where their arms would leave a regular covering.",
        "geometry of the covering" {
            hooks: Vec<String> = "hooks", "Hooks.";
            off: Length = "off_mm", "What is let go.";
        }
    ArmBesideTrough = "hook.arm-beside-trough", Warning, [Covering],
        "Arms of built hooks under rails up the slope do not leave their courses in a trough.",
        "geometry of the covering" {
            hooks: Vec<String> = "hooks", "Hooks.";
            beside: Length = "beside_mm", "How far the farthest leaves beside the nearest trough.";
            limit: Length = "limit_mm", "How far one may leave beside it and still count as in it.";
        }
    EndShorterThanClamp = "rail.end-shorter-than-clamp", Warning, [Modules],
        "The rail ends before the end clamp does.",
        "common practice, no source: the rail carries the end clamp over its whole length" {
            have: Length = "have_mm", "Rail beyond the outer modules.";
            need: Length = "need_mm", "What an end clamp takes.";
        }

    StiffnessOfBar = "hook.stiffness-of-its-bar", Warning at "/components/hook/stiffness/normal_kn_per_mm", [Fixing],
        "The hook's stiffness is calculated: its arm as a flat bar on a foot that turns on its screws.",
        "elastic bending of the arm; stiffness of screws and timber from memory" {}
    EventJudged = "event.judged", Warning, [Data],
        "Verdict, checks and actions are those of an observed event, every factor 1: not of the loads the site is designed for.",
        "EN 1990 6.4.3.2, with factors of 1" {}

    // Notices: for information, or met and checked.
    PackingNotProven = "survey.packing-not-proven", Notice, [Fixing],
        "Packers and slots do, but the search ended before it was proven that less packing would not.",
        "the search is exact and bounded" {
            rail: String = "rail", "Rail.";
            packing: Length = "packing_mm", "Packing that does.";
            bound: Length = "packing_bound_mm", "Less than this does not.";
        }
    SearchLimit = "search.limit-reached", Notice, [Rail],
        "The search stopped at its limit; fewer hooks may do.",
        "wishes.search_limit" {
            rail: String = "rail", "Rail.";
            segment: Option<usize> = "segment", "Segment of it, counted from the left from 1; none where it has but one.";
            weighed: u64 = "weighed", "Choices looked at.";
            lower_bound: usize = "lower_bound", "Fewer hooks than this do not do.";
            hooks: usize = "hooks", "Hooks used.";
        }
    ArmOffAxis = "hook.arm-off-rafter-axis", Notice, [Fixing],
        "Arms stand off the rafter axis, within the range of the foot; the screws are checked for it.",
        "trade press on hook tests: the place of the arm on the foot changes strength and stiffness" {
            offset: Length = "offset_mm", "How far the farthest stands off.";
        }
    DeclaredInVain = "declaration.without-effect", Notice, [Data],
        "A declaration takes over a check that this job does not lack.",
        "declarations of the request" {
            check: String = "check", "The check, by its code.";
            who: String = "who", "Who declares it.";
        }
    TestedAboveBar = "hook.tested-above-its-bar", Notice, [Data],
        "A declared resistance of the hook is far above what its arm bears as a flat bar; tests or an approval are named for it.",
        "EN 1993-1-1 6.2.5; more than one and a half times as much, own judgement" {
            declared: Force = "declared_kn", "Declared design resistance.";
            bar: Force = "bar_kn", "Design resistance of the arm as a flat bar.";
        }
    SpacingsDeclared = "screw.spacings-declared", Notice, [Fixing],
        "Distances of the screws are checked against those the caller declares.",
        "declared for the screw" {
            source: String = "source", "The approval, as the caller names it.";
        }
    SpliceInMiddleThird = "rail.splice-in-middle-third", Notice, [Rail],
        "A splice lies in the middle third of a span: no cutting of the rail avoids it, or the splices are hinges.",
        "common practice: splices stay away from the middle of a span" {
            rail: String = "rail", "Rail.";
            splices: usize = "splices", "Splices of this part of it.";
            at: SplicePlace = "place", "Where one lies.";
            splice: SpliceKind = "splice", "Kind of splice.";
        }
    RailRunsOn = "rail.runs-on", Notice, [Rail],
        "A rail runs on beyond its modules, because no rafter under them can hold its end.",
        "geometry; that rails are laid to the next rafter is common practice" {
            rails: Vec<String> = "rails", "Rails.";
            longest: Length = "longest_mm", "Rail beyond the usual end, where it is most.";
        }
    CuttingNotProven = "parts.cutting-not-proven", Notice, [Rail],
        "The search for the cutting plan stopped at its limit; a plan that buys less rail or fewer bars may exist.",
        "bounded effort of the cutting plan" {
            aim: CuttingAim = "aim", "What the plan aims at first.";
            bought: Length = "bought_mm", "Rail it buys.";
            bars: u64 = "bars", "Bars it buys.";
            least: Length = "lower_bound_mm", "No plan buys less.";
            fewest: u64 = "lower_bound_bars", "No plan buys fewer.";
        }
    NotRanked = "search.not-ranked", Notice, [Rail],
        "The number of hooks is proven; the search for the least used choice of as many stopped at its limit.",
        "wishes.search_limit" {
            rail: String = "rail", "Rail.";
            segment: Option<usize> = "segment", "Segment of it, counted from the left from 1; none where it has but one.";
            hooks: usize = "hooks", "Hooks used.";
        }
    SpreadForRafters = "search.spread-for-rafters", Notice, [Rail, Rafters],
        "The fewest hooks would overload a rafter, so they are spread over more; that fewer would not do is not proven.",
        "rafters couple the rails, which are searched one by one" {
            rail: String = "rail", "Rail.";
            segment: Option<usize> = "segment", "Segment of it, counted from the left from 1; none where it has but one.";
            lower_bound: usize = "lower_bound", "The fewest hooks the rail passes with by itself.";
            hooks: usize = "hooks", "Hooks used.";
        }
    RailsBearOnEachOther = "search.rails-bear-on-each-other", Notice, [Rail],
        "Rails cross: which rafters have lower rails and how many hooks these take is found with both layers solved together, and not proven to be the fewest.",
        "forces where rails cross depend on the hooks of all of them, which are searched rail by rail" {
            field: String = "field", "Field.";
            lower_rails: usize = "lower_rails", "Lower rails taken.";
            hooks: usize = "hooks", "Hooks taken.";
        }
    SameRaftersCost = "search.same-rafters", Notice, [Rail],
        "All rails of a field have their hooks on the same rafters, as was asked for; in any pattern another number of them would hold.",
        "wishes.objective" {
            hooks: usize = "hooks", "Hooks used.";
            in_any_pattern: usize = "in_any_pattern", "Hooks that hold where the pattern is free.";
        }
    NoTroughInReach = "hook.no-trough-in-reach", Notice, [Covering],
        "Some rafters cannot take a hook because no trough lies within reach of its foot.",
        "geometry of covering and foot" {
            rafters: Vec<usize> = "rafters", "Rafters, counted from 0.";
            range: Length = "range_mm", "How far the arm may stand off the axis.";
        }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_are_dotted_lower_case_and_unique() {
        for (i, kind) in CATALOGUE.iter().enumerate() {
            assert!(kind.code.split('.').count() == 2, "{}", kind.code);
            assert!(
                kind.code.chars().all(|c| c.is_ascii_lowercase() || c == '.' || c == '-'),
                "{}",
                kind.code
            );
            assert!(CATALOGUE[i + 1..].iter().all(|other| other.code != kind.code));
        }
    }

    #[test]
    fn the_unit_of_a_parameter_is_in_its_name() {
        for kind in CATALOGUE {
            for parameter in kind.parameters {
                let unit = match parameter.kind {
                    ValueKind::Length => "_mm",
                    ValueKind::Force => "_kn",
                    ValueKind::Pressure => "_kn_per_m2",
                    ValueKind::LineLoad => "_kn_per_m",
                    ValueKind::Stiffness => "_kn_per_mm",
                    ValueKind::Density => "_kg_per_m3",
                    ValueKind::Angle => "_deg",
                    ValueKind::Percent => "_percent",
                    without => {
                        assert_eq!(without.unit(), None, "{}", parameter.name);
                        continue;
                    }
                };
                assert!(parameter.name.ends_with(unit), "{} of {}", parameter.name, kind.code);
            }
        }
    }
}
