//! The beam against a general solver: every node its own unknowns, one dense system.

use hookspan::mechanics::beam::{Case, Member, Strip, StripParts, Superposition};
use hookspan::mechanics::sweep::{self, Deflection, Part, Profile, Sweep};
use proptest::prelude::*;

use crate::{Tally, runner};

/// Places lie on a grid this fine: some coincide, and none are nearly the same.
const GRID: f64 = 5.0;

fn on_grid(x: f64) -> f64 {
    (x * GRID).round() / GRID
}

/// A beam in units of about 1.
#[derive(Debug, Clone)]
struct Beam {
    supports: Vec<f64>,
    end: f64,
    rigidity: f64,
    stiffness: Option<f64>,
    hinges: Vec<f64>,
    loads: Vec<[f64; 2]>,
    line_load: f64,
}

fn beams() -> impl Strategy<Value = Beam> {
    let gaps = prop::collection::vec(0.5..2.0, 3..8);
    let hinges = prop::collection::vec(0.05..0.95, 0..3);
    let loads = prop::collection::vec((0.0..1.0, -3.0..5.0), 0..5);
    let stiffness = prop::option::of(0.5..50.0);
    (gaps, 0.5..5.0, stiffness, hinges, loads, -1.0..3.0).prop_map(
        |(gaps, rigidity, stiffness, hinges, loads, line_load)| {
            let ends: Vec<f64> = gaps
                .iter()
                .scan(0.0, |x, gap| {
                    *x += gap;
                    Some(on_grid(*x))
                })
                .collect();
            let (end, supports) = ends.split_last().expect("several gaps");
            let mut hinges: Vec<f64> = hinges.iter().map(|share| on_grid(share * end)).collect();
            hinges.sort_by(f64::total_cmp);
            hinges.dedup();
            let mut loads: Vec<_> =
                loads.iter().map(|(share, p)| [on_grid(share * end), *p]).collect();
            loads.sort_by(|a, b| a[0].total_cmp(&b[0]));
            let (end, supports) = (*end, supports.to_vec());
            Beam { supports, end, rigidity, stiffness, hinges, loads, line_load }
        },
    )
}

impl Beam {
    fn strip(&self) -> Strip {
        Strip::new(StripParts {
            member: Member::Beam,
            start: 0.0,
            end: self.end,
            rigidity: self.rigidity,
            stiffness: self.stiffness,
            candidates: self.supports.clone(),
            hinges: self.hinges.clone(),
            load_points: self.loads.iter().map(|[x, _]| *x).collect(),
            cases: vec![Case {
                points: self.loads.iter().map(|[_, p]| *p).collect(),
                uniform: self.line_load,
            }],
        })
    }

    /// A piece of rail between two hinges that stands on no support of its own is refused, though
    /// a beam may be stable with it.
    fn has_idle_piece(&self) -> bool {
        self.supports
            .windows(2)
            .any(|span| self.hinges.iter().filter(|h| span[0] <= **h && **h < span[1]).count() > 1)
    }

    /// Every place of the grid, on which everything stands.
    fn nodes(&self) -> Vec<f64> {
        let places = (0_u32..).map(|i| on_grid(f64::from(i) / GRID));
        places.take_while(|x| *x <= self.end).collect()
    }

    /// Deflection of every node; `None` when the beam can move.
    fn deflections(&self, nodes: &[f64]) -> Option<Vec<f64>> {
        let at = |x: f64, places: &[f64]| places.iter().any(|p| (p - x).abs() < 1e-9);
        // Deflection of node i is unknown 3i, slopes left and right of it 3i + 1 and 3i + 2.
        let mut system = System::new(3 * nodes.len());
        for (i, x) in nodes.iter().enumerate() {
            if !at(*x, &self.hinges) {
                system.join(3 * i + 1, 3 * i + 2);
            }
            if at(*x, &self.supports) {
                match self.stiffness {
                    Some(k) => system.add(3 * i, 3 * i, k),
                    None => system.hold(3 * i),
                }
            }
        }
        system.join(1, 2);
        for (i, pair) in nodes.windows(2).enumerate() {
            let l = pair[1] - pair[0];
            let unknowns = [3 * i, 3 * i + 2, 3 * (i + 1), 3 * (i + 1) + 1];
            let (a, b, c) = (12.0 / l.powi(3), 6.0 / l.powi(2), 2.0 / l);
            let element =
                [[a, b, -a, b], [b, 2.0 * c, -b, c], [-a, -b, a, -b], [b, c, -b, 2.0 * c]];
            let q = self.line_load;
            let held = [q * l / 2.0, q * l * l / 12.0, q * l / 2.0, -q * l * l / 12.0];
            for (row, cells) in element.iter().enumerate() {
                for (column, cell) in cells.iter().enumerate() {
                    system.add(unknowns[row], unknowns[column], cell * self.rigidity);
                }
                system.load(unknowns[row], held[row]);
            }
        }
        for [x, p] in &self.loads {
            let node = nodes.iter().position(|n| (n - x).abs() < 1e-9).expect("a node at a load");
            system.load(3 * node, *p);
        }
        let solution = system.solve()?;
        Some((0..nodes.len()).map(|i| solution[3 * i]).collect())
    }
}

