//! Usual coverings and build-ups that a request may name by id, and modules for illustration.
//!
//! Formats of the trade, nobody's product. A roof is measured all the same: whoever names one of these
//! gets a first answer, and what was taken from here is told as to be measured. What each figure rests
//! on stands in `source`; thickness and camber of a tile decide the clearance and differ most.

use crate::wire::array::Module;
use crate::wire::roof::{Batten, BearingFace, Bond, Covering, CoveringKind, Layers, Tile};

/// What must not be forgotten of what is usual.
pub const NOTICE: &str = "Usual formats, nobody's product. A roof is as it is: measure tiles, gauge, battens \
                          and layers where the covering is open before anything is ordered.";

/// A covering as the trade usually lays it.
#[derive(Debug)]
pub struct UsualCovering {
    /// Its id.
    pub id: &'static str,
    /// What it is.
    pub about: &'static str,
    /// What its figures rest on.
    pub source: &'static str,
    kind: CoveringKind,
    /// Length, width and thickness of a tile, mm.
    tile: [f64; 3],
    joint: f64,
    cover_width: Option<f64>,
    troughs: &'static [f64],
    /// Thickness and width of the batten, mm.
    batten: [f64; 2],
    bond: Bond,
    /// Headlap by pitch: up to how many degrees, mm; the last holds for all steeper ones.
    laps: &'static [(f64, f64)],
}

const FLAT_TILE_LAPS: &[(f64, f64)] =
    &[(35.0, 90.0), (40.0, 80.0), (45.0, 70.0), (60.0, 60.0), (90.0, 50.0)];

/// Every one.
pub const COVERINGS: [UsualCovering; 5] = [
    UsualCovering {
        id: "plain-tile-380x180-double-lap",
        about: "Plain tiles of 380 × 180 mm, one course on each batten",
        source: "size and headlap by pitch as a roofers' encyclopedia prints them, spacing of battens as a \
                 building encyclopedia does; battens 30 × 50 mm for rafters up to 800 mm apart by the \
                 German safety table for battens; thickness 14 mm, camber 0 and joint 3 mm common \
                 practice, no source",
        kind: CoveringKind::PlainTileDoubleLap,
        tile: [380.0, 180.0, 14.0],
        joint: 3.0,
        cover_width: None,
        troughs: &[],
        batten: [30.0, 50.0],
        bond: Bond::Half,
        laps: FLAT_TILE_LAPS,
    },
    UsualCovering {
        id: "plain-tile-380x180-crown",
        about: "Plain tiles of 380 × 180 mm, two courses on each batten",
        source: "as plain-tile-380x180-double-lap; battens 40 × 60 mm by the same table, one size up",
        kind: CoveringKind::PlainTileCrown,
        tile: [380.0, 180.0, 14.0],
        joint: 3.0,
        cover_width: None,
        troughs: &[],
        batten: [40.0, 60.0],
        bond: Bond::Half,
        laps: FLAT_TILE_LAPS,
    },
    UsualCovering {
        id: "plain-tile-265x165-double-lap",
        about: "Plain tiles of 265 × 165 mm, one course on each batten",
        source: "size, gauge of 100 mm and joint up to 3 mm by the association of British tile makers; \
                 battens 25 × 38 mm by BS 5534 Table 3 as the roofing contractors' federation prints it; \
                 thickness 13 mm one source, camber 0 common practice, no source",
        kind: CoveringKind::PlainTileDoubleLap,
        tile: [265.0, 165.0, 13.0],
        joint: 3.0,
        cover_width: None,
        troughs: &[],
        batten: [25.0, 38.0],
        bond: Bond::Half,
        laps: &[(90.0, 65.0)],
    },
    UsualCovering {
        id: "slate-500x250-double-lap",
        about: "Rectangular slates of 500 × 250 mm, double-lap",
        source: "size, headlap by pitch and butt joint as the association of German slaters prints them; \
                 battens 40 × 60 mm by its page on substructures; thickness 6 mm from memory",
        kind: CoveringKind::SlateDoubleLap,
        tile: [500.0, 250.0, 6.0],
        joint: 5.0,
        cover_width: None,
        troughs: &[],
        batten: [40.0, 60.0],
        bond: Bond::Half,
        laps: &[(29.999, 120.0), (39.999, 100.0), (90.0, 80.0)],
    },
    UsualCovering {
        id: "interlocking-tile-10-per-m2",
        about: "Profiled interlocking tiles of 420 × 330 mm with two troughs, ten to a square metre",
        source: "headlap and gauge by pitch as two trade pages print them; covered width 300 mm as data \
                 sheets of two countries do; battens 30 × 50 mm by the German safety table; troughs at a \
                 quarter and three quarters own derivation; thickness 12 mm common practice, no source",
        kind: CoveringKind::Interlocking,
        tile: [420.0, 330.0, 12.0],
        joint: 0.0,
        cover_width: Some(300.0),
        troughs: &[75.0, 225.0],
        batten: [30.0, 50.0],
        bond: Bond::Straight,
        laps: &[(21.999, 100.0), (30.0, 85.0), (90.0, 75.0)],
    },
];

