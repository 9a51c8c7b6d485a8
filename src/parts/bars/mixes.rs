//! Mixes: how many bars of each stock length.
//!
//! There are few stock lengths, so mixes can be gone through in the order of what they cost, and
//! the cheapest that every [price list](PriceList) affords is a bound for all plans. It is sharper
//! than rounding the bound of each measure up: not every length is a sum of stock lengths, and a
//! mix is refused by one list or another where a sum of lengths would pass them all.
//!
//! **Method.** Depth first, longest bars first. What is bought already and the dearest of what the
//! lists still ask for is a bound for the rest.

use super::prices::PriceList;
use super::{Effort, Problem};

/// A price list and what all the pieces are worth in it.
#[derive(Debug, Clone)]
pub(super) struct Demand {
    pub(super) list: PriceList,
    pub(super) worth: i64,
}

impl Demand {
    pub(super) fn of(problem: &Problem, list: PriceList) -> Self {
        let worth = list.worth_of(&problem.groups);
        Self { list, worth }
    }

    /// What it costs at least to hold all of it.
    pub(super) fn cost(&self, costs: &[i64]) -> i64 {
        let Some(stock) = self.list.best_value(costs) else { return i64::MAX };
        let [bar, cost] = [self.list.bars[stock], costs[stock]].map(i128::from);
        let least = (i128::from(self.worth.max(0)) * cost + bar - 1) / bar;
        i64::try_from(least).unwrap_or(i64::MAX)
    }
}

/// What a search for the cheapest mix came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Cheapest {
    /// This one, cheaper than asked for; none is cheaper.
    Mix(Vec<i64>),
    /// No mix is cheaper than asked for.
    None,
    /// The effort was spent; this one is cheaper than asked for, if any was found.
    Unknown(Option<Vec<i64>>),
}

/// Lists that are asked at every step; all are asked at the end of each path.
const ASKED: usize = 12;

/// The cheapest mix that costs less than `below`, that every demand affords, and that is not among
/// those set aside.
pub(super) fn cheapest(
    demands: &[Demand],
    costs: &[i64],
    below: i64,
    aside: &[Vec<i64>],
    effort: &mut Effort,
) -> Cheapest {
    let mut sharpest: Vec<(i64, &Demand)> = demands
        .iter()
        .filter(|demand| demand.worth > 0)
        .map(|demand| (demand.cost(costs), demand))
        .collect();
    // Of equals the latest, which was made for mixes like these.
    sharpest.reverse();
    sharpest.sort_by_key(|(cost, _)| std::cmp::Reverse(*cost));
    if sharpest.first().is_some_and(|(least, _)| *least >= below) {
        return Cheapest::None;
    }
    let asked: Vec<Asked<'_>> =
        sharpest.iter().map(|(_, demand)| Asked::of(demand, costs)).collect();
    let mut missing: Vec<i64> = asked.iter().map(|asked| asked.demand.worth).collect();
    let mix = vec![0; costs.len()];
    let mut walk = Walk { asked, costs, aside, below, mix, best: None, effort, stopped: false };
    walk.from(costs.len(), 0, &mut missing);
    match (walk.stopped, walk.best) {
        (true, mix) => Cheapest::Unknown(mix),
        (false, Some(mix)) => Cheapest::Mix(mix),
        (false, None) => Cheapest::None,
    }
}

/// A demand, and which of the first stock lengths holds most for its cost.
struct Asked<'a> {
    demand: &'a Demand,
    /// The best of the first one, of the first two …, none where they hold nothing.
    best: Vec<Option<usize>>,
}

impl<'a> Asked<'a> {
    fn of(demand: &'a Demand, costs: &[i64]) -> Self {
        let best = (1..=costs.len()).map(|first| demand.list.best_value(&costs[..first]));
        Self { demand, best: best.collect() }
    }

    /// Whether so much worth in bars of the first stock lengths costs no less than this.
    fn costs_at_least(&self, limit: i64, worth: i64, first: usize, costs: &[i64]) -> bool {
        if worth <= 0 {
            return limit <= 0;
        }
        let Some(stock) = first.checked_sub(1).and_then(|last| self.best[last]) else {
            return true;
        };
        // Costs are whole: more than one less will do.
        let [bar, cost] = [self.demand.list.bars[stock], costs[stock]].map(i128::from);
        i128::from(worth) * cost > (i128::from(limit) - 1) * bar
    }
}

