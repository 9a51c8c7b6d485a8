//! `traceparent` (W3C Trace Context, Levels 1 and 2): a request belongs to the trace its caller names,
//! or begins one of its own. The answer says which in `traceresponse`, as the editor's draft of the
//! same group has it. Nothing is called from here, so there is nobody to pass `tracestate` on to.

use std::fmt::{self, Display, Formatter};

use axum::http::{HeaderMap, HeaderName, HeaderValue};
use uuid::Uuid;

const TRACEPARENT: HeaderName = HeaderName::from_static("traceparent");
const TRACERESPONSE: HeaderName = HeaderName::from_static("traceresponse");

/// Length of the only version there is, and of the part all later ones have to begin with.
const LENGTH: usize = 55;

/// The caller records its part of the trace.
const SAMPLED: u8 = 0x01;

/// The last seven bytes of the trace's name are random (Level 2, 2.2.2.5).
const RANDOM: u8 = 0x02;

/// Bytes as hexadecimal digits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Id<const N: usize>([u8; N]);

impl<const N: usize> Display for Id<N> {
    fn fmt(&self, f: &mut Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl<const N: usize> Id<N> {
    /// Reads lower-case digits, not all of them zero.
    fn read(text: &str) -> Option<Self> {
        let mut bytes = [0; N];
        if text.len() != 2 * N {
            return None;
        }
        for (byte, at) in bytes.iter_mut().zip((0..).step_by(2)) {
            *byte = byte_of(text.get(at..at + 2)?)?;
        }
        bytes.iter().any(|byte| *byte != 0).then_some(Self(bytes))
    }

    /// Random, at most 15 bytes of it apart from two that say that they are.
    fn random() -> Self {
        let mut bytes = [0; N];
        bytes.copy_from_slice(&Uuid::new_v4().as_bytes()[16 - N..]);
        Self(bytes)
    }
}

fn byte_of(text: &str) -> Option<u8> {
    let lower = |byte: u8| byte.is_ascii_digit() || (b'a'..=b'f').contains(&byte);
    let right = text.len() == 2 && text.bytes().all(lower);
    right.then(|| u8::from_str_radix(text, 16).ok()).flatten()
}

/// Where a request stands in a trace.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TraceContext {
    /// The trace.
    pub trace: Id<16>,
    /// The caller's part of it, where it names one.
    pub parent: Option<Id<8>>,
    /// Our part.
    pub own: Id<8>,
    flags: u8,
}

impl TraceContext {
    /// What the headers of a request say; a trace of its own where they say nothing that can be read.
    #[must_use]
    pub fn of(headers: &HeaderMap) -> Self {
        let mut said = headers.get_all(TRACEPARENT).iter();
        let parent = said.next().filter(|_| said.next().is_none());
        let parent = parent.and_then(|value| value.to_str().ok()).and_then(read);
        let own = Id::random();
        match parent {
            Some((trace, parent, flags)) => Self { trace, parent: Some(parent), own, flags },
            None => Self { trace: Id::random(), parent: None, own, flags: RANDOM },
        }
    }

