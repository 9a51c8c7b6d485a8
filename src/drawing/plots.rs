//! Plots along one rail: utilisation of its hooks, bending moments, deflected line.

use crate::checks::Check;
use crate::checks::segment::{Limit, Segment};
use crate::geometry::Rect;
use crate::language::{Language, Words};
use crate::mechanics::elastic_line::elastic_line;
use crate::mechanics::sweep::{Profile, Sweep};
use crate::placement::Job;
use crate::placement::laid::{LaidSegment, Layout};

use super::canvas::{ALARM, Canvas, FAINT, Figure, INK, Pen, THIN};
use super::text::{Label, SMALL};

/// As wide as an upright page with text of 7 pt: 12 units of 0.2058 mm.
const WIDTH: f64 = 900.0;
const LEFT: f64 = 70.0;
const RIGHT: f64 = 20.0;
/// Height of one plot.
const HIGH: f64 = 62.0;
const BAND: Pen = Pen::line(INK, 1.2).filled("#dfe7ee");
const BAR: Pen = Pen::line(INK, 1.2).filled("#7d8a95");

/// From places along the rail to paper.
struct Axis {
    from: f64,
    scale: f64,
}

impl Axis {
    fn x(&self, mm: f64) -> f64 {
        LEFT + (mm - self.from) * self.scale
    }
}

/// Draws the plots of a rail.
#[must_use]
pub fn draw(job: &Job, layout: &Layout, rail: usize, language: Language) -> Figure {
    let words = language.words();
    let rail = &layout.rails[rail];
    let [start, end] = [rail.line.start().mm(), rail.line.end().mm()];
    let axis = Axis { from: start, scale: (WIDTH - LEFT - RIGHT) / (end - start).max(1.0) };
    let mut canvas = Canvas::default();
    let title = format!("{} {}", words.rail, rail.line.id);
    canvas.label(Label::new(title.clone(), [10.0, 14.0]).bold().from_start());

    let mut y = 28.0;
    utilisations(&mut canvas, job, rail.segments.as_slice(), &rail.hooks, &axis, words, y);
    y += HIGH + 60.0;
    moments(&mut canvas, &rail.segments, &axis, words, y);
    y += HIGH + 34.0;
    deflections(&mut canvas, &rail.segments, &axis, words, y);
    y += HIGH + 20.0;
    canvas.finish([WIDTH, y], &title)
}

fn heading(canvas: &mut Canvas, text: &str, y: f64) {
    canvas.label(Label::new(text, [LEFT, y]).size(SMALL).from_start());
}

fn utilisations(
    canvas: &mut Canvas,
    job: &Job,
    segments: &[LaidSegment],
    names: &[String],
    axis: &Axis,
    words: &Words,
    top: f64,
) {
    heading(canvas, words.plot_utilisation, top);
    let floor = top + 18.0 + HIGH;
    let hooks: Vec<(f64, Check, f64)> = segments
        .iter()
        .flat_map(|laid| {
            laid.found.subset.iter().enumerate().filter_map(|(h, place)| {
                let result = laid.result.as_ref()?.hooks.get(h)?;
                let (check, governing) = result.governing();
                let x = laid.segment.candidates[*place].at.mm();
                Some((x, check, governing.utilisation.min(9.99)))
            })
        })
        .collect();
    let most = hooks.iter().map(|hook| hook.2).fold(job.wishes.max_utilisation, f64::max);
    let high = |used: f64| used / most * (HIGH - 22.0);
    canvas.line(&Pen::line(INK, 1.2), &[[LEFT, floor], [WIDTH - RIGHT, floor]]);
    let limit = floor - high(job.wishes.max_utilisation);
    canvas.line(&Pen::line(ALARM, 1.2).dashed("6 4"), &[[LEFT, limit], [WIDTH - RIGHT, limit]]);
    let text = format!("{} {}", words.limit, words.used(job.wishes.max_utilisation, 0));
    canvas.label(Label::new(text, [LEFT - 4.0, limit - 9.0]).size(SMALL).from_start());
    for ((x, check, used), name) in hooks.iter().zip(names) {
        let x = axis.x(*x);
        canvas.rect(&BAR, &Rect { x: [x - 9.0, x + 9.0], y: [floor - high(*used), floor] });
        let initial = match check {
            Check::Hook => words.hook_initial,
            Check::Bolt => words.bolt_initial,
            Check::Screws => words.screws_initial,
            Check::FootBearing => words.timber_initial,
            Check::Clearance => words.clearance_initial,
            // None of a hook.
            Check::RailBending
            | Check::RailDeflection
            | Check::Splice
            | Check::Crossing
            | Check::Module
            | Check::Clamp
            | Check::ClampSlip
            | Check::Rafter => "",
        };
        let above = [[x, floor - high(*used) - 9.0], [x, floor - high(*used) - 22.0]];
        canvas.label_where_clear(&Label::new(words.used(*used, 0), [x, 0.0]).size(SMALL), above);
        canvas.label_where_clear(&Label::new(initial, [x, 0.0]).size(SMALL), [[x, floor + 10.0]]);
        let number = name.rsplit('-').next().unwrap_or(name);
        let label = Label::new(number, [x, 0.0]).size(SMALL).bold();
        canvas.label_where_clear(&label, [[x, floor + 25.0]]);
    }
}

