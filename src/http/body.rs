//! A body as handlers ask for it: its media type and its size are right, nobody has read it yet.

use axum::body::Bytes;
use axum::extract::rejection::{BytesRejection, FailedToBufferBody};
use axum::extract::{FromRequest, Request};
use axum::http::HeaderMap;
use axum::http::header::CONTENT_TYPE;

use crate::http::App;
use crate::http::problem::{Problem, ProblemCode};

/// A body that is declared as JSON and within the size limit.
#[derive(Debug)]
pub struct Body(pub Bytes);

impl FromRequest<App> for Body {
    type Rejection = Problem;

    async fn from_request(request: Request, app: &App) -> Result<Self, Problem> {
        declared_as_json(request.headers())?;
        Bytes::from_request(request, app).await.map(Self).map_err(|error| refused(&error, app))
    }
}

/// `application/json` and every `…+json`; parameters such as a charset are read over, since JSON
/// is UTF-8 and the gate insists on it.
fn declared_as_json(headers: &HeaderMap) -> Result<(), Problem> {
    let refuse = |detail: &str| Err(Problem::new(ProblemCode::UnsupportedMediaType, detail));
    let Some(declared) = headers.get(CONTENT_TYPE) else {
        return refuse("The request has no Content-Type; application/json is needed.");
    };
    let declared = declared.to_str().unwrap_or_default();
    let essence = declared.split(';').next().unwrap_or_default().trim().to_ascii_lowercase();
    let subtype = essence.strip_prefix("application/").unwrap_or_default();
    if subtype == "json" || (subtype.ends_with("+json") && subtype.len() > "+json".len()) {
        Ok(())
    } else {
        refuse("The Content-Type of the request is not application/json.")
    }
}

fn refused(error: &BytesRejection, app: &App) -> Problem {
    match error {
        BytesRejection::FailedToBufferBody(FailedToBufferBody::LengthLimitError(_)) => {
            Problem::new(
                ProblemCode::TooLarge,
                format!("The body is larger than {} bytes.", app.max_body_bytes),
            )
        }
        // The connection broke or the transfer coding was wrong; there may be nobody to read this.
        _ => Problem::new(ProblemCode::MalformedJson, "The body could not be read to its end."),
    }
}
