//! Quantities as people read them: in a language and a system of units.

use crate::assessment::{Utilisation, Value};
use crate::units::{Angle, Force, Length, Pressure, Stiffness};

use super::Language;

/// Systems of units people read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Units {
    /// Millimetres and kilonewtons.
    #[default]
    Metric,
    /// Inches and pounds.
    Imperial,
}

impl Units {
    /// Every system.
    pub const ALL: [Self; 2] = [Self::Metric, Self::Imperial];

    /// Its name, as a request has it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Metric => "metric",
            Self::Imperial => "imperial",
        }
    }
}

/// Where a reader reads.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Medium {
    /// An answer as data: members of the request go by their names.
    #[default]
    Data,
    /// Paper, by people who have no request in hand: members go by what they are.
    Paper,
}

/// A reader: the language sentences are written in, the units of their figures, and where they stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Reader {
    /// The language.
    pub language: Language,
    /// The units.
    pub units: Units,
    /// The medium.
    pub medium: Medium,
}

/// Millimetres in an inch.
const INCH: f64 = 25.4;

impl Reader {
    /// Any value, with its unit.
    #[must_use]
    pub fn value(self, value: &Value) -> String {
        /// Kilograms per cubic metre in a pound per cubic foot.
        const POUND_PER_FOOT3: f64 = 16.018_463_37;
        /// Square metres in a square foot.
        const FOOT2: f64 = 0.092_903_04;

        /// Millimetres in an inch.
        const INCH: f64 = 25.4;
        /// Newtons per metre in a pound-force per foot.
        const POUND_PER_FOOT: f64 = 14.593_902_94;
        match (value, self.units) {
            (Value::Length(length), _) => self.length(*length),
            (Value::Force(force), _) => self.force(*force),
            (Value::Pressure(pressure), _) => self.pressure(*pressure),
            (Value::Angle(angle), _) => self.angle(*angle),
            (Value::Utilisation(used), _) => self.utilisation(*used),
            (Value::Share(share), _) => self.language.words().written(&format!("{share:?}")),
            (Value::Percent(percent), _) => format!("{} %", self.number(*percent, 1)),
            (Value::LineLoad(load), Units::Metric) => {
                format!("{} kN/m", self.number(load.kn_per_m(), 4))
            }
            (Value::LineLoad(load), Units::Imperial) => {
                format!("{} lbf/ft", self.number(load.kn_per_m() * 1000.0 / POUND_PER_FOOT, 2))
            }
            (Value::Stiffness(stiffness), _) => self.stiffness(*stiffness),
            (Value::Density(density), Units::Metric) => {
                format!("{} kg/m³", self.number(density.kg_per_m3(), 1))
            }
            (Value::Density(density), Units::Imperial) => {
                format!("{} pcf", self.number(density.kg_per_m3() / POUND_PER_FOOT3, 1))
            }
            (Value::Section(area), Units::Metric) => format!("{} mm²", self.number(area.mm2(), 0)),
            (Value::Section(area), Units::Imperial) => {
                format!("{} in²", self.number(area.mm2() / INCH.powi(2), 3))
            }
            (Value::Area(area), Units::Metric) => format!("{} m²", self.number(area.m2(), 2)),
            (Value::Area(area), Units::Imperial) => {
                format!("{} ft²", self.number(area.m2() / FOOT2, 1))
            }
            (Value::Flag(flag), _) => match (self.language, *flag) {
                (Language::English, true) => "yes".to_owned(),
                (Language::English, false) => "no".to_owned(),
                (Language::German, true) => "ja".to_owned(),
                (Language::German, false) => "nein".to_owned(),
            },
            (Value::Count(count), _) => count.to_string(),
            (Value::Name(name), _) => name.clone(),
            (Value::Names(names), _) => names.join(", "),
            (Value::Numbers(numbers), _) => {
                numbers.iter().map(u64::to_string).collect::<Vec<_>>().join(", ")
            }
        }
    }

    /// A length on a roof: to a hundredth of a millimetre or of an inch.
    #[must_use]
    pub fn length(self, length: Length) -> String {
        match self.units {
            Units::Metric => format!("{} mm", self.number(length.mm(), 2)),
            Units::Imperial => format!("{} in", self.number(length.mm() / INCH, 2)),
        }
    }

    /// A length of a building.
    #[must_use]
    pub fn distance(self, length: Length) -> String {
        /// Metres in a foot.
        const FOOT: f64 = 0.3048;
        match self.units {
            Units::Metric => format!("{} m", self.fixed(length.m(), 2)),
            Units::Imperial => format!("{} ft", self.fixed(length.m() / FOOT, 1)),
        }
    }