/// Equations of which some unknowns are equal and some are zero.
struct System {
    cells: Vec<Vec<f64>>,
    loads: Vec<f64>,
    /// The unknown that stands for this one.
    same_as: Vec<usize>,
    held: Vec<bool>,
}

impl System {
    fn new(size: usize) -> Self {
        Self {
            cells: vec![vec![0.0; size]; size],
            loads: vec![0.0; size],
            same_as: (0..size).collect(),
            held: vec![false; size],
        }
    }
    fn join(&mut self, one: usize, other: usize) {
        self.same_as[other] = one;
    }
    fn hold(&mut self, unknown: usize) {
        self.held[unknown] = true;
    }
    fn add(&mut self, row: usize, column: usize, value: f64) {
        self.cells[self.same_as[row]][self.same_as[column]] += value;
    }
    fn load(&mut self, row: usize, value: f64) {
        self.loads[self.same_as[row]] += value;
    }

    /// Elimination with the largest pivot of each column; `None` when one is missing.
    fn solve(mut self) -> Option<Vec<f64>> {
        let size = self.loads.len();
        // Of two unknowns that are the same one is solved for; an unknown of nothing is not.
        let free: Vec<usize> = (0..size)
            .filter(|i| self.same_as[*i] == *i && !self.held[*i] && self.cells[*i][*i] > 0.0)
            .collect();
        let mut rows = free.clone();
        let largest = free.iter().map(|i| self.cells[*i][*i]).fold(0.0, f64::max);
        for (step, column) in free.iter().enumerate() {
            let pivot = (step..rows.len()).max_by(|a, b| {
                let size = |i: &usize| self.cells[rows[*i]][*column].abs();
                size(a).total_cmp(&size(b))
            })?;
            rows.swap(step, pivot);
            let pivot = rows[step];
            if self.cells[pivot][*column].abs() < 1e-11 * largest {
                return None;
            }
            let (pivot_row, pivot_load) = (self.cells[pivot].clone(), self.loads[pivot]);
            for row in &rows[step + 1..] {
                let factor = self.cells[*row][*column] / pivot_row[*column];
                if factor.abs() > 0.0 {
                    for i in &free[step..] {
                        self.cells[*row][*i] -= factor * pivot_row[*i];
                    }
                    self.loads[*row] -= factor * pivot_load;
                }
            }
        }
        let mut solution = vec![0.0; size];
        for (step, column) in free.iter().enumerate().rev() {
            let row = rows[step];
            let known: f64 =
                free[step + 1..].iter().map(|i| self.cells[row][*i] * solution[*i]).sum();
            solution[*column] = (self.loads[row] - known) / self.cells[row][*column];
        }
        for i in 0..size {
            solution[i] = solution[self.same_as[i]];
        }
        Some(solution)
    }
}

/// Distance of a node from the line through the two ends of a span.
fn off_chord(nodes: &[f64], w: &[f64], span: &[f64], x: f64) -> f64 {
    let at = |x: f64| w[nodes.iter().position(|n| (n - x).abs() < 1e-9).expect("a node")];
    let [a, b] = [span[0], span[1]];
    (at(x) - at(a) - (at(b) - at(a)) * (x - a) / (b - a)).abs()
}

