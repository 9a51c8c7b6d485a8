//! Both layers of a field on rafters that were chosen: solved together, and searched for hooks until what was
//! solved is what stands.
//!
//! A force down the slope acts at the upper face of a lower rail, above its bolts. The couple of that presses the
//! rail below the crossing and lifts it above, over the width of the upper rail: it is found by solving the forces
//! down the slope first, and goes into the loads square to the slope then.

use crate::checks::segment::{Case, Limit, Segment, Workspace};
use crate::codes::vocabulary::Situation;
use crate::effort::Allowance;
use crate::mechanics::beam::grid::{self, Crossed, Crossing};
use crate::mechanics::beam::{self, Borne, Reactions, Strip, Superposition};
use crate::placement::footing::Footing;
use crate::placement::laid::{LaidSegment, Rail};
use crate::placement::loads;
use crate::placement::rail_lines::RailLine;
use crate::placement::search::{self, Found, Limit as SearchLimit, Outcome, Pattern};
use crate::placement::segments::{self, On};
use crate::placement::splices::splices;
use crate::placement::{Job, ROUNDING};
use crate::units::Length;

use super::beneath::{self, Beneath, Part};
use super::upper::UpperSegment;

/// Times both layers are solved for hooks that were found under other forces. From the second on lower rails
/// are searched as if they might be used less, by [`STRICTER`] each time: the forces then settle.
const ROUNDS: u32 = 6;

/// Share of the bound that each further round leaves unused.
const STRICTER: f64 = 0.02;

/// Joints nearer to each other are one, mm.
const SAME_JOINT: f64 = 1.0;

/// Multiplications of solving both layers that take about as long as a step of a search.
const PER_STEP: usize = 200;

/// A field on rafters that were chosen.
pub(super) struct Chosen<'a> {
    job: &'a Job,
    uppers: &'a [UpperSegment],
    /// Every part of every lower rail, from left to right, each with its lower rail.
    parts: Vec<(&'a Beneath, &'a Part)>,
    /// Each part without loads.
    bare: Vec<Segment>,
    /// Of every upper rail's segment where it crosses lower rails, from left to right: part, and place in it.
    crossings: Vec<Vec<[usize; 2]>>,
    /// Of every part the numbers of its crossings among all, upper rail by upper rail.
    numbers: Vec<Vec<usize>>,
}

/// What goes on where rails cross, upper rail by upper rail, square to the slope and down it.
struct Solved {
    on: [Crossed; 2],
}

/// A field with its hooks.
pub(super) struct Settled {
    /// Hooks and checks of every part of every lower rail.
    parts: Vec<(Segment, Found)>,
    /// Line of the lower rail of each part.
    lines: Vec<RailLine>,
    /// The upper rails' segments.
    uppers: Vec<Segment>,
    /// Rail and segment of each.
    of: Vec<[usize; 2]>,
    /// Whether every upper rail stays within its bound, on these hooks or on others that were tried.
    pub(super) uppers_pass: bool,
    /// Whether every rail does, with all its hooks.
    pub(super) passes: bool,
    /// Steps of a search that solving both layers took as long as.
    pub(super) solving: u64,
    most: f64,
}

impl<'a> Chosen<'a> {
    pub(super) fn of(
        job: &'a Job,
        footings: &'a [Footing],
        uppers: &'a [UpperSegment],
        beneath: impl Iterator<Item = &'a Beneath>,
    ) -> Self {
        let parts: Vec<(&Beneath, &Part)> =
            beneath.flat_map(|rail| rail.parts.iter().map(move |part| (rail, part))).collect();
        let crossed_by = |upper: usize| {
            let on = |(at, (_, part)): (usize, &(&Beneath, &Part))| {
                let place = part.over.iter().position(|over| *over == upper)?;
                Some([at, place])
            };
            parts.iter().enumerate().filter_map(on).collect()
        };
        let crossings: Vec<Vec<[usize; 2]>> = (0..uppers.len()).map(crossed_by).collect();
        let mut numbers: Vec<Vec<usize>> =
            parts.iter().map(|(_, part)| vec![0; part.over.len()]).collect();
        for (number, [part, place]) in crossings.iter().flatten().enumerate() {
            numbers[*part][*place] = number;
        }
        let bare = parts.iter().map(|of| bare(job, footings, of)).collect();
        Self { job, uppers, parts, bare, crossings, numbers }
    }

