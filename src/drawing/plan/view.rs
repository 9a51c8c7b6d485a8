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
    pub owns: [f64; 2],
}

impl Window {
    /// The whole slope, and whatever stands beyond its ends.
    pub fn whole(job: &Job) -> Self {
        Self { rect: job.roof.outline.bounds(), owns: [f64::NEG_INFINITY, f64::INFINITY] }
    }

    /// Whether it is the whole slope.
    pub fn is_whole(&self) -> bool {
        self.owns.iter().all(|end| end.is_infinite())
    }

    /// Whether something is labelled here.
    pub fn owns(&self, x: f64) -> bool {
        (self.owns[0]..self.owns[1]).contains(&x)
    }

    /// Parts of a slope from left to right, cut midway between rafters so that every hook belongs
    /// to one of them.
    pub fn parts(job: &Job, count: usize) -> Vec<Self> {
        let whole = Self::whole(job);
        let [left, right] = whole.rect.x;
        let middles: Vec<f64> = job
            .roof
            .rafters
            .positions
            .windows(2)
            .map(|pair| f64::midpoint(pair[0].mm(), pair[1].mm()))
            .filter(|middle| left < *middle && *middle < right)
            .collect();
        let mut cuts: Vec<f64> = (1..count)
            .filter_map(|i| {
                let wanted = left + (right - left) * i as f64 / count as f64;
                let nearer =
                    |a: &&f64, b: &&f64| (*a - wanted).abs().total_cmp(&(*b - wanted).abs());
                middles.iter().min_by(nearer).copied()
            })
            .collect();
        cuts.dedup();
        let [mut from, mut owned] = [left, whole.owns[0]];
        let mut parts = Vec::with_capacity(cuts.len() + 1);
        for cut in cuts {
            let rect = Rect { x: [from, cut], y: whole.rect.y };
            parts.push(Self { rect, owns: [owned, cut] });
            [from, owned] = [cut, cut];
        }
        let rect = Rect { x: [from, right], y: whole.rect.y };
        parts.push(Self { rect, owns: [owned, whole.owns[1]] });
        parts
    }
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
}

impl HookText {
    /// Height that sign and text need between one rail and the next.
    const fn height(self) -> f64 {
        match self {
            Self::NameAndUtilisation => 64.0,
            Self::Name => 42.0,
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
        .map(|mark| Label::new(mark.id.clone(), [0.0; 2]).bold().length())
        .fold(44.0, f64::max);
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
