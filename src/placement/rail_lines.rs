//! Rail lines: two under each run of modules, on the course grid, inside the clamp zones. Those up the slope
//! are found in [`up_slope`].
//!
//! The arm leaves the covering at a tail edge and the bolt sits `bolt_beyond_exit` further down the
//! slope, so a rail can only lie at `tail edge − bolt_beyond_exit`. Of the lines inside a clamp
//! zone the one nearest the module's quarter point is taken, of two equally near the lower one. Where
//! feet would not stand free there, the rail is laid as much lower as they need and the zone allows.

use crate::covering::{Covering, courses};
use crate::geometry::Rect;
use crate::mechanics::lever;
use crate::units::Length;

use super::Job;
use super::array::{self, Field, Placed, Run};
use super::clamp_zones;
use super::expansion;
use super::footing::{self, UnderRails};
use super::line::{Line, Over, lowered};
use super::rail_axis::RailAxis;
use super::splices::splices;
use super::there::There;
use super::up_slope;

/// Which of the two rails of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Position {
    /// Nearer the eaves.
    Lower,
    /// Nearer the ridge.
    Upper,
    /// Nearer the left verge.
    Left,
    /// Nearer the right verge.
    Right,
    /// Under rails that it bears where rails cross.
    Beneath,
}

impl Position {
    /// Of both rails of a run the one nearer the origin first.
    #[must_use]
    pub const fn pair(axis: RailAxis) -> [Self; 2] {
        match axis {
            RailAxis::AlongEaves => [Self::Lower, Self::Upper],
            RailAxis::UpSlope => [Self::Left, Self::Right],
        }
    }

    /// Its place in that pair.
    #[must_use]
    pub const fn place(self) -> usize {
        match self {
            Self::Lower | Self::Left | Self::Beneath => 0,
            Self::Upper | Self::Right => 1,
        }
    }
}

/// One rail before it has hooks.
#[derive(Debug, Clone)]
pub struct RailLine {
    /// Name.
    pub id: String,
    /// Modules above it.
    pub run: Run,
    /// Which of the two under them.
    pub position: Position,
    /// Place of the line across its direction: its height; where it runs up the slope, its distance from the
    /// origin along the eaves.
    pub across: Length,
    /// What it follows.
    pub over: Over,
    /// It does so, and lies inside the clamp zone.
    pub on_grid: bool,
    /// How much lower than the hook is made for arms leave their courses, so that feet stand free: a rail
    /// along the eaves is laid as much lower, zero where it stands; under one up the slope every hook that is
    /// added.
    pub lowered: Length,
    /// Place of the other rail under the same modules; a row as built may have but one.
    pub other: Option<Length>,
    /// How much farther than usual it runs at its left and right end, or lower and upper end, to a place that
    /// holds it.
    pub runs_on: [Length; 2],
    /// Where its bars meet, where that is known of a rail that stands.
    pub spliced_at: Option<Vec<Length>>,
    /// The rail that is there already, where one is kept on this line of a layout.
    pub there: Option<There>,
    /// Ends of each segment, from the left, or from the eaves.
    pub segments: Vec<[Length; 2]>,
}

impl RailLine {
    /// Field.
    #[must_use]
    pub const fn field(&self) -> usize {
        self.run.field
    }
    /// Which way it runs.
    #[must_use]
    pub const fn axis(&self) -> RailAxis {
        self.run.axis
    }
    /// Course its arms leave under; each of its own where it runs up the slope.
    #[must_use]
    pub const fn course(&self) -> Option<i64> {
        match self.over {
            Over::Course(course) => Some(course),
            Over::Rafter(_) | Over::Rails => None,
        }
    }
    /// Whether lower rails bear it, and no hooks.
    #[must_use]
    pub fn is_upper(&self) -> bool {
        self.over == Over::Rails
    }
    /// Whether it bears upper rails, and no modules.
    #[must_use]
    pub fn is_beneath(&self) -> bool {
        self.position == Position::Beneath
    }
    /// Height of the rail where it is held in a place along it.
    #[must_use]
    pub fn height_at(&self, at: Length) -> Length {
        self.axis().place(at, self.across)[1]
    }