impl UsualCovering {
    /// The one of this id.
    #[must_use]
    pub fn find(id: &str) -> Option<&'static Self> {
        COVERINGS.iter().find(|covering| covering.id == id)
    }

    /// Distance from one visible tail edge to the next on a roof of this pitch, mm: of battens in crown.
    /// Length less headlap, halved where three layers lie in the lap.
    #[must_use]
    pub fn gauge_mm(&self, pitch_deg: f64) -> f64 {
        let lap = self.laps.iter().find(|(up_to, _)| pitch_deg <= *up_to).or(self.laps.last());
        let bare = self.tile[0] - lap.map_or(0.0, |(_, lap)| *lap);
        match self.kind {
            CoveringKind::PlainTileDoubleLap | CoveringKind::SlateDoubleLap => bare / 2.0,
            CoveringKind::PlainTileCrown | CoveringKind::Interlocking => bare,
        }
    }

    /// Up to which pitch it has which gauge, flattest first.
    pub fn gauges(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.laps.iter().map(|(up_to, _)| (*up_to, self.gauge_mm(*up_to)))
    }

    /// The same with every member, on a roof of this pitch.
    #[must_use]
    pub fn laid(&self, pitch_deg: f64) -> Covering {
        let [length_mm, width_mm, thickness_mm] = self.tile;
        let [batten_thickness_mm, batten_width_mm] = self.batten;
        Covering {
            kind: self.kind,
            tile: Tile {
                length_mm,
                width_mm,
                thickness_mm,
                camber_mm: 0.0,
                head_projection_mm: None,
                nib_offsets_mm: None,
                without_nibs: None,
            },
            joint_mm: self.joint,
            cover_width_mm: self.cover_width,
            gauge_mm: self.gauge_mm(pitch_deg),
            first_course_mm: 0.0,
            batten: Batten { thickness_mm: batten_thickness_mm, width_mm: batten_width_mm },
            bond: self.bond,
            joint_origin_mm: 0.0,
            trough_offsets_mm: (!self.troughs.is_empty()).then(|| self.troughs.to_vec()),
            guild_pitch: None,
            maker_pitch: None,
            underlay: None,
            hook_passage: None,
        }
    }
}

/// A usual build-up between rafter and tiling battens.
#[derive(Debug)]
pub struct UsualLayers {
    /// Its id.
    pub id: &'static str,
    /// What it is.
    pub about: &'static str,
    /// What its figures rest on.
    pub source: &'static str,
    /// Thickness and width of the counter-batten, and of the boarding, mm.
    sizes: [f64; 3],
    bears_on: BearingFace,
}

/// Every one.
pub const LAYERS: [UsualLayers; 5] = [
    UsualLayers {
        id: "battens-on-rafters",
        about: "Tiling battens on the rafters, with or without felt",
        source: "common practice, no source",
        sizes: [0.0, 0.0, 0.0],
        bears_on: BearingFace::Rafter,
    },
    UsualLayers {
        id: "counter-batten-24-on-rafters",
        about: "Counter-battens of 24 × 60 mm on an underlay on the rafters",
        source: "least thickness and cross-section of a counter-batten as the German trade rules are quoted",
        sizes: [24.0, 60.0, 0.0],
        bears_on: BearingFace::CounterBatten,
    },
    UsualLayers {
        id: "counter-batten-30-on-rafters",
        about: "Counter-battens of 30 × 50 mm on an underlay on the rafters",
        source: "common practice, no source",
        sizes: [30.0, 50.0, 0.0],
        bears_on: BearingFace::CounterBatten,
    },
    UsualLayers {
        id: "counter-batten-40-on-rafters",
        about: "Counter-battens of 40 × 60 mm on an underlay on the rafters",
        source: "common practice, no source",
        sizes: [40.0, 60.0, 0.0],
        bears_on: BearingFace::CounterBatten,
    },
    UsualLayers {
        id: "counter-batten-30-boarding-24",
        about: "Counter-battens of 30 × 50 mm on underlay and boarding of 24 mm",
        source: "boarding of 24 mm as German trade pages have it; the rest common practice, no source",
        sizes: [30.0, 50.0, 24.0],
        bears_on: BearingFace::CounterBatten,
    },
];

