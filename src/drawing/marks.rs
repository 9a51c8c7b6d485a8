//! Hooks and splices as the drawings show them.

use crate::checks::segment::Candidate;
use crate::geometry::Rect;
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::rail_axis::RailAxis;

use super::canvas::{ALARM, Canvas, INK, N, Pen, THERE};
use super::pens;

/// How a hook stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// Within its limit.
    Within,
    /// Over it.
    Over,
    /// Something about it is not verified.
    Unverified,
}

/// A hook on the slope.
#[derive(Debug, Clone, PartialEq)]
pub struct HookMark {
    /// Its name.
    pub id: String,
    /// Rail, segment and hook.
    pub at: [usize; 3],
    /// Rafter.
    pub rafter: usize,
    /// Course its arm leaves under.
    pub course: i64,
    /// Rafter axis, mm.
    pub x: f64,
    /// Where the arm holds the rail, mm.
    pub arm_x: f64,
    /// The rail there, mm.
    pub y: f64,
    /// Largest utilisation.
    pub used: f64,
    /// How it stands.
    pub state: State,
    /// It is there already.
    pub is_there: bool,
}

/// Every hook of a layout, rail by rail from left to right.
#[must_use]
pub fn hook_marks(job: &Job, layout: &Layout) -> Vec<HookMark> {
    let mark = |(at, place): ([usize; 3], &Candidate)| {
        let [r, s, h] = at;
        let rail = &layout.rails[r];
        let footing = &layout.footings[place.setting];
        let result = rail.segments[s].result.as_ref().map(|result| result.hooks[h]);
        let used = result.map_or(0.0, |r| r.governing().1.utilisation);
        let verified = result.is_some()
            && footing.capacity.is_ok()
            && footing.packers.is_some()
            && footing.spring.stiffness.is_some();
        HookMark {
            id: rail.name_of([s, h]).to_owned(),
            at,
            rafter: place.rafter,
            x: place.x.mm(),
            arm_x: place.arm_x.mm(),
            y: rail.line.height_at(place.at).mm(),
            course: place.course,
            used,
            is_there: place.stands,
            state: if !job.wishes.allow(used) {
                State::Over
            } else if verified {
                State::Within
            } else {
                State::Unverified
            },
        }
    };
    layout.hooks().map(mark).collect()
}

/// Hooks of a layout that are not among those that stand.
#[must_use]
pub fn added(job: &Job, standing: &[HookMark], with: &Layout) -> Vec<HookMark> {
    let mut marks = hook_marks(job, with);
    marks.retain(|mark| standing.iter().all(|other| other.id != mark.id));
    marks
}

/// The hook with the largest utilisation, of equals the first.
#[must_use]
pub fn most_used<'a>(layout: &Layout, marks: &'a [HookMark]) -> Option<&'a HookMark> {
    let most = layout.most_used_hook()?;
    marks.iter().find(|mark| mark.at == most)
}

/// Radius of a hook's disc.
pub const RADIUS: f64 = 8.0;

/// Draws the sign of a hook, grey of one that is there already.
pub fn draw(
    canvas: &mut Canvas,
    [x, y]: [f64; 2],
    (used, state): (f64, State),
    is_worst: bool,
    is_there: bool,
) {
    let r = RADIUS;
    let outline = Pen::line(INK, 1.8).filled(if is_there { THERE } else { "#fff" });
    if is_worst {
        canvas.circle(&Pen::line(ALARM, 1.8).filled("#fff"), [x, y], r + 4.0);
    }
    match state {
        State::Over => {
            let square = [[x - r, y - r], [x + r, y - r], [x + r, y + r], [x - r, y + r]];
            canvas.polygon(&Pen::line(INK, 1.8).filled(ALARM), &square);
            // An exclamation mark, drawn so that it needs no font.
            canvas.line(&Pen::line("#fff", 2.6), &[[x, y - 5.0], [x, y + 1.5]]);
            canvas.line(&Pen::line("#fff", 2.6), &[[x, y + 3.4], [x, y + 5.8]]);
        }
        State::Unverified => {
            let d = r * 1.25;
            canvas.polygon(&outline, &[[x, y - d], [x + d, y], [x, y + d], [x - d, y]]);
            sector(canvas, [x, y], r * 0.66, used);
        }
        State::Within => {
            canvas.circle(&outline, [x, y], r);
            sector(canvas, [x, y], r - 1.6, used);
        }
    }
}

/// Draws the sign of a hook to add: an open ring.
pub fn ring(canvas: &mut Canvas, at: [f64; 2]) {
    canvas.circle(&Pen::line(INK, 3.2).filled("#fff"), at, RADIUS);
}

/// A filled sector, clockwise from the top.
fn sector(canvas: &mut Canvas, [x, y]: [f64; 2], r: f64, share: f64) {
    let ink = Pen { line: "none", width: 0.0, dash: "", fill: INK };
    if share >= 0.9999 {
        canvas.circle(&ink, [x, y], r);
    } else if share > 0.0 {
        let angle = share * std::f64::consts::TAU;
        let end = [x + r * angle.sin(), y - r * angle.cos()];
        let large = u8::from(share > 0.5);
        canvas.path(
            &ink,
            &format!(
                "M{} {}L{} {}A{} {} 0 {large} 1 {} {}Z",
                N(x),
                N(y),
                N(x),
                N(y - r),
                N(r),
                N(r),
                N(end[0]),
                N(end[1])
            ),
        );
    }
}

/// The sign of a splice of rails that run so: two strokes across them.
pub fn splice(canvas: &mut Canvas, [x, y]: [f64; 2], axis: RailAxis) {
    for side in [-2.5, 2.5] {
        let stroke = [-8.0, 8.0].map(|across| {
            let [dx, dy] = axis.turned([side, across]);
            [x + dx, y + dy]
        });
        canvas.line(&Pen::line(INK, 1.8), &stroke);
    }
}

/// Strokes across a rafter that takes no hook.
pub fn barred(canvas: &mut Canvas, &Rect { x, y }: &Rect) {
    /// From stroke to stroke.
    const APART: f64 = 9.0;
    let rise = x[1] - x[0];
    let lowest = |step: u32| y[1] - f64::from(step) * APART;
    for low in (0..).map(lowest).take_while(|low| low - rise >= y[0]) {
        canvas.line(&pens::BARRED, &[[x[0], low], [x[1], low - rise]]);
    }
}
