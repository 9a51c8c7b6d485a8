//! `RateLimit-Policy` and `RateLimit` (draft-ietf-httpapi-ratelimit-headers-10): what a key may do, and
//! what is left of it, as lists of structured fields (RFC 9651).

use axum::http::{HeaderMap, HeaderName, HeaderValue};

use super::Key;
use super::meter::Standing;

const POLICY: HeaderName = HeaderName::from_static("ratelimit-policy");
const LIMIT: HeaderName = HeaderName::from_static("ratelimit");

/// Writes both fields.
pub fn write(headers: &mut HeaderMap, key: &Key, requests: Standing) {
    let grant = key.grant();
    let cpu = key.meter().cpu.standing();
    let policy = format!(
        "\"requests\";q={};w={}, \"cpu\";q={};qu=\"hookspan-cpu-seconds\";w={}, \
         \"at-once\";q={};qu=\"concurrent-requests\"",
        grant.requests.quota,
        grant.requests.window_s,
        grant.cpu_s.quota,
        grant.cpu_s.window_s,
        grant.at_once,
    );
    let limit = format!(
        "\"requests\";r={};t={}, \"cpu\";r={};t={}",
        requests.left, requests.reset_s, cpu.left, cpu.reset_s
    );
    for (name, value) in [(POLICY, policy), (LIMIT, limit)] {
        // Names and numbers only.
        if let Ok(value) = HeaderValue::try_from(value) {
            headers.insert(name, value);
        }
    }
}