    /// Where the crossings of an upper rail lie along it.
    fn along(&self, upper: usize) -> Vec<f64> {
        let x = |[part, _]: &[usize; 2]| self.parts[*part].0.line.across.mm();
        self.crossings[upper].iter().map(x).collect()
    }

    /// Whether upper rails lie on two lower ones each, so that hooks do not change what these bear.
    fn is_determinate(&self) -> bool {
        self.crossings.iter().all(|crossings| crossings.len() == 2)
    }

    /// Whether both ends of every upper rail are short enough.
    fn ends_are_held(&self) -> bool {
        let limit = self.job.rail.max_cantilever.mm() + ROUNDING;
        self.uppers.iter().enumerate().all(|(upper, UpperSegment { ends, .. })| {
            let along = self.along(upper);
            let free = along.first().zip(along.last());
            free.is_some_and(|(first, last)| {
                first - ends[0].mm() <= limit && ends[1].mm() - last <= limit
            })
        })
    }

    /// Both layers on these hooks, solved together; `None` where they are not stable.
    fn solved(&self, subsets: &[Vec<usize>]) -> Option<Solved> {
        let joints: Vec<Joints> = self
            .parts
            .iter()
            .zip(subsets)
            .map(|((_, part), subset)| self.joints(part, subset))
            .collect();
        let crossings: Vec<Crossing> = self
            .crossings
            .iter()
            .enumerate()
            .flat_map(|(upper, crossings)| {
                let joints = &joints;
                crossings.iter().enumerate().map(move |(joint, [part, place])| Crossing {
                    upper: [upper, joint],
                    lower: [*part, joints[*part].over[*place]],
                })
            })
            .collect();
        let crossed = |lower: &[Strip], upper: &[Strip]| {
            let stands = lower.iter().zip(&joints);
            let stands: Vec<grid::Lower<'_>> = stands
                .map(|(strip, joints)| grid::Lower { strip, sprung: &joints.sprung })
                .collect();
            let upper: Vec<&Strip> = upper.iter().collect();
            grid::crossed(&stands, &upper, &crossings)
        };
        let upper = |of: fn(&Segment) -> &Strip, load: fn(&Case) -> &Superposition| {
            let under = |(upper, UpperSegment { segment, .. }): (usize, &UpperSegment)| {
                of(segment).under(segment.cases.iter().map(load), self.along(upper))
            };
            self.uppers.iter().enumerate().map(under).collect::<Vec<Strip>>()
        };
        let lower = |down: Option<&Crossed>| {
            let under = |(at, joints): (usize, &Joints)| {
                let bare = &self.bare[at];
                let strip = if down.is_some() { &bare.normal } else { &bare.slope };
                let on = self.on_part(at, down, None);
                let place = usize::from(down.is_none());
                strip.loaded(joints.at.clone(), on.points, on.cases[place].clone())
            };
            joints.iter().enumerate().map(under).collect::<Vec<Strip>>()
        };
        let down = crossed(&lower(None), &upper(|of| &of.slope, |case| &case.slope))?;
        let normal = crossed(&lower(Some(&down)), &upper(|of| &of.normal, |case| &case.normal))?;
        Some(Solved { on: [normal, down] })
    }

    /// Joints of a lower rail on these hooks.
    fn joints(&self, part: &Part, subset: &[usize]) -> Joints {
        let hooks = subset.iter().map(|place| (part.candidates[*place].at.mm(), None));
        let over = part.over.iter().enumerate();
        let over = over.map(|(place, upper)| (self.uppers[*upper].y.mm(), Some(place)));
        let mut all: Vec<(f64, Option<usize>)> = hooks.chain(over).collect();
        all.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut joints =
            Joints { at: Vec::new(), sprung: Vec::new(), over: vec![0; part.over.len()] };
        for (at, crossing) in all {
            if joints.at.last().is_none_or(|last| at - last > SAME_JOINT) {
                joints.at.push(at);
                joints.sprung.push(false);
            }
            let joint = joints.at.len() - 1;
            match crossing {
                Some(place) => joints.over[place] = joint,
                None => joints.sprung[joint] = true,
            }
        }
        joints
    }

