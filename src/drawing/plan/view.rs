//! From the roof plane to paper: scale, place, and which part of the slope is shown.

use crate::geometry::{Outline, Point, Rect};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;

use crate::drawing::marks::HookMark;
use crate::drawing::text::Label;

/// What of a slope a drawing shows.
#[derive(Debug, Clone, Copy)]
pub(in crate::drawing) struct Window {
    /// What is shown, mm.
    pub rect: Rect,
    /// What is labelled: things that stand between these places along the eaves, mm.
    pub owns_x: [f64; 2],
    /// And between these heights, mm.
    pub owns_y: [f64; 2],
}

/// Whatever there is.
const ALL: [f64; 2] = [f64::NEG_INFINITY, f64::INFINITY];

impl Window {
    /// The whole slope, and whatever stands beyond its ends.
    pub fn whole(job: &Job) -> Self {
        Self { rect: job.roof.outline.bounds(), owns_x: ALL, owns_y: ALL }
    }

    /// Whether it is the whole slope.
    pub fn is_whole(&self) -> bool {
        [self.owns_x, self.owns_y].iter().flatten().all(|end| end.is_infinite())
    }

    /// Whether something that stands at a place is labelled here.
    pub fn owns(&self, [x, y]: [f64; 2]) -> bool {
        self.owns_along(x) && (self.owns_y[0]..self.owns_y[1]).contains(&y)
    }

    /// Whether something that reaches from eaves to ridge is labelled here.
    pub fn owns_along(&self, x: f64) -> bool {
        (self.owns_x[0]..self.owns_x[1]).contains(&x)
    }

    /// Parts of a slope, so many from left to right and so many from the ridge down, cut midway between
    /// rafters and between heights of hooks so that every hook belongs to one of them. Parts without a hook
    /// are left out.
    pub fn parts(job: &Job, marks: &[HookMark], [across, down]: [usize; 2]) -> Vec<Self> {
        let Rect { x, y } = job.roof.outline.bounds();
        let rafters: Vec<f64> = job.roof.rafters.positions.iter().map(|x| x.mm()).collect();
        let mut heights: Vec<f64> = marks.iter().map(|mark| mark.y).collect();
        heights.sort_by(f64::total_cmp);
        heights.dedup_by(|a, b| (*a - *b).abs() < 0.5);
        let (columns, rows) = (pieces(&rafters, x, across), pieces(&heights, y, down));
        let parts = rows.iter().rev().flat_map(|(y, owns_y)| {
            columns.iter().map(|(x, owns_x)| Self {
                rect: Rect { x: *x, y: *y },
                owns_x: *owns_x,
                owns_y: *owns_y,
            })
        });
        parts.filter(|part| marks.iter().any(|mark| part.owns([mark.x, mark.y]))).collect()
    }
}

/// A length in so many pieces about alike, cut midway between places: what each shows and what it owns.
fn pieces(places: &[f64], [low, high]: [f64; 2], count: usize) -> Vec<([f64; 2], [f64; 2])> {
    let middles: Vec<f64> = places
        .windows(2)
        .map(|pair| f64::midpoint(pair[0], pair[1]))
        .filter(|middle| low < *middle && *middle < high)
        .collect();
    let mut cuts: Vec<f64> = (1..count)
        .filter_map(|i| {
            let wanted = low + (high - low) * i as f64 / count as f64;
            let nearer = |a: &&f64, b: &&f64| (*a - wanted).abs().total_cmp(&(*b - wanted).abs());
            middles.iter().min_by(nearer).copied()
        })
        .collect();
    cuts.dedup();
    let ends = |first: f64, last: f64| {
        let starts = std::iter::once(first).chain(cuts.iter().copied());
        starts.zip(cuts.iter().copied().chain([last])).map(|(from, to)| [from, to])
    };
    ends(low, high).zip(ends(ALL[0], ALL[1])).collect()
}

/// From the roof plane to paper.
#[derive(Debug, Clone, Copy)]
pub(in crate::drawing) struct View {
    /// Paper left of the window.
    pub left: f64,
    /// Paper above it.
    pub top: f64,
    /// Units to the mm.
    pub scale: f64,
    /// What is shown.
    pub window: Window,
}

