//! The parts of a sheet, for their readers.

use serde::Serialize;
use utoipa::ToSchema;

use crate::wire::enumeration::enumeration;

enumeration! {
    /// Who a sheet is for.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum SheetPart {
        /// Everybody: all of it.
        #[default]
        All,
        /// The crew: what was found, the setting-out, rails and the section.
        Crew,
        /// Whoever orders: the order, how rails are cut, what to carry up.
        Order,
        /// The engineer: utilisations with their calculation, actions, assumptions and the request.
        Engineer,
    }
}

impl SheetPart {
    /// Every part.
    pub const EVERY: [Self; 4] = [Self::All, Self::Crew, Self::Order, Self::Engineer];

    /// Those of a job that orders nothing.
    pub const WITHOUT_ORDER: [Self; 3] = [Self::All, Self::Crew, Self::Engineer];

    /// Its name in a query and on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::All => "all",
            Self::Crew => "crew",
            Self::Order => "order",
            Self::Engineer => "engineer",
        }
    }

    /// Whether a sheet of this part has what another is about.
    #[must_use]
    pub fn shows(self, part: Self) -> bool {
        self == Self::All || self == part
    }
}
