//! What every kind of job has in common: a request, the digest that names it, the pipeline that
//! answers it. Routes, the command line and batches know jobs by this and by nothing else.

use serde::Serialize;

use crate::effort::Effort;
use crate::language::Reader;
use crate::wire::fault::Fault;
use crate::wire::remarks::Verdict;

use super::answer::Summarised;

/// What the caller asks of an answer beyond the job.
#[derive(Debug, Clone, Default)]
pub struct Options {
    /// List every quantity with symbol, value, unit and clause.
    pub trace: bool,
    /// Who reads its sentences.
    pub reader: Reader,
    /// What it may take.
    pub effort: Effort,
    /// Answer in short.
    pub summary: bool,
    /// Most that a job may ask for in `wishes.search_limit`, where that is less than its schema allows.
    pub search_limit: Option<u64>,
}

/// A request that one pure pipeline answers.
pub trait Request {
    /// What it is answered with.
    type Answer: Serialize + Summarised;

    /// Members of the request that are no part of the job, such as what an earlier answer said and what
    /// else is to be told: the digest leaves them out.
    const APART: &'static [&'static str] = &[];

    /// The answer. Pure: the same request gives the same answer.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see.
    fn answer(&self, input_digest: String, options: &Options) -> Result<Self::Answer, Vec<Fault>>;

    /// The verdict of an answer, where its kind has one.
    fn verdict(answer: &Self::Answer) -> Option<Verdict>;

    /// Whether a limit ended one of the searches of an answer; nothing where it needed none.
    fn cut_short(answer: &Self::Answer) -> Option<bool>;
}
