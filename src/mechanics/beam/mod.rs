//! Straight beam on point springs: support forces.
//!
//! **Model.** Euler–Bernoulli, constant section, each support a linear spring or rigid, a hinge
//! where a splice passes no bending. Two unknowns per support (deflection, rotation); the block
//! tridiagonal system is eliminated from left to right and solved back, so the result has no
//! tolerance and no iteration count. Loads between supports enter as exact fixed-end forces,
//! loads beyond the outer supports as force and moment on them.
//!
//! **Bars.** A rail that runs up the slope takes the force down the slope along its axis: a chain of
//! bars on the same springs, with one displacement at each support. It goes through the elimination as a
//! beam that nothing turns ([`Member`]): its moments are zero, its shears are its axial forces. Where one
//! support alone holds it, that bears all of it ([`Reactions::all_on`]).
//!
//! **Why candidates.** The search asks for the same beam on many different subsets of the same
//! supports. A [`Strip`] keeps what belongs to a pair of neighbouring supports from the first time
//! it is asked for (most pairs never are neighbours).
//! * [`Strip::solve`] takes a whole subset, under all load cases at once. Few cases make up many
//!   combinations: a [`Superposition`] adds up what comes out.
//! * A [`Chain`] walks through subsets under a few loads, can take back its last support, and tells
//!   what is certain before the rest is known.
//!
//! **Signs.** `x` grows to the right; loads, deflections and support forces are positive towards
//! the roof; a moment is positive when it stretches the face towards the roof.
//!
//! **Units.** N and mm throughout: matrix assembly is one of the places where quantities are
//! unwrapped.
//!
//! **Left out.** Shear deformation, torsion, contact that opens under uplift.
//!
//! **Checked by** `tests/reference` (span tables, textbook examples, general frame solvers) and
//! `tests/properties` (equilibrium, mirror symmetry).

mod bar;
mod bay;
mod chain;
pub mod grid;
mod joint;
mod lanes;
mod solve;
mod span;
mod superposition;

use std::cell::OnceCell;
use std::ops::Range;

use bay::LoadedBay;
pub use chain::{Chain, FromRight, Influences, Meeting, Part, Sag, Side, Told, Units};
pub use lanes::{Both, Lanes};
pub use solve::{Borne, Reactions};
pub use superposition::Superposition;

/// One load case: a force at each of the strip's load points and a line load over its length.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Force at each load point, N.
    pub points: Vec<f64>,
    /// Line load, N/mm.
    pub uniform: f64,
}

/// How a strip carries its loads from support to support.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Member {
    /// By bending: loads and supports act across its axis.
    Beam,
    /// By force along its axis, which is where loads and supports act. A hinge passes that on.
    Bar,
}

/// A beam, the places it may be supported at, and its load cases.
#[derive(Debug, Clone)]
pub struct Strip {
    member: Member,
    start: f64,
    end: f64,
    rigidity: f64,
    stiffness: Option<f64>,
    candidates: Vec<f64>,
    hinges: Vec<f64>,
    load_points: Vec<f64>,
    cases: Vec<Case>,
    totals: Vec<f64>,
    /// Bay between every two candidates, by left and right one, as far as they were asked for.
    bays: OnceCell<Vec<OnceCell<Box<LoadedBay>>>>,
}

/// What a strip is made of.
#[derive(Debug, Clone)]
pub struct StripParts {
    /// Beam or bar.
    pub member: Member,
    /// Left end, mm.
    pub start: f64,
    /// Right end, mm.
    pub end: f64,
    /// Flexural rigidity `E·I` of a beam, N·mm²; axial rigidity `E·A` of a bar, N.
    pub rigidity: f64,
    /// Spring of every support, N/mm; `None` is rigid.
    pub stiffness: Option<f64>,
    /// Where supports may stand, ascending, within the ends, mm.
    pub candidates: Vec<f64>,
    /// Hinges, ascending, mm. One over a support belongs to the span on its right.
    pub hinges: Vec<f64>,
    /// Where point loads act, ascending, within the ends, mm.
    pub load_points: Vec<f64>,
    /// Load cases.
    pub cases: Vec<Case>,
}

/// A free end under a load.
#[derive(Debug, Clone, Copy)]
struct FreeEnd {
    reach: f64,
    /// Force and moment on the support.
    on: [f64; 2],
    /// Deflection of its tip from the line it leaves the support with.
    sag: f64,
}

