//! Overload: layouts in an open loop at one, two, five and ten times the rate the service can do, how
//! long the accepted ones take, how soon the others are refused, and whether it is over at once.
//!
//! The rate it can do is that of a closed loop which keeps every place busy and the queue short.

use crate::Effort;
use crate::child::Server;
use crate::figures::{figure, percentile, time};
use crate::load::{Answered, Target, closed_loop, open_loop};
use crate::scenes::KINDS;

/// Multiples of the rate the service can do.
const TIMES: [f64; 4] = [1.0, 2.0, 5.0, 10.0];

/// Share of that rate which it has to bear with ease, before and after.
const EASE: f64 = 0.5;

/// Latencies by multiple, then those after all is over.
pub async fn measure(effort: &Effort) {
    let service = Server::service();
    let [layouts, ..] = KINDS;
    let target = Target { address: service.address, path: layouts.path, body: layouts.body.into() };
    closed_loop(&target, effort.load / 4).await;
    let rate = closed_loop(&target, effort.load).await;
    figure("overload", "layouts: highest rate", rate, "/s");
    let before =
        late(&mut open_loop(&target, EASE * rate, effort.load).await, "half of it, before");
    let mut at_one = None;
    for times in TIMES {
        let mut found = open_loop(&target, times * rate, effort.load).await;
        let name = format!("{times} times");
        let late = late(&mut found, &name);
        let one = *at_one.get_or_insert(late);
        let name = |what: &str| format!("layouts, {name}: {what}");
        figure("overload", &name("p99 of the accepted over that at 1"), late / one, "");
        let goodput = found.answered.len() as f64 / effort.load.as_secs_f64() / rate;
        figure("overload", &name("accepted over the highest rate"), goodput, "");
        let refused = found.refused.len() as f64;
        let all = refused + found.answered.len() as f64;
        figure("overload", &name("refused of all"), refused / all, "");
        if !found.refused.is_empty() {
            for (what, share) in [("p50", 0.5), ("p99", 0.99), ("longest", 1.0)] {
                let took = percentile(&mut found.refused, share);
                time("overload", &name(&format!("{what} of a refusal")), took);
            }
        }
    }
    let after = late(&mut open_loop(&target, EASE * rate, effort.load).await, "half of it, after");
    figure("overload", "layouts: p99 at half of it, after over before", after / before, "");
    figure("overload", "memory of the service, most", service.most_memory_mb(), "MB");
}

/// Prints the median and the p99 of the accepted; the latter in seconds.
fn late(found: &mut Answered, name: &str) -> f64 {
    let [median, late] = [0.5, 0.99].map(|share| percentile(&mut found.answered, share));
    time("overload", &format!("layouts, {name}: p50 of the accepted"), median);
    time("overload", &format!("layouts, {name}: p99 of the accepted"), late);
    late.as_secs_f64()
}
