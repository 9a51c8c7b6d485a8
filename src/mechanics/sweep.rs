//! Along the beam: bending moments and deflections from known support forces.
//!
//! **Model.** Statics from left to right for moment and shear, twice integrated for deflection;
//! exact between stations because only a line load acts there.
//!
//! **Chord.** A span's deflection is measured from the straight line through its two displaced
//! supports, so that soft supports do not count as bending of the beam; a free end's from the
//! same line of the adjoining span, prolonged.
//!
//! **Hinges.** The beam has a kink over a hinge. A span without one finds its slopes from its two
//! supports alone; one with a hinge takes the slope at one support from its neighbour there.
//!
//! **Bars.** Of a bar neither moment nor shear is told, but the force along its axis, from the same statics.
//!
//! **Signs and units** as in [`super::beam`].

use super::beam::{Member, Reactions, Strip, Superposition};

/// Room a bound leaves for the rounding of what it bounds.
const ROUNDING: f64 = 1.0 + 1e-9;

/// Moment and shear at every place where something acts: ends, loads, supports.
#[derive(Debug, Clone, Default)]
pub struct Profile {
    /// Places, ascending, mm.
    pub x: Vec<f64>,
    /// Moment there, N·mm.
    pub moment: Vec<f64>,
    /// Shear just right of it, N.
    pub shear: Vec<f64>,
    /// Line load, N/mm.
    pub uniform: f64,
    /// Force along the axis just right of it, N; of beams none is told.
    pub axial: Vec<f64>,
    /// Line load along the axis, N/mm.
    pub axial_uniform: f64,
    /// Which places are supports, from left to right.
    pub supports: Vec<usize>,
    /// Deflection of each support, mm.
    pub settlement: Vec<f64>,
    /// Which places are hinges, from left to right.
    pub hinges: Vec<usize>,
}

/// Moments and shears under every case of a strip at once, to be added up to [`Profile`]s.
#[derive(Debug, Clone, Default)]
pub struct Sweep {
    cases: usize,
    /// Places, ascending, mm.
    x: Vec<f64>,
    /// What acts at each place, up to the place of its first one in the next.
    acts: Vec<Act>,
    acts_from: Vec<usize>,
    /// Case by case the moment at each place, N·mm.
    moment: Vec<f64>,
    /// Case by case the shear just right of each, N.
    shear: Vec<f64>,
    /// Line load of every case, N/mm.
    uniform: Vec<f64>,
    member: Option<Member>,
    /// Largest force along the axis of every case, of either sense, N: of a bar, whose shears these are.
    axial_peak: Vec<f64>,
    /// Largest moment of every case at any place, of either sense, N·mm.
    peak: Vec<f64>,
    /// Of every case a limit of all deflections, see [`Self::limp`], times the rigidity, N·mm².
    limp: Vec<f64>,
    supports: Vec<usize>,
    hinges: Vec<usize>,
    /// Widest distance between two places, mm.
    widest: f64,
    /// What a moment that is the same all along bends at most, by the rule of `limp`, mm.
    longest: f64,
}

/// What changes the shear at a place.
#[derive(Debug, Clone, Copy)]
enum Act {
    Load(usize),
    Support(usize),
}

