//! Into which pieces a rail segment may be cut: the rules for its splices, and every way worth
//! weighing to keep them.
//!
//! **Rules** (trade practice; hook suppliers' advice agrees on the first three):
//! 1. every piece lies on two hooks or more, so that no splice is in a free end or in an end span;
//! 2. a splice keeps off hooks and clamps: no arm and no clamp within its length;
//! 3. it keeps out of the middle third of a span, where the rail is bent most between hooks;
//! 4. no piece is shorter than the least length.
//!
//! An expansion gap is the end of a segment, so no splice lies across one. Where no choice of
//! places keeps all rules, they are given up in the order of [`Kept`]: the first level at which
//! the segment can be made up at all is taken. The fourth rule is never given up; a segment no
//! longer than the longest bar is one piece, however short.
//!
//! **Places.** A splice could lie anywhere in its allowed stretches. Weighed are
//! * in each allowed stretch of a span, the place nearest to the quarter point of its half, where
//!   a continuous rail is bent least; in a stretch of a free end, the place nearest to the hook;
//! * where whole bars laid from either end would meet, up to [`WHOLE_BARS`] of each stock length;
//! * the farthest allowed places that longest bars laid from either end reach, one by one;
//! * at the last level, the places that make equal pieces.
//!
//! **Fewest pieces.** Of all sequences of places those with the fewest pieces are
//! [cuttings](Cutting): a splice is a weak point, a part to buy and work on the roof, so none is
//! added to save rail. Which of them saves rail is for [`super::cutting`] to find.
//!
//! **Units.** Whole tenths of a millimetre, from the left end of the segment.
//!
//! **Checked by** `tests/properties/cutting.rs`: every rule on every plan; levels and numbers of
//! pieces against a program of its own.

/// Most bars of one length laid in a row, as far as whole bars are looked for.
pub const WHOLE_BARS: i64 = 8;
/// Most cuttings weighed for one segment.
pub const MOST_CUTTINGS: usize = 400;

/// A rail segment to be made up of pieces.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Run {
    /// Its length.
    pub length: i64,
    /// Arms of its hooks, left to right.
    pub hooks: Vec<i64>,
    /// Stretches clamps cover, left to right.
    pub clamps: Vec<[i64; 2]>,
    /// Splices that are where they are, because the statics counted on them as hinges.
    pub hinges: Option<Vec<i64>>,
}

/// What every segment of a job is cut by.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rules {
    /// Stock lengths, shortest first, none twice; at least one, and none is zero.
    pub stock: Vec<i64>,
    /// Least length of a piece; no more than half the longest stock length.
    pub min_piece: i64,
    /// Half the length a splice takes.
    pub splice_half: i64,
    /// Half the width of an arm.
    pub arm_half: i64,
}

/// Which rules the splices of a segment keep, strictest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kept {
    /// All.
    All,
    /// All but the middle third.
    MiddleThirdUsed,
    /// Pieces on a single hook too: splices in end spans.
    EndSpanUsed,
    /// Pieces without hooks too: splices in free ends.
    FreeEndUsed,
    /// None but the least length.
    None,
}

impl Kept {
    /// Every level, strictest first.
    pub const ALL: [Self; 5] =
        [Self::All, Self::MiddleThirdUsed, Self::EndSpanUsed, Self::FreeEndUsed, Self::None];

    /// Fewest hooks under a piece.
    const fn hooks_per_piece(self) -> usize {
        match self {
            Self::All | Self::MiddleThirdUsed => 2,
            Self::EndSpanUsed => 1,
            Self::FreeEndUsed | Self::None => 0,
        }
    }
}

/// One way to make up a segment.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cutting {
    /// Where its pieces meet, left to right.
    pub splices: Vec<i64>,
    /// Lengths of its pieces, longest first.
    pub pieces: Vec<i64>,
}

/// Every way to make up a segment that is weighed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Cuttings {
    /// Rules they keep.
    pub kept: Kept,
    /// The ways; no two give the same pieces.
    pub ways: Vec<Cutting>,
    /// False when there were more than [`MOST_CUTTINGS`].
    pub complete: bool,
}

impl Rules {
    fn longest(&self) -> i64 {
        self.stock.last().copied().unwrap_or(1)
    }

