//! The edge of a rigid plate that presses into plastic timber while screws hold the plate down.
//!
//! **Model.** Moments turn the plate about one of its edges. There the timber yields along a strip of
//! length `a` under a constant force per length `q`, spread beyond the edge by `s`, so that its
//! resultant `C = q·(a + min(a, s))` acts `a/2` inside the edge. Only screws in the far half pull:
//! timber is soft across the grain, the neutral axis lies far in and near screws stand in the pressed
//! part. With `d_i` a screw's distance from the edge, `d_f` the largest, `w_i = max(d_i - d_f/2, 0)`
//! and `y = Σ w·d/Σ w` the resultant of the pulls, the balance of moments about that resultant leaves
//! `C·(y - a/2) = M + N·y`, whose smaller root is `a`, and the balance of forces `T = C - N`.
//!
//! No screw pulls less than on a sharp edge, `T_i = M·d_i/Σd²`: with a strip of no length that is
//! what statics and elastic screws give. A strip may grow to `d_f/2`; a moment that asks for more
//! makes the timber fail, and the pulls are told for the longest strip.
//!
//! **Convex.** Pulls are convex functions of moment and normal force, and rise with the moment, as
//! long as the timber does not fail; the utilisation of the timber is convex and linear.
//!
//! **Layer.** Knows no hook and no code: forces, lengths and `q` come in as plain numbers (N, mm).
//!
//! **Checked by** own derivation with worked cases (`tests/reference/cases/models`), and
//! against an elastic and a plastic plate of many fibres (own calculation).

/// An edge a plate may be pressed on, with the screws beyond it.
#[derive(Debug, Clone, PartialEq)]
pub struct PressedEdge {
    screws: Vec<Lever>,
    /// From the edge to the resultant of the far half's pulls, `y`.
    resultant: f64,
    /// How far pressure spreads beyond the edge, `s`.
    spread: f64,
    /// Longest strip.
    longest: f64,
    /// Moment about the resultant that the longest strip balances, per force per length.
    most: f64,
}

/// What a screw pulls on an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lever {
    /// Per moment about the sharp edge, `d/Σd²`.
    pub sharp: f64,
    /// Of all that is pulled where a strip is pressed, `w/Σw`.
    pub share: f64,
}

/// A plate in balance on an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Moment of the loads about the edge, 0 where it turns the plate the other way.
    pub moment: f64,
    /// All that is pulled.
    pub pull: f64,
    /// What the timber presses back with.
    pub compression: f64,
    /// Length of the strip.
    pub strip: f64,
    /// Utilisation of the timber.
    pub used: f64,
}

impl Balance {
    /// Nothing presses or pulls.
    pub const NONE: Self = Self { moment: 0.0, pull: 0.0, compression: 0.0, strip: 0.0, used: 0.0 };

    /// Pull on a screw.
    #[must_use]
    #[inline]
    pub const fn on(&self, screw: &Lever) -> f64 {
        (self.moment * screw.sharp).max(self.pull * screw.share)
    }
}

impl PressedEdge {
    /// An edge with screws at these distances from it, beyond which pressure spreads so far.
    ///
    /// Screws on the edge or outside of it pull nothing; an edge without any other bears no moment.
    #[must_use]
    pub fn new(distances: impl Iterator<Item = f64> + Clone, spread: f64) -> Self {
        let inside = distances.map(|d| d.max(0.0));
        let far = inside.clone().fold(0.0, f64::max);
        let squares: f64 = inside.clone().map(|d| d * d).sum();
        let weight = |d: f64| (d - far / 2.0).max(0.0);
        let weights: f64 = inside.clone().map(weight).sum();
        let per = |part: f64, whole: f64| if whole > 0.0 { part / whole } else { 0.0 };
        let screws = inside
            .clone()
            .map(|d| Lever { sharp: per(d, squares), share: per(weight(d), weights) })
            .collect();
        let resultant = per(inside.map(|d| d * weight(d)).sum(), weights);
        // Beyond `y - s/2` a longer strip balances less.
        let half = far / 2.0;
        let longest =
            if half > spread { spread.max(half.min(resultant - spread / 2.0)) } else { half };
        let most = (longest + longest.min(spread)) * (resultant - longest / 2.0);
        Self { screws, resultant, spread, longest, most }
    }

    /// The screws, in the order they were given.
    #[must_use]
    pub fn screws(&self) -> &[Lever] {
        &self.screws
    }

    /// From the edge to the resultant of the pulls.
    #[must_use]
    pub const fn resultant(&self) -> f64 {
        self.resultant
    }

    /// How far pressure spreads beyond the edge.
    #[must_use]
    pub const fn spread(&self) -> f64 {
        self.spread
    }

    /// Length a strip may have.
    #[must_use]
    pub const fn longest(&self) -> f64 {
        self.longest
    }

    /// Moment about that resultant the longest strip balances, on timber that bears `q` per length.
    #[must_use]
    pub fn most_moment(&self, q: f64) -> f64 {
        self.most * q
    }

    /// Moment of the loads about that resultant, from theirs about the edge and their normal force.
    #[must_use]
    #[inline]
    pub fn about_resultant(&self, moment: f64, normal: f64) -> f64 {
        moment + normal * self.resultant
    }

    /// Largest pull of a screw per moment about the edge, however strong the timber.
    #[must_use]
    pub fn least_lever(&self) -> f64 {
        let per_share = if self.resultant > 0.0 { 1.0 / self.resultant } else { 0.0 };
        self.screws.iter().map(|s| s.sharp.max(s.share * per_share)).fold(0.0, f64::max)
    }

    /// The plate under a moment of its loads about the edge and their normal force, positive where
    /// it presses, on timber that bears `q` per length.
    #[must_use]
    pub fn balance(&self, moment: f64, normal: f64, q: f64) -> Balance {
        let y = self.resultant;
        let about_resultant = self.about_resultant(moment, normal);
        let sharp = moment.max(0.0);
        if y <= 0.0 {
            // Every screw stands on the edge: none has an arm to hold the plate against a moment.
            let used = if sharp > 0.0 { f64::INFINITY } else { 0.0 };
            return Balance { moment: sharp, used, ..Balance::NONE };
        }
        if about_resultant <= 0.0 {
            // Nothing presses here: the screws alone balance the moment.
            return Balance { moment: sharp, pull: sharp / y, ..Balance::NONE };
        }
        let asked = about_resultant / q;
        let used = asked / self.most;
        let strip = if used < 1.0 { self.strip(asked) } else { self.longest };
        let compression = about_resultant / (y - strip / 2.0);
        Balance { moment: sharp, pull: (compression - normal).max(0.0), compression, strip, used }
    }

    /// Length of the strip that balances a moment about the resultant, both per `q`.
    fn strip(&self, asked: f64) -> f64 {
        let (y, s) = (self.resultant, self.spread);
        // While the strip is shorter than the spread, C = 2qa; then C = q(a + s).
        if asked <= 2.0 * s * (y - s / 2.0) {
            y - (y * y - asked).max(0.0).sqrt()
        } else {
            let from = y - s / 2.0;
            from - (from * from - 2.0 * (asked - s * y)).max(0.0).sqrt()
        }
    }
}
