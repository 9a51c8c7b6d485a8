//! What a computation takes of the processor.

use std::time::Duration;

/// Runs a computation and says how long its thread has used the processor for it.
pub fn metered<R>(computation: impl FnOnce() -> R) -> (R, Duration) {
    let begin = now();
    let result = computation();
    (result, now().saturating_sub(begin))
}

/// Time this thread has used the processor.
#[cfg(unix)]
fn now() -> Duration {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ThreadCPUTime);
    Duration::try_from(time).unwrap_or_default()
}

/// Where the system does not tell, the time that has passed: never less than what was used.
#[cfg(not(unix))]
fn now() -> Duration {
    static BEGIN: std::sync::OnceLock<std::time::Instant> = std::sync::OnceLock::new();
    BEGIN.get_or_init(std::time::Instant::now).elapsed()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_counts_and_waiting_does_not() {
        let ((), waited) = metered(|| std::thread::sleep(Duration::from_millis(50)));
        let begin = now();
        let ((), worked) = metered(|| {
            while now().saturating_sub(begin) < Duration::from_millis(20) {
                std::hint::black_box(0);
            }
        });
        assert!(worked >= Duration::from_millis(19), "{worked:?}");
        assert!(waited < worked, "{waited:?}");
    }
}
