//! What acts on an array: snow, wind and weight on the slope, and how they combine.

use crate::codes::vocabulary::{
    Combination, CombinationBasis, FactorSet, Gatherer, GroundSnow, Person, Snow, SnowConditions,
    WindField,
};
use crate::codes::{Code, NotCovered, Rules};
use crate::units::{Angle, Area, Force, Length, LineLoad, Pressure};

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
    /// Somebody at work on the roof, in a combination of its own: rafters alone are checked in it. Nobody is
    /// where an observed event is judged.
    pub person: Option<Person>,
    /// What snow and combinations follow from besides the loads themselves.
    pub origin: Origin,
}

/// What the actions of a place follow from besides the loads themselves.
#[derive(Debug, Clone)]
pub struct Origin {
    /// Pitch of the slope.
    pub pitch: Angle,
    /// Its length on plan.
    pub run: Length,
    /// What gathers snow.
    pub gatherers: Vec<Gatherer>,
    /// What the combinations depend on.
    pub basis: CombinationBasis,
}

impl Origin {
    /// Snow on the slope in all its arrangements; the gatherers a rule is silent on, by place; and whether
    /// another rule stands in for that of the country.
    #[must_use]
    pub fn snow(
        &self,
        rules: Rules,
        ground: GroundSnow,
        conditions: SnowConditions,
    ) -> (Snow, Vec<(usize, NotCovered)>, bool) {
        let mut snow = rules.snow(ground, conditions, self.pitch, self.run);
        let slope = (self.pitch, self.basis.altitude);
        let arranged = rules.snow_arrangements(&snow, slope, &self.gatherers);
        snow.arrangements = arranged.arrangements;
        (snow, arranged.silent, arranged.stands_in)
    }
}

impl Actions {
    /// The same place under another snow load on the ground. What follows from it follows: the load
    /// on the slope, drifts, exceptional snow. The combinations stay.
    #[must_use]
    pub fn with_ground_snow(&self, rules: Rules, load: Pressure) -> Self {
        let ground = GroundSnow { load, ..self.snow.ground.clone() };
        let (snow, ..) = self.origin.snow(rules, ground, self.snow.conditions);
        Self { snow, ..self.clone() }
    }

    /// The same place under another peak pressure of the wind. Zones and coefficients stay.
    #[must_use]
    pub fn with_peak_pressure(&self, pressure: Pressure) -> Self {
        let mut other = self.clone();
        let Wind { first, others, covering, reason: _ } = &mut other.wind;
        for OnModules { fixings, modules, .. } in std::iter::once(first).chain(others) {
            fixings.peak.pressure = pressure;
            modules.peak.pressure = pressure;
        }
        if let Some(covering) = covering {
            covering.peak.pressure = pressure;
        }
        other
    }

    /// The same combinations, with every partial factor 1: what acts beside a leading action keeps its
    /// combination factor.
    #[must_use]
    pub fn with_factors_of_one(&self, rules: Rules) -> Self {
        let basis = CombinationBasis { factors: FactorSet::One, ..self.origin.basis };
        Self {
            combinations: rules.combinations(
                &basis,
                self.wind.strongest(),
                &self.snow.arrangements,
            ),
            person: self.person.as_ref().map(|_| rules.person(&basis)),
            origin: Origin { basis, ..self.origin.clone() },
            ..self.clone()
        }
    }

    /// A combination by number; that of the person comes after all others.
    #[must_use]
    pub fn combination(&self, index: usize) -> Option<&Combination> {
        let person = self.person.as_ref().filter(|_| index == self.combinations.len());
        self.combinations.get(index).or(person.map(|person| &person.combination))
    }
}

/// The wind on the slope, as each kind of element feels it: the larger the area one collects wind
/// from, the less of a peak. The zones are the same.
#[derive(Debug, Clone)]
pub struct Wind {
    /// On the modules of the first field and what holds them.
    pub first: OnModules,
    /// On those of any other size.
    pub others: Vec<OnModules>,
    /// On the covering beside the array, as a rafter collects it; `None` where no rafter is checked.
    pub covering: Option<WindField>,
    /// The caller's reason for the loaded area of the fixings.
    pub reason: Option<String>,
}

/// The wind on modules of one size and on what holds them.
#[derive(Debug, Clone)]
pub struct OnModules {
    /// Area of one module.
    pub area: Area,
    /// On fixings: hooks, their screws, clamps, and the rails on them.
    pub fixings: WindField,
    /// On modules.
    pub modules: WindField,
}

impl Wind {
    /// On modules of every size and what holds them.
    pub fn all(&self) -> impl Iterator<Item = &OnModules> {
        std::iter::once(&self.first).chain(&self.others)
    }

    /// On modules of this area and what holds them.
    #[must_use]
    pub fn on(&self, area: Area) -> &OnModules {
        self.others.iter().find(|of| of.area == area).unwrap_or(&self.first)
    }

    /// What is alike on all fixings: peak pressure, zones, and where their coefficients come from.
    #[must_use]
    pub const fn zoned(&self) -> &WindField {
        &self.first.fixings
    }

    /// On the fixings of the smallest modules. Coefficients only grow as the loaded area shrinks: a wind
    /// that acts on any fixing acts on these.
    #[must_use]
    pub fn strongest(&self) -> &WindField {
        let all = self.others.iter();
        &all.fold(&self.first, |a, b| if b.area < a.area { b } else { a }).fixings
    }
}

/// Weight of the parts that load the rails, but for the modules.
#[derive(Debug, Clone, Copy)]
pub struct Weight {
    /// One clamp.
    pub clamp: Force,
    /// A rail.
    pub rail: LineLoad,
}
