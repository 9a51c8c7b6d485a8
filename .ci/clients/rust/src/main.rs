//! Every kind of job through the generated Rust client, answers held in its types.

#[allow(clippy::all, dead_code, unused, irrefutable_let_patterns)]
mod client {
    include!(concat!(env!("OUT_DIR"), "/client.rs"));
}

use std::{error::Error, fmt::Debug, fs, future::poll_fn, path::PathBuf, process::ExitCode};

use client::{Client, types};
use progenitor_client::{ByteStream, Error as Refusal};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

type Outcome = Result<(), Box<dyn Error>>;

const FILES: [(&str, &str); 5] = [
    ("layout", "layout-barn"),
    ("recheck", "recheck-barn"),
    ("survey", "survey-barn"),
    ("actions", "actions-barn"),
    ("statement", "statement-trough-hook"),
];

macro_rules! hold {
    ($condition:expr) => {
        if !$condition {
            return Err(concat!("not so: ", stringify!($condition)).into());
        }
    };
}

/// What came for a job that is sent by itself, in full or in short.
macro_rules! asked {
    ($check:expr, $operation:ident, $request:ident, $kind:expr, $form:expr) => {{
        let body: types::$request = $check.job($kind)?;
        $check.client.$operation().answer($form).body(body).send().await?.into_inner()
    }};
}

fn unlike(kind: &str, came: &impl Debug) -> Outcome {
    Err(format!("for {kind} came {:.40}", format!("{came:?}")).into())
}

/// All bytes of an answer that the client gives as a stream.
async fn whole(stream: ByteStream) -> Result<Vec<u8>, Box<dyn Error>> {
    let mut stream = stream.into_inner();
    let mut bytes = Vec::new();
    while let Some(part) = poll_fn(|context| stream.as_mut().poll_next(context)).await {
        bytes.extend_from_slice(&part?);
    }
    Ok(bytes)
}

struct Check {
    client: Client,
    base: String,
    data: PathBuf,
}

impl Check {
    fn job<T: DeserializeOwned>(&self, kind: &str) -> Result<T, Box<dyn Error>> {
        let (_, file) = FILES.iter().find(|(name, _)| *name == kind).ok_or("no such kind")?;
        let text = fs::read_to_string(self.data.join(format!("{file}.json")))?;
        Ok(serde_json::from_str(&text)?)
    }

    async fn step(&self, name: &str) -> Outcome {
        match name {
            "layout" | "recheck" | "survey" | "actions" | "statement" => self.alone(name).await,
            "batch" => self.batch().await,
            "summary" => self.summary().await,
            "drawing" => self.paper("image/svg+xml", "<svg ").await,
            "sheet" => self.paper("text/html", "<html").await,
            "faults" => self.faults().await,
            other => Err(format!("no step {other}").into()),
        }
    }

    async fn alone(&self, kind: &str) -> Outcome {
        let full = types::AnswerForm::Full;
        match kind {
            "layout" => match asked!(self, create_layout, LayoutRequest, kind, full) {
                types::LayoutReply::LayoutAnswer(answer) => layout(&answer),
                other => unlike(kind, &other),
            },
            "recheck" => match asked!(self, create_recheck, RecheckRequest, kind, full) {
                types::RecheckReply::RecheckAnswer(answer) => recheck(&answer),
                other => unlike(kind, &other),
            },
            "survey" => match asked!(self, create_survey, SurveyRequest, kind, full) {
                types::SurveyReply::SurveyAnswer(answer) => survey(&answer),
                other => unlike(kind, &other),
            },
            "actions" => match asked!(self, show_actions, ActionsRequest, kind, full) {
                types::ActionsReply::ActionsAnswer(answer) => actions(&answer),
                other => unlike(kind, &other),
            },
            _ => match asked!(self, check_statement, StatementRequest, kind, full) {
                types::StatementReply::StatementAnswer(answer) => statement(&answer),
                other => unlike(kind, &other),
            },
        }
    }

