//! Two layers of beams that cross: what the upper ones put on the lower ones.
//!
//! **Model.** Every beam is a [`Strip`] whose candidates are its joints. Lower beams stand on the springs of
//! theirs; where an upper one bears on a lower one both have one deflection, and a rotation each: the lower one
//! does not twist the upper one. Loads between joints enter as exact fixed-end forces, those beyond the outer
//! joints as force and moment on them, hinges as in the strips. All of it is one system of equations, solved in
//! one go: no beam is taken to be stiff or at rest while the others are solved.
//!
//! **Order.** Unknowns are numbered lower beam by lower beam with the upper beams' rotations over them, so that
//! the matrix stays near its diagonal where lower beams come from left to right.
//!
//! **Left out.** Torsion of the beams, and connectors that give.
//!
//! **Checked by** `tests/reference` (a general frame solver) and the tests below.

use super::Strip;
use crate::mechanics::skyline::Skyline;

/// A lower beam: a strip whose candidates are its joints, and which of them stand on its springs.
#[derive(Debug, Clone, Copy)]
pub struct Lower<'a> {
    /// The beam.
    pub strip: &'a Strip,
    /// For each joint, whether it stands on a spring.
    pub sprung: &'a [bool],
}

/// Where an upper beam bears on a lower one: beam and joint of either.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Crossing {
    /// Upper beam and its joint.
    pub upper: [usize; 2],
    /// Lower beam and its joint.
    pub lower: [usize; 2],
}

/// What goes on where beams cross, in every case.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Crossed {
    crossings: usize,
    force: Vec<f64>,
    moved: Vec<f64>,
}

impl Crossed {
    /// Force of the upper on the lower beam at each crossing in one case, N.
    #[must_use]
    pub fn force(&self, case: usize) -> &[f64] {
        &self.force[case * self.crossings..][..self.crossings]
    }

    /// Deflection of each crossing in one case, mm.
    #[must_use]
    pub fn moved(&self, case: usize) -> &[f64] {
        &self.moved[case * self.crossings..][..self.crossings]
    }
}

/// Unknowns of a joint by number: its deflection, where it can move, and its rotation.
#[derive(Debug, Clone, Copy)]
struct Unknowns {
    deflection: Option<usize>,
    rotation: usize,
}

impl Unknowns {
    const fn both(self) -> [Option<usize>; 2] {
        [self.deflection, Some(self.rotation)]
    }
}

