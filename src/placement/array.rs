//! Where the modules lie.

use crate::geometry::Rect;
use crate::hardware::Module;
use crate::units::Length;

use super::rail_axis::RailAxis;

/// A field of modules in rows and columns, its rows shifted against each other or not.
#[derive(Debug, Clone, PartialEq)]
pub struct Field {
    /// Name.
    pub id: String,
    /// Its modules.
    pub module: Module,
    /// Whether they are its own, and not those of the fields that name none.
    pub has_own_module: bool,
    /// Lower left corner, mm.
    pub origin: [f64; 2],
    /// Rows up the slope.
    pub rows: u32,
    /// Columns to the right.
    pub columns: u32,
    /// Long side up the slope.
    pub portrait: bool,
    /// Between neighbours in a row.
    pub column_gap: Length,
    /// Between rows.
    pub row_gap: Length,
    /// Places left out, row and column.
    pub omitted: Vec<[u32; 2]>,
    /// How far each row lies to the right of where its columns would be one above the other; none where
    /// no row is shifted.
    pub row_shifts: Vec<Length>,
}

/// One module in its place.
#[derive(Debug, Clone)]
pub struct Placed {
    /// Field.
    pub field: usize,
    /// Row.
    pub row: u32,
    /// Column.
    pub column: u32,
    /// Where.
    pub rect: Rect,
}

impl Field {
    /// Size of a module along the eaves and up the slope.
    #[must_use]
    pub const fn module_size(&self) -> [Length; 2] {
        let Module { length, width, .. } = self.module;
        if self.portrait { [width, length] } else { [length, width] }
    }

    /// Rectangle of one place.
    #[must_use]
    pub fn place(&self, row: u32, column: u32) -> Rect {
        let [w, h] = self.module_size().map(Length::mm);
        let shift = self.row_shifts.get(row as usize).map_or(0.0, |shift| shift.mm());
        let x = self.origin[0] + shift + f64::from(column) * (w + self.column_gap.mm());
        let y = self.origin[1] + f64::from(row) * (h + self.row_gap.mm());
        Rect { x: [x, x + w], y: [y, y + h] }
    }

    /// How many places it has.
    #[must_use]
    pub fn places(&self) -> u64 {
        u64::from(self.rows) * u64::from(self.columns)
    }

    /// Left and right end of the places of a row.
    #[must_use]
    pub fn row_ends(&self, row: u32) -> [f64; 2] {
        let last = self.columns.saturating_sub(1);
        [self.place(row, 0).x[0], self.place(row, last).x[1]]
    }

    /// Smallest rectangle around its places; where rows are shifted, around its modules.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let rows = self.rows.max(1);
        let y = [self.place(0, 0).y[0], self.place(rows - 1, 0).y[1]];
        if self.row_shifts.is_empty() {
            return Rect { x: self.row_ends(0), y };
        }
        let ends = (0..rows).flat_map(|row| {
            let ends = move |run: std::ops::RangeInclusive<u32>| {
                let [first, last] = [run.start(), run.end()].map(|c| self.place(row, *c));
                [first.x[0], last.x[1]]
            };
            self.runs(row).into_iter().map(ends)
        });
        let x = ends.reduce(|a, b| [a[0].min(b[0]), a[1].max(b[1])]);
        Rect { x: x.unwrap_or([self.origin[0]; 2]), y }
    }

    /// Columns of a row that hold a module, in runs of neighbours.
    #[must_use]
    pub fn runs(&self, row: u32) -> Vec<std::ops::RangeInclusive<u32>> {
        self.runs_along(RailAxis::AlongEaves, row)
    }

    /// How many lanes of modules lie side by side under rails of an axis: rows, or columns.
    #[must_use]
    pub const fn lanes(&self, axis: RailAxis) -> u32 {
        match axis {
            RailAxis::AlongEaves => self.rows,
            RailAxis::UpSlope => self.columns,
        }
    }

    /// Places of a lane that hold a module, in runs of neighbours.
    #[must_use]
    pub fn runs_along(&self, axis: RailAxis, lane: u32) -> Vec<std::ops::RangeInclusive<u32>> {
        let places = match axis {
            RailAxis::AlongEaves => self.columns,
            RailAxis::UpSlope => self.rows,
        };
        let mut runs: Vec<std::ops::RangeInclusive<u32>> = Vec::new();
        let holds = |place: &u32| !self.omitted.contains(&axis.row_and_column(lane, *place));
        for place in (0..places).filter(holds) {
            match runs.last_mut() {
                Some(run) if *run.end() + 1 == place => *run = *run.start()..=place,
                _ => runs.push(place..=place),
            }
        }
        runs
    }
}

