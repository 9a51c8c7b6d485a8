//! The head of a request: what RFC 9112 asks of it, how long its parts may be, and what of it may
//! stand in the log.

use axum::extract::Request;
use axum::http::Version;
use axum::http::header::HOST;
use axum::response::{IntoResponse, Response};

use crate::http::problem::{Problem, ProblemCode};

/// Longest path and query, bytes.
const MOST_ADDRESS_BYTES: usize = 4 * 1024;

/// Names and values of all headers together, bytes.
const MOST_HEADER_BYTES: usize = 16 * 1024;

/// Longest id a caller may give a request.
const MOST_ID_BYTES: usize = 64;

/// The request, if its head is as it should be.
///
/// # Errors
/// A problem: 400, 414 or 431.
pub async fn checked(request: Request) -> Result<Request, Response> {
    let address = request.uri().path_and_query().map_or(0, |address| address.as_str().len());
    let headers = request.headers();
    let bytes: usize = headers.iter().map(|(name, value)| name.as_str().len() + value.len()).sum();
    let hosts = headers.get_all(HOST).iter().count();
    // RFC 9112, 3.2: one Host, which older versions do not know.
    let one_host = hosts == 1 || (hosts == 0 && request.version() != Version::HTTP_11);
    let (code, detail) = if !one_host {
        (
            ProblemCode::MalformedRequest,
            format!("The request has {hosts} Host headers; one is needed."),
        )
    } else if address > MOST_ADDRESS_BYTES {
        let detail = format!("Path and query are longer than {MOST_ADDRESS_BYTES} bytes.");
        (ProblemCode::AddressTooLong, detail)
    } else if bytes > MOST_HEADER_BYTES {
        let detail = format!("The headers are larger than {MOST_HEADER_BYTES} bytes.");
        (ProblemCode::HeadersTooLarge, detail)
    } else {
        return Ok(request);
    };
    Err(Problem::new(code, detail).into_response())
}

/// The request without an id that is too long or is more than letters, digits and `-._`: it gets one
/// of ours, so that nobody writes a novel, or a line of their own, into the log.
pub async fn without_wild_id(mut request: Request) -> Request {
    let tame = |id: &[u8]| {
        id.len() <= MOST_ID_BYTES
            && id.iter().all(|byte| byte.is_ascii_alphanumeric() || b"-._".contains(byte))
    };
    let headers = request.headers_mut();
    if headers.get("x-request-id").is_some_and(|id| !tame(id.as_bytes())) {
        headers.remove("x-request-id");
    }
    request
}

/// The beginning of a text that stands in the log.
pub fn shortened(text: &str, most: usize) -> &str {
    let end = text.char_indices().map(|(at, c)| at + c.len_utf8()).take_while(|end| *end <= most);
    &text[..end.last().unwrap_or(0)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_text_is_shortened_between_its_characters() {
        assert_eq!(shortened("/v1/läyouts", 6), "/v1/l");
        assert_eq!(shortened("/v1", 6), "/v1");
    }
}
