//! A subset of supports under every load case at once.

use super::joint::{Joint, Springs, times};
use super::{Strip, Superposition};

/// Forces on the supports of a subset under every case of its strip.
#[derive(Debug, Clone, Default)]
pub struct Reactions {
    cases: usize,
    /// Case by case one on every support, N.
    force: Vec<f64>,
    joints: Vec<Joint<f64>>,
    /// Force and moment of everything left of a support, condensed onto it with its own loads.
    carried: [Vec<f64>; 2],
    /// Deflection and rotation of a support.
    moved: [Vec<f64>; 2],
    /// Case by case how far every support gives, mm, where that is given with the forces; nothing where it
    /// follows from them.
    gives: Vec<f64>,
}

/// Forces on the supports of a beam that others bear, and how far these give, in one case.
#[derive(Debug, Clone, Copy)]
pub struct Borne<'a> {
    /// Force on every support, N.
    pub force: &'a [f64],
    /// Deflection of every support, mm.
    pub gives: &'a [f64],
}

impl Reactions {
    /// Force on every support under one case, N.
    #[must_use]
    pub fn of_case(&self, case: usize) -> &[f64] {
        let supports = self.joints.len();
        &self.force[case * supports..][..supports]
    }

    /// Of so many supports under the cases of a strip, one by one, found elsewhere.
    #[must_use]
    pub fn given<'a>(supports: usize, cases: impl Iterator<Item = Borne<'a>>) -> Self {
        let mut given = Self {
            joints: vec![Joint::first(&Springs { stiffness: 1.0, moves: 0.0 }); supports],
            ..Self::default()
        };
        for Borne { force, gives } in cases {
            given.cases += 1;
            given.force.extend_from_slice(force);
            given.gives.extend_from_slice(gives);
        }
        given
    }

    /// Of a bar that one of so many supports holds alone: all that acts on it.
    pub fn all_on(&mut self, strip: &Strip, holder: usize, supports: usize) {
        self.cases = strip.cases.len();
        self.gives.clear();
        self.joints.clear();
        self.joints.resize(supports, Joint::first(&strip.springs()));
        self.force.clear();
        self.force.resize(supports * self.cases, 0.0);
        for (forces, total) in self.force.chunks_exact_mut(supports).zip(&strip.totals) {
            if let Some(force) = forces.get_mut(holder) {
                *force = *total;
            }
        }
    }

    /// How far every support of a strip gives under a load, written over `out`, mm.
    pub fn gives_under(&self, strip: &Strip, load: &Superposition, out: &mut Vec<f64>) {
        if self.gives.is_empty() {
            self.under(load, out);
            for force in out.iter_mut() {
                *force = strip.settlement(*force);
            }
        } else {
            load.sum_each(&self.gives, self.cases, out);
        }
    }

    /// Force on every support under a load, written over `out`, N.
    pub fn under(&self, load: &Superposition, out: &mut Vec<f64>) {
        load.sum_each(&self.force, self.cases, out);
    }
}

impl Strip {
    /// Forces on a subset of the candidates under every case; `None` when the beam is not stable
    /// on it.
    #[must_use]
    pub fn reactions(&self, subset: &[usize]) -> Option<Reactions> {
        let mut reactions = Reactions::default();
        self.solve(subset, &mut reactions).then_some(reactions)
    }