impl RailAxis {
    /// Row and column of a place in a lane.
    #[must_use]
    pub const fn row_and_column(self, lane: u32, place: u32) -> [u32; 2] {
        match self {
            Self::AlongEaves => [lane, place],
            Self::UpSlope => [place, lane],
        }
    }
}

/// Neighbours of a field that rails run under.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Run {
    /// Field.
    pub field: usize,
    /// Which way the rails run.
    pub axis: RailAxis,
    /// Row, or column where they run up the slope.
    pub lane: u32,
    /// First and last column in it, or row.
    pub places: [u32; 2],
}

impl Run {
    /// Whether a module is one of them.
    #[must_use]
    pub fn contains(&self, module: &Placed) -> bool {
        let [lane, place] = self.axis.row_and_column(module.row, module.column);
        self.field == module.field
            && self.lane == lane
            && (self.places[0]..=self.places[1]).contains(&place)
    }

    /// Row and column of each of them.
    pub fn modules(&self) -> impl Iterator<Item = [u32; 2]> + use<> {
        let Self { axis, lane, places: [first, last], .. } = *self;
        (first..=last).map(move |place| axis.row_and_column(lane, place))
    }

    /// Row of the first of them.
    #[must_use]
    pub const fn row(&self) -> u32 {
        self.axis.row_and_column(self.lane, self.places[0])[0]
    }

    /// Rectangle of the first or the last of them.
    #[must_use]
    pub fn end(&self, fields: &[Field], side: usize) -> Rect {
        let [row, column] = self.axis.row_and_column(self.lane, self.places[side]);
        fields[self.field].place(row, column)
    }
}

/// Every run of every field.
pub fn runs(fields: &[Field], axis: RailAxis) -> impl Iterator<Item = Run> + '_ {
    fields.iter().enumerate().flat_map(move |(field, of)| {
        (0..of.lanes(axis)).flat_map(move |lane| {
            of.runs_along(axis, lane).into_iter().map(move |run| Run {
                field,
                axis,
                lane,
                places: [*run.start(), *run.end()],
            })
        })
    })
}

/// Whether two runs of modules up the slope share some height above the eaves.
pub(super) fn share_height(fields: &[Field], runs: [&Run; 2]) -> bool {
    let [one, other] = runs.map(|run| [0, 1].map(|side| run.end(fields, side).y[side]));
    one[0] < other[1] && other[0] < one[1]
}

/// The first field with the same module as a field, by place: by it the kinds of modules are told apart.
#[must_use]
pub fn kind_of(fields: &[Field], field: usize) -> usize {
    let alike = |other: &Field| other.module == fields[field].module;
    fields.iter().position(alike).unwrap_or(field)
}

/// The first field of each kind of module, by place.
#[must_use]
pub fn kinds(fields: &[Field]) -> Vec<usize> {
    (0..fields.len()).filter(|field| kind_of(fields, *field) == *field).collect()
}

/// Every module of every field, field by field, row by row.
#[must_use]
pub fn modules(fields: &[Field]) -> Vec<Placed> {
    let mut all = Vec::new();
    for (index, field) in fields.iter().enumerate() {
        for row in 0..field.rows {
            for column in field.runs(row).into_iter().flatten() {
                let rect = field.place(row, column);
                all.push(Placed { field: index, row, column, rect });
            }
        }
    }
    all
}