    /// All of the slope it takes, this far to either side of its line.
    #[must_use]
    pub fn rect(&self, half: Length) -> Rect {
        let across = [self.across - half, self.across + half];
        self.axis().rect([self.start(), self.end()].map(Length::mm), across.map(Length::mm))
    }

    /// Whether modules of this place are clamped to it.
    #[must_use]
    pub fn carries(&self, module: &Placed) -> bool {
        !self.is_beneath() && self.run.contains(module)
    }

    /// Share it takes, by the lever rule, of a load on a module in this place across it. The only rail of a
    /// row carries all there is.
    #[must_use]
    pub fn share(&self, across: Length) -> f64 {
        self.other.map_or(1.0, |other| lever::share(across, self.across, other))
    }
    /// Pressing force on a rail along the eaves from a slope force of 1 on a module, this high above the
    /// bolts: the lower rail is pressed, the upper one lifted. The only rail of a row cannot take the couple.
    /// Rails up the slope feel none, see [`super::loads`].
    #[must_use]
    pub fn couple(&self, height: Length) -> f64 {
        match self.axis() {
            RailAxis::AlongEaves => {
                self.other.map_or(0.0, |other| lever::couple(height, self.across, other))
            }
            RailAxis::UpSlope => 0.0,
        }
    }
    /// Left end.
    #[must_use]
    pub fn start(&self) -> Length {
        self.segments.first().map_or(Length::ZERO, |s| s[0])
    }
    /// Right end.
    #[must_use]
    pub fn end(&self) -> Length {
        self.segments.last().map_or(Length::ZERO, |s| s[1])
    }
}

/// What these rails decide of the feet under them, all set alike: the bolt as far beyond the tail edge as
/// that of any.
#[must_use]
pub fn under(job: &Job, lines: &[RailLine]) -> UnderRails {
    /// Lines that differ by no more than rounding.
    const SAME: Length = Length::from_mm(1e-6);
    let lowered = |line: &RailLine| match (line.there, line.over) {
        (Some(_), Over::Course(course)) if line.on_grid => {
            let beyond = courses::tail_edge(&job.covering, course) - line.across;
            Some(beyond - job.hook.bolt_beyond_exit).filter(|by| *by > SAME).unwrap_or_default()
        }
        _ => line.lowered,
    };
    let lowered = lines.iter().map(lowered).fold(Length::ZERO, Length::max);
    let clear = match job.rail_axis {
        RailAxis::AlongEaves => {
            let rails: Vec<(Length, [Option<Length>; 2])> = lines
                .iter()
                .map(|line| (line.across, [Some(line.start()), Some(line.end())]))
                .collect();
            footing::clear_along_rafters(&job.hook.foot, &rails)
        }
        RailAxis::UpSlope => up_slope::clear_between_feet(job),
    };
    UnderRails { clear, bolt_beyond_exit: job.hook.bolt_beyond_exit + lowered }
}

/// A rail that stays on its line.
#[derive(Debug, Clone)]
pub struct Given {
    /// The rail, by place among those kept.
    pub rail: usize,
    /// Its line: along the eaves over the course whose tail edge is nearest to where its arms leave.
    pub line: Line,
    /// Left and right end, or lower and upper end, where known.
    pub ends: [Option<Length>; 2],
    /// Where its bars meet, where known.
    pub splices: Option<Vec<Length>>,
}

/// Every rail of the job, field by field, run by run, the one nearer the origin first.
#[must_use]
pub fn rail_lines(job: &Job) -> Vec<RailLine> {
    beside(job, |_| [None, None])
}

