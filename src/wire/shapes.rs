//! Schemas of the small fixed lists of the wire: `[x, y]` and `[row, column]`. The fields
//! themselves are plain arrays; a derived schema would not say that two numbers must be there.

use std::borrow::Cow;

use utoipa::openapi::{ArrayBuilder, ObjectBuilder, RefOr, Schema, Type};
use utoipa::{PartialSchema, ToSchema};

/// Schema `Point`.
pub(super) struct PointSchema;

impl PartialSchema for PointSchema {
    fn schema() -> RefOr<Schema> {
        let coordinate = ObjectBuilder::new()
            .schema_type(Type::Number)
            .minimum(Some(-200_000.0))
            .maximum(Some(200_000.0));
        pair(coordinate, "A point `[x, y]`, mm: `x` along the eaves, `y` up the slope.")
    }
}

impl ToSchema for PointSchema {
    fn name() -> Cow<'static, str> {
        "Point".into()
    }
}

/// Schema `Cell`.
pub(super) struct CellSchema;

impl PartialSchema for CellSchema {
    fn schema() -> RefOr<Schema> {
        let index =
            ObjectBuilder::new().schema_type(Type::Integer).minimum(Some(0.0)).maximum(Some(199.0));
        pair(index, "A module of a field, `[row, column]`, both counted from 0.")
    }
}

impl ToSchema for CellSchema {
    fn name() -> Cow<'static, str> {
        "Cell".into()
    }
}

fn pair(item: ObjectBuilder, description: &str) -> RefOr<Schema> {
    ArrayBuilder::new()
        .items(item)
        .min_items(Some(2))
        .max_items(Some(2))
        .description(Some(description))
        .into()
}

/// The schema of something that is given in full or by the id of a usual one. The request itself has it in
/// full: what is named is looked up before the request is read.
macro_rules! by_id {
    ($(#[$doc:meta])* $name:ident($whole:ident)) => {
        $(#[$doc])*
        #[derive(ToSchema)]
        #[schema(as = $name)]
        #[serde(untagged)]
        #[expect(dead_code, reason = "the description reads it, and nothing else")]
        enum $name {
            /// Id of a usual one, see `GET /v1/usual`.
            Id(String),
            /// In full.
            Inline(Box<$whole>),
        }
    };
}
pub(super) use by_id;