    /// A force.
    #[must_use]
    pub fn force(self, force: Force) -> String {
        /// Newtons in a pound-force.
        const POUND: f64 = 4.448_221_615_260_5;
        match self.units {
            Units::Metric => format!("{} kN", self.fixed(force.kn(), 2)),
            Units::Imperial => format!("{} lbf", self.fixed(force.n() / POUND, 0)),
        }
    }

    /// A spring.
    #[must_use]
    pub fn stiffness(self, stiffness: Stiffness) -> String {
        /// Newtons per millimetre in a pound-force per inch.
        const POUND_PER_INCH: f64 = 0.175_126_835_246_476_4;
        match self.units {
            Units::Metric => format!("{} kN/mm", self.fixed(stiffness.kn_per_mm(), 3)),
            Units::Imperial => {
                format!("{} lbf/in", self.fixed(stiffness.n_per_mm() / POUND_PER_INCH, 0))
            }
        }
    }

    /// A force per area.
    #[must_use]
    pub fn pressure(self, pressure: Pressure) -> String {
        /// N/m² in a pound-force per square foot.
        const POUND_PER_FOOT2: f64 = 47.880_258_98;
        match self.units {
            Units::Metric => format!("{} kN/m²", self.fixed(pressure.kn_per_m2(), 2)),
            Units::Imperial => {
                let psf = pressure.kn_per_m2() * 1000.0 / POUND_PER_FOOT2;
                format!("{} psf", self.fixed(psf, 1))
            }
        }
    }

    /// An angle.
    #[must_use]
    pub fn angle(self, angle: Angle) -> String {
        format!("{}°", self.number(angle.deg(), 1))
    }

    /// A utilisation in per cent, upwards to one decimal as on papers: what reads 100 % is no more.
    #[must_use]
    pub fn utilisation(self, used: Utilisation) -> String {
        /// Beyond this it is a demand against nothing.
        const WITHOUT_BOUND: f64 = 9999.0;
        if used.written() > WITHOUT_BOUND {
            return match self.language {
                Language::English => "beyond measure".to_owned(),
                Language::German => "ohne Maß".to_owned(),
            };
        }
        self.language.words().used(used.written(), 1)
    }

    /// A limit of utilisation in per cent, with the decimals it has.
    #[must_use]
    pub fn limit(self, limit: f64) -> String {
        format!("{} %", self.number(limit * 100.0, 2))
    }

    /// A share in per cent.
    #[must_use]
    pub fn percent(self, share: f64) -> String {
        self.language.words().percent(share, 0)
    }

    /// A number with so many decimals at most, none of them a useless zero.
    #[must_use]
    pub fn number(self, value: f64, decimals: i32) -> String {
        self.language.words().shortest(value, decimals)
    }

    /// A number with so many decimals.
    #[must_use]
    pub fn fixed(self, value: f64, decimals: usize) -> String {
        self.language.words().written(&format!("{value:.decimals$}"))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ENGLISH: Reader =
        Reader { language: Language::English, units: Units::Metric, medium: Medium::Data };
    const GERMAN: Reader = Reader { language: Language::German, ..ENGLISH };
    const IMPERIAL: Reader = Reader { units: Units::Imperial, ..ENGLISH };

    /// Conversions by the exact definitions of inch, foot and pound-force (NIST SP 811, Appendix B).
    #[test]
    fn quantities_are_written_as_their_readers_write_them() {
        assert_eq!(ENGLISH.length(Length::from_mm(7.675)), "7.68 mm");
        assert_eq!(ENGLISH.length(Length::from_mm(-0.0)), "0 mm");
        assert_eq!(GERMAN.length(Length::from_mm(7.675)), "7,68 mm");
        assert_eq!(IMPERIAL.length(Length::from_mm(254.0)), "10 in");
        assert_eq!(IMPERIAL.distance(Length::from_m(3.048)), "10.0 ft");
        assert_eq!(ENGLISH.force(Force::from_kn(1.0)), "1.00 kN");
        assert_eq!(IMPERIAL.force(Force::from_kn(1.0)), "225 lbf");
        assert_eq!(IMPERIAL.pressure(Pressure::from_kn_per_m2(1.0)), "20.9 psf");
        assert_eq!(GERMAN.angle(Angle::from_deg(12.5)), "12,5°");
        assert_eq!(GERMAN.percent(0.225), "22 %");
        assert_eq!(GERMAN.utilisation(Utilisation::sample(1.0801)), "108,1 %");
        assert_eq!(ENGLISH.limit(0.9), "90 %");
    }
}