/// The same where rails stay on their lines: which of them do of the two of a run.
#[must_use]
pub fn beside(job: &Job, given: impl Fn(&Run) -> [Option<Given>; 2]) -> Vec<RailLine> {
    let mut lines: Vec<RailLine> = Vec::new();
    let (mut field, mut number) = (0, 0);
    let of_runs = array::runs(&job.fields, job.rail_axis).map(|run| (run, given(&run)));
    let of_runs: Vec<(Run, [Option<Given>; 2])> = of_runs.collect();
    for (run, given) in &of_runs {
        let run = *run;
        if run.field != field {
            (field, number) = (run.field, 0);
        }
        let pair = match job.rail_axis {
            RailAxis::AlongEaves => pair_of(job, &run, given),
            RailAxis::UpSlope => {
                let stay = given.each_ref().map(|given| given.as_ref().map(|given| given.line));
                up_slope::pair_of(job, &run, stay, |rafter| {
                    let follows =
                        |on_grid: bool, over: Over| on_grid && over == Over::Rafter(rafter);
                    let beside = |other: &Run| array::share_height(&job.fields, [other, &run]);
                    let stays = |(other, given): &(Run, [Option<Given>; 2])| {
                        let mut lines = given.iter().flatten().map(|given| given.line);
                        *other != run
                            && lines.any(|line| follows(line.on_grid, line.over))
                            && beside(other)
                    };
                    let mut laid = lines.iter().filter(|line| follows(line.on_grid, line.over));
                    laid.any(|line| beside(&line.run)) || of_runs.iter().any(stays)
                })
            }
        };
        let segments = expansion::segments(job, &run, &pair);
        let positions = Position::pair(job.rail_axis);
        for ((position, given), [line, other]) in
            positions.into_iter().zip(given).zip([[&pair[0], &pair[1]], [&pair[1], &pair[0]]])
        {
            number += 1;
            let segments = segments.clone();
            let (there, spliced_at, segments) = match given {
                Some(given) => given.along(job, segments),
                None => (None, None, segments),
            };
            lines.push(RailLine {
                spliced_at,
                there,
                id: format!("{}{number}", job.fields[run.field].id),
                run,
                position,
                across: line.across,
                over: line.over,
                on_grid: line.on_grid,
                lowered: line.lowered,
                other: Some(other.across),
                runs_on: [Length::ZERO; 2],
                segments,
            });
        }
    }
    lines
}

impl Given {
    /// What is there of it along segments as long as their modules need, where its bars meet as far as that
    /// is known, and the segments with its ends.
    ///
    /// Where it goes on, pieces meet at its ends. What is there is taken as equal bars where nothing is told,
    /// and so is what is added where splices are hinges.
    fn along(
        &self,
        job: &Job,
        segments: Vec<[Length; 2]>,
    ) -> (Option<There>, Option<Vec<Length>>, Vec<[Length; 2]>) {
        let (there, segments) = There::along(self.rail, self.ends, segments);
        let told = self.splices.as_deref();
        if segments.iter().all(|ends| there.added(*ends).is_empty()) {
            let there = There { told: told.is_some(), ..there };
            return (Some(there), self.splices.clone(), segments);
        }
        let mut meet = Vec::new();
        let mut is_one_bar = true;
        for ends in &segments {
            meet.extend(there.joints(*ends));
            if let Some(part) = there.of(*ends) {
                let bars = splices(job, told, part);
                is_one_bar = is_one_bar && bars.is_empty();
                meet.extend(bars);
            }
            if job.rail.hinged_splices {
                let added = there.added(*ends).into_iter();
                meet.extend(added.flat_map(|part| splices(job, None, part)));
            }
        }
        meet.sort_by(|a, b| a.mm().total_cmp(&b.mm()));
        let told = told.is_some() || is_one_bar || job.rail.hinged_splices;
        let there = There { told, ..there };
        (Some(there), Some(meet), segments)
    }
}