    /// What acts on a part in every combination: its own weight, the couples of forces down the slope where
    /// these are known, and the forces of both kinds at its crossings.
    fn on_part(&self, part: usize, down: Option<&Crossed>, normal: Option<&Crossed>) -> On {
        let of = self.parts[part].1;
        let width = self.job.rail.depth.mm();
        let lever = beneath::lever(self.job).mm();
        let at = |place: usize| self.uppers[of.over[place]].y.mm();
        let mut points: Vec<(f64, usize, Load)> = (0..of.over.len())
            .flat_map(|place| {
                let y = at(place);
                [
                    (y - width / 2.0, place, Load::Couple(1.0)),
                    (y, place, Load::Force),
                    (y + width / 2.0, place, Load::Couple(-1.0)),
                ]
            })
            .collect();
        points.sort_by(|a, b| a.0.total_cmp(&b.0));
        let weight = loads::rail_weight(self.job);
        let mut cases = [Vec::new(), Vec::new()];
        for (case, combination) in self.job.actions.combinations.iter().enumerate() {
            let [on, along] = [normal, down].map(|solved| solved.map(|solved| solved.force(case)));
            let force = |solved: Option<&[f64]>, place: usize| {
                solved.map_or(0.0, |forces| forces[self.numbers[part][place]])
            };
            let square = points.iter().map(|(_, place, load)| match load {
                Load::Couple(sense) => sense * force(along, *place) * lever / width,
                Load::Force => force(on, *place),
            });
            let down = points.iter().map(|(_, place, load)| match load {
                Load::Couple(_) => 0.0,
                Load::Force => force(along, *place),
            });
            let uniform = weight.map(|weight| weight.kn_per_m() * combination.factors.permanent);
            let points: [Vec<f64>; 2] = [square.collect(), down.collect()];
            for ((cases, points), uniform) in cases.iter_mut().zip(points).zip(uniform) {
                cases.push(beam::Case { points, uniform });
            }
        }
        On { points: points.into_iter().map(|(at, _, _)| at).collect(), cases }
    }

    /// A lower rail under what was solved.
    fn loaded(&self, part: usize, solved: &Solved) -> Segment {
        let [normal, down] = &solved.on;
        let On { points, cases: [square, along] } = self.on_part(part, Some(down), Some(normal));
        let bare = &self.bare[part];
        let places = bare.normal.candidates().to_vec();
        Segment {
            normal: bare.normal.loaded(places.clone(), points.clone(), square),
            slope: bare.slope.loaded(places, points, along),
            ..bare.clone()
        }
    }

    /// An upper rail on what was solved.
    fn borne(&self, upper: usize, solved: Option<&Solved>) -> Segment {
        let bare = &self.uppers[upper].segment;
        let Some(solved) = solved else { return bare.clone() };
        let along = self.along(upper);
        let before: usize = self.crossings[..upper].iter().map(Vec::len).sum();
        let within = before..before + along.len();
        let [normal, slope] = [
            bare.normal.under(bare.cases.iter().map(|case| &case.normal), along.clone()),
            bare.slope.under(bare.cases.iter().map(|case| &case.slope), along.clone()),
        ];
        let cases = bare.cases.iter().enumerate().map(|(index, case)| {
            let load = Superposition::alone(index);
            Case { normal: load, slope: load, ..*case }
        });
        let given = solved.on.each_ref().map(|on| {
            let cases = (0..bare.cases.len()).map(|case| Borne {
                force: &on.force(case)[within.clone()],
                gives: &on.moved(case)[within.clone()],
            });
            Reactions::given(along.len(), cases)
        });
        Segment { normal, slope, cases: cases.collect(), borne: Some(given), ..bare.clone() }
    }

