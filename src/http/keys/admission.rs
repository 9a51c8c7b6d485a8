//! Who is let in. Three questions in this order: who calls, whether that caller may have what it asks
//! for, and whether anything is left of its quotas.
//!
//! | matter | without a key |
//! |---|---|
//! | `/livez`, `/readyz` | always |
//! | `/`, `/start.js`, `/roof/…`, `/docs`, `/openapi.json`, `/problems/`, `/problems/…` | unless pages are closed |
//! | `/v1/components…`, `/v1/warnings`, `/v1/rules` | unless catalogues are closed |
//! | `/metrics` | from loopback; from anywhere on an address of its own |
//! | jobs, batches, addresses at which nothing is | from loopback; from anywhere where no keys are in force |
//!
//! *From loopback* is a connection whose other end is a loopback address, whose request does not say
//! that it was forwarded, and that is not told to have a key all the same. A proxy on this machine makes
//! all its callers loopback; most say so in the request, and [`Access::loopback_needs_key`] is for those
//! that do not.

use std::sync::Arc;

use axum::extract::{Request, State};
use axum::http::HeaderMap;
use axum::http::header::{AUTHORIZATION, FORWARDED, VIA};
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};
use tokio::sync::OwnedSemaphorePermit;

use super::meter::Standing;
use super::{Key, Keys, fields};
use crate::http::call::Call;
use crate::http::problem::Problem;

/// What is open to everybody beside the health of the service.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Public {
    /// Pages, description and catalogues.
    #[default]
    All,
    /// Pages and description.
    Documents,
    /// Nothing.
    Nothing,
}

/// Who may call.
#[derive(Debug, Clone, Default)]
pub struct Access {
    /// The keys in force; nobody needs one where there is no file of them.
    pub keys: Option<Keys>,
    /// Whether callers from this machine need a key, too.
    pub loopback_needs_key: bool,
    /// What nobody needs a key for.
    pub public: Public,
    /// Whether whoever reaches this address may read the counters.
    pub open_metrics: bool,
}

/// What a request asks for, as far as that decides who may.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Matter {
    Health,
    Documents,
    Catalogues,
    Metrics,
    Batches,
    Jobs,
}

impl Matter {
    fn of(path: &str) -> Self {
        let below = |start: &str| {
            path.strip_prefix(start).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        };
        match path {
            "/livez" | "/readyz" => Self::Health,
            // The last: who is handed an answer has no key, and is to be able to check it.
            "/" | "/start.js" | "/openapi.json" | "/openapi-3.0.json" | "/v1/signing-key" => {
                Self::Documents
            }
            "/metrics" => Self::Metrics,
            "/v1/batches" => Self::Batches,
            "/v1/usual" | "/v1/warnings" | "/v1/rules" => Self::Catalogues,
            _ if below("/docs") || below("/problems") || below("/roof") => Self::Documents,
            _ if below("/v1/components") => Self::Catalogues,
            // What is not known is not open.
            _ => Self::Jobs,
        }
    }
}

/// Headers by which those who pass a request on say so.
const FORWARDED_BY: [&str; 3] = ["x-forwarded-for", "x-forwarded-host", "x-real-ip"];

impl Access {
    fn is_public(&self, matter: Matter) -> bool {
        match matter {
            Matter::Health => true,
            Matter::Documents => self.public != Public::Nothing,
            Matter::Catalogues => self.public == Public::All,
            Matter::Metrics => self.open_metrics,
            Matter::Batches | Matter::Jobs => false,
        }
    }

    fn is_from_here(&self, call: &Call, headers: &HeaderMap) -> bool {
        let forwarded = headers.contains_key(FORWARDED)
            || headers.contains_key(VIA)
            || FORWARDED_BY.iter().any(|name| headers.contains_key(*name));
        let loopback = call.peer().is_some_and(|peer| peer.is_loopback());
        loopback && !forwarded && !self.loopback_needs_key
    }
}

/// A request that is let in by its key, and what its answer says of that.
struct Admitted {
    key: Arc<Key>,
    turn: OwnedSemaphorePermit,
    requests: Standing,
}

/// The layer that lets requests in.
pub async fn admitted(State(access): State<Access>, request: Request, next: Next) -> Response {
    let call = request.extensions().get::<Call>().cloned().unwrap_or_default();
    let path = request.uri().path();
    match admission(&access, &call, Matter::of(path), request.headers()) {
        Err(refused) => (*refused).into_response(),
        Ok(None) => next.run(request).await,
        Ok(Some(Admitted { key, turn, requests })) => {
            call.is_of(Arc::clone(&key), Some(turn));
            let mut response = next.run(request).await;
            fields::write(response.headers_mut(), &key, requests);
            response
        }
    }
}

fn admission(
    access: &Access,
    call: &Call,
    matter: Matter,
    headers: &HeaderMap,
) -> Result<Option<Admitted>, Box<Response>> {
    let refused = |problem: Problem| Box::new(problem.into_response());
    let here = access.is_from_here(call, headers);
    let Some(keys) = &access.keys else {
        return match matter {
            Matter::Metrics if !here && !access.open_metrics => {
                Err(refused(Problem::forbidden(METRICS_ARE_CLOSED)))
            }
            _ => Ok(None),
        };
    };
    if access.is_public(matter) {
        return Ok(None);
    }
    let key = match presented(headers) {
        Presented::Nothing if here => return Ok(None),
        Presented::Nothing => return Err(refused(Problem::no_key())),
        Presented::Text(text) => keys.find(text),
        Presented::Garbled => None,
    };
    let key = key.ok_or_else(|| refused(Problem::unknown_key()))?;
    // From here on the log knows whose request it is.
    call.is_of(Arc::clone(&key), None);
    may(&key, matter).map_err(refused)?;
    counted(key).map(Some)
}