impl Sweep {
    /// Sweeps a strip that stands on `subset` with the given forces.
    pub fn fill(&mut self, strip: &Strip, subset: &[usize], reactions: &Reactions) {
        self.lay_out(strip, subset);
        self.cases = strip.cases().len();
        self.member = Some(strip.member());
        for row in [
            &mut self.moment,
            &mut self.shear,
            &mut self.uniform,
            &mut self.axial_peak,
            &mut self.peak,
            &mut self.limp,
        ] {
            row.clear();
        }
        if strip.member() == Member::Bar {
            self.fill_bar(strip, reactions);
            return;
        }
        for (index, case) in strip.cases().iter().enumerate() {
            let (forces, uniform) = (reactions.of_case(index), case.uniform);
            let (mut x, mut moment, mut shear, mut peak) = (self.x[0], 0.0_f64, 0.0_f64, 0.0_f64);
            for (at, acts) in self.x.iter().zip(self.acts_from.windows(2)) {
                let d = at - x;
                x = *at;
                moment += shear * d - uniform * d * d / 2.0;
                shear -= uniform * d;
                for act in &self.acts[acts[0]..acts[1]] {
                    match act {
                        Act::Load(at) => shear -= case.points[*at],
                        Act::Support(at) => shear += forces[*at],
                    }
                }
                peak = peak.max(moment.abs());
                self.moment.push(moment);
                self.shear.push(shear);
            }
            self.uniform.push(uniform);
            self.peak.push(peak);
            let swept = &self.moment[index * self.x.len()..];
            self.limp.push(self.limp(|at| swept[at]));
        }
    }

    /// The same of a bar: its shears are the forces along its axis.
    fn fill_bar(&mut self, strip: &Strip, reactions: &Reactions) {
        for (index, case) in strip.cases().iter().enumerate() {
            let (forces, uniform) = (reactions.of_case(index), case.uniform);
            let (mut x, mut axial, mut peak) = (self.x[0], 0.0_f64, 0.0_f64);
            for (at, acts) in self.x.iter().zip(self.acts_from.windows(2)) {
                axial -= uniform * (at - x);
                x = *at;
                peak = peak.max(axial.abs());
                for act in &self.acts[acts[0]..acts[1]] {
                    match act {
                        Act::Load(at) => axial -= case.points[*at],
                        Act::Support(at) => axial += forces[*at],
                    }
                }
                peak = peak.max(axial.abs());
                self.moment.push(0.0);
                self.shear.push(axial);
            }
            self.uniform.push(uniform);
            self.axial_peak.push(peak);
            self.peak.push(0.0);
            self.limp.push(0.0);
        }
    }

    /// Largest share of its length that a span may bend from its chord under moments at all places, or
    /// of twice its own a free end, times the rigidity: see [`deflections_above`].
    fn limp(&self, moment: impl Fn(usize) -> f64) -> f64 {
        // The largest moment of a part times its length.
        let bent = |a: usize, b: usize| {
            let peak = (a..=b).fold(0.0_f64, |peak, at| peak.max(moment(at).abs()));
            peak * (self.x[b] - self.x[a])
        };
        let supports = &self.supports[..];
        let ([first, second, ..], [.., before_last, last]) = (supports, supports) else {
            return f64::INFINITY;
        };
        let spans = supports.windows(2).map(|ends| bent(ends[0], ends[1]) / 8.0);
        let left = bent(0, *first) + bent(*first, *second);
        let right = bent(*before_last, *last) + bent(*last, self.x.len() - 1);
        spans.chain([left / 4.0, right / 4.0]).fold(0.0, f64::max)
    }

