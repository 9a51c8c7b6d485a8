//! The rafter under its hooks and the covering beside the array.
//!
//! **Model.** One span, simply supported, of the longest free length the caller knows. Where along
//! the slope it lies is not known, so it is moved from eaves to ridge and the worst position counts.
//! Hooks are forces where they stand. The line load is constant in pieces along the slope: the
//! permanent load everywhere; snow and wind on the width of bare covering there is at that height.
//! Both load the span only as far as they lie on it.
//!
//! **Positions.** Between two places at which something enters or leaves the span, the moment under
//! a hook is a cubic of the position: its extremes are found in closed form. Other moments are
//! sampled. For a section at a fixed distance from the supports, the second derivative of the moment
//! by the position is a mean of the line load at both supports less that at the section, so it lies
//! within `±(w_max − w_min)`. Between two samples `h` apart no moment exceeds those found by more than
//! `(w_max − w_min) h²/8`, and no reaction by more than that over the span. Both are added: the
//! result is never low, and exact where the line load is uniform.
//!
//! **Person.** Somebody at work on the roof is a force anywhere on the span. Its largest moment and
//! shear are added to the largest of the weights, wherever these occur; snow and wind are left out.
//!
//! **Left out.** Pressure inside the building, axial force from the roof's own statics, the rafter's
//! supports, its overhang at the eaves, deflection.

use crate::units::{Force, Length, LineLoad, Moment};

/// Design moment and shear of a rafter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RafterEffects {
    /// Largest moment, either sense.
    pub moment: Moment,
    /// Largest shear, either sense.
    pub shear: Force,
}

impl RafterEffects {
    /// The largest of these and the largest a force causes that may stand anywhere on the span,
    /// together.
    #[must_use]
    pub fn and_anywhere(self, force: Force, span: Length) -> Self {
        let moment = Moment::from_nmm(force.n().abs() * span.mm() / 4.0);
        Self { moment: self.moment + moment, shear: self.shear + force.abs() }
    }
}

/// What happens at a place on the slope.
#[derive(Debug, Clone, Copy)]
enum Event {
    /// A hook stands there, by place in the list.
    Hook(usize),
    /// The next piece of the line load begins.
    Piece,
}

/// What a span carries, from the lower support up.
#[derive(Debug, Clone, Copy)]
enum Part {
    /// A force at a distance from the lower support.
    Force(f64, f64),
    /// A line load from one distance to another.
    Line([f64; 2], f64),
}

/// A span that is moved along the slope under hooks and pieces of line load: where these are,
/// whatever they carry.
#[derive(Debug, Clone)]
pub struct Train {
    span: f64,
    /// Hooks and borders between pieces, from the eaves up.
    events: Vec<(f64, Event)>,
    /// Places of the lower support, ascending, at which something enters or leaves the span, and the
    /// lowest and highest it may have.
    starts: Vec<f64>,
}

/// Positions sampled over the length of a span.
const SAMPLES_PER_SPAN: f64 = 32.0;

/// How near to a support a hook stands over it, mm.
const OVER_SUPPORT: f64 = 1e-9;

impl Train {
    /// A span somewhere between two heights of the slope; hooks at these distances along the slope,
    /// in any order; and the places, ascending, where one piece of line load ends and the next begins.
    /// A span longer than there is room for lies anywhere over all of it.
    #[must_use]
    pub fn new(
        span: Length,
        within: [Length; 2],
        hooks: impl Iterator<Item = Length>,
        borders: &[Length],
    ) -> Self {
        let span = span.mm();
        let hooks = hooks.enumerate().map(|(i, y)| (y.mm(), Event::Hook(i)));
        let borders = borders.iter().map(|y| (y.mm(), Event::Piece));
        let mut events: Vec<(f64, Event)> = hooks.chain(borders).collect();
        events.sort_by(|a, b| a.0.total_cmp(&b.0));
        let [one, other] = [within[0].mm(), within[1].mm() - span];
        let [first, last] = [one.min(other), one.max(other)];
        let mut starts: Vec<f64> = events.iter().flat_map(|(y, _)| [*y, y - span]).collect();
        starts.retain(|start| first < *start && *start < last);
        starts.extend([first, last]);
        starts.sort_by(f64::total_cmp);
        Self { span, events, starts }
    }

