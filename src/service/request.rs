//! What every kind of job has in common: a request, the digest that names it, the pipeline that
//! answers it. Routes, the command line and batches know jobs by this and by nothing else.

use std::sync::Arc;

use serde::Serialize;

use crate::effort::Effort;
use crate::language::Reader;
use crate::wire::array::FilledField;
use crate::wire::fault::Fault;
use crate::wire::provenance::Assumption;
use crate::wire::remarks::Verdict;
use crate::wire::remedies::Edit;
use crate::wire::short::Completion;

use super::answer::Summarised;
use super::intake::short::{Completed, Said};
use super::signing::Signer;

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
    /// Who vouches for it.
    pub signer: Option<Arc<Signer>>,
}

/// Names a job by what was assumed of it, and by the fields that were filled; of a building that on one of its
/// slopes.
type KeyOf<'a> = dyn Fn(Option<usize>, &[Assumption], &[FilledField]) -> String + 'a;

/// Names the job that a request encloses, with edits made to it.
pub trait NamesJob {
    /// Digest of a request for its layout.
    fn digest_of_job(&self, edits: &[Edit]) -> String;

    /// The name of the job itself.
    fn key_of_job(&self, edits: &[Edit], assumed: &[Assumption], filled: &[FilledField]) -> String;
}

/// What a job is called. Who holds the document it came in says so.
#[derive(Clone, Default)]
pub struct Names<'a> {
    /// Digest of the request.
    pub input_digest: String,
    /// The name of the job itself, once it is known what was assumed of it.
    key: Option<&'a KeyOf<'a>>,
    /// The names of the job that the request encloses.
    enclosed: Option<&'a dyn NamesJob>,
}

impl<'a> Names<'a> {
    /// A job by the digest of its request, and by what names it once it is known what was assumed.
    pub fn new(input_digest: String, key: &'a KeyOf<'a>) -> Self {
        Self { input_digest, key: Some(key), enclosed: None }
    }

    /// The same for a request that encloses a job.
    #[must_use]
    pub fn enclosing(self, job: &'a dyn NamesJob) -> Self {
        Self { enclosed: Some(job), ..self }
    }

    /// The name of the job itself; empty where nobody gives it one.
    #[must_use]
    pub fn job_key(&self, assumed: &[Assumption], filled: &[FilledField]) -> String {
        self.key.map(|key| key(None, assumed, filled)).unwrap_or_default()
    }

    /// The name of the job on one slope of a building; empty where nobody gives it one.
    #[must_use]
    pub fn slope_key(
        &self,
        slope: usize,
        assumed: &[Assumption],
        filled: &[FilledField],
    ) -> String {
        self.key.map(|key| key(Some(slope), assumed, filled)).unwrap_or_default()
    }

    /// Digest of a request for a layout of the job that is enclosed, with edits made to it; empty where nobody gives it
    /// one.
    #[must_use]
    pub fn digest_of_job(&self, edits: &[Edit]) -> String {
        self.enclosed.map(|job| job.digest_of_job(edits)).unwrap_or_default()
    }

    /// The name of the job that is enclosed, with edits made to it; empty where nobody gives it one.
    #[must_use]
    pub fn key_of_job(
        &self,
        edits: &[Edit],
        assumed: &[Assumption],
        filled: &[FilledField],
    ) -> String {
        self.enclosed.map(|job| job.key_of_job(edits, assumed, filled)).unwrap_or_default()
    }
}

impl From<String> for Names<'_> {
    fn from(input_digest: String) -> Self {
        Self { input_digest, ..Self::default() }
    }
}

/// A request that one pure pipeline answers.
pub trait Request {
    /// What it is answered with.
    type Answer: Serialize + Summarised;

    /// Members of the request that are no part of the job, such as what an earlier answer said and what
    /// else is to be told: the digest leaves them out.
    const APART: &'static [&'static str] = &[];

    /// Where a request says how long its search may go on.
    const SEARCH_LIMIT: &'static str = "/wishes/search_limit";

    /// What completes a request of this kind that leaves out or names what is usual.
    #[must_use]
    fn completed(_: &dyn Said) -> Completed {
        Completed::default()
    }

    /// The same request, told what of it was completed.
    #[must_use]
    fn with_completions(self, _: Vec<Completion>) -> Self
    where
        Self: Sized,
    {
        self
    }

    /// The answer. Pure: the same request gives the same answer.
    ///
    /// # Errors
    /// Every fault of the request that its schema cannot see.
    fn answer(&self, names: Names<'_>, options: &Options) -> Result<Self::Answer, Vec<Fault>>;

    /// The verdict of an answer, where its kind has one.
    fn verdict(answer: &Self::Answer) -> Option<Verdict>;

    /// Whether a limit ended one of the searches of an answer; nothing where it needed none.
    fn cut_short(answer: &Self::Answer) -> Option<bool>;
}
