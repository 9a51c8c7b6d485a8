//! Where modules of a row may lie: what there is of the slope at a height.

use crate::geometry::{Outline, Point, Rect, shadow};
use crate::roof::{ArrayPart, Roof};

/// Stretches this little apart touch: the rounding of the arithmetic, mm.
const TOUCH: f64 = 1e-7;

/// Heights that what stands in the way is sorted by, at most.
const SHELVES: f64 = 64.0;

/// What there is to fill.
#[derive(Debug, Clone, Copy)]
pub struct Room<'a> {
    /// The slope, with what keeps modules away from its sides.
    pub roof: &'a Roof,
    /// Where modules may lie; `None` where that is the whole slope.
    pub region: Option<&'a Outline>,
    /// Where none may lie, for the sake of modules that are there.
    pub taken: &'a [Rect],
    /// How far rails run beyond the modules, mm.
    pub rail_ends: f64,
}

/// Something modules must not reach.
#[derive(Debug, Clone, Copy)]
enum Barrier {
    /// A line, how far modules stay from it, and how far rails stand out beside them on the way to it.
    Line { line: [Point; 2], keep: f64, beside: f64 },
    /// A rectangle.
    Block(Rect),
}

impl Barrier {
    /// Heights in which it matters.
    const fn span(&self) -> [f64; 2] {
        match self {
            Self::Line { line: [a, b], keep, .. } => [a.y.min(b.y) - *keep, a.y.max(b.y) + *keep],
            Self::Block(rect) => rect.y,
        }
    }

    /// From where to where no module between these heights may reach.
    fn blocks(&self, band: [f64; 2]) -> Option<[f64; 2]> {
        match self {
            Self::Line { line, keep, beside } => {
                shadow(*line, band, *keep).map(|[left, right]| [left - beside, right + beside])
            }
            Self::Block(rect) => {
                let apart = rect.y[1] <= band[0] + TOUCH || band[1] <= rect.y[0] + TOUCH;
                (!apart).then_some(rect.x)
            }
        }
    }
}

/// The room for modules of one size.
#[derive(Debug)]
pub struct Ground<'a> {
    room: Room<'a>,
    /// Breadth and height of a module.
    size: [f64; 2],
    barriers: Vec<Barrier>,
    /// Barriers by height, from the lowest: numbers of those that matter on a shelf.
    shelves: Vec<Vec<usize>>,
    /// Lower edge of the lowest shelf, and how high each is.
    lowest: f64,
    high: f64,
    /// Obstacles that a module can lie on without touching a side of them.
    large: Vec<&'a Outline>,
}

impl<'a> Ground<'a> {
    /// The room for modules of this breadth and height.
    pub fn new(room: Room<'a>, size: [f64; 2]) -> Self {
        let barriers = barriers(&room);
        let [lowest, highest] = room.roof.outline.bounds().y;
        let high = size[1].max((highest - lowest) / SHELVES);
        let outlines = room.roof.obstacles.iter().map(|obstacle| &obstacle.outline);
        let large = outlines.filter(|outline| {
            let Rect { x, y } = outline.bounds();
            x[1] - x[0] > size[0] && y[1] - y[0] > size[1]
        });
        let large = large.collect();
        let mut ground = Self { room, size, barriers, shelves: Vec::new(), lowest, high, large };
        let count = ground.shelf(highest) + 1;
        ground.shelves = vec![Vec::new(); count];
        for (number, barrier) in ground.barriers.iter().enumerate() {
            let [low, top] = barrier.span();
            for shelf in ground.shelf(low)..=ground.shelf(top).min(count - 1) {
                ground.shelves[shelf].push(number);
            }
        }
        ground
    }

    /// The shelf of a height: those beyond the slope belong to its lowest and highest.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "rounded, from 0")]
    fn shelf(&self, y: f64) -> usize {
        ((y - self.lowest) / self.high).floor().max(0.0) as usize
    }

    /// Heights of the slope, and of the region in it.
    pub fn heights(&self) -> [f64; 2] {
        let [low, high] = self.room.roof.outline.bounds().y;
        let region = self.room.region.map(|region| region.bounds().y);
        region.map_or([low, high], |region| [low.max(region[0]), high.min(region[1])])
    }

    /// Breadth of a module.
    pub const fn width(&self) -> f64 {
        self.size[0]
    }