    /// Moment and shear nothing in [`Self::effects`] exceeds: all hooks in the middle, or all over
    /// one support, and the largest line load everywhere.
    #[must_use]
    pub fn at_most(&self, pieces: &[LineLoad], forces: &[Force]) -> RafterEffects {
        /// Room for the rounding of what is bounded.
        const ROUNDING: f64 = 1.0 + 1e-9;
        let l = self.span;
        let q = pieces.iter().map(|w| w.kn_per_m().abs()).fold(0.0, f64::max);
        let sum: f64 = forces.iter().map(|f| f.n().abs()).sum();
        let missed = self.missed(pieces);
        RafterEffects {
            moment: Moment::from_nmm((q * l * l / 8.0 + sum * l / 4.0 + missed) * ROUNDING),
            shear: Force::from_n((q * l / 2.0 + sum + missed / l) * ROUNDING),
        }
    }

    /// Moves the span, with a force square to the roof on each hook and a line load on each piece:
    /// the first below all borders, the last above.
    #[must_use]
    pub fn effects(&self, pieces: &[LineLoad], forces: &[Force]) -> RafterEffects {
        let loaded = Loaded { train: self, pieces, forces };
        let missed = self.missed(pieces);
        let step = self.span / SAMPLES_PER_SPAN;
        let (mut moment, mut shear) = (0.0_f64, 0.0_f64);
        let mut see = |start: f64| {
            let [m, v] = loaded.at(start);
            (moment, shear) = (moment.max(m), shear.max(v));
        };
        for pair in self.starts.windows(2) {
            let mut start = pair[0];
            // A uniform line load is the same wherever the span lies.
            while missed > 0.0 && start < pair[1] {
                see(start);
                start += step;
            }
            see(pair[0]);
            see(pair[1]);
            loaded.extremes_under_hooks([pair[0], pair[1]], &mut see);
        }
        RafterEffects {
            moment: Moment::from_nmm(moment + missed),
            shear: Force::from_n(shear + missed / self.span),
        }
    }

    /// How much larger than those found a moment between two samples can be, N·mm.
    fn missed(&self, pieces: &[LineLoad]) -> f64 {
        let loads = pieces.iter().map(|w| w.kn_per_m());
        let [least, most] = loads.fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], w| {
            [least.min(w), most.max(w)]
        });
        let step = self.span / SAMPLES_PER_SPAN;
        (most - least).max(0.0) * step * step / 8.0
    }
}

/// A train with what it carries.
#[derive(Clone, Copy)]
struct Loaded<'a> {
    train: &'a Train,
    pieces: &'a [LineLoad],
    forces: &'a [Force],
}

