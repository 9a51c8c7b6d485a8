//! What a key may do in a window of time, and how much of that is left: requests, and seconds of the
//! processor.
//!
//! Both are buckets that fill evenly: a quota of 600 in 60 s is 600 at once after a pause, and ten a
//! second in the long run. A request is taken from its bucket before it is served. Processor time is
//! known only afterwards, so its bucket may fall below zero, and nothing more is served until it has
//! filled again. That is why it is no limiter of the library, which takes in advance or not at all.

use std::num::NonZeroU32;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::{Duration, Instant};

use governor::clock::{Clock, DefaultClock};
use governor::middleware::StateInformationMiddleware;
use governor::state::{InMemoryState, NotKeyed};
use governor::{Quota, RateLimiter};
use tokio::sync::Semaphore;

/// So much in a window of time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Allowed {
    /// How much.
    pub quota: NonZeroU32,
    /// The window, s.
    pub window_s: NonZeroU32,
}

impl Allowed {
    /// The time in which one unit is filled up.
    fn each(self) -> Duration {
        Duration::from_secs(self.window_s.get().into()) / self.quota.get()
    }
}

/// What is left of a quota, and after how many seconds there is as much again as there can be, or
/// anything where nothing is left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Standing {
    /// Units left.
    pub left: u32,
    /// Seconds.
    pub reset_s: u32,
}

/// Everything that is counted for one key.
#[derive(Debug)]
pub struct Meter {
    /// Requests in a window.
    pub requests: Requests,
    /// Processor time in a window.
    pub cpu: Cpu,
    /// Requests under way.
    pub at_once: Arc<Semaphore>,
}

impl Meter {
    /// A meter with full quotas of requests and seconds of the processor.
    #[must_use]
    pub fn new(requests: Allowed, cpu_s: Allowed, at_once: usize) -> Self {
        Self {
            requests: Requests::new(requests),
            cpu: Cpu::new(cpu_s),
            at_once: Arc::new(Semaphore::new(at_once)),
        }
    }
}

/// Requests in a window.
#[derive(Debug)]
pub struct Requests {
    allowed: Allowed,
    limiter: RateLimiter<NotKeyed, InMemoryState, DefaultClock, StateInformationMiddleware>,
}

impl Requests {
    fn new(allowed: Allowed) -> Self {
        // The limits of the file keep a window from being too short for its quota.
        let quota =
            Quota::with_period(allowed.each()).unwrap_or_else(|| Quota::per_second(allowed.quota));
        let limiter = RateLimiter::direct(quota.allow_burst(allowed.quota));
        Self { allowed, limiter: limiter.with_middleware() }
    }

    /// Takes one more.
    ///
    /// # Errors
    /// The standing where none is left.
    pub fn take(&self) -> Result<Standing, Standing> {
        match self.limiter.check() {
            Ok(state) => {
                let left = state.remaining_burst_capacity();
                let missing = self.allowed.quota.get().saturating_sub(left);
                let reset_s = seconds(self.allowed.each().mul_f64(f64::from(missing)));
                Ok(Standing { left, reset_s })
            }
            Err(not_until) => {
                let wait = not_until.wait_time_from(self.limiter.clock().now());
                Err(Standing { left: 0, reset_s: seconds(wait).max(1) })
            }
        }
    }
}

/// Processor time in a window.
#[derive(Debug)]
pub struct Cpu {
    allowed: Allowed,
    balance: Mutex<Balance>,
}

#[derive(Debug)]
struct Balance {
    seconds: f64,
    at: Instant,
}

impl Cpu {
    fn new(allowed: Allowed) -> Self {
        let seconds = f64::from(allowed.quota.get());
        Self { allowed, balance: Mutex::new(Balance { seconds, at: Instant::now() }) }
    }

    /// A computation has taken so much.
    pub fn spend(&self, cpu: Duration) {
        self.balance(Instant::now(), cpu.as_secs_f64());
    }

    /// How long it takes until there is any left; nothing where there is.
    pub fn wait(&self) -> Option<Duration> {
        let balance = self.balance(Instant::now(), 0.0);
        // A little more than nothing, so that who waits does not wake too early.
        (balance <= 0.0).then(|| Duration::from_secs_f64((0.001 - balance) / self.rate()))
    }

    /// What is left.
    pub fn standing(&self) -> Standing {
        let balance = self.balance(Instant::now(), 0.0);
        let wanted = if balance > 0.0 { f64::from(self.allowed.quota.get()) } else { 0.001 };
        let reset = Duration::from_secs_f64((wanted - balance).max(0.0) / self.rate());
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between zero and the quota"
        )]
        let left = balance.max(0.0).floor() as u32;
        Standing { left, reset_s: seconds(reset) }
    }

    /// Seconds of the processor for each second that passes.
    fn rate(&self) -> f64 {
        f64::from(self.allowed.quota.get()) / f64::from(self.allowed.window_s.get())
    }

    fn balance(&self, now: Instant, spent: f64) -> f64 {
        let mut balance = self.balance.lock().unwrap_or_else(PoisonError::into_inner);
        let filled =
            balance.seconds + now.saturating_duration_since(balance.at).as_secs_f64() * self.rate();
        balance.seconds = filled.min(f64::from(self.allowed.quota.get())) - spent;
        balance.at = now;
        balance.seconds
    }
}

/// Whole seconds, rounded up.
fn seconds(time: Duration) -> u32 {
    let whole = time.as_secs() + u64::from(time.subsec_nanos() > 0);
    u32::try_from(whole).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn allowed(quota: u32, window_s: u32) -> Allowed {
        let some = |number| NonZeroU32::new(number).expect("not zero");
        Allowed { quota: some(quota), window_s: some(window_s) }
    }

    #[test]
    fn requests_are_taken_until_none_is_left() {
        let requests = Requests::new(allowed(3, 3600));
        let left: Vec<u32> = (0..3).map(|_| requests.take().expect("one is left").left).collect();
        assert_eq!(left, [2, 1, 0]);
        let refused = requests.take().expect_err("none is left");
        assert_eq!(refused.left, 0);
        assert!((1199..=1200).contains(&refused.reset_s), "{refused:?}: a third of the window");
    }

    #[test]
    fn processor_time_is_billed_afterwards_and_paid_back() {
        let cpu = Cpu::new(allowed(10, 100));
        assert_eq!(cpu.standing(), Standing { left: 10, reset_s: 0 });
        assert_eq!(cpu.wait(), None);
        cpu.spend(Duration::from_secs(12));
        let wait = cpu.wait().expect("it has to be paid back").as_secs_f64();
        assert!((19.9..20.1).contains(&wait), "2 s at 0.1 a second: {wait}");
        assert_eq!(cpu.standing().left, 0);
        let later = Instant::now() + Duration::from_secs(70);
        let balance = cpu.balance(later, 0.0);
        assert!((balance - 5.0).abs() < 0.1, "{balance}");
        let much_later = later + Duration::from_secs(3600);
        assert!((cpu.balance(much_later, 0.0) - 10.0).abs() < 1e-9, "never more than the quota");
    }
}