impl UsualLayers {
    /// The one of this id.
    #[must_use]
    pub fn find(id: &str) -> Option<&'static Self> {
        LAYERS.iter().find(|layers| layers.id == id)
    }

    /// The same with every member.
    #[must_use]
    pub fn built(&self) -> Layers {
        let [counter_batten_mm, width, boarding_mm] = self.sizes;
        Layers {
            counter_batten_mm,
            counter_batten_width_mm: (width > 0.0).then_some(width),
            boarding_mm,
            insulation_mm: 0.0,
            foot_bears_on: self.bears_on,
            bearing_strength_class: None,
        }
    }
}

/// A module for illustration.
#[derive(Debug)]
pub struct IllustrativeModule {
    /// Its id.
    pub id: &'static str,
    /// What it is.
    pub about: &'static str,
    /// Length, width, height of the frame, mm, and mass, kg.
    sizes: [f64; 4],
    /// Where clamps may hold the long side, mm.
    zone: [f64; 2],
    /// Pressure and suction it takes, kN/m².
    bears: [f64; 2],
}

/// Every one. Sizes as they are common; what they bear and where they are held is invented.
pub const MODULES: [IllustrativeModule; 2] = [
    IllustrativeModule {
        id: "demo-module-1762x1134",
        about: "Illustrative module of 1762 × 1134 mm",
        sizes: [1762.0, 1134.0, 30.0, 21.5],
        zone: [250.0, 550.0],
        bears: [3.6, 1.6],
    },
    IllustrativeModule {
        id: "demo-module-2094x1134",
        about: "Illustrative module of 2094 × 1134 mm",
        sizes: [2094.0, 1134.0, 35.0, 26.5],
        zone: [300.0, 650.0],
        bears: [3.6, 1.6],
    },
];

impl IllustrativeModule {
    /// The one of this id.
    #[must_use]
    pub fn find(id: &str) -> Option<&'static Self> {
        MODULES.iter().find(|module| module.id == id)
    }

    /// The same with every member.
    #[must_use]
    pub fn whole(&self) -> Module {
        let [length_mm, width_mm, thickness_mm, mass_kg] = self.sizes;
        let [press_capacity_kn_per_m2, lift_capacity_kn_per_m2] = self.bears;
        Module {
            length_mm,
            width_mm,
            thickness_mm,
            mass_kg,
            clamp_zone_mm: self.zone,
            short_side_clamp_zone_mm: None,
            press_capacity_kn_per_m2,
            lift_capacity_kn_per_m2,
            evidence: Vec::new(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gauges as printed: spacing of 160 in double-lap and 320 in crown (building encyclopedia), 100 of
    /// small plain tiles (association of makers), 320, 335 and 345 of concrete tiles (trade pages), and
    /// 13.89 slates of 600 × 300 to a square metre at 22° (association of slaters) by the same formula.
    #[test]
    fn gauges_are_those_that_are_printed() {
        let gauge =
            |id: &str, pitch: f64| UsualCovering::find(id).expect("it is there").gauge_mm(pitch);
        for (id, pitch, printed) in [
            ("plain-tile-380x180-double-lap", 50.0, 160.0),
            ("plain-tile-380x180-crown", 50.0, 320.0),
            ("plain-tile-265x165-double-lap", 40.0, 100.0),
            ("interlocking-tile-10-per-m2", 18.0, 320.0),
            ("interlocking-tile-10-per-m2", 25.0, 335.0),
            ("interlocking-tile-10-per-m2", 38.0, 345.0),
        ] {
            assert!((gauge(id, pitch) - printed).abs() < 1e-9, "{id} at {pitch}");
        }
        let slates = 1e6 / ((600.0 - 120.0) / 2.0 * 300.0);
        assert!((slates - 13.89_f64).abs() < 0.005, "{slates}");
        let lap_at_22 = 500.0 - 2.0 * gauge("slate-500x250-double-lap", 22.0);
        assert!((lap_at_22 - 120.0).abs() < 1e-9, "the lap of that count");
    }

    #[test]
    fn ids_are_unique_and_of_no_maker() {
        let ids = COVERINGS.iter().map(|one| one.id).chain(LAYERS.iter().map(|one| one.id));
        let mut ids: Vec<&str> = ids.chain(MODULES.iter().map(|one| one.id)).collect();
        ids.sort_unstable();
        assert!(ids.windows(2).all(|pair| pair[0] != pair[1]), "{ids:?}");
        assert!(MODULES.iter().all(|module| module.id.starts_with("demo-")));
    }
}