impl Loaded<'_> {
    /// What lies on a span whose lower support is at `start`. A hook over a support is on it.
    fn on(&self, start: f64, mut each: impl FnMut(Part)) {
        let l = self.train.span;
        let (mut from, mut piece) = (0.0, 0);
        for (y, event) in &self.train.events {
            let at = y - start;
            let to = at.min(l);
            if to > from {
                each(Part::Line([from, to], self.line(piece)));
                from = to;
            }
            match event {
                Event::Piece => piece += 1,
                Event::Hook(i) if (-OVER_SUPPORT..=l + OVER_SUPPORT).contains(&at) => {
                    each(Part::Force(at, self.forces[*i].n()));
                }
                Event::Hook(_) => {}
            }
        }
        if l > from {
            each(Part::Line([from, l], self.line(piece)));
        }
    }

    fn line(&self, piece: usize) -> f64 {
        self.pieces.get(piece).map_or(0.0, |w| w.kn_per_m())
    }

    /// The line load at a place on the slope.
    fn line_at(&self, place: f64) -> f64 {
        let begun = |(y, event): &&(f64, Event)| matches!(event, Event::Piece) && *y <= place;
        self.line(self.train.events.iter().filter(begun).count())
    }

    /// Reaction of the lower support, and all that is on the span.
    fn lower(&self, start: f64) -> [f64; 2] {
        let l = self.train.span;
        let (mut about_upper, mut sum) = (0.0, 0.0);
        self.on(start, |part| {
            let (force, at) = match part {
                Part::Force(at, force) => (force, at),
                Part::Line([from, to], w) => (w * (to - from), f64::midpoint(from, to)),
            };
            about_upper += force * (l - at);
            sum += force;
        });
        [about_upper / l, sum]
    }

    /// Largest moment and larger reaction, either sense, of a span whose lower support is at `start`.
    fn at(&self, start: f64) -> [f64; 2] {
        let [lower, sum] = self.lower(start);
        let (mut shear, mut moment, mut worst) = (lower, 0.0_f64, 0.0_f64);
        // Forces over a support: the span may end just short of them as well.
        let mut over = [0.0; 2];
        self.on(start, |part| match part {
            Part::Force(at, force) => {
                shear -= force;
                let over = &mut over[usize::from(at > self.train.span / 2.0)];
                if at < OVER_SUPPORT || at > self.train.span - OVER_SUPPORT {
                    *over += force;
                }
            }
            Part::Line([from, to], w) => {
                let length = to - from;
                let turn = shear / w;
                if 0.0 < turn && turn < length {
                    worst = worst.max((moment + shear * turn / 2.0).abs());
                }
                moment += shear * length - w * length * length / 2.0;
                shear -= w * length;
                worst = worst.max(moment.abs());
            }
        });
        let reactions = [lower, sum - lower];
        let without = [reactions[0] - over[0], reactions[1] - over[1]];
        [worst, reactions.into_iter().chain(without).map(f64::abs).fold(0.0, f64::max)]
    }

    /// Every place of the lower support between two of [`Train::starts`] at which a moment under a
    /// hook has an extreme.
    ///
    /// With `R` the lower reaction, `w_a` and `w_b` the line loads at the supports and `u` the
    /// distance of the hook from the lower support, the moment changes with the support's place `s` by
    /// `R' u − R + w_a u`, where `u' = −1`, `R' = ΣF/L − w_a` and `R'' = (w_b − w_a)/L`.
    fn extremes_under_hooks(&self, between: [f64; 2], see: &mut impl FnMut(f64)) {
        let l = self.train.span;
        let middle = f64::midpoint(between[0], between[1]);
        let [r, sum] = self.lower(middle);
        let w_a = self.line_at(middle);
        let r_1 = sum / l - w_a;
        let r_2 = (self.line_at(middle + l) - w_a) / l;
        self.on(middle, |part| {
            let Part::Force(u, _) = part else { return };
            let roots = roots(-1.5 * r_2, r_2 * u - 2.0 * r_1 - w_a, r_1 * u - r + w_a * u);
            for root in roots.into_iter().flatten() {
                let start = middle + root;
                if between[0] < start && start < between[1] {
                    see(start);
                }
            }
        });
    }
}

/// Real roots of `a t² + b t + c`.
fn roots(a: f64, b: f64, c: f64) -> [Option<f64>; 2] {
    let square = b * b - 4.0 * a * c;
    if square < 0.0 {
        return [None; 2];
    }
    // The sum that cancels nothing: also right where `a` is 0 and there is one root.
    let q = -0.5 * (b + square.sqrt().copysign(b));
    let finite = |t: f64| t.is_finite().then_some(t);
    [finite(q / a), finite(c / q)]
}

