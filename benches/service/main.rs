//! The service as callers meet it: the real program as a child process, over real connections and
//! pipes on this machine.
//!
//! * [`http`]: single requests against a route that does nothing with the same bytes.
//! * [`overload`]: single requests at several times the rate the service can do.
//! * [`batch`]: batches and files of jobs against the same jobs computed one after another here.
//!
//! The caller shares the cores with the service, so rates are lower than those of a machine of its
//! own; what is compared is measured in one run, by the same caller. `-- --full` takes longer and
//! sends a million lines.

mod batch;
mod child;
#[path = "../figures/mod.rs"]
mod figures;
mod http;
mod load;
mod overload;
#[path = "../scenes/mod.rs"]
mod scenes;

use std::time::Duration;

/// That of the service.
#[global_allocator]
static ALLOCATOR: mimalloc::MiMalloc = mimalloc::MiMalloc;

/// How much is asked.
#[derive(Debug, Clone, Copy)]
struct Effort {
    /// How long each load lasts.
    load: Duration,
    /// Lines of a batch of layouts or rechecks.
    lines: usize,
    /// Lines of the batches whose memory is looked at.
    many_lines: &'static [usize],
}

const QUICK: Effort = Effort { load: Duration::from_secs(3), lines: 600, many_lines: &[10_000] };
const FULL: Effort =
    Effort { load: Duration::from_secs(15), lines: 10_000, many_lines: &[10_000, 1_000_000] };

fn main() {
    if http::is_the_echo() {
        return http::serve_the_echo();
    }
    let full = std::env::args().any(|argument| argument == "--full");
    let effort = if full { FULL } else { QUICK };
    // One thread for the caller; the service has as many as there are cores.
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtime = runtime.expect("a runtime starts");
    runtime.block_on(http::measure(&effort));
    runtime.block_on(overload::measure(&effort));
    runtime.block_on(batch::measure(&effort));
}

/// Cores the service may use.
fn cores() -> usize {
    std::thread::available_parallelism().map_or(1, usize::from)
}