impl View {
    /// A place along the eaves.
    pub fn x(&self, mm: f64) -> f64 {
        self.left + (mm - self.window.rect.x[0]) * self.scale
    }
    /// A height on the slope.
    pub fn y(&self, mm: f64) -> f64 {
        self.top + (self.window.rect.y[1] - mm) * self.scale
    }
    /// A rectangle.
    pub fn rect(&self, mm: &Rect) -> Rect {
        Rect { x: mm.x.map(|x| self.x(x)), y: [self.y(mm.y[1]), self.y(mm.y[0])] }
    }
    /// What a rectangle on paper shows.
    pub fn on_slope(&self, paper: &Rect) -> Rect {
        let x = paper.x.map(|x| (x - self.left) / self.scale + self.window.rect.x[0]);
        let [high, low] = paper.y.map(|y| self.window.rect.y[1] - (y - self.top) / self.scale);
        Rect { x, y: [low, high] }
    }
    /// A rectangle as far as it is shown; nothing where it is not.
    pub fn shown(&self, mm: &Rect) -> Option<Rect> {
        let clip =
            |side: [f64; 2], window: [f64; 2]| [side[0].max(window[0]), side[1].min(window[1])];
        let shown = Rect { x: clip(mm.x, self.window.rect.x), y: clip(mm.y, self.window.rect.y) };
        (shown.x[0] < shown.x[1] && shown.y[0] < shown.y[1]).then(|| self.rect(&shown))
    }
    /// A place on the slope.
    pub fn point(&self, point: Point) -> [f64; 2] {
        [self.x(point.x), self.y(point.y)]
    }
    /// An outline.
    pub fn outline(&self, outline: &Outline) -> Vec<[f64; 2]> {
        outline.points().iter().map(|p| self.point(*p)).collect()
    }
    /// The window itself.
    pub fn frame(&self) -> Rect {
        self.rect(&self.window.rect)
    }
}

/// How much is written beside a hook.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::drawing) enum HookText {
    /// Its name above and its utilisation below.
    NameAndUtilisation,
    /// Its name.
    Name,
    /// Its number on the rail: the rail is named beside.
    Number,
}

/// The number of a hook on its rail.
pub(in crate::drawing) fn number_on_rail(id: &str) -> &str {
    id.rsplit('-').next().unwrap_or(id)
}

impl HookText {
    /// What of a name is written.
    pub fn of(self, id: &str) -> &str {
        match self {
            Self::NameAndUtilisation | Self::Name => id,
            Self::Number => number_on_rail(id),
        }
    }

    /// Width that sign or utilisation need.
    const fn least_width(self) -> f64 {
        match self {
            Self::NameAndUtilisation | Self::Name => 44.0,
            Self::Number => 24.0,
        }
    }

    /// Height that sign and text need between one rail and the next.
    const fn height(self) -> f64 {
        match self {
            Self::NameAndUtilisation => 64.0,
            Self::Name | Self::Number => 42.0,
        }
    }
}

/// Units to the mm that a layout needs so that what is written at its hooks finds room. Where
/// hooks stand a hand apart, as they may in a built job, their labels look for other places.
pub(in crate::drawing) fn needed_scale(
    job: &Job,
    layout: &Layout,
    marks: &[HookMark],
    text: HookText,
) -> f64 {
    const CLOSEST: f64 = 250.0;
    const MOST: f64 = 0.2;
    let longest = marks
        .iter()
        .map(|mark| Label::new(text.of(&mark.id), [0.0; 2]).bold().length())
        .fold(text.least_width(), f64::max);
    let [hooks, rails] = [closest_hooks(marks, job.rail_axis), closest_rails(layout)];
    let [side_by_side, above] = job.rail_axis.turned([hooks, rails]);
    let along = (longest + 6.0) / side_by_side.max(CLOSEST);
    let up = text.height() / above.max(CLOSEST);
    along.max(up).min(MOST)
}

/// Smallest distance between neighbouring hooks of a rail.
fn closest_hooks(marks: &[HookMark], axis: RailAxis) -> f64 {
    marks
        .windows(2)
        .filter(|pair| pair[0].at[0] == pair[1].at[0])
        .map(|pair| match axis {
            RailAxis::AlongEaves => pair[1].arm_x - pair[0].arm_x,
            RailAxis::UpSlope => pair[1].y - pair[0].y,
        })
        .fold(f64::INFINITY, f64::min)
}

/// Smallest distance between rails that run beside each other.
fn closest_rails(layout: &Layout) -> f64 {
    let lines = || layout.rails.iter().map(|rail| &rail.line);
    let mut smallest = f64::INFINITY;
    for (i, one) in lines().enumerate() {
        for other in lines().skip(i + 1) {
            let apart = (one.across - other.across).abs().mm();
            let beside = one.axis() == other.axis() && apart > 0.5;
            if beside && one.start() < other.end() && other.start() < one.end() {
                smallest = smallest.min(apart);
            }
        }
    }
    smallest
}
