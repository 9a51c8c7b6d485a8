//! The element that is used most: what the answer names, and what papers say in words.

use crate::checks::Check;
use crate::model::layout::JobUtilisation;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::service::rounding;

use super::elements;

/// The highest utilisation, and what it belongs to.
#[derive(Debug, Clone, PartialEq)]
pub struct Worst {
    /// The utilisation.
    pub used: f64,
    /// The element.
    pub element: Element,
    /// The check that governs there.
    pub check: Check,
    /// Index of the combination that governs there.
    pub combination: usize,
}

/// An element of a job.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Element {
    /// A hook, rail or module, by its id.
    Named(String),
    /// A rafter, by its number.
    Rafter(usize),
}

impl Worst {
    /// As the answer has it.
    #[must_use]
    pub fn answer(&self, job: &Job) -> JobUtilisation {
        JobUtilisation {
            max: rounding::utilisation(self.used),
            element: match &self.element {
                Element::Named(id) => id.clone(),
                Element::Rafter(rafter) => format!("rafter {rafter}"),
            },
            check: self.check.name().to_owned(),
            combination: elements::combination_id(job, self.combination),
        }
    }
}

/// The element that is used most; of equals the first.
#[must_use]
pub fn worst_of(job: &Job, layout: &Layout) -> Worst {
    let nothing = Element::Named(String::new());
    let mut worst = Worst { used: 0.0, element: nothing, check: Check::Hook, combination: 0 };
    let mut see = |used: f64, element: &dyn Fn() -> Element, check: Check, combination: usize| {
        if used > worst.used {
            worst = Worst { used, element: element(), check, combination };
        }
    };
    for (r, rail) in layout.rails.iter().enumerate() {
        for (s, laid) in rail.segments.iter().enumerate() {
            let Some(result) = &laid.result else { continue };
            let (check, governing, hook) = result.governing();
            let element = || {
                let id = |h| elements::hook_id(layout, [r, s, h]);
                Element::Named(hook.map_or_else(|| rail.line.id.clone(), id))
            };
            see(governing.utilisation, &element, check, governing.combination);
        }
    }
    for module in &layout.modules {
        let element = || Element::Named(elements::module_id(job, &module.placed));
        let [press, lift] = module.combinations;
        see(module.check.press, &element, Check::Module, press);
        see(module.check.lift, &element, Check::Module, lift);
        see(module.check.clamp, &element, Check::Clamp, lift);
    }
    for rafter in &layout.rafters {
        for governing in rafter.utilisation.iter().flatten() {
            let element = || Element::Rafter(rafter.rafter);
            see(governing.utilisation, &element, Check::Rafter, governing.combination);
        }
    }
    worst
}