/// Moves a span under hook forces, wherever these are, with a line load everywhere.
///
/// `train` lists distance along the slope and force square to the roof, in any order.
#[must_use]
pub fn effects(span: Length, uniform: LineLoad, train: &[(Length, Force)]) -> RafterEffects {
    let forces: Vec<Force> = train.iter().map(|(_, force)| *force).collect();
    let places = || train.iter().map(|(y, _)| *y);
    let lowest = places().reduce(Length::min).unwrap_or(Length::ZERO);
    let highest = places().reduce(Length::max).unwrap_or(Length::ZERO);
    let within = [lowest - span, highest + span];
    Train::new(span, within, places(), &[]).effects(&[uniform], &forces)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two equal loads P a distance c apart on a span L: the largest moment is P/(2L)·(L − c/2)²
    /// (any handbook's table of moving loads). P = 1 kN, L = 4 m, c = 1 m: 1.53125 kN·m.
    #[test]
    fn two_moving_loads_as_the_handbooks_have_them() {
        let train = [1.0, 2.0].map(|y| (Length::from_m(y), Force::from_kn(1.0)));
        let effects = effects(Length::from_m(4.0), LineLoad::ZERO, &train);
        assert!((effects.moment.knm() - 1.531_25).abs() < 1e-9);
        assert!((effects.shear.kn() - 1.75).abs() < 1e-9);
    }

    const SLOPE: [Length; 2] = [Length::ZERO, Length::from_m(4.0)];

    fn bare(w: [f64; 3], border: [f64; 2]) -> (Train, [LineLoad; 3]) {
        let train =
            Train::new(Length::from_m(4.0), SLOPE, std::iter::empty(), &border.map(Length::from_m));
        (train, w.map(LineLoad::from_kn_per_m))
    }

    /// The span fills the slope, so there is one position. 2 kN/m on its lower half: R = 2·2·3/4 = 3 kN;
    /// the shear is 0 at 3/2 = 1.5 m, where the moment is 3²/(2·2) = 2.25 kN·m.
    #[test]
    fn a_line_load_on_half_a_span() {
        let (train, pieces) = bare([2.0, 0.0, 0.0], [2.0, 3.0]);
        let effects = train.effects(&pieces, &[]);
        // What the samples might miss: 2 kN/m · (4 m / 32)² / 8.
        let missed = 2.0 * 0.125 * 0.125 / 8.0;
        assert!((effects.moment.knm() - 2.25 - missed).abs() < 1e-9);
        assert!((effects.shear.kn() - 3.0 - missed / 4.0).abs() < 1e-9);
    }

    /// 1 kN/m on all of 4 m and a person of 1 kN: 1·16/8 + 1·4/4 = 3 kN·m; 2 + 1 = 3 kN.
    #[test]
    fn a_person_stands_where_it_is_worst() {
        let (train, pieces) = bare([1.0; 3], [1.0, 2.0]);
        let span = Length::from_m(4.0);
        let effects = train.effects(&pieces, &[]).and_anywhere(Force::from_kn(1.0), span);
        assert!((effects.moment.knm() - 3.0).abs() < 1e-9);
        assert!((effects.shear.kn() - 3.0).abs() < 1e-9);
    }

    /// A span of 4 m on a slope of 6 m whose upper 3 m carry 2 kN/m: the span lies highest, with 3 m of
    /// load against its upper support. Lower reaction 2·3·1.5/4 = 2.25 kN, upper 6 − 2.25 = 3.75 kN; the
    /// moment is 3.75²/(2·2) = 3.515625 kN·m.
    #[test]
    fn a_span_is_moved_to_the_bare_part() {
        let slope = [Length::ZERO, Length::from_m(6.0)];
        let border = [Length::from_m(3.0)];
        let train = Train::new(Length::from_m(4.0), slope, std::iter::empty(), &border);
        let effects = train.effects(&[0.0, 2.0].map(LineLoad::from_kn_per_m), &[]);
        assert!((3.515_625..3.515_625 * 1.002).contains(&effects.moment.knm()));
        assert!((3.75..3.75 * 1.002).contains(&effects.shear.kn()));
    }

    /// t² - 3 t + 2, 2 t - 3, and t² + 1, which has none.
    #[test]
    fn roots_are_found_by_hand() {
        let mut two = roots(1.0, -3.0, 2.0).map(|root| root.expect("two real roots"));
        two.sort_by(f64::total_cmp);
        assert!((two[0] - 1.0).abs() < 1e-12 && (two[1] - 2.0).abs() < 1e-12, "{two:?}");
        let one = roots(0.0, 2.0, -3.0).into_iter().flatten().next().expect("one real root");
        assert!((one - 1.5).abs() < 1e-12);
        assert_eq!(roots(1.0, 0.0, 1.0), [None; 2]);
        assert_eq!(roots(0.0, 0.0, 0.05), [None; 2]);
    }
}
