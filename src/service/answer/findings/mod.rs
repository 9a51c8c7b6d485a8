//! What is worth a warning in a layout and in a job as built.

mod built;
mod details;
mod ends;
mod fit;
mod footing;
mod members;
mod rails;
mod splices;
mod strength;
mod surroundings;

pub use built::of as of_built;
pub use rails::{cure, label};

use crate::parts::take_off::TakeOff;
use crate::placement::Job;
use crate::placement::layout::Layout;
use crate::service::intake::Remarks;
use crate::service::warnings::Warnings;

/// Every warning of a layout.
pub fn of(job: &Job, layout: &Layout, take_off: &TakeOff, remarks: &Remarks) -> Warnings {
    let mut out = Warnings::default();
    rails::rails(job, layout, &mut out);
    ends::free_ends(job, layout, &mut out);
    ends::course_lines(job, layout, &mut out);
    if let Some(footing) = layout.footings.first() {
        footing::no_stack(job, footing, &mut out);
        footing::screws(job, footing, "", &mut out);
    }
    fit::fit(job, layout, fit::Rails::Movable, &mut out);
    members::out_of_reach(job, layout, &mut out);
    splices::splices(job, layout, take_off, &mut out);
    whole_job(job, layout, remarks, &mut out);
    out
}

/// Every warning that rests on the actions alone.
pub fn of_actions(remarks: &Remarks) -> Warnings {
    let mut out = Warnings::default();
    details::from_the_request(remarks, &mut out);
    out
}

/// What is looked at alike whether hooks are proposed or built.
fn whole_job(job: &Job, layout: &Layout, remarks: &Remarks, out: &mut Warnings) {
    rails::rails_that_meet(job, layout, out);
    ends::short_sides(job, layout, out);
    surroundings::surroundings(job, layout, out);
    footing::feet(job, layout, out);
    members::arms(job, layout, out);
    members::tiles(job, layout, out);
    members::modules(job, layout, out);
    members::rafters(job, layout, out);
    details::details(job, layout, out);
    details::from_the_request(remarks, out);
}