    /// Every way to make up a segment that is weighed: one at least.
    #[must_use]
    pub fn cuttings(&self, run: &Run) -> Cuttings {
        if let Some(hinges) = &run.hinges {
            let kept = Kept::ALL.into_iter().find(|kept| self.keeps(run, *kept, hinges));
            let ways = vec![self.cutting(run, hinges.clone())];
            return Cuttings { kept: kept.unwrap_or(Kept::None), ways, complete: true };
        }
        if run.length <= self.longest() {
            let ways = vec![self.cutting(run, Vec::new())];
            return Cuttings { kept: Kept::All, ways, complete: true };
        }
        for kept in Kept::ALL {
            let places = self.places(run, kept);
            if let Some((ways, complete)) = Paths::new(self, run, kept, &places).fewest() {
                let mut distinct: Vec<Cutting> = Vec::new();
                for splices in ways {
                    let cutting = self.cutting(run, splices);
                    if distinct.iter().all(|known| known.pieces != cutting.pieces) {
                        distinct.push(cutting);
                    }
                }
                return Cuttings { kept, ways: distinct, complete };
            }
        }
        // Not reached: equal pieces are always allowed at the last level. Bars end to end will do.
        let bars = (run.length - 1).div_euclid(self.longest());
        let splices = (1..=bars).map(|n| n * self.longest()).collect();
        let ways = vec![self.cutting(run, splices)];
        Cuttings { kept: Kept::None, ways, complete: false }
    }

    fn cutting(&self, run: &Run, splices: Vec<i64>) -> Cutting {
        let ends = splices.iter().copied().chain([run.length]);
        let starts = std::iter::once(0).chain(splices.iter().copied());
        // Rounding a hinge may make a piece a tenth longer than its bar.
        let mut pieces: Vec<i64> =
            starts.zip(ends).map(|(from, to)| (to - from).min(self.longest())).collect();
        pieces.sort_unstable_by(|a, b| b.cmp(a));
        Cutting { splices, pieces }
    }

    /// Whether splices that are given keep the rules of a level; the least length is not asked.
    fn keeps(&self, run: &Run, kept: Kept, splices: &[i64]) -> bool {
        let allowed = self.allowed(run, kept, 0);
        let mut from = 0;
        splices.iter().all(|x| allowed.iter().any(|[a, b]| a <= x && x <= b))
            && splices.iter().chain([&run.length]).all(|x| {
                let hooks = run.hooks.iter().filter(|h| from <= **h && *h <= x).count();
                from = *x;
                splices.is_empty() || hooks >= kept.hooks_per_piece()
            })
    }

    /// Stretches in which a splice may lie, left to right.
    fn allowed(&self, run: &Run, kept: Kept, min_piece: i64) -> Vec<[i64; 2]> {
        let mut barred: Vec<[i64; 2]> = Vec::new();
        if kept != Kept::None {
            let arm = self.splice_half + self.arm_half;
            barred.extend(run.hooks.iter().map(|h| [h - arm, h + arm]));
            barred.extend(
                run.clamps.iter().map(|c| [c[0] - self.splice_half, c[1] + self.splice_half]),
            );
        }
        if kept == Kept::All {
            barred.extend(run.hooks.windows(2).map(|span| {
                let third = (span[1] - span[0]) / 3;
                [span[0] + third, span[1] - third]
            }));
        }
        barred.sort_unstable();
        let end = run.length - min_piece;
        let mut allowed = Vec::with_capacity(barred.len() + 1);
        let mut from = min_piece;
        for [a, b] in barred {
            // The ends of a barred stretch are allowed.
            if a >= from && from <= end {
                allowed.push([from, a.min(end)]);
            }
            from = from.max(b);
        }
        if from <= end {
            allowed.push([from, end]);
        }
        allowed
    }

    /// The places weighed, left to right, none twice.
    fn places(&self, run: &Run, kept: Kept) -> Vec<i64> {
        let allowed = self.allowed(run, kept, self.min_piece.max(1));
        let mut places = Vec::new();
        // Both lists run from left to right; `first` is the first stretch not wholly behind.
        let mut first = 0;
        for span in run.hooks.windows(2) {
            let [left, right] = [span[0], span[1]];
            let quarter = (right - left) / 4;
            while first < allowed.len() && allowed[first][1] < left {
                first += 1;
            }
            for [a, b] in allowed[first..].iter().take_while(|[a, _]| *a <= right) {
                let [a, b] = [*a.max(&left), *b.min(&right)];
                if 2 * a < left + right {
                    places.push((left + quarter).clamp(a, b));
                }
                if 2 * b > left + right {
                    places.push((right - quarter).clamp(a, b));
                }
            }
        }
        if matches!(kept, Kept::FreeEndUsed | Kept::None)
            && let ([outer, ..], [.., last]) = (run.hooks.as_slice(), run.hooks.as_slice())
        {
            places.extend(allowed.iter().filter(|s| s[0] <= *outer).map(|s| s[1].min(*outer)));
            places.extend(allowed.iter().filter(|s| s[1] >= *last).map(|s| s[0].max(*last)));
        }
        let within = |x: i64| {
            let at = allowed.partition_point(|[_, b]| *b < x);
            allowed.get(at).is_some_and(|[a, _]| *a <= x)
        };
        for bar in &self.stock {
            for from_end in (1..=WHOLE_BARS).map(|n| n * bar).take_while(|x| *x < run.length) {
                places.extend([from_end, run.length - from_end].into_iter().filter(|x| within(*x)));
            }
        }
        self.farthest(run.length, &allowed, &mut places);
        if kept == Kept::None {
            let pieces = run.length.div_euclid(self.longest()) + 1;
            places.extend((1..pieces).map(|n| n * run.length / pieces));
        }
        places.sort_unstable();
        places.dedup();
        places
    }