const METRICS_ARE_CLOSED: &str = "Metrics are for this machine, or for an address of their own.";

/// What a request has in place of a key.
#[derive(Debug, PartialEq, Eq)]
enum Presented<'a> {
    Nothing,
    Text(&'a str),
    Garbled,
}

/// The token of `Authorization: Bearer …` (RFC 6750, 2.1), of which there is to be one.
fn presented(headers: &HeaderMap) -> Presented<'_> {
    let mut said = headers.get_all(AUTHORIZATION).iter();
    let Some(credentials) = said.next() else { return Presented::Nothing };
    let token = credentials.to_str().ok().and_then(|text| text.split_once(' '));
    match token {
        Some((scheme, token)) if scheme.eq_ignore_ascii_case("bearer") && said.next().is_none() => {
            Presented::Text(token.trim_matches(' '))
        }
        _ => Presented::Garbled,
    }
}

/// Whether a key has the right to what is asked for.
fn may(key: &Key, matter: Matter) -> Result<(), Problem> {
    let (right, what) = match matter {
        Matter::Batches => (key.grant().batches, "send batches"),
        Matter::Metrics => (key.grant().metrics, "read metrics"),
        _ => (true, ""),
    };
    if right { Ok(()) } else { Err(Problem::forbidden(format!("This key may not {what}."))) }
}

/// Takes a request out of the quotas of a key.
fn counted(key: Arc<Key>) -> Result<Admitted, Box<Response>> {
    let meter = key.meter();
    let over = |detail: String, standing: Standing, after_s: u32| {
        let mut response = Problem::too_many(detail, after_s).into_response();
        fields::write(response.headers_mut(), &key, standing);
        Box::new(response)
    };
    let requests = match meter.requests.take() {
        Ok(standing) => standing,
        Err(standing) => {
            let quota = key.grant().requests;
            let detail =
                format!("This key may send {} requests in {} s.", quota.quota, quota.window_s);
            return Err(over(detail, standing, standing.reset_s));
        }
    };
    if meter.cpu.wait().is_some() {
        let quota = key.grant().cpu_s;
        let detail = format!(
            "This key may use the processor for {} s in {} s.",
            quota.quota, quota.window_s
        );
        return Err(over(detail, requests, meter.cpu.standing().reset_s.max(1)));
    }
    let Ok(turn) = Arc::clone(&meter.at_once).try_acquire_owned() else {
        let detail = format!("This key may have {} requests under way.", key.grant().at_once);
        return Err(over(detail, requests, 1));
    };
    Ok(Admitted { key, turn, requests })
}

#[cfg(test)]
mod tests {
    use std::net::IpAddr;

    use super::*;
    use crate::http::call::Peer;

    #[test]
    fn what_is_not_known_is_not_open() {
        for path in [
            "/nowhere",
            "/v1/layouts",
            "/docsy",
            "/v1/components-all",
            "/metricsy",
            "/problemss",
            "//",
        ] {
            assert_eq!(Matter::of(path), Matter::Jobs, "{path}");
        }
        for path in ["/docs/index.css", "/problems", "/problems/", "/problems/busy"] {
            assert_eq!(Matter::of(path), Matter::Documents, "{path}");
        }
        assert_eq!(Matter::of("/v1/components/rail/x"), Matter::Catalogues);
    }

    #[test]
    fn one_bearer_token_is_taken_and_nothing_else() {
        let headers = |values: &[&'static str]| {
            let mut headers = HeaderMap::new();
            for value in values {
                headers.append(AUTHORIZATION, (*value).parse().expect("a value"));
            }
            headers
        };
        assert_eq!(presented(&headers(&[])), Presented::Nothing);
        assert_eq!(presented(&headers(&["bEaReR abc"])), Presented::Text("abc"));
        for wrong in [&["Basic abc"][..], &["Bearer"], &["abc"], &["Bearer a", "Bearer b"]] {
            assert_eq!(presented(&headers(wrong)), Presented::Garbled, "{wrong:?}");
        }
    }

    #[test]
    fn who_is_here_is_told_by_the_connection_and_by_nothing_a_caller_writes() {
        let from = |address: &str| Call::from(Some(Peer(address.parse::<IpAddr>().expect("one"))));
        let access = Access::default();
        let none = HeaderMap::new();
        for here in ["127.0.0.1", "127.8.0.1", "::1", "::ffff:127.0.0.1"] {
            assert!(access.is_from_here(&from(here), &none), "{here}");
        }
        for there in ["192.0.2.1", "2001:db8::1", "::ffff:192.0.2.1", "0.0.0.0"] {
            assert!(!access.is_from_here(&from(there), &none), "{there}");
        }
        assert!(
            !access.is_from_here(&Call::default(), &none),
            "an unknown address is none of ours"
        );
        for name in ["forwarded", "via", "x-forwarded-for", "x-forwarded-host", "x-real-ip"] {
            let mut headers = HeaderMap::new();
            headers.insert(name, "127.0.0.1".parse().expect("a value"));
            assert!(!access.is_from_here(&from("127.0.0.1"), &headers), "{name}");
        }
        let strict = Access { loopback_needs_key: true, ..Access::default() };
        assert!(!strict.is_from_here(&from("127.0.0.1"), &none));
    }
}