fn pair_of(job: &Job, run: &Run, given: &[Option<Given>; 2]) -> [Line; 2] {
    let field = &job.fields[run.field];
    let bottom = Length::from_mm(run.end(&job.fields, 0).y[0]);
    let zones = clamp_zones::zones_or_halves(field, job.rail_axis);
    let quarter = clamp_zones::quarters(field, job.rail_axis);
    let under = (&job.covering, job.hook.bolt_beyond_exit);
    let lines = [0, 1].map(|i| match &given[i] {
        Some(Given { line: Line { across, over: Over::Course(course), .. }, .. }) => {
            Some((*across, *course))
        }
        _ => nearest_line(under, bottom, zones[i], quarter[i]),
    });
    let pair = match lines {
        [Some(lower), Some(upper)] if lower.0 < upper.0 => [(lower, 0), (upper, 1)]
            .map(|((y, course), i)| (y, course, true, lowered(job, y - bottom - zones[i][0]))),
        // No course will do: the quarter points, so that the rest can still be looked at.
        _ => quarter.map(|q| {
            let y = bottom + q;
            let course = courses::nearest_course(&job.covering, y + job.hook.bolt_beyond_exit);
            (y, course, false, Length::ZERO)
        }),
    };
    let drawn = pair.map(|(y, course, on_grid, lowered)| Line {
        across: y - lowered,
        over: Over::Course(course),
        on_grid,
        lowered,
    });
    let [lower, upper] = drawn;
    let [lower_given, upper_given] = given;
    let or = |given: &Option<Given>, drawn: Line| given.as_ref().map_or(drawn, |given| given.line);
    [or(lower_given, lower), or(upper_given, upper)]
}

/// The two rail lines of a row whose lower edge lies at this height, each with its course, under hooks that
/// hold the rail so far beyond the tail edge they leave under; `None` where no pair of courses will do.
#[must_use]
pub fn on_courses(
    (covering, beyond): (&Covering, Length),
    field: &Field,
    bottom: Length,
) -> Option<[(Length, i64); 2]> {
    let along = RailAxis::AlongEaves;
    let (zones, quarter) =
        (clamp_zones::zones_or_halves(field, along), clamp_zones::quarters(field, along));
    let lines = [0, 1].map(|i| nearest_line((covering, beyond), bottom, zones[i], quarter[i]));
    match lines {
        [Some(lower), Some(upper)] if lower.0 < upper.0 => Some([lower, upper]),
        _ => None,
    }
}

fn nearest_line(
    (covering, beyond): (&Covering, Length),
    bottom: Length,
    zone: [Length; 2],
    aim: Length,
) -> Option<(Length, i64)> {
    let mut best = None::<(Length, i64)>;
    let [low, high] = zone.map(|edge| bottom + edge + beyond);
    for course in courses::courses_between(covering, low, high) {
        let y = courses::tail_edge(covering, course) - beyond;
        let off = |y: Length| (y - bottom - aim).abs();
        if best.is_none_or(|(b, _)| off(y).mm() < off(b).mm() - 1e-6) {
            best = Some((y, course));
        }
    }
    best
}

/// Smallest move of a field up (positive) or down the slope that puts a course line into both
/// clamp zones of every row; `None` when no move does, and where rails run up the slope.
#[must_use]
pub fn smallest_shift_to_grid(job: &Job, field: &Field) -> Option<Length> {
    if job.rail_axis == RailAxis::UpSlope {
        return None;
    }
    let zones = clamp_zones::clamp_zones(field, job.rail_axis)?;
    let beyond = job.hook.bolt_beyond_exit;
    let fits = |shift: Length| {
        (0..field.rows).all(|row| {
            let bottom = Length::from_mm(field.place(row, 0).y[0]) + shift;
            zones.iter().all(|[low, high]| {
                courses::courses_between(
                    &job.covering,
                    bottom + *low + beyond,
                    bottom + *high + beyond,
                )
                .next()
                .is_some()
            })
        })
    };
    // A best move puts some line onto some edge of a zone, and never moves a whole gauge.
    let mut moves = Vec::new();
    for row in 0..field.rows {
        let bottom = Length::from_mm(field.place(row, 0).y[0]);
        for edge in zones.iter().flatten() {
            let line = bottom + *edge + beyond;
            let nearest = courses::nearest_course(&job.covering, line);
            for course in [nearest - 1, nearest, nearest + 1] {
                moves.push(courses::tail_edge(&job.covering, course) - line);
            }
        }
    }
    moves.sort_by(|a, b| a.abs().mm().total_cmp(&b.abs().mm()));
    moves.into_iter().find(|shift| fits(*shift))
}
