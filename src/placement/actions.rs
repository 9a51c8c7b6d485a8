//! What acts on an array: snow, wind and weight on the slope, and how they combine.

use crate::codes::vocabulary::{Combination, Person, Snow, WindField};
use crate::units::{Area, Force, LineLoad};

/// Everything that acts.
#[derive(Debug, Clone)]
pub struct Actions {
    /// Snow.
    pub snow: Snow,
    /// Wind.
    pub wind: Wind,
    /// Weight.
    pub weight: Weight,
    /// Combinations, each wind direction its own.
    pub combinations: Vec<Combination>,
    /// Somebody at work on the roof, in a combination of its own: rafters alone are checked in it.
    pub person: Person,
}

impl Actions {
    /// A combination by number; that of the person comes after all others.
    #[must_use]
    pub fn combination(&self, index: usize) -> Option<&Combination> {
        let person = (index == self.combinations.len()).then_some(&self.person.combination);
        self.combinations.get(index).or(person)
    }
}

/// The wind on the slope, as each kind of element feels it: the larger the area one collects wind
/// from, the less of a peak. The zones are the same.
#[derive(Debug, Clone)]
pub struct Wind {
    /// On fixings: hooks, their screws, clamps, and the rails on them.
    pub fixings: WindField,
    /// On modules.
    pub modules: WindField,
    /// On the covering beside the array, as a rafter collects it; `None` where no rafter is checked.
    pub covering: Option<WindField>,
    /// The caller's reason for the loaded area of the fixings.
    pub reason: Option<String>,
}

/// Weight of the parts that load the rails.
#[derive(Debug, Clone, Copy)]
pub struct Weight {
    /// One module.
    pub module: Force,
    /// Area of one module.
    pub module_area: Area,
    /// One clamp.
    pub clamp: Force,
    /// A rail.
    pub rail: LineLoad,
}
