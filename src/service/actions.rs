//! `POST /v1/actions`: site, building and module in, what acts out.

use crate::language::Reader;
use crate::wire::actions::{ActionsAnswer, ActionsRequest};
use crate::wire::fault::Fault;
use crate::wire::remarks::Verdict;

use super::intake::{self, TakenActions};
use super::request::{Names, Options, Request};
use super::trace::Kind;
use super::{answer, trace};

impl Request for ActionsRequest {
    type Answer = ActionsAnswer;

    /// The trace is what is asked for here, so it is there whatever the options say.
    fn answer(&self, names: Names<'_>, options: &Options) -> Result<ActionsAnswer, Vec<Fault>> {
        run(self, names.input_digest, options.reader)
    }

    fn verdict(_: &ActionsAnswer) -> Option<Verdict> {
        None
    }

    fn cut_short(_: &ActionsAnswer) -> Option<bool> {
        None
    }
}

/// What acts. Pure: the same request gives the same answer.
///
/// # Errors
/// Every fault of the request that its schema cannot see.
pub fn run(
    request: &ActionsRequest,
    input_digest: String,
    reader: Reader,
) -> Result<ActionsAnswer, Vec<Fault>> {
    let TakenActions { rules, actions, module, assumptions, remarks } =
        intake::take_actions(request)?;
    let acting = (&actions, module);
    let mut answer = answer::actions_alone(rules, acting, &assumptions, &remarks, reader);
    answer.reference.clone_from(&request.reference);
    answer.input_digest = input_digest;
    answer.trace = trace::of_actions(&actions, &[Kind::only(module)], reader.language);
    Ok(answer)
}