    async fn summary(&self) -> Outcome {
        let short = types::AnswerForm::Summary;
        match asked!(self, create_layout, LayoutRequest, "layout", short) {
            types::LayoutReply::AnswerSummary(answer) => in_short("layout", &answer)?,
            other => unlike("summary", &other)?,
        }
        match asked!(self, create_recheck, RecheckRequest, "recheck", short) {
            types::RecheckReply::AnswerSummary(answer) => in_short("recheck", &answer)?,
            other => unlike("summary", &other)?,
        }
        match asked!(self, create_survey, SurveyRequest, "survey", short) {
            types::SurveyReply::AnswerSummary(answer) => in_short("survey", &answer)?,
            other => unlike("summary", &other)?,
        }
        match asked!(self, show_actions, ActionsRequest, "actions", short) {
            types::ActionsReply::AnswerSummary(answer) => in_short("actions", &answer)?,
            other => unlike("summary", &other)?,
        }
        match asked!(self, check_statement, StatementRequest, "statement", short) {
            types::StatementReply::AnswerSummary(answer) => in_short("statement", &answer)?,
            other => unlike("summary", &other)?,
        }
        for (answer, (kind, _)) in self.exchange(short).await?.iter().zip(FILES) {
            match answer {
                types::BatchOutput::SummaryLine(line) => {
                    hold!(line.id.as_deref() == Some(kind) && line.status == 200);
                    in_short(kind, &line.result)?;
                }
                other => unlike("summary", other)?,
            }
        }
        Ok(())
    }

    /// All jobs and one with faults as a batch: what came for the jobs. How it ends is held here.
    async fn exchange(
        &self,
        form: types::AnswerForm,
    ) -> Result<Vec<types::BatchOutput>, Box<dyn Error>> {
        let mut text = String::new();
        for (kind, _) in FILES {
            let job: Value = self.job(kind)?;
            let line: types::BatchLine =
                serde_json::from_value(json!({"id": kind, "kind": kind, "job": job}))?;
            match (kind, &line) {
                ("layout", types::BatchLine::LayoutLine(_))
                | ("recheck", types::BatchLine::RecheckLine(_))
                | ("survey", types::BatchLine::SurveyLine(_))
                | ("actions", types::BatchLine::ActionsLine(_))
                | ("statement", types::BatchLine::StatementLine(_)) => {}
                (kind, line) => unlike(kind, line)?,
            }
            text += &format!("{}\n", serde_json::to_string(&line)?);
        }
        text += "{\"id\":\"bad\",\"kind\":\"layout\",\"job\":{}}\n";
        let stream = self.client.run_batch().answer(form).body(text).send().await?.into_inner();
        // Lines are no type of the generator's: the bytes are given, each line is of a type of its own.
        let said = String::from_utf8(whole(stream).await?)?;
        let mut answers: Vec<types::BatchOutput> =
            said.lines().map(serde_json::from_str).collect::<Result<_, _>>()?;
        hold!(answers.len() == FILES.len() + 2);
        match answers.pop() {
            Some(types::BatchOutput::EndLine(end)) => {
                hold!(
                    end.summary.complete && end.summary.answered == 5 && end.summary.refused == 1
                );
            }
            other => unlike("end", &other)?,
        }
        match answers.pop() {
            Some(types::BatchOutput::ProblemLine(refused)) => {
                hold!(
                    refused.id.as_deref() == Some("bad")
                        && refused.line.get() == 6
                        && refused.status == 422
                );
                hold!(refused.problem.code == types::ProblemCode::InvalidRequest);
                hold!(refused.problem.errors[0].code == types::FaultCode::Missing);
            }
            other => unlike("problem", &other)?,
        }
        Ok(answers)
    }

    async fn batch(&self) -> Outcome {
        use types::BatchOutput as Output;
        let answers = self.exchange(types::AnswerForm::Full).await?;
        for (answer, (number, (kind, _))) in answers.iter().zip((1..).zip(FILES)) {
            let (line, id) = match (kind, answer) {
                ("layout", Output::LayoutLineAnswer(of)) => {
                    layout(&of.result).map(|()| (of.line, &of.id))?
                }
                ("recheck", Output::RecheckLineAnswer(of)) => {
                    recheck(&of.result).map(|()| (of.line, &of.id))?
                }
                ("survey", Output::SurveyLineAnswer(of)) => {
                    survey(&of.result).map(|()| (of.line, &of.id))?
                }
                ("actions", Output::ActionsLineAnswer(of)) => {
                    actions(&of.result).map(|()| (of.line, &of.id))?
                }
                ("statement", Output::StatementLineAnswer(of)) => {
                    statement(&of.result).map(|()| (of.line, &of.id))?
                }
                (kind, other) => return unlike(kind, other),
            };
            hold!(line.get() == number && id.as_deref() == Some(kind));
        }
        Ok(())
    }

