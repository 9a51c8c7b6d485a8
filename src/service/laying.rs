//! One layout of one slope: a request that is understood, laid out, counted and assessed, and what its
//! answer says of that.

use crate::assessment::{self, Assessment, Verdict};
use crate::effort::Effort;
use crate::language::Reader;
use crate::parts::take_off::{TakeOff, take_off};
use crate::placement::Job;
use crate::placement::laid::Layout;
use crate::placement::layout::{Took, counted};
use crate::wire::layout::{LayoutAnswer, LayoutRequest};

use super::answer;
use super::intake::Taken;

/// A job laid out, with its rails cut.
#[derive(Debug)]
pub struct Laid {
    /// What was understood.
    pub taken: Taken,
    /// The layout.
    pub layout: Layout,
    /// What that took.
    pub took: Took,
    /// What it is built of.
    pub take_off: TakeOff,
    /// What it comes to.
    pub assessed: Assessment,
}

impl Laid {
    /// Lays out what was understood, with so much effort.
    #[must_use]
    pub fn of(mut taken: Taken, effort: Effort) -> Self {
        taken.job.effort = effort;
        let (mut layout, took) = counted(&taken.job, &taken.kept);
        let take_off = take_off(&taken.job, &layout, &taken.order);
        take_off.on(0).cut(&mut layout);
        let assessed = assessment::of_layout(&taken.job, &layout, take_off.on(0), &taken.remarks);
        Self { taken, layout, took, take_off, assessed }
    }

    /// The job.
    #[must_use]
    pub const fn job(&self) -> &Job {
        &self.taken.job
    }

    /// Whether a check fails.
    #[must_use]
    pub fn fails(&self) -> bool {
        self.assessed.verdict() == Verdict::Fails
    }

    /// The same layout, assessed again where more is known of the request.
    pub fn understood_as(&mut self, taken: Taken) {
        let Self { layout, take_off, .. } = self;
        self.assessed = assessment::of_layout(&taken.job, layout, take_off.on(0), &taken.remarks);
        self.taken = taken;
    }

    /// What is ordered for it, as its request names the parts.
    #[must_use]
    pub fn ordered<'a>(&'a self, request: &'a LayoutRequest) -> answer::Ordered<'a> {
        answer::Ordered {
            components: &request.components,
            kept: &self.taken.kept,
            there: request.kept.as_ref(),
            order: &self.taken.order,
            take_off: &self.take_off,
        }
    }

    /// The answer without reference, digest, remedies, phases and trace.
    #[must_use]
    pub fn answer(&self, request: &LayoutRequest, reader: Reader) -> LayoutAnswer {
        let Self { taken, layout, assessed, .. } = self;
        let Taken { job, filled, assumptions, evidence, remarks, .. } = taken;
        let ordered = self.ordered(request);
        let judged = (remarks, assessed);
        let mut told = answer::layout(job, layout, &ordered, assumptions, judged, reader);
        told.evidence = answer::evidence(evidence);
        told.fields = answer::filled(job, filled);
        told
    }
}
