//! Programs in browsers, which read an answer from another origin only where it says that they may
//! (Fetch Standard, "CORS protocol"). Nobody may unless the operator names origins.
//!
//! Credentials of the browser (cookies, certificates) are never asked for: a key is sent by the
//! program itself.

use std::convert::Infallible;
use std::str::FromStr;
use std::sync::Arc;
use std::time::Duration;

use axum::extract::{Request, State};
use axum::http::header::{
    ACCEPT, ACCEPT_LANGUAGE, ACCESS_CONTROL_REQUEST_METHOD, ALLOW, AUTHORIZATION,
    CONTENT_DISPOSITION, CONTENT_ENCODING, CONTENT_TYPE, ETAG, IF_NONE_MATCH, ORIGIN, RETRY_AFTER,
    WWW_AUTHENTICATE,
};
use axum::http::uri::{Authority, Scheme};
use axum::http::{HeaderName, HeaderValue, Method, Uri};
use axum::middleware::Next;
use axum::response::Response;
use tower::{Layer, ServiceExt, service_fn};
use tower_http::cors::{AllowOrigin, Any, CorsLayer};

/// How long a browser need not ask again; some take no more than this (from memory).
const MAX_AGE: Duration = Duration::from_secs(2 * 60 * 60);

/// What a browser does not let every program set: all of these are read here.
const REQUEST_HEADERS: [HeaderName; 8] = [
    AUTHORIZATION,
    CONTENT_TYPE,
    CONTENT_ENCODING,
    ACCEPT,
    ACCEPT_LANGUAGE,
    IF_NONE_MATCH,
    HeaderName::from_static("x-request-id"),
    HeaderName::from_static("traceparent"),
];

/// What a program cannot read unless it is said to be allowed, and can make use of.
const RESPONSE_HEADERS: [HeaderName; 10] = [
    CONTENT_DISPOSITION,
    ETAG,
    RETRY_AFTER,
    WWW_AUTHENTICATE,
    ALLOW,
    HeaderName::from_static("accept-post"),
    HeaderName::from_static("x-request-id"),
    HeaderName::from_static("traceresponse"),
    HeaderName::from_static("ratelimit"),
    HeaderName::from_static("ratelimit-policy"),
];

/// Whose programs may read answers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Origins {
    /// Everybody's.
    All,
    /// Those of these origins, each as browsers write it.
    These(Vec<HeaderValue>),
}

/// An origin that no browser would send.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{0}\" is no origin: scheme and host, and the port where it is not the usual one, in small \
     letters and without anything after it, such as https://planning.example or \
     http://localhost:3000; or * alone for everybody"
)]
pub struct NoOrigin(String);

impl FromStr for Origins {
    type Err = NoOrigin;

    /// Reads origins separated by commas, or `*`.
    fn from_str(text: &str) -> Result<Self, NoOrigin> {
        if text.trim() == "*" {
            return Ok(Self::All);
        }
        text.split(',').map(|one| origin(one.trim())).collect::<Result<_, _>>().map(Self::These)
    }
}

/// The value a browser sends for an origin (RFC 6454, 6.2). They are compared byte by byte, so what it
/// would write in another way would never be found.
fn origin(text: &str) -> Result<HeaderValue, NoOrigin> {
    let wrong = || NoOrigin(text.to_owned());
    let uri: Uri = text.parse().map_err(|_| wrong())?;
    let (Some(scheme), Some(authority)) = (uri.scheme(), uri.authority()) else {
        return Err(wrong());
    };
    let usual = if *scheme == Scheme::HTTPS { 443 } else { 80 };
    let http = [Scheme::HTTP, Scheme::HTTPS].contains(scheme);
    // Of user, path and query nothing may be there, nor a port that browsers leave out.
    let whole = text == format!("{scheme}://{}", written(authority));
    let plain = whole && text.bytes().all(|byte| !byte.is_ascii_uppercase() && byte.is_ascii());
    if !http || !plain || authority.port_u16() == Some(usual) || authority.host().contains('*') {
        return Err(wrong());
    }
    HeaderValue::from_str(text).map_err(|_| wrong())
}

/// Host and port without anything else, the port as a number.
fn written(authority: &Authority) -> String {
    let port = authority.port_u16().map(|port| format!(":{port}"));
    format!("{}{}", authority.host(), port.unwrap_or_default())
}

/// The layer, where there are origins at all.
pub fn layer(origins: &Origins) -> Arc<CorsLayer> {
    let allowed = match origins {
        Origins::All => AllowOrigin::from(Any),
        Origins::These(these) => AllowOrigin::list(these.iter().cloned()),
    };
    // Varies by origin where there is a list of them, and by nothing else: what is said of methods and
    // headers is always the same.
    let layer = CorsLayer::new()
        .allow_origin(allowed)
        .allow_methods([Method::GET, Method::HEAD, Method::POST, Method::OPTIONS])
        .allow_headers(REQUEST_HEADERS)
        .expose_headers(RESPONSE_HEADERS)
        .max_age(MAX_AGE);
    let layer = match origins {
        Origins::All => layer.vary([]),
        Origins::These(_) => layer.vary([ORIGIN]),
    };
    Arc::new(layer)
}

/// Says of an answer who may read it. A preflight, which carries no key, is answered here; other
/// questions by `OPTIONS` go on to who knows the address.
pub async fn shared(
    State(layer): State<Arc<CorsLayer>>,
    mut request: Request,
    next: Next,
) -> Response {
    let headers = request.headers();
    let preflight =
        headers.contains_key(ORIGIN) && headers.contains_key(ACCESS_CONTROL_REQUEST_METHOD);
    let asked_for = request.method() == Method::OPTIONS && !preflight;
    if asked_for {
        // The layer takes every `OPTIONS` for a preflight.
        *request.method_mut() = Method::GET;
    }
    let inner = service_fn(move |mut request: Request| {
        let next = next.clone();
        if asked_for {
            *request.method_mut() = Method::OPTIONS;
        }
        async move { Ok::<_, Infallible>(next.run(request).await) }
    });
    match layer.layer(inner).oneshot(request).await {
        Ok(response) => response,
        Err(never) => match never {},
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn origins_are_read_as_browsers_write_them_or_refused() {
        let these = |text: &str| match text.parse() {
            Ok(Origins::These(these)) => these,
            other => panic!("{text}: {other:?}"),
        };
        assert_eq!(" * ".parse(), Ok(Origins::All));
        assert_eq!(these("https://a.example, http://localhost:3000").len(), 2);
        assert_eq!(these("http://[::1]:3000,https://a.example:80").len(), 2);
        for wrong in [
            "",
            "null",
            "a.example",
            "https://",
            "https://a.example/",
            "https://a.example/x",
            "https://a.example?x",
            "https://A.example",
            "HTTPS://a.example",
            "https://a.example:443",
            "http://a.example:80",
            "https://a.example:",
            "https://a.example:0443",
            "https://user@a.example",
            "https://*.example",
            "https://a.example,",
            "https://a.example,*",
            "https://bücher.example",
            "ftp://a.example",
            "https://a.example https://b.example",
        ] {
            let refused = wrong.parse::<Origins>().expect_err(wrong).to_string();
            assert!(refused.contains("is no origin"), "{wrong}: {refused}");
        }
    }
}