    /// Finds the places and what acts there.
    fn lay_out(&mut self, strip: &Strip, subset: &[usize]) {
        let (start, end) = strip.ends();
        for row in [&mut self.acts_from, &mut self.supports, &mut self.hinges] {
            row.clear();
        }
        self.acts.clear();
        self.x.clear();
        // The end itself is a place, also where nothing acts on it.
        self.x.push(start);
        self.acts_from.extend([0, 0]);
        let mut loads = strip.load_points().iter().enumerate().peekable();
        let mut supports = subset.iter().map(|c| strip.candidates()[*c]).enumerate().peekable();
        let mut hinges = strip.hinges().iter().peekable();
        loop {
            let next_load = loads.peek().map_or(f64::INFINITY, |(_, p)| **p);
            let next_support = supports.peek().map_or(f64::INFINITY, |(_, p)| *p);
            let next_hinge = hinges.peek().map_or(f64::INFINITY, |p| **p);
            let next = next_load.min(next_support).min(next_hinge);
            let x = if next.is_finite() { next } else { end };
            while let Some((at, _)) = loads.next_if(|(_, p)| **p <= x) {
                self.acts.push(Act::Load(at));
            }
            while let Some((at, _)) = supports.next_if(|(_, p)| *p <= x) {
                self.supports.push(self.x.len());
                self.acts.push(Act::Support(at));
            }
            while hinges.next_if(|p| **p <= x).is_some() {
                self.hinges.push(self.x.len());
            }
            self.x.push(x);
            self.acts_from.push(self.acts.len());
            if next.is_infinite() {
                break;
            }
        }
        self.widest = self.x.windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max);
        self.longest = self.limp(|_| 1.0);
    }

    /// No moment of a load along the beam is larger than this, of either sense: the cases' own
    /// largest moments at any place added up, and what a line load adds between two, its moment on
    /// a simple beam of that length.
    #[must_use]
    pub fn moment_at_most(&self, load: &Superposition) -> f64 {
        (load.at_most(&self.peak) + self.between_at_most(load)) * ROUNDING
    }

    /// No force along the axis is larger than this under a load, of either sense; nothing of a beam.
    #[must_use]
    pub fn axial_at_most(&self, load: &Superposition) -> f64 {
        match self.member {
            Some(Member::Bar) => load.at_most(&self.axial_peak) * ROUNDING,
            Some(Member::Beam) | None => 0.0,
        }
    }

    /// Longest part without a support, a free end taken twice, mm.
    #[must_use]
    pub fn longest_part(&self) -> f64 {
        longest_part(&self.x, &self.supports)
    }

    /// What the line load of a load adds at most to moments between two places.
    fn between_at_most(&self, load: &Superposition) -> f64 {
        if self.member == Some(Member::Bar) {
            return 0.0;
        }
        load.at_most(&self.uniform) * self.widest * self.widest / 8.0
    }

    /// No deflection of a span is a larger share of its length, none of a free end of twice its own:
    /// the cases' own limits added up, and what a line load adds to the moments between two places.
    /// Without bound where the beam has hinges.
    #[must_use]
    pub fn deflection_at_most(&self, load: &Superposition, rigidity: f64) -> f64 {
        if !self.hinges.is_empty() {
            return f64::INFINITY;
        }
        let between = self.between_at_most(load) * self.longest;
        (load.at_most(&self.limp) + between) * ROUNDING / rigidity
    }

    /// Moments and shears under a load, written over `out`; `reactions` are those swept with.
    pub fn superpose(
        &self,
        strip: &Strip,
        load: &Superposition,
        reactions: &Reactions,
        out: &mut Profile,
    ) {
        out.x.clone_from(&self.x);
        out.supports.clone_from(&self.supports);
        out.hinges.clone_from(&self.hinges);
        load.sum_each(&self.moment, self.cases, &mut out.moment);
        load.sum_each(&self.shear, self.cases, &mut out.shear);
        out.uniform = load.sum(&self.uniform);
        out.axial.clear();
        out.axial_uniform = 0.0;
        if strip.member() == Member::Bar {
            out.axial.append(&mut out.shear);
            out.shear.resize(out.axial.len(), 0.0);
            out.axial_uniform = std::mem::take(&mut out.uniform);
        }
        reactions.gives_under(strip, load, &mut out.settlement);
    }
}

impl Profile {
    /// One load of a strip that stands on `subset` with the given forces.
    #[must_use]
    pub fn of(
        strip: &Strip,
        load: &Superposition,
        subset: &[usize],
        reactions: &Reactions,
    ) -> Self {
        let (mut sweep, mut profile) = (Sweep::default(), Self::default());
        sweep.fill(strip, subset, reactions);
        sweep.superpose(strip, load, reactions, &mut profile);
        profile
    }

    /// No moment along the beam is larger than this, of either sense: the largest at any place, and
    /// what the line load adds between two, its moment on a simple beam of that length.
    #[must_use]
    pub fn moment_at_most(&self) -> f64 {
        self.moment_at_most_between(0, self.x.len() - 1)
    }

