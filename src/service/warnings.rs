//! Warnings: a catalogue of stable codes, and the one place that writes them.

use std::collections::BTreeMap;

use crate::model::layout::{Param, Severity, Verdict, Warning};

/// One kind of warning.
#[derive(Debug, Clone, Copy)]
pub struct WarningKind {
    /// Stable code: never renamed or reused.
    pub code: &'static str,
    /// How much it matters.
    pub severity: Severity,
    /// What it says.
    pub meaning: &'static str,
    /// Clause or practice it rests on.
    pub source: &'static str,
}

macro_rules! catalogue {
    ($($name:ident = $code:literal, $severity:ident, $meaning:literal, $source:literal;)+) => {
        $(
            #[doc = $meaning]
            pub const $name: WarningKind = WarningKind {
                code: $code,
                severity: Severity::$severity,
                meaning: $meaning,
                source: $source,
            };
        )+
        /// Every warning an answer can carry, by severity.
        pub const CATALOGUE: &[WarningKind] = &[$($name),+];
    };
}

catalogue! {
    NO_PATTERN = "rail.no-hook-pattern-passes", Failure,
        "No choice of hooks on the rail passes every check; every candidate is used and the governing check is named.",
        "all checks of the layout";
    FREE_END = "rail.free-end-too-long", Failure,
        "The outermost rafter inside a rail lies farther from the rail's end than the rail may overhang.",
        "limit declared for the rail";
    TOO_FEW_RAFTERS = "rail.too-few-rafters", Failure,
        "Fewer than two hooks can stand under a rail segment.",
        "statics: a rail needs two supports";
    UNSTABLE = "rail.not-stable", Failure,
        "Hinged splices leave the rail free to move.",
        "statics";
    NEAR_OBSTACLE = "array.inside-obstacle-clearance", Failure,
        "Modules lie inside the strip an obstacle is to keep free.",
        "clearance given with the obstacle";
    RAILS_MEET = "rail.rails-overlap", Failure,
        "Two rails lie over each other or touch.",
        "geometry";
    FOOT_BAY = "hook.foot-longer-than-bay", Failure,
        "The foot is longer than the clear space between two battens.",
        "geometry of covering and foot";
    FOOT_BLOCKED = "hook.foot-does-not-fit", Failure,
        "The foot comes to stand on the head of a tile or under a batten by more than can be cut away: the hook cannot be fitted.",
        "geometry of covering and hook; how much can be cut is common practice, no source";
    FOOT_OFF_ROOF = "hook.foot-off-roof", Failure,
        "The foot of a hook would stand beyond the edge of the slope or on an obstacle.",
        "geometry";
    RAIL_OFF_ROOF = "rail.off-roof", Failure,
        "A rail runs beyond the edge of the slope or into an obstacle.",
        "geometry";
    NO_COURSE = "rail.no-course-in-clamp-zone", Failure,
        "No course of the covering lets a rail lie inside both clamp zones of a row of modules.",
        "clamp zones declared for the module; geometry of the covering";
    CLEARANCE_LOW = "clearance.below-minimum", Failure,
        "The arm stands nearer to the tile below than asked for; in a layout, no stack of packers lifts it enough.",
        "common practice, no source: at least 5 mm before load";
    EMBEDMENT = "screw.too-short", Failure,
        "Less than six diameters of thread reach into the rafter: the screw has no withdrawal capacity.",
        "EN 1995-1-1 8.7.2(3)";
    MODULE = "module.overloaded", Failure,
        "The design load on a module exceeds what it takes.",
        "capacity declared for the module";
    CLAMP = "clamp.overloaded", Failure,
        "The design lift on a clamp exceeds what it holds.",
        "capacity declared for the clamp";
    RAFTER = "rafter.overloaded", Failure,
        "A rafter fails in bending or shear under its hooks and the roof's own weight.",
        "EN 1995-1-1 6.1.6, 6.1.7";
    HOOK_OVER = "hook.overloaded", Failure,
        "A hook is loaded beyond its declared resistance.",
        "resistance declared for the hook";
    SCREW_OVER = "screw.overloaded", Failure,
        "The screws of a hook are loaded beyond their resistance.",
        "EN 1995-1-1 8.3.3, Eq. (8.28)";
    CLEARANCE_CLOSES = "clearance.closes-under-load", Failure,
        "The arm of a hook comes down on the tile below under load.",
        "stiffness declared for the hook; contact with the tile is the limit";
    RAIL_BENDS = "rail.overloaded", Failure,
        "A rail is bent beyond its strength.",
        "EN 1999-1-1 6.2.5";
    RAIL_DEFLECTS = "rail.deflects-too-far", Failure,
        "A rail deflects more than its limit.",
        "limit declared for the rail";
    TOO_FEW_HOOKS = "rail.too-few-hooks", Failure,
        "Fewer than two hooks hold a part of a built rail.",
        "statics: a rail needs two supports";
    OFF_CLAMP_ZONE = "rail.outside-clamp-zone", Failure,
        "A built rail lies where the modules over it may not be clamped.",
        "clamp zones declared for the module";
    ROW_RAILS = "array.row-without-two-rails", Failure,
        "Modules of a row do not lie on two rails.",
        "statics: a module needs two rails";
    TOO_LONG = "rail.longer-than-continuous", Failure,
        "A built rail is longer without a gap than its expansion allows.",
        "limit declared for the rail";
    MISSES_RAFTER = "hook.misses-rafter", Failure,
        "No rafter lies under a built hook: it is counted as carrying nothing.",
        "a foot needs timber under it";
    BEYOND_RAIL = "hook.beyond-rail-end", Failure,
        "A built hook stands where its rail does not reach, or in an expansion gap: it is counted as carrying nothing.",
        "geometry";
    ON_ANOTHER = "hook.on-another-hook", Failure,
        "Two built hooks of a rail stand in one place: the second is counted as carrying nothing.",
        "geometry: arms are wider than that";
    STACK_HIGH = "packers.stack-too-high", Failure,
        "The packers under a built hook are a higher stack than they allow.",
        "limit declared for the packers";
    NO_STACK = "survey.no-stack-clears-tile", Failure,
        "At a surveyed hook no stack of packers lifts the arm clear of the tile below and keeps it off the tile above.",
        "measurements of the survey; limit declared for the packers";
    NOT_STRAIGHT = "survey.rail-not-straight", Failure,
        "No packers and slot settings bring a surveyed rail out straight.",
        "measurements of the survey; slot range declared for the hook";
    NOT_MEASURED = "survey.not-measured", Unverified,
        "Clearance or level of hooks on a surveyed rail is not measured: packers and slots cannot be chosen.",
        "a straight rail needs every hook of it";
    NOT_DECIDED = "survey.search-ended", Unverified,
        "The search for packers and slots ended at its limit before it found any.",
        "the search is exact and bounded";
    SCREW_SILENT = "screw.outside-rules", Unverified,
        "The rules do not cover the screw or its spacing; its resistance is not verified.",
        "EN 1995-1-1 8.7.2, Table 8.1";
    SCREW_EDGE = "screw.too-near-rafter-edge", Unverified,
        "A screw stands nearer to the edge of the rafter than the rules allow; its own approval may allow it.",
        "EN 1995-1-1 Tables 8.2 and 8.6";
    SCREW_EACH_OTHER = "screw.too-near-another", Unverified,
        "Two screws of a foot stand nearer to each other than the rules allow; their approval may allow it.",
        "EN 1995-1-1 Table 8.6";
    BASIS = "hook.resistance-basis-unknown", Unverified,
        "Nobody knows what the declared resistances of the hook rest on; the layout cannot be said to hold.",
        "common practice: resistances come from tests, an approval or a calculation";
    STIFFNESS = "clearance.stiffness-unknown", Unverified,
        "The hook's stiffness is not given, so nobody knows whether its arm touches the tile under load.",
        "clearance under load needs the stiffness square to the roof";
    INVENTED = "parts.invented", Unverified,
        "Embedded parts are used, whose figures are invented: no result with them is one for a real roof.",
        "the embedded parts stand for no product";
    EDGE_NOT_COMPUTED = "roof.edge-not-computed", Unverified,
        "The slope has a side whose wind or snow is not computed: a hip, a valley, an abutment, or one that does not lie on the rectangle around the slope.",
        "EN 1991-1-4 7.2, EN 1991-1-3 5.3.4 and 5.3.6";
    GUARD = "snow.guard-not-computed", Unverified,
        "A snow guard stands on the slope and the snow is not said to be held: the load would be too low above it.",
        "EN 1991-1-3 5.3.3(4)";
    RAFTER_CUT = "rafter.cut-by-opening", Unverified,
        "An opening cuts a rafter that carries hooks, or lays the load of a cut one on a rafter that does.",
        "common practice: openings wider than a bay have trimmers";
    INSULATION = "layers.insulation-under-foot", Unverified,
        "The screws cross insulation: the counter-batten must pass the load on by itself, which is for a structural engineer.",
        "common practice, no source";
    RAFTER_UNVERIFIED = "rafter.not-verified", Unverified,
        "No span is given: the rafters are not verified, only their forces are reported.",
        "EN 1995-1-1 needs span and section";
    SIDEWAYS_EDGE = "screw.edge-under-sideways-load", Unverified,
        "An arm off the rafter axis turns its foot; the screws' distance to the rafter's edge is too short for the sideways part of their load. Their approval may allow it.",
        "EN 1995-1-1 Table 8.2, loaded edge";
    SHORT_SIDE = "clamp.short-side-zone-unknown", Unverified,
        "Modules lie landscape and are clamped on their short sides, for which no clamp zone is given.",
        "clamp zones declared for the module";
    SLOT_END = "survey.slot-nearly-used-up", Caution,
        "A bolt comes to sit near the end of its slot: nothing is left to adjust for what was measured a little wrong.",
        "common practice, no source: a millimetre is about what a string line is read to";
    PACKING_NOT_BEST = "survey.packing-not-proven", Caution,
        "Packers and slots do, but the search ended before it was proven that less packing would not.",
        "the search is exact and bounded";
    SPLICE_RULES = "rail.splice-outside-rules", Caution,
        "A splice lies in an end span, in a free end, at a hook or under a clamp: no cutting of the rail avoids it, or the splices are hinges.",
        "common practice: pieces on two hooks each, splices off hooks and clamps";
    BELOW_RULE_PITCH = "covering.below-rule-pitch", Caution,
        "The roof is flatter than any rule pitch of its covering: ask a roofer what keeps the water out.",
        "trade practice: lowest rule pitches 30° plain tile, 20° slate, 15° interlocking tile";
    LIMIT = "search.limit-reached", Caution,
        "The search stopped at its limit; fewer hooks may do.",
        "wishes.search_limit";
    ARM_OFF_AXIS = "hook.arm-off-rafter-axis", Caution,
        "Arms stand off the rafter axis; check that the hook's declared figures hold for that.",
        "trade press on hook tests: the place of the arm on the foot changes strength and stiffness";
    FOOT_BAY_TIGHT = "hook.foot-tight-in-bay", Caution,
        "The foot fills the clear space between two battens; heads of tiles stand into it.",
        "common practice, no source: heads stand about 15 mm into the space";
    FOOT_OFF_BAY = "hook.foot-meets-batten-or-tile", Caution,
        "The foot fits between tile and batten, but not where it comes to stand when the arm leaves as the hook is made.",
        "geometry of covering and hook";
    LOWER_JOINT = "tile.arm-along-joint-below", Caution,
        "An arm lies along a side joint of the tiles below it instead of over the middle of one.",
        "common practice, no source: that joint is to stay covered and free of load";
    NOTCH_THROUGH = "tile.notch-deeper-than-tile", Caution,
        "The arm takes more height than the tile above it is thick: no notch leaves a tile, and no substitute tiles are given.",
        "geometry of covering and hook";
    COUNTER_BATTEN_EDGE = "screw.near-counter-batten-edge", Caution,
        "Screws stand near the edge of the counter-batten and may split it.",
        "EN 1995-1-1 Table 8.2, taken for the counter-batten too";
    EDGE_CRUSHES = "foot.edge-presses-into-timber", Caution,
        "The edge the foot turns about presses harder than the timber bears across the grain: it sinks in, the lever shortens and the screws pull more than computed.",
        "EN 1995-1-1 6.1.5, factor 1.5 and spread of 30 mm from memory";
    SCREW_THROUGH = "screw.longer-than-rafter", Caution,
        "The screw comes out below the rafter.",
        "geometry";
    ADDED_LOAD = "rafter.added-load", Caution,
        "The array adds more than 15 % to the permanent load of a rafter: ask whether the structure needs an engineer's proof.",
        "benchmark of building control guidance on retrofitted arrays";
    SNOW_MEMORY = "snow.table-from-memory", Caution,
        "The ground snow follows EN 1991-1-3 Annex C as remembered; check it against the printed map and table.",
        "EN 1991-1-3 Table C.1, from memory";
    PLAN = "roof.plan-mismatch", Caution,
        "The slope's outline and the building's width do not fit a duopitch roof of this pitch.",
        "geometry";
    EXPANSION = "rail.expansion-gap-needs-room", Caution,
        "At an expansion gap both modules need end clamps; the gap between them is too narrow for that.",
        "common practice: no module or clamp bridges an expansion gap";
    CLAMP_GAP = "clamp.gap-differs", Caution,
        "The gap between modules is not the one the mid clamp makes.",
        "geometry of the clamp";
    OFF_COURSE = "rail.off-course-line", Caution,
        "A built rail does not lie where its arms would leave a regular covering.",
        "geometry of the covering";
    END_CLAMP = "rail.end-shorter-than-clamp", Caution,
        "The rail ends before the end clamp does.",
        "common practice, no source: the rail carries the end clamp over its whole length";
    SPLICE_MIDDLE = "rail.splice-in-middle-third", Notice,
        "A splice lies in the middle third of a span: no cutting of the rail avoids it, or the splices are hinges.",
        "common practice: splices stay away from the middle of a span";
    CUTTING_NOT_PROVEN = "parts.cutting-not-proven", Notice,
        "The search for the cutting plan stopped at its limit; a plan that buys less rail or fewer bars may exist.",
        "bounded effort of the cutting plan";
    NOT_RANKED = "search.not-ranked", Notice,
        "The number of hooks is proven; the search for the least used choice of as many stopped at its limit.",
        "wishes.search_limit";
    SPREAD = "search.spread-for-rafters", Notice,
        "The fewest hooks would overload a rafter, so they are spread over more; that fewer would not do is not proven.",
        "rafters couple the rails, which are searched one by one";
    OUT_OF_REACH = "hook.no-trough-in-reach", Notice,
        "Some rafters cannot take a hook because no trough lies within reach of its foot.",
        "geometry of covering and foot";
}