    /// The field with its hooks: fewest on every lower rail under the forces that belong to them, or all there
    /// can be where none do.
    pub(super) fn settled(&self, pattern: Pattern, allowance: &mut Allowance) -> Settled {
        let bound = self.job.wishes.max_utilisation;
        let everything: Vec<Vec<usize>> =
            self.parts.iter().map(|(_, part)| part.everything(self.job)).collect();
        let of_all = self.solved(&everything);
        let (mut solved, mut solving) = (None, self.steps(&everything));
        let mut uppers_pass = false;
        if self.ends_are_held() {
            for round in 0..ROUNDS {
                let Some(acting) = solved.as_ref().or(of_all.as_ref()) else { break };
                let stricter = bound * (1.0 - STRICTER * f64::from(round.saturating_sub(1)));
                let Some(found) = self.searched(acting, (pattern, stricter), allowance) else {
                    break;
                };
                let subsets: Vec<Vec<usize>> =
                    found.iter().map(|found| found.subset.clone()).collect();
                solved = self.solved(&subsets);
                solving += self.steps(&subsets);
                let Some(acting) = &solved else { break };
                let settled = self.on(found, Some(acting));
                uppers_pass |= settled.uppers_pass;
                if settled.passes {
                    return Settled { solving, ..settled };
                }
                if allowance.is_spent() {
                    break;
                }
            }
        }
        let found = everything.into_iter().map(|subset| Found {
            lower_bound: subset.len().min(2),
            subset,
            outcome: Outcome::NonePasses,
            weighed: 0,
        });
        let mut settled = self.on(found.collect(), of_all.as_ref());
        if settled.passes {
            // The search ended before it found as much.
            settled.parts.iter_mut().for_each(|(_, found)| found.outcome = Outcome::Together);
        }
        settled.uppers_pass |= uppers_pass;
        Settled { solving, ..settled }
    }

    /// Steps of a search that solving both layers on these hooks takes about as long as: columns of the matrix
    /// reach as far as the unknowns of two neighbouring lower rails, and each combination is solved in it, both
    /// square to the slope and down it.
    fn steps(&self, subsets: &[Vec<usize>]) -> u64 {
        let of_parts = self.parts.iter().zip(subsets);
        let unknowns = of_parts.map(|((_, part), hooks)| 2 * hooks.len() + 3 * part.over.len());
        let (all, most) =
            unknowns.fold((0, 0), |(all, most): (usize, usize), of| (all + of, most.max(of)));
        let (reach, cases) = (2 * most, self.job.actions.combinations.len());
        (2 * all * reach * (reach + 4 * cases) / PER_STEP) as u64
    }

    /// The fewest hooks of every lower rail under what was solved; `None` where one finds none.
    fn searched(
        &self,
        solved: &Solved,
        (pattern, bound): (Pattern, f64),
        allowance: &mut Allowance,
    ) -> Option<Vec<Found>> {
        let mut all: Vec<Found> = Vec::with_capacity(self.parts.len());
        for part in 0..self.parts.len() {
            let segment = self.loaded(part, solved);
            let candidates = segment.candidates.len();
            let alike = |at: &usize| self.parts[*at].1.candidates.len() == candidates;
            let like = (0..part).rev().find(alike).map(|at| all[at].subset.clone());
            let mut share = allowance.part((self.parts.len() - part) as u64);
            let limit =
                SearchLimit { weighed: self.job.wishes.search_limit, allowance: Some(&mut share) };
            let found =
                search::fewest_hooks(&segment, bound, pattern, limit, &like.unwrap_or_default());
            allowance.take_back(&share);
            if !found.outcome.passes() {
                return None;
            }
            all.push(found);
        }
        Some(all)
    }

    /// Both layers on hooks that were found, under forces that belong to them.
    fn on(&self, found: Vec<Found>, solved: Option<&Solved>) -> Settled {
        let bound = self.job.wishes.max_utilisation;
        let mut space = Workspace::default();
        let is_determinate = self.is_determinate();
        let uppers: Vec<Segment> =
            (0..self.uppers.len()).map(|upper| self.borne(upper, solved)).collect();
        let of_uppers = uppers.iter().map(|segment| used(segment, &[]));
        let on_uppers = of_uppers.fold(0.0, f64::max);
        let mut most = on_uppers;
        let mut parts = Vec::with_capacity(found.len());
        let mut passes = solved.is_some() && self.ends_are_held();
        for (part, mut found) in found.into_iter().enumerate() {
            let segment = match solved {
                Some(solved) => self.loaded(part, solved),
                None => self.bare[part].clone(),
            };
            passes &= segment.within_alone(&found.subset, bound, &mut space).is_some();
            most = most.max(used(&segment, &found.subset));
            if !is_determinate && found.outcome.passes() {
                found.outcome = Outcome::Together;
                found.lower_bound = found.subset.len().min(2);
            }
            parts.push((segment, found));
        }
        let uppers_pass = solved.is_some() && on_uppers <= bound + ROUNDING;
        let lines = self.parts.iter().map(|(rail, _)| rail.line.clone()).collect();
        let of = self.uppers.iter().map(|upper| upper.of).collect();
        let passes = passes && uppers_pass;
        Settled { parts, lines, uppers, of, uppers_pass, passes, solving: 0, most }
    }
}

