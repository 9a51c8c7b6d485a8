//! The embedded illustrative parts a request may name by id.
//!
//! Every figure is invented: plausible for its kind of part, so that an example behaves like a
//! real job, and taken from no product. Parts live as data beside this file, in the form in which
//! a request gives them, and are read once. Their ids begin with `demo-`, so that nobody takes them
//! for articles, and a result that rests on one is never said to hold.
//!
//! **Layer.** Read by `service` and `http`; names wire types, because that is what it holds.

pub mod usual;

use std::sync::LazyLock;

use crate::wire::catalogue::{
    ClampEntry, ComponentEntry as Entry, HookEntry, PackersEntry, RailEntry, ScrewEntry,
};
use crate::wire::components::{Clamp, Hook, Packers, Rail, Screw};

/// What the embedded parts must not be used for.
pub const NOTICE: &str =
    "The figures are invented for demonstration and must not be used for a real roof.";

macro_rules! shelf {
    ($(#[$one:meta])* $get:ident, $(#[$all:meta])* $list:ident: $part:ident from $file:literal) => {
        $(#[$all])*
        #[must_use]
        pub fn $list() -> &'static [$part] {
            static PARTS: LazyLock<Vec<$part>> = LazyLock::new(|| {
                // Data of this crate, read by the tests below: a mistake never reaches a request.
                serde_json::from_str(include_str!($file)).expect(concat!($file, " holds parts"))
            });
            &PARTS
        }

        $(#[$one])*
        #[must_use]
        pub fn $get(id: &str) -> Option<&'static $part> {
            $list().iter().find(|part| part.id == id)
        }
    };
}

shelf!(
    /// The embedded hook of this id.
    hook,
    /// Every embedded hook.
    hooks: Hook from "data/hooks.json"
);
shelf!(
    /// The embedded screw of this id.
    screw,
    /// Every embedded screw.
    screws: Screw from "data/screws.json"
);
shelf!(
    /// The embedded rail of this id.
    rail,
    /// Every embedded rail.
    rails: Rail from "data/rails.json"
);
shelf!(
    /// The embedded clamp of this id.
    clamp,
    /// Every embedded clamp.
    clamps: Clamp from "data/clamps.json"
);
shelf!(
    /// The embedded set of packers of this id.
    packers,
    /// Every embedded set of packers.
    packer_sets: Packers from "data/packers.json"
);

/// Every embedded part for the catalogue, kind by kind.
#[must_use]
pub fn entries() -> Vec<Entry> {
    let hooks = hooks().iter().map(|part| Entry::Hook(HookEntry::of(part, NOTICE)));
    let screws = screws().iter().map(|part| Entry::Screw(ScrewEntry::of(part, NOTICE)));
    let rails = rails().iter().map(|part| Entry::Rail(RailEntry::of(part, NOTICE)));
    let clamps = clamps().iter().map(|part| Entry::Clamp(ClampEntry::of(part, NOTICE)));
    let packers = packer_sets().iter().map(|part| Entry::Packers(PackersEntry::of(part, NOTICE)));
    hooks.chain(screws).chain(rails).chain(clamps).chain(packers).collect()
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;
    use crate::wire::catalogue::ComponentKind;

    #[test]
    fn every_part_is_found_by_its_id_and_called_illustrative() {
        let entries = entries();
        let ids: HashSet<_> = entries.iter().map(Entry::id).collect();
        assert_eq!(ids.len(), entries.len(), "an id is used twice");
        for entry in &entries {
            let id = entry.id();
            assert!(id.starts_with("demo-"), "{id} could be an article");
            let found = match entry.kind() {
                ComponentKind::Hook => hook(id).is_some(),
                ComponentKind::Screw => screw(id).is_some(),
                ComponentKind::Rail => rail(id).is_some(),
                ComponentKind::Clamp => clamp(id).is_some(),
                ComponentKind::Packers => packers(id).is_some(),
            };
            assert!(found, "{id}");
        }
        assert!(hook("demo-rail-40").is_none(), "a rail is no hook");
    }

    #[test]
    fn every_hook_says_in_its_name_that_it_is_illustrative() {
        assert!(hooks().len() >= 3);
        for hook in hooks() {
            let name = hook.name.as_deref().unwrap_or_default();
            assert!(name.starts_with("Illustrative "), "{}", hook.id);
        }
    }

    #[test]
    fn screws_are_drawn_inside_their_feet() {
        for hook in hooks() {
            for [x, y] in &hook.foot.screws_mm {
                assert!(x.abs() <= hook.foot.width_mm / 2.0, "{}", hook.id);
                assert!((0.0..=hook.foot.length_mm).contains(y), "{}", hook.id);
            }
        }
    }
}