    /// How much work it is to look at all rows at a pitch: barriers that are looked at.
    pub fn work_at_a_height(&self, pitch: f64) -> f64 {
        /// What a row takes besides, in barriers.
        const ROW: f64 = 10.0;
        let [low, high] = self.heights();
        let rows = ((high - low) / pitch).max(1.0);
        let shelves: usize = self.shelves.iter().map(Vec::len).sum();
        // A row lies on two shelves, sometimes on three.
        rows * (ROW + 2.0 * shelves as f64 / self.shelves.len() as f64)
    }

    /// Heights at which the lower edge of a row comes flush with something, those of the slope first.
    pub fn flush(&self) -> impl Iterator<Item = f64> + '_ {
        let up = self.size[1];
        self.barriers.iter().flat_map(move |barrier| {
            let (ends, keep) = match barrier {
                Barrier::Line { line: [a, b], keep, .. } => ([a.y, b.y], *keep),
                Barrier::Block(rect) => (rect.y, 0.0),
            };
            ends.into_iter().flat_map(move |y| [y + keep, y - keep - up])
        })
    }

    /// Where the left edge of a module may lie whose lower edge lies at a height: closed stretches from
    /// left to right, some of them no longer than a point.
    pub fn free(&self, y: f64) -> Vec<[f64; 2]> {
        let [width, height] = self.size;
        let band = [y, y + height];
        let last = self.shelves.len() - 1;
        let shelves = self.shelf(y).min(last)..=self.shelf(band[1]).min(last);
        let on_shelves = self.shelves[shelves].iter().flatten();
        let mut blocked: Vec<[f64; 2]> = on_shelves
            .filter_map(|number| self.barriers[*number].blocks(band))
            .map(|[left, right]| [left - width, right])
            .collect();
        blocked.sort_by(|a, b| a[0].total_cmp(&b[0]));
        let mut free = Vec::new();
        let mut until = None::<f64>;
        for [from, to] in blocked {
            // No sides were seen left of the first: there is no roof.
            if let Some(until) = until.filter(|until| *until <= from + TOUCH) {
                let stretch = [until, from.max(until)];
                if self.is_inside(Point {
                    x: f64::midpoint(stretch[0], stretch[1]) + width / 2.0,
                    y: y + height / 2.0,
                }) {
                    free.push(stretch);
                }
            }
            until = Some(until.map_or(to, |until| until.max(to)));
        }
        free
    }

    /// Whether a module whose middle lies here lies inside, where it touches no side of anything.
    fn is_inside(&self, middle: Point) -> bool {
        self.room.roof.outline.contains(middle)
            && self.room.region.is_none_or(|region| region.contains(middle))
            && !self.large.iter().any(|outline| outline.contains(middle))
    }

    /// Whether a module is one that no rule of the roof refuses, by the figures of the checks.
    pub fn allows(&self, rect: &Rect) -> bool {
        self.room.roof.outline.covers(rect)
            && !self.room.roof.obstacles.iter().any(|obstacle| obstacle.reaches(rect))
    }
}

fn barriers(room: &Room<'_>) -> Vec<Barrier> {
    let roof = room.roof;
    let mut all: Vec<Barrier> = Vec::new();
    for (side, edge) in roof.edges.iter().enumerate() {
        let line = roof.side(side);
        let asked = |part: ArrayPart| {
            let own = roof.distances.edges.iter().filter(|d| d.edge == *edge && d.part == part);
            own.map(|d| d.least.mm()).reduce(f64::max)
        };
        let keep = asked(ArrayPart::Modules).unwrap_or(0.0);
        all.push(Barrier::Line { line, keep, beside: 0.0 });
        // Rails lie under the modules and stand out beside them.
        let wall = roof.distances.party_walls.iter().find(|wall| wall.side == side);
        let of_wall = wall.map(|wall| (wall.face + wall.kept()).mm());
        for keep in asked(ArrayPart::Rails).into_iter().chain(of_wall) {
            all.push(Barrier::Line { line, keep, beside: room.rail_ends });
        }
    }
    if let Some(region) = room.region {
        all.extend(region.sides().map(|line| Barrier::Line { line, keep: 0.0, beside: 0.0 }));
    }
    for obstacle in &roof.obstacles {
        let keep = obstacle.clearance.mm();
        all.extend(obstacle.outline.sides().map(|line| Barrier::Line { line, keep, beside: 0.0 }));
    }
    all.extend(room.taken.iter().copied().map(Barrier::Block));
    all
}