/// Profiles of every case of a segment on its hooks, under load square to the roof.
fn profiles(segment: &Segment, subset: &[usize]) -> Option<Vec<(usize, Limit, Profile)>> {
    let (reactions, supports) = segment.reactions(subset)?;
    let mut sweep = Sweep::default();
    sweep.fill(&segment.normal, &supports, &reactions);
    let profiles = segment.cases.iter().map(|case| {
        let mut profile = Profile::default();
        sweep.superpose(&segment.normal, &case.normal, &reactions, &mut profile);
        (case.combination, case.limit, profile)
    });
    Some(profiles.collect())
}

fn moments(canvas: &mut Canvas, segments: &[LaidSegment], axis: &Axis, words: &Words, top: f64) {
    heading(canvas, &format!("{}, kNm", words.plot_moment), top);
    // Largest and smallest moment of the strength combinations at every station.
    let bands: Vec<Vec<[f64; 3]>> = segments
        .iter()
        .filter_map(|laid| profiles(&laid.segment, &laid.found.subset))
        .map(|profiles| {
            let strength = || profiles.iter().filter(|p| matches!(p.1, Limit::Strength));
            let stations = profiles.first().map_or(&[][..], |p| p.2.x.as_slice());
            let at = |i: usize| strength().filter_map(move |p| p.2.moment.get(i).copied());
            stations
                .iter()
                .enumerate()
                .map(|(i, x)| [*x, at(i).fold(0.0, f64::min), at(i).fold(0.0, f64::max)])
                .collect()
        })
        .collect();
    let all = || bands.iter().flatten();
    let low = all().map(|p| p[1]).fold(0.0, f64::min);
    let high = all().map(|p| p[2]).fold(0.0, f64::max);
    let scale = (HIGH - 10.0) / (high - low).max(1.0);
    // A moment is drawn on the side it stretches: towards the roof is down.
    let zero = top + 22.0 - low * scale;
    let y = |moment: f64| zero + moment * scale;
    for band in &bands {
        let outer = band.iter().map(|p| [axis.x(p[0]), y(p[2])]);
        let inner = band.iter().rev().map(|p| [axis.x(p[0]), y(p[1])]);
        canvas.polygon(&BAND, &outer.chain(inner).collect::<Vec<_>>());
    }
    canvas.line(&Pen::line(INK, 1.0), &[[LEFT, zero], [WIDTH - RIGHT, zero]]);
    for extreme in [low, high] {
        let text = words.figure(extreme / 1e6, 2);
        let at = [LEFT - 8.0, y(extreme)];
        canvas.label_where_clear(
            &Label::new(text, at).size(SMALL).from_end(),
            [at, [at[0], at[1] + 9.0], [at[0], at[1] - 9.0]],
        );
    }
}

fn deflections(
    canvas: &mut Canvas,
    segments: &[LaidSegment],
    axis: &Axis,
    words: &Words,
    top: f64,
) {
    heading(canvas, &format!("{}, mm", words.plot_deflection), top);
    let lines: Vec<Vec<[f64; 2]>> = segments
        .iter()
        .filter_map(|laid| {
            let governing = laid.result.as_ref()?.deflection.combination;
            let profiles = profiles(&laid.segment, &laid.found.subset)?;
            let found = profiles.iter().find(|(combination, limit, _)| {
                *combination == governing && matches!(limit, Limit::Service)
            })?;
            elastic_line(&found.2, laid.segment.normal.rigidity())
        })
        .collect();
    let all = || lines.iter().flatten().map(|point| point[1]);
    let (low, high) = (all().fold(0.0, f64::min), all().fold(0.0, f64::max));
    let scale = (HIGH - 20.0) / (high - low).max(0.01);
    let zero = top + 24.0 - low * scale;
    canvas.line(&Pen::line(FAINT, 1.0), &[[LEFT, zero], [WIDTH - RIGHT, zero]]);
    for laid in segments {
        for place in laid.hooks().map(|hook| hook.at).chain(laid.crossings()) {
            let x = axis.x(place.mm());
            canvas.line(&Pen::line(THIN, 1.0), &[[x, top + 14.0], [x, top + HIGH + 6.0]]);
        }
    }
    for line in &lines {
        let points: Vec<[f64; 2]> =
            line.iter().map(|p| [axis.x(p[0]), zero + p[1] * scale]).collect();
        canvas.line(&Pen::line(INK, 2.0), &points);
    }
    for extreme in [low, high] {
        if extreme.abs() > 0.005 {
            let text = words.figure(extreme, 1);
            let at = [LEFT - 8.0, zero + extreme * scale];
            canvas.label(Label::new(text, at).size(SMALL).from_end());
        }
    }
}
