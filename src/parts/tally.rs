//! How the count of a part comes about, as a value: languages make the sentence.

/// Where a count of the order comes from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Tally {
    /// Modules of every field, by its id.
    PerField(Vec<(String, u64)>),
    /// Hooks on all rails.
    HooksOnRails {
        /// Hooks.
        hooks: u64,
        /// Rails.
        rails: u64,
    },
    /// Hooks beside those that are there.
    HooksAdded {
        /// Hooks.
        hooks: u64,
        /// Hooks that are there.
        there: u64,
        /// Rails.
        rails: u64,
    },
    /// As many screws in every hook.
    ScrewsOfHooks {
        /// Hooks.
        hooks: u64,
        /// Screws in one foot.
        screws: u64,
    },
    /// As many substitute tiles at every hook.
    TilesOfHooks {
        /// Hooks.
        hooks: u64,
        /// Tiles at one hook.
        tiles: u64,
    },
    /// Packers of one thickness.
    PackersUnderHooks {
        /// Packers.
        packers: u64,
        /// Hooks.
        hooks: u64,
    },
    /// A connector at every crossing of rails.
    OnePerCrossing {
        /// Places where an upper rail lies on a lower one.
        crossings: u64,
    },
    /// A bolt with nut at every hook.
    BoltsOfHooks {
        /// Hooks.
        hooks: u64,
    },
    /// Bars of one stock length, as the cutting plan has them.
    BarsOfPlan {
        /// Bars of this length.
        bars: u64,
        /// Bars of all lengths.
        all: u64,
    },
    /// Pieces of rail joined to segments.
    PiecesOfSegments {
        /// Pieces.
        pieces: u64,
        /// Segments.
        segments: u64,
    },
    /// Pieces of rail joined to each other and to rails that are there.
    PiecesAdded {
        /// Pieces.
        pieces: u64,
        /// Rails that are there and go on.
        joints: u64,
    },
    /// One between two neighbouring modules on every rail.
    BetweenNeighbours,
    /// The most that any place of the rafters needs.
    MostOfPlaces {
        /// Places of the first rafter.
        places: u64,
    },
    /// One at either end of every segment.
    EndsOfSegments {
        /// Segments.
        segments: u64,
    },
    /// One at every end of a rail that is not there yet.
    EndsAdded {
        /// Ends.
        ends: u64,
    },
}

impl Tally {
    /// One of each.
    #[cfg(test)]
    #[must_use]
    pub fn samples() -> Vec<Self> {
        vec![
            Self::PerField(vec![("south".to_owned(), 12), ("gable".to_owned(), 3)]),
            Self::HooksOnRails { hooks: 44, rails: 4 },
            Self::HooksAdded { hooks: 12, there: 32, rails: 4 },
            Self::ScrewsOfHooks { hooks: 44, screws: 2 },
            Self::TilesOfHooks { hooks: 44, tiles: 2 },
            Self::PackersUnderHooks { packers: 7, hooks: 44 },
            Self::OnePerCrossing { crossings: 18 },
            Self::BoltsOfHooks { hooks: 44 },
            Self::BarsOfPlan { bars: 6, all: 8 },
            Self::PiecesOfSegments { pieces: 8, segments: 4 },
            Self::BetweenNeighbours,
            Self::EndsOfSegments { segments: 4 },
            Self::PiecesAdded { pieces: 5, joints: 2 },
            Self::EndsAdded { ends: 6 },
            Self::MostOfPlaces { places: 12 },
        ]
    }
}
