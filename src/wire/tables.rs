//! The tables of an answer that spreadsheets and programs of orders read.

use serde::Serialize;
use utoipa::ToSchema;

use crate::wire::enumeration::enumeration;

enumeration! {
    /// What a table lists.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum TableName {
        /// The order, one line for each part.
        Order,
        /// The hooks with their places, one line for each.
        SettingOut,
        /// The utilisations, one line for each check of a hook, rail, rafter or module.
        Utilisations,
    }
}

impl TableName {
    /// Every table.
    pub const ALL: [Self; 3] = [Self::Order, Self::SettingOut, Self::Utilisations];

    /// Those of a job that orders nothing.
    pub const WITHOUT_ORDER: [Self; 2] = [Self::SettingOut, Self::Utilisations];

    /// Its name in a query, on the command line and in the name of a file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Order => "order",
            Self::SettingOut => "setting_out",
            Self::Utilisations => "utilisations",
        }
    }
}