    fn moment_at_most_between(&self, a: usize, b: usize) -> f64 {
        let peak = self.moment[a..=b].iter().fold(0.0, |m: f64, v| m.max(v.abs()));
        let widest = self.x[a..=b].windows(2).map(|w| w[1] - w[0]).fold(0.0, f64::max);
        (peak + self.uniform.abs() * widest * widest / 8.0) * ROUNDING
    }

    /// Longest part without a support, a free end taken twice, mm.
    #[must_use]
    pub fn longest_part(&self) -> f64 {
        longest_part(&self.x, &self.supports)
    }

    /// Moment at distance `d` right of station `i`, within its interval.
    fn moment_after(&self, i: usize, d: f64) -> f64 {
        self.moment[i] + self.shear[i] * d - self.uniform * d * d / 2.0
    }

    /// Moment at a place on the beam, N·mm.
    #[must_use]
    pub fn moment_at(&self, x: f64) -> f64 {
        let begun = self.x.partition_point(|station| *station <= x);
        let i = begun.saturating_sub(1);
        self.moment_after(i, x - self.x[i])
    }

    /// Force along the axis at distance `d` right of station `i`, without its sense: at a station the larger
    /// one on either side of it; 0 of a beam.
    fn axial_after(&self, i: usize, d: f64) -> f64 {
        let Some(right) = self.axial.get(i) else { return 0.0 };
        let here = (right - self.axial_uniform * d).abs();
        match i.checked_sub(1).filter(|_| d == 0.0) {
            Some(before) => {
                let left = self.axial[before] - self.axial_uniform * (self.x[i] - self.x[before]);
                here.max(left.abs())
            }
            None => here,
        }
    }

    /// The same at a place on the bar, N.
    #[must_use]
    pub fn axial_at(&self, x: f64) -> f64 {
        let i = self.x.partition_point(|station| *station <= x).saturating_sub(1);
        self.axial_after(i, x - self.x[i])
    }

    /// Distance right of station `i` where the shear passes through zero, if it does so before
    /// the next station.
    fn zero_shear_after(&self, i: usize) -> Option<f64> {
        let d = self.shear[i] / self.uniform;
        let room = self.x.get(i + 1)? - self.x[i];
        (self.uniform != 0.0 && d > 0.0 && d < room).then_some(d)
    }
}

fn longest_part(x: &[f64], supports: &[usize]) -> f64 {
    let (Some(first), Some(last)) = (supports.first(), supports.last()) else {
        return f64::INFINITY;
    };
    let ends = [x[*first] - x[0], x[x.len() - 1] - x[*last]].map(|end| 2.0 * end);
    let spans = supports.windows(2).map(|pair| x[pair[1]] - x[pair[0]]);
    spans.chain(ends).fold(0.0, f64::max)
}

/// Largest value of `f(|moment in a|, |moment in b|, |force along the axis in b|)` along two profiles of the
/// same rail, and where it occurs.
pub fn largest_of_two(a: &Profile, b: &Profile, f: impl Fn(f64, f64, f64) -> f64) -> (f64, f64) {
    let mut best = (0.0, 0.0);
    let mut weigh = |i: usize, d: f64| {
        let [in_a, in_b] = [a, b].map(|profile| profile.moment_after(i, d).abs());
        let value = f(in_a, in_b, b.axial_after(i, d));
        if value > best.0 {
            best = (value, a.x[i] + d);
        }
    };
    for i in 0..a.x.len().min(b.x.len()) {
        weigh(i, 0.0);
        if let Some(d) = a.zero_shear_after(i) {
            weigh(i, d);
        }
        if let Some(d) = b.zero_shear_after(i) {
            weigh(i, d);
        }
    }
    best
}

/// Deflection of one span or free end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Deflection {
    /// Span, or length of the free end, mm.
    pub length: f64,
    /// Largest distance from the chord, mm.
    pub deflection: f64,
    /// Span or free end.
    pub part: Part,
    /// Where, mm.
    pub x: f64,
}

/// What part of a beam a deflection belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    /// Between two supports.
    Span,
    /// Beyond an outermost support.
    FreeEnd,
}

