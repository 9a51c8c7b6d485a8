//! What is worth a warning in a layout.

mod details;
mod ends;
mod footing;
mod members;
mod rails;

use crate::jobs::intake::Remarks;
use crate::jobs::warnings::Warnings;
use crate::placement::Job;
use crate::placement::layout::Layout;

/// Every warning of a layout.
pub fn of(job: &Job, layout: &Layout, remarks: &Remarks) -> Warnings {
    let mut out = Warnings::default();
    rails::rails(job, layout, &mut out);
    rails::rails_that_meet(job, layout, &mut out);
    ends::free_ends(job, layout, &mut out);
    ends::course_lines(job, layout, &mut out);
    footing::footing(job, layout, &mut out);
    members::hooks(job, layout, &mut out);
    members::modules(job, layout, &mut out);
    members::rafters(job, layout, &mut out);
    details::details(job, layout, &mut out);
    details::from_the_request(remarks, &mut out);
    out
}
