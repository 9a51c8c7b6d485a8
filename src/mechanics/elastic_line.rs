//! The deflected line of a beam, point by point, for drawing it.
//!
//! **Model.** As in [`super::sweep`]: between stations the moment is a polynomial, integrated twice
//! in closed form; supports stand where their springs let them.
//!
//! **Left out.** Beams with hinges, whose line has kinks: none is given.
//!
//! **Checked by** the tests below against the largest deflections of [`super::sweep`].

use super::sweep::{self, Profile};

/// Points of the line between two stations.
const POINTS: u32 = 6;

/// Places and deflections, from left to right, in mm; positive towards the roof. `None` for a beam
/// with hinges or with fewer than two supports.
#[must_use]
pub fn elastic_line(profile: &Profile, rigidity: f64) -> Option<Vec<[f64; 2]>> {
    let (first, second) = (*profile.supports.first()?, *profile.supports.get(1)?);
    if !profile.hinges.is_empty() {
        return None;
    }
    let step = |i: usize, at: (f64, f64), d: f64| sweep::step(profile, rigidity, i, at, d);
    let interval = |i: usize| profile.x[i + 1] - profile.x[i];
    // The slope over the first support is the one that leads to the second.
    let start = profile.settlement[0];
    let level = (first..second).fold((start, 0.0), |state, i| step(i, state, interval(i)));
    let slope = (profile.settlement[1] - level.0) / (profile.x[second] - profile.x[first]);
    let mut states = vec![(0.0, 0.0); profile.x.len()];
    states[first] = (start, slope);
    for i in first..profile.x.len() - 1 {
        states[i + 1] = step(i, states[i], interval(i));
    }
    for i in (0..first).rev() {
        let bent = step(i, (0.0, 0.0), interval(i));
        let before = states[i + 1].1 - bent.1;
        states[i] = (states[i + 1].0 - before * interval(i) - bent.0, before);
    }
    let mut line = Vec::with_capacity(states.len() * POINTS as usize);
    for (i, state) in states.iter().enumerate().take(states.len() - 1) {
        for point in 0..POINTS {
            let d = interval(i) * f64::from(point) / f64::from(POINTS);
            line.push([profile.x[i] + d, step(i, *state, d).0]);
        }
    }
    line.push([*profile.x.last()?, states.last()?.0]);
    Some(line)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::mechanics::beam::{Case, Member, Strip, StripParts, Superposition};
    use crate::mechanics::sweep::{self, Part};

    fn profile(stiffness: Option<f64>) -> Profile {
        let strip = Strip::new(StripParts {
            member: Member::Beam,
            start: 0.0,
            end: 3000.0,
            rigidity: 6.4e9,
            stiffness,
            candidates: vec![300.0, 1200.0, 2600.0],
            hinges: Vec::new(),
            load_points: vec![100.0, 700.0, 1900.0, 2950.0],
            cases: vec![Case { points: vec![300.0, 900.0, 1200.0, 250.0], uniform: 0.02 }],
        });
        let reactions = strip.reactions(&[0, 1, 2]).expect("a stable beam");
        Profile::of(&strip, &Superposition::alone(0), &[0, 1, 2], &reactions)
    }

    #[test]
    fn the_line_meets_its_supports() {
        for stiffness in [None, Some(320.0)] {
            let profile = profile(stiffness);
            let line = elastic_line(&profile, 6.4e9).expect("a line");
            for (support, settlement) in profile.supports.iter().zip(&profile.settlement) {
                let x = profile.x[*support];
                let at = line.iter().find(|p| (p[0] - x).abs() < 1e-9).expect("a point");
                assert!((at[1] - settlement).abs() < 1e-6, "{at:?} {settlement}");
            }
        }
    }

    #[test]
    fn its_largest_distance_from_a_chord_is_the_deflection_that_is_checked() {
        let profile = profile(Some(320.0));
        let line = elastic_line(&profile, 6.4e9).expect("a line");
        let mut checked = 0;
        sweep::deflections(&profile, 6.4e9, |expected| {
            if expected.part != Part::Span {
                return;
            }
            let pair = profile
                .supports
                .windows(2)
                .find(|pair| (profile.x[pair[0]]..=profile.x[pair[1]]).contains(&expected.x));
            let pair = pair.expect("a span");
            let [a, b] = [pair[0], pair[1]].map(|i| profile.x[i]);
            let w = |x: f64| line.iter().find(|p| (p[0] - x).abs() < 1e-9).expect("a point")[1];
            let chord = |x: f64| w(a) + (w(b) - w(a)) * (x - a) / (b - a);
            let largest = line
                .iter()
                .filter(|p| a <= p[0] && p[0] <= b)
                .map(|p| (p[1] - chord(p[0])).abs())
                .fold(0.0, f64::max);
            // The points of the line may lie beside the largest place: two per cent.
            assert!((largest - expected.deflection).abs() < 0.02 * expected.deflection + 1e-9);
            checked += 1;
        });
        assert_eq!(checked, 2);
    }
}
