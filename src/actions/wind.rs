//! Wind on the slope: zones for every direction, and what they put on a module.

use crate::codes::NotCovered;
use crate::codes::eurocode::en1990_2002::WindSense;
use crate::codes::eurocode::en1991_1_4_2005::coefficients::{self, Coefficients};
use crate::codes::eurocode::en1991_1_4_2005::duopitch::{self, Direction, DuopitchBuilding, Zone};
use crate::geometry::Rect;
use crate::units::{Angle, Area, Length, Pressure};

/// Every wind direction.
pub const DIRECTIONS: [Direction; 4] =
    [Direction::Front, Direction::Back, Direction::Left, Direction::Right];

/// Name of a direction in ids.
#[must_use]
pub const fn direction_name(direction: Direction) -> &'static str {
    match direction {
        Direction::Front => "front",
        Direction::Back => "back",
        Direction::Left => "left",
        Direction::Right => "right",
    }
}

/// Peak pressure and where it comes from.
#[derive(Debug, Clone)]
pub struct WindSite {
    /// For people.
    pub source: String,
    /// `q_b`, where known.
    pub basic: Option<Pressure>,
    /// `q_p` at ridge height.
    pub peak: Pressure,
}

/// Where the coefficients come from.
#[derive(Debug, Clone, Copy)]
pub enum Net {
    /// The module takes the coefficient of the roof zone it lies in.
    RoofSurface,
    /// The caller's, everywhere and for every direction.
    Given(Coefficients),
}

/// A zone on the slope.
#[derive(Debug, Clone)]
pub struct ZoneOnSlope {
    /// Wind direction.
    pub direction: Direction,
    /// Letter, or `given`.
    pub name: &'static str,
    /// Where.
    pub rect: Rect,
    /// Coefficients.
    pub coefficients: Coefficients,
}

/// Wind on the slope.
#[derive(Debug, Clone)]
pub struct Wind {
    /// Peak pressure.
    pub site: WindSite,
    /// Area the coefficients were read at.
    pub loaded_area: Area,
    /// Zones of all directions.
    pub zones: Vec<ZoneOnSlope>,
}

/// The building under the slope, as the zones need it.
#[derive(Debug, Clone, Copy)]
pub struct Building {
    /// Along the eaves.
    pub length: Length,
    /// Across the eaves.
    pub width: Length,
    /// Ridge above ground.
    pub height: Length,
    /// Pitch of the slope.
    pub pitch: Angle,
}

/// Mean wind pressure on one rectangle, by direction, pressing and lifting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindOn([[Pressure; 2]; DIRECTIONS.len()]);

impl WindOn {
    /// Pressure from one direction, positive pressing.
    #[must_use]
    pub const fn pressure(&self, direction: Direction, sense: WindSense) -> Pressure {
        let [pressing, lifting] = self.0[direction as usize];
        match sense {
            WindSense::None => Pressure::ZERO,
            WindSense::Pressing => pressing,
            WindSense::Lifting => lifting,
        }
    }
}

impl Wind {
    /// Lays out the zones on a slope with the given bounds.
    ///
    /// # Errors
    /// [`NotCovered`] for pitches outside the tables.
    pub fn on(
        site: WindSite,
        building: &Building,
        bounds: &Rect,
        loaded_area: Area,
        net: Net,
    ) -> Result<Self, NotCovered> {
        let mut zones = Vec::new();
        let cos = building.pitch.cos();
        let plan = DuopitchBuilding {
            length: building.length,
            width: building.width,
            face_run: Length::from_mm((bounds.y[1] - bounds.y[0]) * cos),
            face_length: Length::from_mm(bounds.x[1] - bounds.x[0]),
            height: building.height,
        };
        for direction in DIRECTIONS {
            if let Net::Given(coefficients) = net {
                zones.push(ZoneOnSlope { direction, name: "given", rect: *bounds, coefficients });
                continue;
            }
            for zone in duopitch::duopitch_zones(&plan, direction) {
                zones.push(ZoneOnSlope {
                    direction,
                    name: letter(zone.zone),
                    rect: Rect {
                        x: zone.x.map(|x| bounds.x[0] + x.mm()),
                        y: zone.run.map(|run| bounds.y[0] + run.mm() / cos),
                    },
                    coefficients: coefficients::duopitch(
                        direction,
                        zone.zone,
                        building.pitch,
                        loaded_area,
                    )?,
                });
            }
        }
        Ok(Self { site, loaded_area, zones })
    }

    /// Mean wind pressure on a rectangle from every direction: zones weighted by the area they
    /// share with it.
    #[must_use]
    pub fn on_rect(&self, rect: &Rect) -> WindOn {
        let mut weighted = [[0.0; 2]; DIRECTIONS.len()];
        for zone in &self.zones {
            let shared = zone.rect.overlap(rect);
            let [pressing, lifting] = &mut weighted[zone.direction as usize];
            *pressing += zone.coefficients.pressure * shared;
            *lifting += zone.coefficients.suction * shared;
        }
        let area = rect.area();
        WindOn(weighted.map(|senses| senses.map(|sum| self.site.peak * (sum / area))))
    }

    /// Whether any zone has a coefficient of this sense for this direction.
    #[must_use]
    pub fn acts(&self, direction: Direction, sense: WindSense) -> bool {
        self.zones
            .iter()
            .any(|z| z.direction == direction && coefficient(&z.coefficients, sense) != 0.0)
    }
}

const fn coefficient(coefficients: &Coefficients, sense: WindSense) -> f64 {
    match sense {
        WindSense::None => 0.0,
        WindSense::Pressing => coefficients.pressure,
        WindSense::Lifting => coefficients.suction,
    }
}

const fn letter(zone: Zone) -> &'static str {
    match zone {
        Zone::F => "F",
        Zone::G => "G",
        Zone::H => "H",
        Zone::I => "I",
        Zone::J => "J",
    }
}