impl Strip {
    /// A strip of which nothing is worked out yet but the sums of its loads.
    #[must_use]
    pub fn new(parts: StripParts) -> Self {
        let length = parts.end - parts.start;
        let total = |case: &Case| case.points.iter().sum::<f64>() + case.uniform * length;
        Self {
            member: parts.member,
            start: parts.start,
            end: parts.end,
            rigidity: parts.rigidity,
            stiffness: parts.stiffness,
            bays: OnceCell::new(),
            candidates: parts.candidates,
            hinges: parts.hinges,
            load_points: parts.load_points,
            totals: parts.cases.iter().map(total).collect(),
            cases: parts.cases,
        }
    }

    /// The same beam under the same loads with other places for supports, mm.
    #[must_use]
    pub fn with_candidates(&self, candidates: Vec<f64>) -> Self {
        Self {
            bays: OnceCell::new(),
            candidates,
            hinges: self.hinges.clone(),
            load_points: self.load_points.clone(),
            totals: self.totals.clone(),
            cases: self.cases.clone(),
            ..*self
        }
    }

    /// The same beam under these loads put together of its own, each a case by itself, with other places for
    /// supports, mm.
    #[must_use]
    pub fn under<'a>(
        &self,
        loads: impl Iterator<Item = &'a Superposition>,
        candidates: Vec<f64>,
    ) -> Self {
        let cases = loads.map(|load| self.as_case(load)).collect();
        self.loaded(candidates, self.load_points.clone(), cases)
    }

    /// The same beam under other loads with other places for supports, mm.
    #[must_use]
    pub fn loaded(&self, candidates: Vec<f64>, load_points: Vec<f64>, cases: Vec<Case>) -> Self {
        Self::new(StripParts {
            member: self.member,
            start: self.start,
            end: self.end,
            rigidity: self.rigidity,
            stiffness: self.stiffness,
            candidates,
            hinges: self.hinges.clone(),
            load_points,
            cases,
        })
    }

    /// The same beam with one place of loads more, at which nothing acts, mm; and which it is.
    fn with_load_point(&self, at: f64) -> (Self, usize) {
        let place = self.load_points.partition_point(|x| *x <= at);
        let mut load_points = self.load_points.clone();
        load_points.insert(place, at);
        let mut cases = self.cases.clone();
        for case in &mut cases {
            case.points.insert(place, 0.0);
        }
        (self.loaded(self.candidates.clone(), load_points, cases), place)
    }

    /// Beam and bar on the same supports, all that acts on the bar gathered at one of these, which bears all of it
    /// wherever the others stand. Of the force along the axis of the bar this tells nothing. Both have loads at the
    /// same places, as a [`Chain`] needs them.
    #[must_use]
    pub fn gathered_at(beam: &Self, bar: &Self, support: usize) -> Option<[Self; 2]> {
        let at = *bar.candidates.get(support)?;
        let ((beam, _), (mut bar, place)) = (beam.with_load_point(at), bar.with_load_point(at));
        for (case, total) in bar.cases.iter_mut().zip(&bar.totals) {
            case.uniform = 0.0;
            case.points.fill(0.0);
            case.points[place] = *total;
        }
        bar.stiffness = None;
        Some([beam, bar])
    }

    /// Gives back the memory of what was worked out; it is worked out anew when it is asked for.
    pub fn forget(&mut self) {
        self.bays = OnceCell::new();
    }

    /// Left and right end, mm.
    #[must_use]
    pub const fn ends(&self) -> (f64, f64) {
        (self.start, self.end)
    }
    /// Beam or bar.
    #[must_use]
    pub const fn member(&self) -> Member {
        self.member
    }
    /// Flexural rigidity of a beam, N·mm²; axial rigidity of a bar, N.
    #[must_use]
    pub const fn rigidity(&self) -> f64 {
        self.rigidity
    }
    /// Where supports may stand, mm.
    #[must_use]
    pub fn candidates(&self) -> &[f64] {
        &self.candidates
    }
    /// Where point loads act, mm.
    #[must_use]
    pub fn load_points(&self) -> &[f64] {
        &self.load_points
    }
    /// Hinges, mm.
    #[must_use]
    pub fn hinges(&self) -> &[f64] {
        &self.hinges
    }
    /// Deflection of a support under a force on it, mm.
    #[must_use]
    pub fn settlement(&self, force: f64) -> f64 {
        self.stiffness.map_or(0.0, |k| force / k)
    }
    /// The load cases.
    #[must_use]
    pub fn cases(&self) -> &[Case] {
        &self.cases
    }
    /// Sum of all loads, N.
    #[must_use]
    pub fn total_load(&self, load: &Superposition) -> f64 {
        load.sum(&self.totals)
    }

    /// A load as a case of its own.
    #[must_use]
    pub fn as_case(&self, load: &Superposition) -> Case {
        let mut sum = Case { points: vec![0.0; self.load_points.len()], uniform: 0.0 };
        for (case, factor) in load.parts().iter().filter(|(_, factor)| *factor != 0.0) {
            let case = &self.cases[*case];
            sum.uniform += factor * case.uniform;
            for (sum, point) in sum.points.iter_mut().zip(&case.points) {
                *sum += factor * point;
            }
        }
        sum
    }

    /// What a load does to a beam that is cut free of its supports right of every candidate: the
    /// moment of all that stands left of it about it, N·mm; none in a bar.
    fn moments_from_left(&self, load: &Case) -> Vec<f64> {
        if self.member == Member::Bar {
            return vec![0.0; self.candidates.len()];
        }
        let about = |x0: &f64| {
            let reach = x0 - self.start;
            let points = self.load_points.iter().zip(&load.points);
            let points = points.take_while(|(x, _)| *x < x0).map(|(x, p)| p * (x0 - x));
            load.uniform * reach * reach / 2.0 + points.sum::<f64>()
        };
        self.candidates.iter().map(about).collect()
    }

    /// The bay between two candidates, the left one first.
    fn bay(&self, i: usize, j: usize) -> &LoadedBay {
        let n = self.candidates.len();
        let bays = self.bays.get_or_init(|| vec![OnceCell::new(); n.pow(2)]);
        bays[i * n + j].get_or_init(|| Box::new(LoadedBay::of(self, [i, j])))
    }

    /// Force and moment on the leftmost support from everything on its left. A load on the axis of
    /// a support counts once: with what is on its left.
    fn left_overhang(&self, i: usize, case: &Case) -> [f64; 2] {
        let x0 = self.candidates[i];
        let beyond = self.load_points.partition_point(|x| *x <= x0);
        let lever = |x: &f64| x0 - x;
        let [force, moment] = self.overhang(case, x0 - self.start, 0..beyond, lever);
        [force, -moment]
    }

    /// Force and moment on the rightmost support from everything on its right.
    fn right_overhang(&self, i: usize, case: &Case) -> [f64; 2] {
        let x0 = self.candidates[i];
        let beyond = self.load_points.partition_point(|x| *x <= x0);
        self.overhang(case, self.end - x0, beyond..self.load_points.len(), |x| x - x0)
    }

    /// What is beyond a support if it is the first, and if it is the last one.
    fn free_ends(&self, i: usize, load: &Case) -> [FreeEnd; 2] {
        let x0 = self.candidates[i];
        let beyond = self.load_points.partition_point(|x| *x <= x0);
        let end = |reach: f64, points: Range<usize>, on: [f64; 2]| {
            let points = self.load_points[points.clone()].iter().zip(&load.points[points]);
            let points = points.map(|(x, p)| {
                let at = (x - x0).abs();
                p * at * at * (3.0 * reach - at) / 6.0
            });
            let sag = match self.member {
                Member::Beam => load.uniform * reach.powi(4) / 8.0 + points.sum::<f64>(),
                Member::Bar => 0.0,
            };
            FreeEnd { reach, on, sag: sag / self.rigidity }
        };
        [
            end(x0 - self.start, 0..beyond, self.left_overhang(i, load)),
            end(self.end - x0, beyond..self.load_points.len(), self.right_overhang(i, load)),
        ]
    }

    fn overhang(
        &self,
        case: &Case,
        reach: f64,
        beyond: Range<usize>,
        lever: impl Fn(&f64) -> f64,
    ) -> [f64; 2] {
        let mut force = case.uniform * reach;
        let mut moment = case.uniform * reach * reach / 2.0;
        let loads = self.load_points[beyond.clone()].iter().zip(&case.points[beyond]);
        for (x, p) in loads {
            force += p;
            moment += p * lever(x);
        }
        match self.member {
            Member::Beam => [force, moment],
            Member::Bar => [force, 0.0],
        }
    }
}
