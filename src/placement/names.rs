//! What elements are called, in answers and on paper alike.

use super::Job;
use super::array::Placed;
use super::laid::Layout;

impl Job {
    /// Name of a combination; empty where there is none of this number.
    #[must_use]
    pub fn combination_name(&self, index: usize) -> &str {
        self.actions.combination(index).map_or("", |combination| &combination.id)
    }

    /// Name of a module: field, row and column.
    #[must_use]
    pub fn module_name(&self, placed: &Placed) -> String {
        self.module_named(placed.field, placed.row, placed.column)
    }

    /// The same of the module in a row and column of a field.
    #[must_use]
    pub fn module_named(&self, field: usize, row: u32, column: u32) -> String {
        let field = self.fields.get(field).map_or("", |field| field.id.as_str());
        format!("{field}/{row}/{column}")
    }
}

impl Layout {
    /// Name of a hook: rail, segment and place in it.
    #[must_use]
    pub fn hook_name(&self, [rail, segment, hook]: [usize; 3]) -> &str {
        self.rails[rail].name_of([segment, hook])
    }

    /// Names of the hooks whose feet are set in one way, rail by rail.
    pub fn hooks_set(&self, footing: usize) -> impl Iterator<Item = &str> {
        let set = self.hooks().filter(move |(_, place)| place.setting == footing);
        set.map(|(at, _)| self.hook_name(at))
    }
}