    /// Tells the caller.
    pub fn answer(&self, headers: &mut HeaderMap) {
        let value = format!("00-{}-{}-{:02x}", self.trace, self.own, self.flags);
        // Digits only.
        if let Ok(value) = HeaderValue::try_from(value) {
            headers.insert(TRACERESPONSE, value);
        }
    }
}

/// Trace, parent and the flags that are known (Level 1, 3.2.2; Level 2, 2.2.2).
fn read(text: &str) -> Option<(Id<16>, Id<8>, u8)> {
    // White space around a value is no part of it (RFC 9110, 5.5).
    let text = text.trim_matches([' ', '\t']);
    let (known, rest) = text.split_at_checked(LENGTH)?;
    let mut parts = known.split('-');
    let version = byte_of(parts.next()?)?;
    let trace = Id::read(parts.next()?)?;
    let parent = Id::read(parts.next()?)?;
    let flags = byte_of(parts.next()?)?;
    // A later version may say more after these, and 255 is none.
    let rest_fits = rest.is_empty() || (version > 0 && rest.starts_with('-'));
    (parts.next().is_none() && version != 0xff && rest_fits).then_some((
        trace,
        parent,
        flags & (SAMPLED | RANDOM),
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    const TRACE: &str = "12345678901234567890123456789012";

    fn context(values: &[&str]) -> TraceContext {
        let mut headers = HeaderMap::new();
        for value in values {
            headers.append(TRACEPARENT, HeaderValue::from_str(value).expect("a value"));
        }
        TraceContext::of(&headers)
    }

    /// The values of the test suite published with the recommendation (w3c/trace-context,
    /// `test/test.py`, class `TraceContextTest`, each under the name it has there), each with whether
    /// the trace is kept.
    #[rustfmt::skip]
    const PUBLISHED: [(&str, &str, bool); 38] = [
        ("traceparent_included_tracestate_missing", "00-12345678901234567890123456789012-1234567890123456-01", true),
        ("version_0x00", "00-12345678901234567890123456789012-1234567890123456-01.", false),
        ("version_0x00", "00-12345678901234567890123456789012-1234567890123456-01-what-the-future-will-be-like", false),
        ("version_0xcc", "cc-12345678901234567890123456789012-1234567890123456-01", true),
        ("version_0xcc", "cc-12345678901234567890123456789012-1234567890123456-01-what-the-future-will-be-like", true),
        ("version_0xcc", "cc-12345678901234567890123456789012-1234567890123456-01.what-the-future-will-be-like", false),
        ("version_0xff", "ff-12345678901234567890123456789012-1234567890123456-01", false),
        ("version_illegal_characters", ".0-12345678901234567890123456789012-1234567890123456-01", false),
        ("version_illegal_characters", "0.-12345678901234567890123456789012-1234567890123456-01", false),
        ("version_too_long", "000-12345678901234567890123456789012-1234567890123456-01", false),
        ("version_too_long", "0000-12345678901234567890123456789012-1234567890123456-01", false),
        ("version_too_short", "0-12345678901234567890123456789012-1234567890123456-01", false),
        ("trace_id_all_zero", "00-00000000000000000000000000000000-1234567890123456-01", false),
        ("trace_id_illegal_characters", "00-.2345678901234567890123456789012-1234567890123456-01", false),
        ("trace_id_illegal_characters", "00-1234567890123456789012345678901.-1234567890123456-01", false),
        ("trace_id_too_long", "00-123456789012345678901234567890123-1234567890123456-01", false),
        ("trace_id_too_short", "00-1234567890123456789012345678901-1234567890123456-01", false),
        ("parent_id_all_zero", "00-12345678901234567890123456789012-0000000000000000-01", false),
        ("parent_id_illegal_characters", "00-12345678901234567890123456789012-.234567890123456-01", false),
        ("parent_id_illegal_characters", "00-12345678901234567890123456789012-123456789012345.-01", false),
        ("parent_id_too_long", "00-12345678901234567890123456789012-12345678901234567-01", false),
        ("parent_id_too_short", "00-12345678901234567890123456789012-123456789012345-01", false),
        ("trace_flags_illegal_characters", "00-12345678901234567890123456789012-1234567890123456-.0", false),
        ("trace_flags_illegal_characters", "00-12345678901234567890123456789012-1234567890123456-0.", false),
        ("trace_flags_too_long", "00-12345678901234567890123456789012-1234567890123456-001", false),
        ("trace_flags_too_short", "00-12345678901234567890123456789012-1234567890123456-1", false),
        ("ows_handling", " 00-12345678901234567890123456789012-1234567890123456-01", true),
        ("ows_handling", "\t00-12345678901234567890123456789012-1234567890123456-01", true),
        ("ows_handling", "00-12345678901234567890123456789012-1234567890123456-01 ", true),
        ("ows_handling", "00-12345678901234567890123456789012-1234567890123456-01\t", true),
        ("ows_handling", "\t 00-12345678901234567890123456789012-1234567890123456-01 \t", true),
        // Ours, not of the suite.
        ("", "00-1234567890123456789012345678901A-1234567890123456-01", false),
        ("", "00-12345678901234567890123456789012-123456789012345F-01", false),
        ("", "", false),
        ("", "00", false),
        ("", "00_12345678901234567890123456789012_1234567890123456_01", false),
        ("", "01-12345678901234567890123456789012-1234567890123456-01x", false),
        ("", "00-12345678901234567890123456789012-1234567890123456-03", true),
    ];

    #[test]
    fn a_trace_is_kept_or_begun_as_the_published_suite_has_it() {
        for (name, value, kept) in PUBLISHED {
            let context = context(&[value]);
            assert_eq!(context.trace.to_string() == TRACE, kept, "{name}: {value}");
            assert_eq!(context.parent.is_some(), kept, "{name}: {value}");
            assert_ne!(Some(context.own), context.parent, "{name}: {value}");
            assert!(context.trace.0 != [0; 16] && context.own.0 != [0; 8]);
        }
    }

    /// `test_traceparent_duplicated` and `test_both_traceparent_and_tracestate_missing` of the suite.
    #[test]
    fn two_parents_are_none() {
        let [one, other] = ["1", "2"]
            .map(|end| format!("00-1234567890123456789012345678901{end}-1234567890123456-01"));
        assert_eq!(context(&[&one, &other]).parent, None);
        assert_eq!(context(&[]).parent, None);
        assert_ne!(context(&[]).trace, context(&[]).trace);
    }

    #[test]
    fn the_answer_names_the_trace_and_our_part_of_it() {
        let answer = |values: &[&str]| {
            let (context, mut headers) = (context(values), HeaderMap::new());
            context.answer(&mut headers);
            (headers["traceresponse"].to_str().expect("a text").to_owned(), context)
        };
        // Flags that are not known are not passed on (Level 1, 3.2.2.5.2).
        let (said, context) = answer(&[&format!("00-{TRACE}-1234567890123456-fd")]);
        assert_eq!(said, format!("00-{TRACE}-{}-01", context.own));
        let (said, context) = answer(&[]);
        assert_eq!(said, format!("00-{}-{}-02", context.trace, context.own));
    }
}