#[test]
fn springs_hinges_and_overhangs_as_a_general_solver_has_them() {
    let [solved, hinged, refused, spans, kinked] = std::array::from_fn(|_| Tally::default());
    runner(400)
        .run(&beams(), |beam| {
            let strip = beam.strip();
            let all: Vec<usize> = (0..beam.supports.len()).collect();
            let Some(reactions) = strip.reactions(&all) else {
                let nodes = beam.nodes();
                prop_assert!(beam.has_idle_piece() || beam.deflections(&nodes).is_none());
                refused.see(!beam.has_idle_piece());
                return Ok(());
            };
            let load = Superposition::alone(0);
            let forces = reactions.of_case(0);
            let nodes = beam.nodes();
            let w = beam.deflections(&nodes);
            prop_assert!(w.is_some(), "a beam that can move was solved: {:?}", forces);
            let w = w.unwrap_or_default();
            let at = |x: f64| nodes.iter().position(|n| (n - x).abs() < 1e-9).expect("a node");
            if let Some(k) = beam.stiffness {
                let gross: f64 = forces.iter().map(|f| f.abs()).sum();
                for (x, force) in beam.supports.iter().zip(forces) {
                    let expected = k * w[at(*x)];
                    prop_assert!((force - expected).abs() <= 1e-5 * gross, "{force}, {expected}");
                }
            }
            let profile = Profile::of(&strip, &load, &all, &reactions);
            let size = profile.moment.iter().fold(0.0_f64, |a, m| a.max(m.abs()));
            prop_assert!(profile.moment.last().is_some_and(|m| m.abs() <= 1e-8 * size));
            solved.see(true);
            hinged.see(!beam.hinges.is_empty());
            let mut found = Vec::new();
            sweep::deflections(&profile, beam.rigidity, |d| found.push(d));
            let largest = found.iter().map(|d| d.deflection).fold(0.0, f64::max);
            let noise = 1e-5 * largest;
            let places = &beam.supports;
            let (first, last) = (places[0], places[places.len() - 1]);
            let mut of_spans = places.windows(2);
            for Deflection { deflection, part, x, .. } in found {
                if part == Part::FreeEnd {
                    let span = if x < first { &places[..2] } else { &places[places.len() - 2..] };
                    let seen = off_chord(&nodes, &w, span, x);
                    prop_assert!((deflection - seen).abs() <= noise, "{deflection}, {seen}");
                    prop_assert!(x < first || x > last);
                    continue;
                }
                let span = of_spans.next().expect("one deflection of each span");
                let inside = nodes.iter().filter(|n| span[0] <= **n && **n <= span[1]);
                let seen = inside.map(|n| off_chord(&nodes, &w, span, *n)).fold(0.0, f64::max);
                prop_assert!(deflection >= seen - noise, "{deflection} below {seen}");
                prop_assert!(deflection <= 2.0 * seen + 0.1 * largest, "{deflection} over {seen}");
                let there = off_chord(&nodes, &w, span, on_grid(x));
                prop_assert!(there <= deflection + noise);
                spans.see(true);
                kinked.see(beam.hinges.iter().any(|h| span[0] < *h && *h < span[1]));
            }
            Ok(())
        })
        .unwrap();
    solved.at_least(150, "beams solved both ways");
    hinged.at_least(50, "of them with hinges");
    refused.at_least(20, "beams that can move");
    spans.at_least(500, "deflections of spans");
    kinked.at_least(50, "of them with a hinge");
}

/// Its share of a length, as limits of deflection are told.
fn share(found: &Deflection) -> f64 {
    let length = match found.part {
        Part::Span => found.length,
        Part::FreeEnd => 2.0 * found.length,
    };
    if length > 0.0 { found.deflection / length } else { 0.0 }
}

#[test]
fn deflections_left_out_are_no_larger_than_what_is_known() {
    let [bounded, hinged, found_above, left_out] = std::array::from_fn(|_| Tally::default());
    runner(400)
        .run(&(beams(), 0.0..1.2), |(beam, of_largest)| {
            let strip = beam.strip();
            let all: Vec<usize> = (0..beam.supports.len()).collect();
            let Some(reactions) = strip.reactions(&all) else { return Ok(()) };
            let load = Superposition::alone(0);
            let profile = Profile::of(&strip, &load, &all, &reactions);
            let mut every = Vec::new();
            sweep::deflections(&profile, beam.rigidity, |d| every.push(d));
            let largest = every.iter().map(share).fold(0.0, f64::max);

            let mut sweep = Sweep::default();
            sweep.fill(&strip, &all, &reactions);
            let at_most = sweep.deflection_at_most(&load, beam.rigidity);
            prop_assert!(largest <= at_most, "{} above {}", largest, at_most);
            bounded.see(at_most.is_finite());
            hinged.see(!beam.hinges.is_empty());

            let known = of_largest * largest;
            let (mut most, mut handed) = (known, 0);
            sweep::deflections_above(known, &profile, beam.rigidity, |d| {
                handed += 1;
                most = most.max(share(&d));
                most
            });
            let apart = (most - largest.max(known)).abs();
            prop_assert!(apart <= 1e-12 * largest, "{} of {}", most, largest);
            found_above.see(of_largest < 1.0 && largest > 0.0);
            left_out.see(handed < every.len());
            Ok(())
        })
        .unwrap();
    bounded.at_least(50, "beams without hinges");
    hinged.at_least(50, "beams with hinges");
    found_above.at_least(150, "beams that bend more than what is known");
    left_out.at_least(150, "beams of which some deflections are left out");
}