/// Deflections of every span and of both free ends, handed to `each`.
pub fn deflections(profile: &Profile, rigidity: f64, mut each: impl FnMut(Deflection)) {
    deflections_above(f64::NEG_INFINITY, profile, rigidity, |deflection| {
        each(deflection);
        f64::NEG_INFINITY
    });
}

/// Deflections handed to `each`, without most of those that are no larger over their length, or over
/// twice the length of a free end, than `known`. What `each` returns is known from then on.
///
/// They are left out by a rough bound: where the moment stays below `M` a span's curvature stays
/// below `M/EI`; its deflection from the chord is then at most `M l²/8EI`, its slope at a support
/// `M l/2EI`. A free end adds at most `M c²/2EI` of its own to that slope times its length. Over a
/// span with a hinge there is no bound.
pub fn deflections_above(
    mut known: f64,
    profile: &Profile,
    rigidity: f64,
    mut each: impl FnMut(Deflection) -> f64,
) {
    let spans = profile.supports.len().saturating_sub(1);
    let hinged = if profile.hinges.is_empty() { Vec::new() } else { lines(profile, rigidity) };
    let last = profile.x.len() - 1;
    for index in 0..spans {
        let (a, b) = (profile.supports[index], profile.supports[index + 1]);
        let length = profile.x[b] - profile.x[a];
        let bending = profile.moment_at_most_between(a, b) * length;
        let free_end_at_most = |from: usize, to: usize| {
            let reach = profile.x[to] - profile.x[from];
            (bending + profile.moment_at_most_between(from, to) * reach) / (4.0 * rigidity)
        };
        let kinked = hinged.get(index).is_some_and(Line::is_kinked);
        let may_matter = |at_most: f64, known: f64| kinked || at_most > known;
        let span = may_matter(bending / (8.0 * rigidity), known);
        let left = index == 0 && may_matter(free_end_at_most(0, a), known);
        let right = index + 1 == spans && may_matter(free_end_at_most(b, last), known);
        if !(span || left || right) {
            continue;
        }
        let straight;
        let line = if let Some(line) = hinged.get(index) {
            line
        } else {
            straight = Line::between(profile, rigidity, index);
            &straight
        };
        // Rounding must not leave out what is as large: of equals the first counts.
        let above = if known > 0.0 { known * length / ROUNDING } else { f64::NEG_INFINITY };
        if span && let Some((deflection, x)) = line.largest_above(above, profile, rigidity) {
            known = each(Deflection { length, deflection, part: Part::Span, x });
        }
        if left {
            let (tip, at) = left_tip(profile, rigidity, a, line.start);
            let length = profile.x[a] - at;
            let deflection = tip.abs();
            known = each(Deflection { length, deflection, part: Part::FreeEnd, x: at });
        }
        if right {
            let (tip, _) = walk(profile, rigidity, b, last, line.end, |_, _, _, _| {});
            let (x, deflection) = (profile.x[last], tip.abs());
            let length = x - profile.x[b];
            known = each(Deflection { length, deflection, part: Part::FreeEnd, x });
        }
    }
}

/// The deflected line of one span, slopes measured from its chord.
struct Line {
    a: usize,
    b: usize,
    /// Slope of the chord.
    chord: f64,
    /// Place of a hinge within the span; one over its left support bends nothing here, but cuts
    /// the span off from its neighbour.
    hinge: Option<usize>,
    start: f64,
    /// Change of slope over the hinge.
    kink: f64,
    end: f64,
    known: bool,
}

impl Line {
    /// The line as if it had no hinge: over its left support it meets the chord by its own bending.
    fn between(profile: &Profile, rigidity: f64, index: usize) -> Self {
        let (a, b) = (profile.supports[index], profile.supports[index + 1]);
        let length = profile.x[b] - profile.x[a];
        let hinge = profile.hinges.iter().copied().find(|h| (a..b).contains(h));
        let held = walk(profile, rigidity, a, b, 0.0, |_, _, _, _| {});
        let start = -held.0 / length;
        Self {
            a,
            b,
            chord: (profile.settlement[index + 1] - profile.settlement[index]) / length,
            hinge,
            start,
            kink: 0.0,
            end: held.1 + start,
            known: hinge.is_none_or(|h| h == a),
        }
    }

