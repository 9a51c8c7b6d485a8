//! A change of a job that may lift what fails.

use crate::units::{Length, Stress};

/// A change. Closed: whoever adds one is asked for its words and for its place in the request.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Hooks in any pattern, where one was asked for.
    AnyPattern,
    /// A search that may weigh more patterns.
    WiderSearch {
        /// Patterns of a segment.
        weighed: u64,
    },
    /// Fields moved along the eaves.
    MoveAlong(Vec<Move>),
    /// Fields moved up or down the slope.
    MoveUp(Vec<Move>),
    /// Rails that run farther beyond the modules, or less far.
    RailEnds {
        /// How far they run.
        from: Length,
        /// How far they would.
        to: Length,
    },
    /// Feet that stand on more packers.
    HigherPackers {
        /// Clearance before load that is then asked for.
        clearance: Length,
        /// Height of the stack for it.
        stack: Length,
        /// Highest stack the packers would have to allow, where it is more than they do.
        limit: Option<Length>,
        /// A packer of this thickness besides, where those there are do not stack to the height.
        piece: Option<Length>,
    },
    /// Screws of another length, otherwise as declared.
    ScrewLength {
        /// Length.
        from: Length,
        /// Length they would have.
        to: Length,
        /// Thread they would have: that declared, and all of it where all of the screw is thread.
        thread: Length,
    },
    /// Thicker screws.
    ThickerScrew {
        /// Diameter.
        from: Length,
        /// Diameter they would have.
        to: Length,
        /// Core they would have at least.
        core: Length,
        /// Withdrawal parameter they would have at least, where one is declared.
        withdrawal: Option<Stress>,
    },
    /// A foot that lets its arm sit farther beside the rafter, or bears on more of its timber.
    WiderFoot {
        /// How far the arm can sit beside the axis of the rafter.
        from: Length,
        /// How far it could.
        to: Length,
        /// Width of the foot.
        width: Length,
    },
}

/// A move of a field.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// The field, by place in the request.
    pub field: usize,
    /// Its name.
    pub name: String,
    /// How far: to the right or up the slope, negative to the left or down.
    pub by: Length,
}

impl Change {
    /// Name of its kind in answers.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::AnyPattern => "any_pattern",
            Self::WiderSearch { .. } => "wider_search",
            Self::MoveAlong(_) => "move_along_eaves",
            Self::MoveUp(_) => "move_up_slope",
            Self::RailEnds { .. } => "rail_ends",
            Self::HigherPackers { .. } => "higher_packers",
            Self::ScrewLength { .. } => "screw_length",
            Self::ThickerScrew { .. } => "thicker_screw",
            Self::WiderFoot { .. } => "wider_foot",
        }
    }

    /// Whether a part is needed that the request does not have.
    #[must_use]
    pub const fn takes_another_part(&self) -> bool {
        match self {
            Self::AnyPattern
            | Self::WiderSearch { .. }
            | Self::MoveAlong(_)
            | Self::MoveUp(_)
            | Self::RailEnds { .. } => false,
            Self::HigherPackers { limit, piece, .. } => limit.is_some() || piece.is_some(),
            Self::ScrewLength { .. } | Self::ThickerScrew { .. } | Self::WiderFoot { .. } => true,
        }
    }

    /// Members of the request whose figures are to be asked of the maker of the part: the change keeps
    /// what is declared, or a value that is safe.
    #[must_use]
    pub fn to_ask(&self) -> Vec<&'static str> {
        match self {
            Self::AnyPattern
            | Self::WiderSearch { .. }
            | Self::MoveAlong(_)
            | Self::MoveUp(_)
            | Self::RailEnds { .. } => Vec::new(),
            Self::HigherPackers { limit, .. } => {
                limit.iter().map(|_| "/components/packers/max_stack_mm").collect()
            }
            Self::ScrewLength { .. } => vec!["/components/screw/thread_length_mm"],
            Self::ThickerScrew { .. } => vec![
                "/components/screw/core_diameter_mm",
                "/components/screw/withdrawal_n_per_mm2",
                "/components/screw/tension_kn",
                "/components/screw/yield_moment_nmm",
                "/components/screw/head_diameter_mm",
            ],
            Self::WiderFoot { .. } => {
                vec!["/components/hook/resistance", "/components/hook/stiffness"]
            }
        }
    }
}