/// Forces and deflections where beams cross, under every case of them: all have as many. Each joint of an
/// upper beam is a crossing, and every beam has two joints or more. `None` where the beams can move without
/// bending or giving way.
#[must_use]
pub fn crossed(lower: &[Lower<'_>], upper: &[&Strip], crossings: &[Crossing]) -> Option<Crossed> {
    let strips = || lower.iter().map(|beam| beam.strip).chain(upper.iter().copied());
    let cases = strips().next()?.cases().len();
    if strips().any(|strip| {
        let joints = strip.candidates.len();
        joints < 2 || strip.turns_freely(0, joints - 1)
    }) {
        return None;
    }
    let joints = joints(lower, upper, crossings)?;
    let beams: Vec<(&Strip, &[Unknowns])> =
        strips().zip(joints.iter().map(Vec::as_slice)).collect();
    let mut matrix = Skyline::zero(first_rows(&beams));
    let size =
        beams.iter().flat_map(|(_, joints)| *joints).map(|joint| joint.rotation + 1).max()?;
    let mut sides = vec![vec![0.0; size]; cases];
    for (beam, (strip, joints)) in beams.iter().enumerate() {
        if !stiffness(strip, joints, &mut matrix) {
            return None;
        }
        if let Some(Lower { sprung, .. }) = lower.get(beam) {
            let stands = joints.iter().zip(*sprung).filter(|(_, sprung)| **sprung);
            for (joint, _) in stands {
                if let (Some(at), Some(spring)) = (joint.deflection, strip.stiffness) {
                    matrix.add(at, at, spring);
                }
            }
        }
        for (case, side) in sides.iter_mut().enumerate() {
            for (joint, on) in joints.iter().zip(held(strip, case)) {
                for (at, on) in joint.both().into_iter().zip(on) {
                    if let Some(at) = at {
                        side[at] += on;
                    }
                }
            }
        }
    }
    let eliminated = matrix.eliminated()?;
    let mut out = Crossed { crossings: crossings.len(), ..Crossed::default() };
    for (case, side) in sides.iter_mut().enumerate() {
        eliminated.solve(side);
        let on_joints: Vec<Vec<f64>> = beams[lower.len()..]
            .iter()
            .map(|(strip, joints)| passed_on(strip, joints, case, side))
            .collect();
        for Crossing { upper: [beam, joint], .. } in crossings {
            let at = joints[lower.len() + beam][*joint].deflection;
            out.force.push(on_joints[*beam][*joint]);
            out.moved.push(at.map_or(0.0, |at| side[at]));
        }
    }
    Some(out)
}

/// The unknowns of every joint of every beam, lower ones first; `None` where a joint of an upper beam is no
/// crossing.
fn joints(
    lower: &[Lower<'_>],
    upper: &[&Strip],
    crossings: &[Crossing],
) -> Option<Vec<Vec<Unknowns>>> {
    let mut own: Vec<Vec<Option<Unknowns>>> = Vec::with_capacity(lower.len() + upper.len());
    own.extend(lower.iter().map(|beam| vec![None; beam.strip.candidates.len()]));
    own.extend(upper.iter().map(|strip| vec![None; strip.candidates.len()]));
    let mut next = 0;
    let mut number = || {
        next += 1;
        next - 1
    };
    for (beam, Lower { strip, sprung }) in lower.iter().enumerate() {
        for (joint, sprung) in sprung.iter().enumerate() {
            let is_rigid = *sprung && strip.stiffness.is_none();
            let deflection = (!is_rigid).then(&mut number);
            own[beam][joint] = Some(Unknowns { deflection, rotation: number() });
            let over = crossings.iter().filter(|crossing| crossing.lower == [beam, joint]);
            for Crossing { upper: [over, at], .. } in over {
                own[lower.len() + over][*at] = Some(Unknowns { deflection, rotation: number() });
            }
        }
    }
    own.into_iter().map(|joints| joints.into_iter().collect()).collect()
}

/// The first row that each column of the matrix may be filled from.
fn first_rows(beams: &[(&Strip, &[Unknowns])]) -> Vec<usize> {
    let mut first: Vec<usize> = Vec::new();
    for (_, joints) in beams {
        for pair in joints.windows(2) {
            let coupled = || pair.iter().flat_map(|joint| joint.both()).flatten();
            let Some(lowest) = coupled().min() else { continue };
            for column in coupled() {
                first.extend(first.len()..=column);
                first[column] = first[column].min(lowest);
            }
        }
    }
    first
}

/// Adds the bays of a beam to the matrix; false where a bay has hinges so that it hangs on nothing.
fn stiffness(strip: &Strip, joints: &[Unknowns], matrix: &mut Skyline) -> bool {
    for (bay, pair) in joints.windows(2).enumerate() {
        let element = &strip.bay(bay, bay + 1).element;
        if element.mechanism {
            return false;
        }
        let [left, right] = [pair[0].both(), pair[1].both()];
        let mut add = |row: Option<usize>, column: Option<usize>, value: f64| {
            if let (Some(row), Some(column)) = (row, column) {
                matrix.add(row, column, value);
            }
        };
        for (end, [ww, wt, tt]) in [(left, element.left), (right, element.right)] {
            add(end[0], end[0], ww);
            add(end[0], end[1], wt);
            add(end[1], end[1], tt);
        }
        for (row, values) in left.into_iter().zip(element.across) {
            for (column, value) in right.into_iter().zip(values) {
                add(row, column, value);
            }
        }
    }
    true
}

/// Force and moment on every joint of a beam while all of them are held, in one case.
fn held(strip: &Strip, case: usize) -> Vec<[f64; 2]> {
    let last = strip.candidates.len() - 1;
    let mut on = vec![[0.0; 2]; last + 1];
    let mut add = |joint: usize, [force, moment]: [f64; 2]| {
        on[joint][0] += force;
        on[joint][1] += moment;
    };
    add(0, strip.left_overhang(0, &strip.cases[case]));
    add(last, strip.right_overhang(last, &strip.cases[case]));
    for left in 0..last {
        let [force, moment, right_force, right_moment] = strip.bay(left, left + 1).held();
        add(left, [force[case], moment[case]]);
        add(left + 1, [right_force[case], right_moment[case]]);
    }
    on
}

/// What an upper beam passes on at each of its joints once these have moved.
fn passed_on(strip: &Strip, joints: &[Unknowns], case: usize, found: &[f64]) -> Vec<f64> {
    let moved = |joint: Unknowns| joint.both().map(|at| at.map_or(0.0, |at| found[at]));
    let mut on: Vec<f64> = held(strip, case).into_iter().map(|[force, _]| force).collect();
    for (bay, pair) in joints.windows(2).enumerate() {
        let element = &strip.bay(bay, bay + 1).element;
        let [left, right] = element.on_moved(moved(pair[0]), moved(pair[1]));
        on[bay] -= left;
        on[bay + 1] -= right;
    }
    on
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::beam::{Case, Member, StripParts};

    const EI: f64 = 6e9;

    fn strip(ends: [f64; 2], joints: &[f64], stiffness: Option<f64>, load: (f64, f64)) -> Strip {
        Strip::new(StripParts {
            member: Member::Beam,
            start: ends[0],
            end: ends[1],
            rigidity: EI,
            stiffness,
            candidates: joints.to_vec(),
            hinges: Vec::new(),
            load_points: vec![load.0],
            cases: vec![Case { points: vec![load.1], uniform: 0.0 }],
        })
    }

    /// One upper beam over the middles of three like lower ones of 2 m on stiff hooks: springs of
    /// `48·EI/l³` to it, which is what a strip on such springs is.
    #[test]
    fn an_upper_beam_rests_on_the_middles_of_lower_ones_as_on_springs() {
        let over = [0.0, 900.0, 1800.0];
        let upper = strip([-200.0, 2000.0], &over, None, (500.0, 1000.0));
        let below = strip([0.0, 2000.0], &[0.0, 1000.0, 2000.0], None, (0.0, 0.0));
        let sprung = [true, false, true];
        let lower = [Lower { strip: &below, sprung: &sprung }; 3];
        let crossings = [0, 1, 2].map(|at| Crossing { upper: [0, at], lower: [at, 1] });
        let found = crossed(&lower, &[&upper], &crossings).unwrap();
        let spring = 48.0 * EI / 2000.0_f64.powi(3);
        let on_springs = strip([-200.0, 2000.0], &over, Some(spring), (500.0, 1000.0));
        let by_strip = on_springs.reactions(&[0, 1, 2]).unwrap();
        for (grid, alone) in found.force(0).iter().zip(by_strip.of_case(0)) {
            assert!((grid - alone).abs() < 1e-6, "{found:?}, by itself {alone}");
        }
        for (moved, force) in found.moved(0).iter().zip(found.force(0)) {
            assert!((moved - force / spring).abs() < 1e-9, "{found:?}");
        }
    }

    /// Two like upper beams over the third points of two like lower ones, one of them loaded with 1 kN over the
    /// middle between these: by the mirror each lower beam has half, and of that the other upper beam, which is
    /// not loaded and held in two places, takes nothing.
    #[test]
    fn an_upper_beam_on_two_lower_ones_takes_nothing_that_is_not_on_it() {
        let upper = |load| strip([0.0, 1000.0], &[0.0, 1000.0], None, (500.0, load));
        let (loaded, idle) = (upper(1000.0), upper(0.0));
        let below = strip([0.0, 3000.0], &[0.0, 1000.0, 2000.0, 3000.0], Some(800.0), (0.0, 0.0));
        let sprung = [true, false, false, true];
        let lower = [Lower { strip: &below, sprung: &sprung }; 2];
        let crossing =
            |beam: usize, at: usize| Crossing { upper: [beam, at], lower: [at, beam + 1] };
        let crossings = [crossing(0, 0), crossing(0, 1), crossing(1, 0), crossing(1, 1)];
        let found = crossed(&lower, &[&loaded, &idle], &crossings).unwrap();
        for (force, by_hand) in found.force(0).iter().zip([500.0, 500.0, 0.0, 0.0]) {
            assert!((force - by_hand).abs() < 1e-6, "{found:?}");
        }
    }

    /// Lower beams on one hook each turn over it.
    #[test]
    fn beams_that_turn_over_their_hooks_are_refused() {
        let upper = strip([0.0, 1000.0], &[0.0, 1000.0], None, (500.0, 1000.0));
        let below = strip([0.0, 2000.0], &[500.0, 1500.0], Some(800.0), (0.0, 0.0));
        let sprung = [true, false];
        let lower = [Lower { strip: &below, sprung: &sprung }; 2];
        let crossings = [0, 1].map(|at| Crossing { upper: [0, at], lower: [at, 1] });
        assert_eq!(crossed(&lower, &[&upper], &crossings), None);
    }
}
