//! What a short request leaves out or names by id, so that it can be told of what was taken instead.

/// One thing that was completed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Completion {
    /// The outline of the slope, with what its sides are.
    Outline,
    /// The strength class of the rafters.
    RafterClass,
    /// The covering, named by id.
    Covering(String),
    /// The layers, named by id.
    Layers(String),
    /// The module, named by id.
    Module(String),
    /// The way rails run.
    RailDirection,
    /// The name of a field.
    FieldId(usize),
    /// How modules of a field stand.
    Orientation(usize),
    /// The gap between columns of a field.
    ColumnGap(usize),
    /// The gap between rows of a field.
    RowGap(usize),
    /// Where a field begins.
    Origin(usize),
    /// One of these on a slope of a building, which then has it for itself.
    OnSlope(usize, Box<Completion>),
}