    /// The farthest places longest bars reach from either end.
    fn farthest(&self, length: i64, allowed: &[[i64; 2]], places: &mut Vec<i64>) {
        let mut x = 0;
        while length - x > self.longest() {
            let reach = x + self.longest();
            let next = allowed[..allowed.partition_point(|[a, _]| *a <= reach)].last();
            match next.map(|[_, b]| reach.min(*b)) {
                Some(next) if next > x => x = next,
                _ => break,
            }
            places.push(x);
        }
        let mut x = length;
        while x > self.longest() {
            let reach = x - self.longest();
            let next = allowed.get(allowed.partition_point(|[_, b]| *b < reach));
            match next.map(|[a, _]| reach.max(*a)) {
                Some(next) if next < x => x = next,
                _ => break,
            }
            places.push(x);
        }
    }
}

/// Sequences of places from one end of a segment to the other.
struct Paths<'a> {
    rules: &'a Rules,
    hooks_per_piece: usize,
    /// Both ends and every place between, left to right.
    stops: Vec<i64>,
    /// Hooks left of each stop.
    hooks_before: Vec<usize>,
}

impl<'a> Paths<'a> {
    fn new(rules: &'a Rules, run: &Run, kept: Kept, places: &[i64]) -> Self {
        let stops: Vec<i64> =
            std::iter::once(0).chain(places.iter().copied()).chain([run.length]).collect();
        let before = |x: &i64| run.hooks.partition_point(|h| h < x);
        let mut hooks_before: Vec<usize> = stops.iter().map(before).collect();
        if let Some(last) = hooks_before.last_mut() {
            *last = run.hooks.len();
        }
        Self { rules, hooks_per_piece: kept.hooks_per_piece(), stops, hooks_before }
    }

    /// Stops at which a piece from this one may end.
    fn next(&self, from: usize) -> impl Iterator<Item = usize> + '_ {
        let start = self.stops[from];
        let longest = self.rules.longest();
        (from + 1..self.stops.len())
            .take_while(move |to| self.stops[*to] - start <= longest)
            .filter(move |to| {
                self.stops[*to] - start >= self.rules.min_piece
                    && self.hooks_before[*to] - self.hooks_before[from] >= self.hooks_per_piece
            })
    }

    /// Every sequence with the fewest pieces, and whether these are all; `None` if there is none.
    fn fewest(&self) -> Option<(Vec<Vec<i64>>, bool)> {
        const FAR: usize = usize::MAX;
        let last = self.stops.len() - 1;
        let mut left = vec![FAR; self.stops.len()];
        left[last] = 0;
        for from in (0..last).rev() {
            let nearest = self.next(from).map(|to| left[to]).min().unwrap_or(FAR);
            left[from] = nearest.saturating_add(1);
        }
        if left[0] == FAR {
            return None;
        }
        let mut ways = Vec::new();
        let mut way = Vec::with_capacity(left[0]);
        let complete = self.walk(0, &left, &mut way, &mut ways);
        Some((ways, complete))
    }

    fn walk(
        &self,
        from: usize,
        left: &[usize],
        way: &mut Vec<i64>,
        ways: &mut Vec<Vec<i64>>,
    ) -> bool {
        if left[from] == 1 {
            ways.push(way.clone());
            return true;
        }
        for to in self.next(from).filter(|to| left[*to] == left[from] - 1) {
            if ways.len() == MOST_CUTTINGS {
                return false;
            }
            way.push(self.stops[to]);
            let complete = self.walk(to, left, way, ways);
            way.pop();
            if !complete {
                return false;
            }
        }
        true
    }
}