    /// Forces on a subset of the candidates under every case, written over `out`; whether the beam
    /// is stable on it. What is in `out` otherwise means nothing.
    #[must_use]
    pub fn solve(&self, subset: &[usize], out: &mut Reactions) -> bool {
        let (Some(first), Some(last)) = (subset.first(), subset.last()) else { return false };
        if subset.len() < 2 || self.turns_freely(*first, *last) {
            return false;
        }
        let cases = self.cases.len();
        out.begin(self, *first, subset.len());
        for (m, pair) in subset.windows(2).enumerate() {
            let bay = self.bay(pair[0], pair[1]);
            let next = out.joints[m].next(&self.springs(), &bay.element);
            out.joints.push(next);
            let joint = out.joints[m];
            let [f0, f1, f2, f3] = bay.held().map(|row| &row[..cases]);
            let [here, turn] = out.carried.each_mut().map(|row| row.split_at_mut((m + 1) * cases));
            let (here, next_here) = (&mut here.0[m * cases..], &mut here.1[..cases]);
            let (turn, next_turn) = (&mut turn.0[m * cases..], &mut turn.1[..cases]);
            for case in 0..cases {
                // A rigid support does not move, whatever force is on it.
                here[case] = self.movable(here[case] + f0[case]);
                turn[case] += f1[case];
                let on = joint.hand_on([here[case], turn[case]]);
                next_here[case] = f2[case] - on[0];
                next_turn[case] = f3[case] - on[1];
            }
        }
        let Some(inverse) = out.joints.last().and_then(Joint::close) else { return false };
        out.follow_back(self, subset, inverse);
        true
    }

    /// Its supports.
    pub(super) fn springs(&self) -> Springs<f64> {
        self.stiffness.map_or(Springs { stiffness: 1.0, moves: 0.0 }, |stiffness| Springs {
            stiffness,
            moves: 1.0,
        })
    }

    pub(super) fn movable(&self, force: f64) -> f64 {
        if self.stiffness.is_some() { force } else { 0.0 }
    }

    /// Whether an end of the beam hangs on a hinge beyond its outermost support.
    pub(super) fn turns_freely(&self, first: usize, last: usize) -> bool {
        self.hinges.first().is_some_and(|h| *h <= self.candidates[first])
            || self.hinges.last().is_some_and(|h| *h >= self.candidates[last])
    }
}

impl Reactions {
    fn begin(&mut self, strip: &Strip, first: usize, supports: usize) {
        let cases = strip.cases.len();
        self.cases = cases;
        self.gives.clear();
        self.force.clear();
        self.force.resize(supports * cases, 0.0);
        for row in &mut self.carried {
            row.clear();
            row.resize(supports * cases, 0.0);
        }
        self.moved.iter_mut().for_each(|row| row.resize(cases, 0.0));
        self.joints.clear();
        self.joints.push(Joint::first(&strip.springs()));
        for (case, load) in strip.cases.iter().enumerate() {
            let [force, moment] = strip.left_overhang(first, load);
            self.carried[0][case] = force;
            self.carried[1][case] = moment;
            if strip.stiffness.is_none() {
                self.force[case * supports] = force;
            }
        }
    }

    /// Displacements from right to left, and the forces that go with them.
    fn follow_back(&mut self, strip: &Strip, subset: &[usize], inverse: [f64; 3]) {
        let (cases, supports, last) = (self.cases, subset.len(), subset.len() - 1);
        let (joints, [here, turn]) = (&self.joints, &self.carried);
        let [w, rotation] = self.moved.each_mut().map(|row| &mut row[..cases]);
        for (case, load) in strip.cases.iter().enumerate() {
            let [force, moment] = strip.right_overhang(subset[last], load);
            let at = last * cases + case;
            let on = [strip.movable(here[at] + force), turn[at] + moment];
            [w[case], rotation[case]] = times(inverse, on);
            self.force[case * supports + last] = strip.stiffness.map_or(force, |k| k * w[case]);
        }
        for m in (0..last).rev() {
            let bay = strip.bay(subset[m], subset[m + 1]);
            let (element, held) = (&bay.element, bay.held().map(|row| &row[..cases]));
            let (here, turn) = (&here[m * cases..][..cases], &turn[m * cases..][..cases]);
            let joint = &joints[m];
            let forces = self.force.chunks_exact_mut(supports);
            for (case, forces) in forces.enumerate().take(cases) {
                let next = [w[case], rotation[case]];
                [w[case], rotation[case]] = joint.follow([here[case], turn[case]], next);
                if let Some(k) = strip.stiffness {
                    forces[m] = k * w[case];
                } else {
                    // Rigid supports do not move: forces follow from the bays on both sides.
                    let turned = [rotation[case], next[1]];
                    let on = element.on_held(turned);
                    forces[m] += held[0][case] - on[0];
                    forces[m + 1] += held[2][case] - on[1];
                }
            }
        }
    }
}