    /// Takes the slope at the left support from the span before.
    fn follow(&mut self, profile: &Profile, rigidity: f64, before: &Self) {
        let Some(hinge) = self.hinge.filter(|_| !self.known && before.known) else { return };
        let held = walk(profile, rigidity, self.a, self.b, 0.0, |_, _, _, _| {});
        let [length, right] = [self.a, hinge].map(|from| profile.x[self.b] - profile.x[from]);
        self.start = before.end + before.chord - self.chord;
        self.kink = -(held.0 + self.start * length) / right;
        self.end = held.1 + self.start + self.kink;
        self.known = true;
    }

    /// Takes the slope at the right support from the span after, unless that hangs on a hinge.
    fn precede(&mut self, profile: &Profile, rigidity: f64, after: &Self) {
        let Some(hinge) = self.hinge.filter(|_| !self.known && after.known) else { return };
        if after.hinge == Some(after.a) {
            return;
        }
        let held = walk(profile, rigidity, self.a, self.b, 0.0, |_, _, _, _| {});
        let left = profile.x[hinge] - profile.x[self.a];
        let right = profile.x[self.b] - profile.x[hinge];
        self.end = after.start + after.chord - self.chord;
        self.start = -(held.0 + (self.end - held.1) * right) / left;
        self.kink = self.end - held.1 - self.start;
        self.known = true;
    }

    /// Whether a hinge between its supports lets it bend with its neighbours.
    fn is_kinked(&self) -> bool {
        self.hinge.is_some_and(|hinge| hinge > self.a)
    }

    /// Largest deflection from the chord, and where; `None` where that is not above `known`.
    fn largest_above(&self, known: f64, profile: &Profile, rigidity: f64) -> Option<(f64, f64)> {
        let (mut worst, mut x) = (known, None);
        self.walk(profile, rigidity, |i, w, slope, d| {
            // The line is nowhere farther from that between both ends than the curvature lets it.
            let end = step(profile, rigidity, i, (w, slope), d).0;
            let bent = profile.moment_at_most_between(i, i + 1) * d * d / (8.0 * rigidity);
            let at_most = w.abs().max(end.abs()) * ROUNDING + bent;
            let may_turn = at_most > worst.max(w.abs());
            let turning = may_turn.then(|| turning_points(profile, rigidity, i, slope, d));
            for at in std::iter::once(0.0).chain(turning.into_iter().flatten()) {
                let value = step(profile, rigidity, i, (w, slope), at).0.abs();
                if value > worst {
                    (worst, x) = (value, Some(profile.x[i] + at));
                }
            }
        });
        x.map(|x| (worst, x))
    }

    /// Integrates over the span, calling `at(i, w, slope, interval)` at each start.
    fn walk(&self, profile: &Profile, rigidity: f64, mut at: impl FnMut(usize, f64, f64, f64)) {
        walk(profile, rigidity, self.a, self.b, self.start, |i, w, slope, d| match self.hinge {
            Some(hinge) if hinge <= i => {
                let beyond = profile.x[i] - profile.x[hinge];
                at(i, w + self.kink * beyond, slope + self.kink, d);
            }
            _ => at(i, w, slope, d),
        });
    }
}

/// The deflected line of every span.
fn lines(profile: &Profile, rigidity: f64) -> Vec<Line> {
    let spans = profile.supports.len().saturating_sub(1);
    let mut lines: Vec<Line> =
        (0..spans).map(|index| Line::between(profile, rigidity, index)).collect();
    for right in 1..spans {
        let (before, after) = lines.split_at_mut(right);
        after[0].follow(profile, rigidity, &before[right - 1]);
    }
    for right in (1..spans).rev() {
        let (before, after) = lines.split_at_mut(right);
        before[right - 1].precede(profile, rigidity, &after[0]);
    }
    lines
}

