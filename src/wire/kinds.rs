//! What every document says it is in its member `kind`, so that whoever decodes it can tell one from
//! another. A tag is a type with one value: the schema of each document names its own.

use std::borrow::Cow;

use crate::wire::enumeration::enumeration;
use serde::{Deserialize, Serialize, Serializer};
use utoipa::openapi::schema::{ObjectBuilder, Type};
use utoipa::openapi::{RefOr, Schema};
use utoipa::{PartialSchema, ToSchema};

enumeration! {
    /// Kinds of job.
    #[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize, Serialize, ToSchema)]
    #[serde(rename_all = "snake_case")]
    pub enum JobKind {
        /// A layout.
        Layout,
        /// A building of several slopes.
        Building,
        /// A layout with freedom.
        Choices,
        /// A recheck.
        Recheck,
        /// A survey.
        Survey,
        /// What acts.
        Actions,
        /// A maker's statement.
        Statement,
    }
}

macro_rules! tags {
    ($($(#[$doc:meta])+ $tag:ident $name:literal;)+) => {
        $(
            $(#[$doc])+
            #[derive(Debug, Clone, Copy, PartialEq, Eq)]
            pub struct $tag;

            impl $tag {
                /// What the member says.
                pub const NAME: &'static str = $name;
            }

            impl Serialize for $tag {
                fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                    to.serialize_str(Self::NAME)
                }
            }

            impl PartialSchema for $tag {
                fn schema() -> RefOr<Schema> {
                    let tag = ObjectBuilder::new().schema_type(Type::String);
                    tag.enum_values(Some([Self::NAME])).build().into()
                }
            }

            impl ToSchema for $tag {
                fn name() -> Cow<'static, str> {
                    Cow::Borrowed(stringify!($tag))
                }
            }
        )+
    };
}

tags! {
    /// A layout, or a line that asks for one.
    LayoutTag "layout";
    /// A building of several slopes, or a line that asks for one.
    BuildingTag "building";
    /// What choices come to, or a line that asks for it.
    ChoicesTag "choices";
    /// A recheck, or a line that asks for one.
    RecheckTag "recheck";
    /// A survey, or a line that asks for one.
    SurveyTag "survey";
    /// What acts, or a line that asks for it.
    ActionsTag "actions";
    /// A maker's statement, or a line that asks about one.
    StatementTag "statement";
    /// A roof hook.
    HookTag "hook";
    /// A wood screw.
    ScrewTag "screw";
    /// A rail.
    RailTag "rail";
    /// A module clamp.
    ClampTag "clamp";
    /// A set of packers.
    PackersTag "packers";
    /// A summary of an answer.
    SummaryTag "summary";
    /// A line with a problem.
    ProblemTag "problem";
    /// The end of a batch.
    EndTag "end";
    /// What the answers of a batch come to.
    ReportTag "report";
}