/// Where in a request what is not verified can be supplied or changed; what only a structural
/// engineer can settle points at what he has to look at. What a survey lacks it names itself.
pub const LIFTED_AT: &[(&WarningKind, &str)] = &[
    (&BASIS, "/components/hook/resistance/basis"),
    (&STIFFNESS, "/components/hook/stiffness/normal_kn_per_mm"),
    (&SHORT_SIDE, "/array/module/short_side_clamp_zone_mm"),
    (&SCREW_SILENT, "/components/screw/withdrawal_n_per_mm2"),
    (&SCREW_EDGE, "/components/hook/foot/screws_mm"),
    (&SCREW_EACH_OTHER, "/components/hook/foot/screws_mm"),
    (&SIDEWAYS_EDGE, "/components/hook/foot/screws_mm"),
    (&RAFTER_UNVERIFIED, "/roof/rafters/span_m"),
    (&RAFTER_CUT, "/roof/obstacles"),
    (&EDGE_NOT_COMPUTED, "/roof/edges"),
    (&GUARD, "/site/snow_held"),
    (&INSULATION, "/roof/layers/insulation_mm"),
];

/// Collects warnings.
#[derive(Debug, Default)]
pub struct Warnings(Vec<Warning>);

impl Warnings {
    /// Adds a warning of a kind.
    pub fn add(
        &mut self,
        kind: &WarningKind,
        path: impl Into<String>,
        message: impl Into<String>,
        params: impl IntoIterator<Item = (&'static str, Param)>,
    ) {
        self.0.push(Warning {
            code: kind.code,
            severity: kind.severity,
            message: message.into(),
            path: path.into(),
            params: params.into_iter().collect::<BTreeMap<_, _>>(),
            source: kind.source.to_owned(),
        });
    }

    /// These and some more.
    #[must_use]
    pub fn and(mut self, more: &Self) -> Self {
        self.0.extend(more.0.iter().cloned());
        self
    }

    /// The warnings, most severe first, and the verdict they leave.
    #[must_use]
    pub fn judge(mut self) -> (Vec<Warning>, Verdict) {
        self.0.sort_by_key(|w| w.severity);
        let verdict = match self.0.first().map(|w| w.severity) {
            Some(Severity::Failure) => Verdict::Fails,
            Some(Severity::Unverified) => Verdict::Incomplete,
            Some(Severity::Caution) => Verdict::HoldsWithWarnings,
            Some(Severity::Notice) | None => Verdict::Holds,
        };
        (self.0, verdict)
    }
}

/// A figure of a warning.
#[must_use]
pub const fn number(value: f64) -> Param {
    Param::Number(value)
}

/// A name in a warning.
pub fn text(value: impl Into<String>) -> Param {
    Param::Text(value.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whatever_is_not_verified_names_what_would_lift_it() {
        let unverified = CATALOGUE.iter().filter(|kind| kind.severity == Severity::Unverified);
        for kind in unverified {
            let named = LIFTED_AT.iter().any(|(lifted, _)| lifted.code == kind.code)
                || kind.code == INVENTED.code
                || kind.code.starts_with("survey.");
            assert!(named, "{}", kind.code);
        }
    }

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
}