/// Deflection and slope a distance `d` right of station `i`, from those at the station.
pub(super) fn step(
    profile: &Profile,
    rigidity: f64,
    i: usize,
    (w, slope): (f64, f64),
    d: f64,
) -> (f64, f64) {
    let (m, v, q) = (profile.moment[i], profile.shear[i], profile.uniform);
    (
        w + slope * d - (m * d * d / 2.0 + v * d.powi(3) / 6.0 - q * d.powi(4) / 24.0) / rigidity,
        slope - (m * d + v * d * d / 2.0 - q * d.powi(3) / 6.0) / rigidity,
    )
}

/// Integrates from station `a` to station `b`, calling `at(i, w, slope, interval)` at each start.
fn walk(
    profile: &Profile,
    rigidity: f64,
    a: usize,
    b: usize,
    start_slope: f64,
    mut at: impl FnMut(usize, f64, f64, f64),
) -> (f64, f64) {
    let mut state = (0.0, start_slope);
    for i in a..b {
        let d = profile.x[i + 1] - profile.x[i];
        at(i, state.0, state.1, d);
        state = step(profile, rigidity, i, state, d);
    }
    state
}

/// Deflection of the left end, integrating back from station `a`, and where that end is.
fn left_tip(profile: &Profile, rigidity: f64, a: usize, slope: f64) -> (f64, f64) {
    let mut state = (0.0, slope);
    for i in (0..a).rev() {
        let d = profile.x[i + 1] - profile.x[i];
        let (dw, dslope) = step(profile, rigidity, i, (0.0, 0.0), d);
        let slope_at_start = state.1 - dslope;
        state = (state.0 - slope_at_start * d - dw, slope_at_start);
    }
    (state.0, profile.x[0])
}

/// Where within the interval the slope passes through zero.
///
/// The slope rises or falls throughout between zeros of the moment, so each of the up to three
/// pieces these cut the interval into holds at most one turning point.
fn turning_points(
    profile: &Profile,
    rigidity: f64,
    i: usize,
    slope: f64,
    d: f64,
) -> impl Iterator<Item = f64> {
    let slope_at = move |t: f64| step(profile, rigidity, i, (0.0, slope), t).1;
    let [first, second] = zero_moments(profile, i).map(|t| t.max(0.0).min(d));
    let cuts = [0.0, first.min(second), first.max(second), d];
    (0..3).filter_map(move |piece| zero_between(slope_at, cuts[piece], cuts[piece + 1]))
}

/// Distances right of station `i` where `m + v·t − q·t²/2` is zero, beyond the interval if it
/// never is; where it only comes near zero, the place it does so.
fn zero_moments(profile: &Profile, i: usize) -> [f64; 2] {
    let (m, v, q) = (profile.moment[i], profile.shear[i], profile.uniform);
    let sum = v + (v * v + 2.0 * q * m).max(0.0).sqrt().copysign(v);
    // Of a constant moment 0/0 may come out, which `max` and `min` take for either end.
    [sum / q, -2.0 * m / sum]
}

/// Zero of a function that rises or falls throughout: false position, halving the end that stays.
/// The functions are cubics, so a few steps pin it far below any printed digit.
fn zero_between(f: impl Fn(f64) -> f64, mut lo: f64, mut hi: f64) -> Option<f64> {
    let (mut f_lo, mut f_hi) = (f(lo), f(hi));
    if f_lo * f_hi >= 0.0 {
        return None;
    }
    let mut t = hi;
    for _ in 0..12 {
        t = hi - f_hi * (hi - lo) / (f_hi - f_lo);
        let f_t = f(t);
        if f_t * f_hi < 0.0 {
            lo = hi;
            f_lo = f_hi;
        } else {
            f_lo /= 2.0;
        }
        hi = t;
        f_hi = f_t;
        if f_t == 0.0 {
            break;
        }
    }
    Some(t)
}
