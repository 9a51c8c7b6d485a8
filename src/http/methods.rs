//! What can be done at an address, for who asks: methods by `OPTIONS` (RFC 9110, 9.3.7), media types of
//! bodies by `Accept-Post`.

use std::future::{Ready, ready};

use axum::extract::Request;
use axum::http::header::{ALLOW, CONTENT_LENGTH, CONTENT_TYPE};
use axum::http::{HeaderName, HeaderValue, Method, StatusCode};
use axum::middleware::Next;
use axum::response::Response;

use crate::http::responses::no_body;

/// Media types an address takes by `POST` (W3C Linked Data Platform 1.0, 7.1).
const ACCEPT_POST: HeaderName = HeaderName::from_static("accept-post");

/// The layer of all routes: `OPTIONS` is a method of every one of them.
pub async fn asked_for(request: Request, next: Next) -> Response {
    let asked = request.method() == Method::OPTIONS;
    let mut response = next.run(request).await;
    if response.status() != StatusCode::METHOD_NOT_ALLOWED {
        return response;
    }
    let headers = response.headers_mut();
    // What takes no bodies is read.
    headers.entry(ALLOW).or_insert(HeaderValue::from_static("GET,HEAD,OPTIONS"));
    if !asked {
        return response;
    }
    for of_a_body in [CONTENT_TYPE, CONTENT_LENGTH] {
        headers.remove(of_a_body);
    }
    *response.status_mut() = StatusCode::NO_CONTENT;
    response.map(|_| no_body())
}

/// Of addresses that take bodies: says by which method and of which kinds, where another was used or
/// somebody asks.
pub fn taking(
    kinds: &'static str,
) -> impl Fn(Response) -> Ready<Response> + Clone + Send + Sync + 'static {
    move |mut response| {
        let (status, headers) = (response.status(), response.headers_mut());
        let wrong_method = status == StatusCode::METHOD_NOT_ALLOWED;
        if wrong_method {
            headers.insert(ALLOW, HeaderValue::from_static("POST,OPTIONS"));
        }
        if wrong_method || status == StatusCode::UNSUPPORTED_MEDIA_TYPE {
            headers.insert(ACCEPT_POST, HeaderValue::from_static(kinds));
        }
        ready(response)
    }
}
