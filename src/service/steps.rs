//! Steps of a job that no search counts.

use crate::placement::Job;
use crate::placement::laid::Layout;

/// Steps that everything beside the search of a layout is counted as, so that large jobs are tried less often: in
/// every combination eight for a place of a hook and 32 for a module, which take about as long.
#[must_use]
pub fn beside_the_search(job: &Job, layout: &Layout) -> u64 {
    let places: usize = layout.segments().map(|laid| laid.segment.candidates.len()).sum();
    let in_each = 8 * places + 32 * layout.modules.len();
    (in_each * job.actions.combinations.len()) as u64
}
