//! Rails that cross, against frames in space: both layers with the springs of the hooks, solved together in either
//! direction, and then each lower rail by itself under what that puts on it, as the checks have it.

use hookspan::mechanics::beam::grid::{self, Crossed, Crossing, Lower};
use hookspan::mechanics::beam::{Case, Member, Strip, StripParts};
use serde::Deserialize;

use super::Values;
use crate::case::Inputs;

/// Kinds of this file.
pub fn compute(kind: &str, inputs: &Inputs) -> Option<Values> {
    (kind == "crossing_beams").then(|| Rails::of(inputs).hook_forces())
}

struct Rails {
    lower_x: Vec<f64>,
    lower_ends: [f64; 2],
    hooks: Vec<Vec<f64>>,
    upper_y: Vec<f64>,
    upper_ends: [f64; 2],
    /// Of every upper rail: place, force square to the slope and down it.
    loads: Vec<Vec<[f64; 3]>>,
    /// Square to the slope, down it, along the axis.
    rigidity: [f64; 3],
    springs: [f64; 2],
}

/// Square to the slope, and down it.
const DIRECTIONS: [&str; 2] = ["normal", "slope"];

impl Rails {
    fn of(inputs: &Inputs) -> Self {
        fn read<'a, T: Deserialize<'a>>(inputs: &Inputs<'a>, name: &str) -> T {
            let value = inputs.get(name).unwrap_or_else(|| panic!("the case needs {name}"));
            T::deserialize(value).unwrap_or_else(|e| panic!("{name}: {e}"))
        }
        Self {
            lower_x: read(inputs, "lower_x_mm"),
            lower_ends: read(inputs, "lower_ends_mm"),
            hooks: read(inputs, "hooks_y_mm"),
            upper_y: read(inputs, "upper_y_mm"),
            upper_ends: read(inputs, "upper_ends_mm"),
            loads: read(inputs, "loads"),
            rigidity: ["rigidity_normal_nmm2", "rigidity_slope_nmm2", "rigidity_axial_n"]
                .map(|name| inputs.number(name)),
            springs: ["spring_normal_n_per_mm", "spring_slope_n_per_mm"]
                .map(|name| inputs.number(name)),
        }
    }

    fn upper(&self, rail: usize, direction: usize) -> Strip {
        let loads = &self.loads[rail];
        Strip::new(StripParts {
            member: Member::Beam,
            start: self.upper_ends[0],
            end: self.upper_ends[1],
            rigidity: self.rigidity[direction],
            stiffness: None,
            candidates: self.lower_x.clone(),
            hinges: Vec::new(),
            load_points: loads.iter().map(|load| load[0]).collect(),
            cases: vec![Case {
                points: loads.iter().map(|load| load[1 + direction]).collect(),
                uniform: 0.0,
            }],
        })
    }

    /// A lower rail with these places for supports under these forces of the upper ones.
    fn lower(&self, direction: usize, candidates: Vec<f64>, forces: Vec<f64>) -> Strip {
        Strip::new(StripParts {
            member: if direction == 0 { Member::Beam } else { Member::Bar },
            start: self.lower_ends[0],
            end: self.lower_ends[1],
            rigidity: self.rigidity[2 * direction],
            stiffness: Some(self.springs[direction]),
            candidates,
            hinges: Vec::new(),
            load_points: self.upper_y.clone(),
            cases: vec![Case { points: forces, uniform: 0.0 }],
        })
    }

    /// Forces of upper on lower rails, upper rail by upper rail.
    fn crossed(&self, direction: usize) -> Crossed {
        let none = vec![0.0; self.upper_y.len()];
        let joints: Vec<Vec<f64>> = self
            .hooks
            .iter()
            .map(|hooks| {
                let mut joints = [&hooks[..], &self.upper_y[..]].concat();
                joints.sort_by(f64::total_cmp);
                joints
            })
            .collect();
        let strips: Vec<Strip> = joints
            .iter()
            .map(|joints| self.lower(direction, joints.clone(), none.clone()))
            .collect();
        let sprung: Vec<Vec<bool>> = joints
            .iter()
            .zip(&self.hooks)
            .map(|(joints, hooks)| joints.iter().map(|joint| hooks.contains(joint)).collect())
            .collect();
        let lower: Vec<Lower<'_>> =
            strips.iter().zip(&sprung).map(|(strip, sprung)| Lower { strip, sprung }).collect();
        let upper: Vec<Strip> =
            (0..self.upper_y.len()).map(|rail| self.upper(rail, direction)).collect();
        let upper: Vec<&Strip> = upper.iter().collect();
        let joint =
            |rail: usize, y: f64| joints[rail].iter().position(|joint| (joint - y).abs() < 1e-9);
        let crossings: Vec<Crossing> = self
            .upper_y
            .iter()
            .enumerate()
            .flat_map(|(over, y)| (0..self.lower_x.len()).map(move |rail| (over, rail, *y)))
            .map(|(over, rail, y)| Crossing {
                upper: [over, rail],
                lower: [rail, joint(rail, y).expect("every crossing is a joint")],
            })
            .collect();
        grid::crossed(&lower, &upper, &crossings).expect("the rails are stable")
    }

    fn hook_forces(&self) -> Values {
        let mut values = Values::new();
        for (direction, name) in DIRECTIONS.into_iter().enumerate() {
            let crossed = self.crossed(direction);
            for (rail, hooks) in self.hooks.iter().enumerate() {
                let on = crossed.force(0).iter().skip(rail).step_by(self.lower_x.len());
                let strip = self.lower(direction, hooks.clone(), on.copied().collect());
                let all: Vec<usize> = (0..hooks.len()).collect();
                let reactions = strip.reactions(&all).expect("a stable rail");
                for (hook, force) in reactions.of_case(0).iter().enumerate() {
                    values.insert(format!("hook_{}_{}_{name}_n", rail + 1, hook + 1), *force);
                }
            }
        }
        values
    }
}