    /// Drawing and sheet through the transport of the client, whose methods ask for JSON alone.
    async fn paper(&self, accept: &str, start: &str) -> Outcome {
        use progenitor_client::ClientInfo;
        let body: types::LayoutRequest = self.job("layout")?;
        let url = format!("{}/v1/layouts", self.base);
        let answer =
            self.client.client().post(url).header("accept", accept).json(&body).send().await?;
        hold!(answer.status() == 200);
        hold!(answer.headers()["content-type"].to_str()?.starts_with(accept));
        let text = answer.text().await?;
        hold!(text.contains(start) && text.contains("A1-1"));
        Ok(())
    }

    async fn faults(&self) -> Outcome {
        let mut body: types::LayoutRequest = self.job("layout")?;
        body.roof.pitch_deg = 95.0;
        let Err(Refusal::ErrorResponse(refused)) =
            self.client.create_layout().body(body).send().await
        else {
            return Err("no refusal".into());
        };
        hold!(refused.status() == 422);
        // A problem is no `application/json` to the generator: the bytes are given, the type is its own.
        let problem: types::Problem = serde_json::from_slice(&whole(refused.into_inner()).await?)?;
        hold!(problem.code == types::ProblemCode::InvalidRequest && problem.errors.len() == 1);
        hold!(problem.errors[0].pointer == "/roof/pitch_deg");
        hold!(problem.errors[0].code == types::FaultCode::OutOfRange);
        Ok(())
    }
}

fn layout(answer: &types::LayoutAnswer) -> Outcome {
    hold!(answer.verdict == types::Verdict::Incomplete);
    hold!(answer.hooks.len() == 56 && answer.optimality.hooks == 56);
    hold!(answer.missing.len() == 1);
    let mut params = answer.warnings.iter().flat_map(|warning| warning.params.values()).peekable();
    hold!(params.peek().is_some());
    for param in params {
        hold!(serde_json::to_value(param)?.as_object().is_some_and(|members| members.len() == 1));
    }
    Ok(())
}

fn recheck(answer: &types::RecheckAnswer) -> Outcome {
    hold!(answer.verdict == types::Verdict::Fails);
    hold!(answer.hooks.len() == 32 && answer.utilisation.max > 1.0);
    hold!(answer.difference.is_some());
    Ok(())
}

fn survey(answer: &types::SurveyAnswer) -> Outcome {
    hold!(answer.verdict == types::Verdict::Fails);
    hold!(answer.surveyed.len() == 1 && answer.to_measure.len() == 3);
    hold!(answer.surveyed.iter().all(|rail| rail.outcome == types::LevellingOutcome::Levelled && rail.hooks.len() == 8));
    Ok(())
}

fn actions(answer: &types::ActionsAnswer) -> Outcome {
    hold!(answer.actions.snow.ground_load_kn_per_m2 > 0.0);
    hold!(!answer.actions.combinations.is_empty() && !answer.trace.is_empty());
    Ok(())
}

fn statement(answer: &types::StatementAnswer) -> Outcome {
    hold!(!answer.needed.is_empty() && !answer.evidence.is_empty());
    hold!(answer.without_evidence.is_empty());
    Ok(())
}

/// What the answer in short must say of a job of this kind.
fn in_short(kind: &str, answer: &types::AnswerSummary) -> Outcome {
    hold!(answer.of.to_string() == kind);
    hold!(
        answer.verdict
            == match kind {
                "layout" => Some(types::Verdict::Incomplete),
                "recheck" | "survey" => Some(types::Verdict::Fails),
                _ => None,
            }
    );
    hold!(kind != "layout" || (answer.counts.hooks == 56 && answer.counts.missing == 1));
    Ok(())
}

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let (Some(base), Some(data)) = (arguments.next(), arguments.next()) else {
        eprintln!("address and directory of the jobs, please");
        return ExitCode::FAILURE;
    };
    let check = Check { client: Client::new(&base), base, data: data.into() };
    let steps = [
        "layout",
        "recheck",
        "survey",
        "actions",
        "statement",
        "batch",
        "summary",
        "drawing",
        "sheet",
        "faults",
    ];
    let mut done = 0;
    for step in steps {
        match check.step(step).await {
            Ok(()) => {
                done += 1;
                println!("rust: {step}");
            }
            Err(error) => eprintln!("rust: {step} FAILED: {:.400}", error.to_string()),
        }
    }
    println!("rust: {done} of {}", steps.len());
    if done == steps.len() { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