struct Walk<'a> {
    /// Sharpest first.
    asked: Vec<Asked<'a>>,
    costs: &'a [i64],
    aside: &'a [Vec<i64>],
    below: i64,
    mix: Vec<i64>,
    best: Option<Vec<i64>>,
    effort: &'a mut Effort,
    stopped: bool,
}

impl Walk<'_> {
    /// Chooses how many bars of the stock lengths before this one.
    fn from(&mut self, stock: usize, cost: i64, missing: &mut [i64]) {
        if self.stopped || !self.effort.spend((ASKED + missing.len()) as u64) {
            self.stopped = true;
            return;
        }
        let limit = self.below - cost;
        let mut asked = self.asked.iter().zip(&*missing).take(ASKED);
        if limit <= 0 || asked.any(|(a, worth)| a.costs_at_least(limit, *worth, stock, self.costs))
        {
            return;
        }
        let Some(stock) = stock.checked_sub(1) else {
            if missing.iter().all(|worth| *worth <= 0) && !self.aside.contains(&self.mix) {
                self.below = cost;
                self.best = Some(self.mix.clone());
            }
            return;
        };
        let mut bars = if stock == 0 { self.fewest_of_the_last(missing) } else { 0 };
        if bars.saturating_mul(self.costs[stock]) >= limit {
            return;
        }
        self.hold(stock, bars, missing);
        while !self.stopped && cost + bars * self.costs[stock] < self.below {
            self.mix[stock] = bars;
            self.from(stock, cost + bars * self.costs[stock], missing);
            self.hold(stock, 1, missing);
            bars += 1;
        }
        self.hold(stock, -bars, missing);
        self.mix[stock] = 0;
    }

    fn hold(&self, stock: usize, bars: i64, missing: &mut [i64]) {
        for (asked, worth) in self.asked.iter().zip(missing) {
            *worth -= asked.demand.list.bars[stock] * bars;
        }
    }

    /// The last length chosen has to hold all that is missing.
    fn fewest_of_the_last(&self, missing: &[i64]) -> i64 {
        let missing = self.asked.iter().zip(missing).filter(|(_, worth)| **worth > 0);
        let bars = missing.map(|(asked, worth)| match asked.demand.list.bars[0] {
            0 => i64::MAX,
            bar => (worth + bar - 1) / bar,
        });
        bars.max().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every mix of up to 15 bars of each of three lengths, gone through one by one.
    fn by_trial(demands: &[Demand], costs: &[i64], below: i64, aside: &[Vec<i64>]) -> Option<i64> {
        let mixes = (0..16 * 16 * 16).map(|n| vec![n % 16, n / 16 % 16, n / 256]);
        mixes
            .filter(|mix| demands.iter().all(|d| d.list.worth_of_bars(mix) >= d.worth))
            .filter(|mix| !aside.contains(mix))
            .map(|mix| costs.iter().zip(&mix).map(|(cost, bars)| cost * bars).sum())
            .filter(|cost| *cost < below)
            .min()
    }

    #[test]
    fn no_mix_that_is_left_is_cheaper() {
        let demand = |bars: [i64; 3], worth| Demand {
            list: PriceList { pieces: Vec::new(), bars: bars.to_vec() },
            worth,
        };
        let mut found = 0;
        for worth in 0..60 {
            let demands = [
                demand([48, 73, 125], 9 * worth),
                demand([0, 1, 2], worth / 9),
                demand([1, 1, 3], 7),
            ];
            for costs in [[48_001, 73_001, 125_001], [10_048, 10_073, 10_125]] {
                let mut aside = Vec::new();
                for below in [i64::from(i32::MAX), 300_000] {
                    let answer =
                        cheapest(&demands, &costs, below, &aside, &mut Effort::of(u64::MAX));
                    let least = by_trial(&demands, &costs, below, &aside);
                    match answer {
                        Cheapest::Mix(mix) => {
                            let cost: i64 = costs.iter().zip(&mix).map(|(c, n)| c * n).sum();
                            assert_eq!(Some(cost), least, "{worth}: {mix:?}");
                            aside.push(mix);
                            found += 1;
                        }
                        Cheapest::None => assert_eq!(least, None, "{worth}"),
                        Cheapest::Unknown(_) => panic!("the effort is unlimited"),
                    }
                }
            }
        }
        assert!(found > 100, "{found}");
    }
}
