//! Figures and names of a finding, with their quantities: what languages put into sentences and
//! answers into fields.

use crate::checks::Check;
use crate::units::{Angle, Area, Density, Force, Length, LineLoad, Pressure, Stiffness};

/// A utilisation: demand over resistance. It has no order here: whether one is over its limit is
/// decided where findings are made, and nowhere above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Utilisation(f64);

impl Utilisation {
    /// What a check found.
    pub(crate) const fn new(value: f64) -> Self {
        Self(value)
    }

    /// One for a test.
    #[cfg(test)]
    #[must_use]
    pub const fn sample(value: f64) -> Self {
        Self(value)
    }

    /// For writing it down, and for nothing else.
    #[must_use]
    pub const fn written(self) -> f64 {
        self.0
    }
}

/// A dimensionless share, 1 being the whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share(pub f64);

/// A limit of utilisation the caller set below 1.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bound(pub f64);

/// One row per kind of value: what it is, its type, and its unit as a member of an answer.
macro_rules! values {
    ($(#[$doc:meta] $kind:ident($of:ty) in $unit:expr;)+) => {
        /// One figure or name, or a list of them.
        #[derive(Debug, Clone, PartialEq)]
        pub enum Value {
            $(#[$doc] $kind($of),)+
        }

        /// What kind of value something is.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum ValueKind {
            $(#[$doc] $kind,)+
        }

        impl Value {
            /// Its kind.
            #[must_use]
            pub const fn kind(&self) -> ValueKind {
                match self { $(Self::$kind(_) => ValueKind::$kind,)+ }
            }
        }

        impl ValueKind {
            /// Unit in which an answer writes it, where it has one.
            #[must_use]
            pub const fn unit(self) -> Option<&'static str> {
                match self { $(Self::$kind => $unit,)+ }
            }
        }
    };
}

values! {
    /// A length.
    Length(Length) in Some("mm");
    /// A force.
    Force(Force) in Some("kN");
    /// A force per area.
    Pressure(Pressure) in Some("kN/m²");
    /// A force per length.
    LineLoad(LineLoad) in Some("kN/m");
    /// A spring.
    Stiffness(Stiffness) in Some("kN/mm");
    /// A density.
    Density(Density) in Some("kg/m³");
    /// A surface.
    Area(Area) in Some("m²");
    /// The area of a section.
    Section(Area) in Some("mm²");
    /// An angle.
    Angle(Angle) in Some("°");
    /// A share in per cent.
    Percent(f64) in Some("%");
    /// A utilisation.
    Utilisation(Utilisation) in None;
    /// A share or factor.
    Share(f64) in None;
    /// Yes or no.
    Flag(bool) in None;
    /// How many, or a number by which something goes.
    Count(u64) in None;
    /// A name.
    Name(String) in None;
    /// Several names.
    Names(Vec<String>) in None;
    /// Several numbers by which things go.
    Numbers(Vec<u64>) in None;
}

/// What can be a parameter of a finding.
pub(super) trait Parameter {
    /// Its kind.
    const KIND: ValueKind;
    /// Its value; nothing where it does not apply.
    fn value(&self) -> Option<Value>;
    /// One of each, so that every sentence can be said in a test: with all that can be there, or with
    /// nothing that need not.
    #[cfg(test)]
    fn sample(full: bool) -> Self;
}

macro_rules! parameters {
    ($($of:ty => $kind:ident($value:expr), $sample:expr;)+) => {
        $(impl Parameter for $of {
            const KIND: ValueKind = ValueKind::$kind;
            fn value(&self) -> Option<Value> {
                let value: fn(&$of) -> _ = $value;
                Some(Value::$kind(value(self)))
            }
            #[cfg(test)]
            fn sample(_: bool) -> Self {
                $sample
            }
        })+
    };
}

parameters! {
    Length => Length(|length| *length), Self::from_mm(123.4);
    Force => Force(|force| *force), Self::from_kn(1.25);
    Stiffness => Stiffness(|stiffness| *stiffness), Self::from_kn_per_mm(0.25);
    Pressure => Pressure(|pressure| *pressure), Self::from_kn_per_m2(2.5);
    Angle => Angle(|angle| *angle), Self::from_deg(12.0);
    Utilisation => Utilisation(|used| *used), Self(1.2345);
    Share => Share(|share| share.0), Self(0.22);
    Bound => Share(|bound| bound.0), Self(0.9);
    usize => Count(|count| *count as u64), 7;
    u64 => Count(|count| *count), 8;
    String => Name(String::clone), "A1-1".to_owned();
    &'static str => Name(|name| (*name).to_owned()), "l_ef >= 6 d";
    Vec<String> => Names(Vec::clone), vec!["A1-1".to_owned(), "A1-2".to_owned()];
    Vec<usize> => Numbers(|numbers| numbers.iter().map(|number| *number as u64).collect()), vec![1, 2];
    bool => Flag(|flag| *flag), true;
    Check => Name(|check| check.name().to_owned()), Self::Screws;
}

impl<T: Parameter> Parameter for Option<T> {
    const KIND: ValueKind = T::KIND;
    fn value(&self) -> Option<Value> {
        self.as_ref().and_then(T::value)
    }
    #[cfg(test)]
    fn sample(full: bool) -> Self {
        full.then(|| T::sample(full))
    }
}

/// A word of a closed list, by its name in answers.
macro_rules! words {
    ($($(#[$doc:meta])* $name:ident { $($(#[$word_doc:meta])* $word:ident = $text:literal),+ $(,)? })+) => {
        $(
            $(#[$doc])*
            #[derive(Debug, Clone, Copy, PartialEq, Eq)]
            pub enum $name { $($(#[$word_doc])* $word),+ }

            impl Parameter for $name {
                const KIND: ValueKind = ValueKind::Name;
                fn value(&self) -> Option<Value> {
                    let name = match self { $(Self::$word => $text),+ };
                    Some(Value::Name(name.to_owned()))
                }
                #[cfg(test)]
                fn sample(full: bool) -> Self {
                    let all = [$(Self::$word),+];
                    all[if full { 0 } else { all.len() - 1 }]
                }
            }
        )+
    };
}

words! {
    /// An end of a rail.
    End {
        /// The left one.
        Left = "left",
        /// The right one.
        Right = "right",
    }
    /// An end of a rail up the slope.
    SlopeEnd {
        /// The one nearer the eaves.
        Lower = "lower",
        /// The one nearer the ridge.
        Upper = "upper",
    }
    /// What keeps modules from slipping down the slope.
    HeldBy {
        /// A clamp.
        Clamp = "clamp",
        /// A stop below the lowest row.
        Stop = "stop",
    }
    /// How a load acts on the roof.
    Sense {
        /// Towards it.
        Pressing = "pressing",
        /// Away from it.
        Lifting = "lifting",
    }
    /// Pattern the hooks of a rail are to follow.
    PatternAsked {
        /// None.
        Free = "free",
        /// One the caller asked for.
        Asked = "asked",
    }
    /// Kind of edge whose effect is not computed.
    EdgeName {
        /// Hip.
        Hip = "hip",
        /// Valley.
        Valley = "valley",
        /// Abutment.
        Abutment = "abutment",
        /// Any edge that does not lie on the rectangle around the slope.
        OffRectangle = "off_rectangle",
    }
    /// Kind of edge the array keeps a distance from.
    SideName {
        /// Eaves.
        Eaves = "eaves",
        /// Verge.
        Verge = "verge",
        /// Ridge.
        Ridge = "ridge",
        /// Hip.
        Hip = "hip",
        /// Valley.
        Valley = "valley",
        /// Abutment.
        Abutment = "abutment",
        /// Party wall.
        PartyWall = "party_wall",
    }
    /// A part of the array.
    PartName {
        /// The modules.
        Modules = "modules",
        /// The rails.
        Rails = "rails",
        /// The hooks.
        Hooks = "hooks",
    }
    /// Whose a rule pitch is.
    RuleOf {
        /// That of the trade's rules.
        Guild = "guild",
        /// That of the maker.
        Maker = "maker",
        /// Nobody's.
        Practice = "common_practice",
    }
    /// How hooks pass through the covering, where only a part made for the tile may.
    PassageName {
        /// Through the laps.
        Headlap = "headlap",
        /// Through a part that fits many tiles.
        UniversalPart = "universal_part",
    }
    /// What is not known of snow that drifts against an obstacle.
    ObstacleUnknown {
        /// How high it stands.
        Height = "height",
        /// The coefficient on a roof as steep as this.
        Drift = "shape_factor",
    }
    /// Where a splice had to go.
    SplicePlace {
        /// Into the middle third of a span.
        MiddleThird = "middle_third",
        /// Into an end span, a piece on a single hook.
        EndSpan = "end_span",
        /// Into a free end, a piece without hooks.
        FreeEnd = "free_end",
        /// To a hook or under a clamp.
        HookOrClamp = "hook_or_clamp",
    }
    /// How splices pass moments.
    SpliceKind {
        /// As the rail does.
        Stiff = "stiff",
        /// Not at all.
        Hinge = "hinge",
    }
    /// What a cutting plan aims at first.
    CuttingAim {
        /// Least rail bought.
        LeastLength = "least_length",
        /// Fewest bars.
        FewestBars = "fewest_bars",
    }
    /// What the rules of a country say of a site.
    RuleValue {
        /// Snow on the ground.
        GroundSnow = "ground_snow",
        /// Exceptional snow on the ground.
        ExceptionalSnow = "exceptional_snow",
        /// Peak pressure of the wind.
        PeakPressure = "peak_pressure",
        /// Pressure coefficients of the roof.
        WindCoefficients = "wind_coefficients",
        /// Snow that drifts against walls and obstacles.
        SnowDrifts = "snow_drifts",
        /// Factors of the combinations.
        CombinationFactors = "combination_factors",
    }
    /// A check of a rafter.
    RafterCheck {
        /// Bending.
        Bending = "bending",
        /// Shear.
        Shear = "shear",
    }
}