/// A part of a lower rail in every combination, without any load yet.
fn bare(job: &Job, footings: &[Footing], (rail, part): &(&Beneath, &Part)) -> Segment {
    let cases = job.actions.combinations.iter().enumerate().map(|(combination, acting)| {
        let load = Superposition::alone(combination);
        let limit = match acting.situation {
            Situation::Characteristic => Limit::Service,
            Situation::Persistent | Situation::Accidental => Limit::Strength,
        };
        Case { combination, limit, normal: load, slope: load }
    });
    let nothing = || beam::Case { points: Vec::new(), uniform: 0.0 };
    let nothing = || job.actions.combinations.iter().map(|_| nothing()).collect();
    let on = On { points: Vec::new(), cases: [nothing(), nothing()] };
    let candidates = part.candidates.clone();
    segments::under(job, footings, (&rail.line, part.ends), candidates, (on, cases.collect()))
}

/// Joints of a lower rail.
struct Joints {
    /// Where they lie, mm.
    at: Vec<f64>,
    /// Whether a hook stands there.
    sprung: Vec<bool>,
    /// Joint of each crossing.
    over: Vec<usize>,
}

/// What acts at a place of a lower rail square to the slope.
#[derive(Debug, Clone, Copy)]
enum Load {
    /// A share of the couple of the force down the slope, of this sense.
    Couple(f64),
    /// The force of the upper rail.
    Force,
}

/// Largest utilisation of a rail on some hooks; without bound where it is not stable.
fn used(segment: &Segment, subset: &[usize]) -> f64 {
    let result = segment.check_all(subset);
    result.map_or(f64::INFINITY, |result| result.governing().1.utilisation)
}

impl Settled {
    /// Whether it is the better choice: it holds, has fewer hooks, fewer lower rails, or is used less. Where
    /// neither holds, the one that is used less.
    pub(super) fn is_better_than(&self, other: &Self) -> bool {
        if self.passes != other.passes {
            return self.passes;
        }
        let size = |of: &Self| {
            let hooks: usize = of.parts.iter().map(|(_, found)| found.subset.len()).sum();
            (hooks, of.parts.len())
        };
        let [own, known] = [size(self), size(other)];
        if self.passes && own != known { own < known } else { self.most < other.most - ROUNDING }
    }

    /// The rails of the field, the lower ones first.
    pub(super) fn into_rails(self, job: &Job, uppers: &[RailLine]) -> Vec<Rail> {
        let mut rails: Vec<Rail> = Vec::new();
        for ((segment, found), line) in self.parts.into_iter().zip(self.lines) {
            let laid = |ends: [Length; 2]| {
                let splices = splices(job, None, ends);
                LaidSegment::checked(segment, found, splices)
            };
            match rails.last_mut() {
                // Another part of the same lower rail.
                Some(rail) if rail.line.over == line.over => {
                    let ends = line.segments[rail.segments.len()];
                    rail.segments.push(laid(ends));
                }
                _ => {
                    let first = line.segments[0];
                    rails.push(Rail { segments: vec![laid(first)], line, hooks: Vec::new() });
                }
            }
        }
        let mut above: Vec<Rail> = uppers
            .iter()
            .map(|line| Rail { line: line.clone(), segments: Vec::new(), hooks: Vec::new() })
            .collect();
        let passes = self.passes;
        for (segment, [rail, place]) in self.uppers.into_iter().zip(self.of) {
            let rail = &mut above[rail];
            let ends = rail.line.segments[place];
            rail.segments.push(LaidSegment::checked(
                segment,
                on_rails(passes),
                splices(job, None, ends),
            ));
        }
        rails.extend(above);
        rails
    }
}

/// What is found of a rail without hooks of its own.
fn on_rails(passes: bool) -> Found {
    Found {
        subset: Vec::new(),
        outcome: if passes { Outcome::FewestProven } else { Outcome::NonePasses },
        lower_bound: 0,
        weighed: 0,
    }
}
