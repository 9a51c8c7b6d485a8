//! `POST /v1/layouts`: request in, layout with its checks out.

use crate::model::fault::Fault;
use crate::model::layout::{LayoutAnswer, LayoutRequest};
use crate::parts::take_off::take_off;
use crate::placement::Job;
use crate::placement::layout::{Layout, lay_out};

use super::intake::{self, Taken};
use super::request::Request;
use super::{answer, trace};

/// What the caller asks of the answer beyond the layout.
#[derive(Debug, Clone, Copy, Default)]
pub struct Options {
    /// List every quantity with symbol, value, unit and clause.
    pub trace: bool,
}

impl Request for LayoutRequest {
    type Answer = LayoutAnswer;

    fn answer(&self, input_digest: String, options: &Options) -> Result<LayoutAnswer, Vec<Fault>> {
        run(self, input_digest, options)
    }
}

/// Lays out a job. Pure: the same request gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run(
    request: &LayoutRequest,
    input_digest: String,
    options: &Options,
) -> Result<LayoutAnswer, Vec<Fault>> {
    let (job, layout, mut answer) = laid_out(request)?;
    answer.reference.clone_from(&request.reference);
    answer.input_digest = input_digest;
    if options.trace {
        answer.trace = Some(trace::lines(&job, &layout));
    }
    Ok(answer)
}

/// The job, its layout with the rails cut, and the answer without reference, digest and trace.
pub(super) fn laid_out(request: &LayoutRequest) -> Result<(Job, Layout, LayoutAnswer), Vec<Fault>> {
    let Taken { job, order, assumptions, remarks } = intake::take(request)?;
    let mut layout = lay_out(&job);
    let take_off = take_off(&job, &layout, &order);
    take_off.cut(&mut layout);
    let ordered =
        answer::Ordered { components: &request.components, order: &order, take_off: &take_off };
    let answer = answer::layout(&job, &layout, &ordered, assumptions, &remarks);
    Ok((job, layout, answer))
}
