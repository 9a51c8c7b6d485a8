//! What the elements of a job are called where a finding is about one of them.

use crate::assessment::Place;
use crate::placement::Job;
use crate::placement::laid::Layout;

use super::elements;
use super::worst::Element;

/// What the elements of a job are called, in the order in which the answer lists them.
#[derive(Debug, Default)]
pub struct ElementNames {
    rails: Vec<String>,
    hooks: Vec<String>,
    modules: Vec<String>,
    rafters: Vec<usize>,
}

impl ElementNames {
    /// The names in a layout.
    #[must_use]
    pub fn of_layout(job: &Job, layout: &Layout) -> Self {
        Self {
            rails: layout.rails.iter().map(|rail| rail.line.id.clone()).collect(),
            hooks: layout.hooks().map(|(at, _)| elements::hook_id(layout, at)).collect(),
            modules: layout.modules.iter().map(|of| elements::module_id(job, &of.placed)).collect(),
            rafters: layout.rafters.iter().map(|rafter| rafter.rafter).collect(),
        }
    }

    /// The name of the element at a place, where it is a single one.
    #[must_use]
    pub fn of(&self, place: Place) -> Option<String> {
        match place {
            Place::Rail(at) | Place::Segment(at, _) => self.rails.get(at).cloned(),
            Place::Hook(at) => self.hooks.get(at).cloned(),
            Place::Module(at) => self.modules.get(at).cloned(),
            Place::Rafter(at) => self.rafters.get(at).map(|at| Element::Rafter(*at).id()),
            _ => None,
        }
    }
}
