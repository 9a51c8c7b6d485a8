//! The file of keys: JSON, with a name, the hashes and the limits of each key, and never a key.
//!
//! A key is a random text, so that a plain SHA-256 (FIPS 180-4) of it gives nothing away: there is
//! nothing to guess, and nothing to look up.

use std::collections::BTreeSet;
use std::num::NonZeroU32;

use serde::Deserialize;

use super::meter::Allowed;

/// Most bytes of the file.
pub const MOST_BYTES: u64 = 1024 * 1024;

/// Most keys of the file.
const MOST_KEYS: usize = 1000;

/// Longest name of a key.
const MOST_NAME_BYTES: usize = 64;

/// A hash.
pub type Hash = [u8; 32];

/// Why a file of keys is none.
#[derive(Debug, thiserror::Error)]
pub enum KeyFileError {
    /// It cannot be read.
    #[error("it cannot be read: {0}")]
    Unreadable(#[from] std::io::Error),
    /// It is larger than a file of keys can be.
    #[error("it is larger than {MOST_BYTES} bytes")]
    TooLarge,
    /// It is not JSON, or has other members than a file of keys.
    #[error("it is no file of keys: {0}")]
    Malformed(#[from] serde_json::Error),
    /// A key of it is not as it has to be.
    #[error("key {at} ({name}): {what}")]
    Key {
        /// Which, counted from 1.
        at: usize,
        /// Its name.
        name: String,
        /// What is wrong.
        what: String,
    },
    /// There are too many.
    #[error("it has more than {MOST_KEYS} keys")]
    TooMany,
}

/// What a key may do.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Grant {
    /// Requests in a window.
    pub requests: Allowed,
    /// Seconds of the processor in a window.
    pub cpu_s: Allowed,
    /// Requests under way at once.
    pub at_once: usize,
    /// Most that a job may ask for in `wishes.search_limit`.
    pub search_limit: u64,
    /// Whether it may send batches.
    pub batches: bool,
    /// Whether it may read `/metrics`.
    pub metrics: bool,
}

impl Default for Grant {
    fn default() -> Self {
        const MINUTE: NonZeroU32 = NonZeroU32::new(60).expect("not zero");
        const REQUESTS: NonZeroU32 = NonZeroU32::new(600).expect("not zero");
        Self {
            requests: Allowed { quota: REQUESTS, window_s: MINUTE },
            cpu_s: Allowed { quota: MINUTE, window_s: MINUTE },
            at_once: 8,
            search_limit: SEARCH_LIMITS.0,
            batches: false,
            metrics: false,
        }
    }
}

/// Limits of `search_limit`: what a job has that does not ask, so that a key never changes an answer,
/// and the most a job can ask for.
pub const SEARCH_LIMITS: (u64, u64) = (200_000, 20_000_000);

/// One key of the file.
#[derive(Debug)]
pub struct Entry {
    /// Its name in log and shares.
    pub name: String,
    /// Its hashes: one, or two while it is being changed.
    pub hashes: Vec<Hash>,
    /// What it may do.
    pub grant: Grant,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Document {
    keys: Vec<WrittenEntry>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenEntry {
    name: String,
    sha256: Vec<String>,
    #[serde(default)]
    limits: Grant,
}

/// Reads the text of a file.
///
/// # Errors
/// The first thing that is wrong with it.
pub fn parse(text: &[u8]) -> Result<Vec<Entry>, KeyFileError> {
    let Document { keys } = serde_json::from_slice(text)?;
    if keys.len() > MOST_KEYS {
        return Err(KeyFileError::TooMany);
    }
    let (mut names, mut hashes) = (BTreeSet::new(), BTreeSet::new());
    keys.into_iter()
        .enumerate()
        .map(|(at, written)| {
            let name = written.name.clone();
            let entry = entry(written).and_then(|entry| {
                if !names.insert(entry.name.clone()) {
                    return Err("another key has this name".to_owned());
                }
                let fresh = entry.hashes.iter().all(|hash| hashes.insert(*hash));
                if fresh { Ok(entry) } else { Err("a hash stands there twice".to_owned()) }
            });
            entry.map_err(|what| KeyFileError::Key { at: at + 1, name, what })
        })
        .collect()
}

fn entry(WrittenEntry { name, sha256, limits }: WrittenEntry) -> Result<Entry, String> {
    let tame = |byte: u8| byte.is_ascii_alphanumeric() || b"-._".contains(&byte);
    if name.is_empty() || name.len() > MOST_NAME_BYTES || !name.bytes().all(tame) {
        return Err(format!("a name is 1 to {MOST_NAME_BYTES} letters, digits and -._"));
    }
    if !(1..=2).contains(&sha256.len()) {
        return Err("one hash is needed, or two while the key is being changed".to_owned());
    }
    let hashes: Option<Vec<Hash>> = sha256.iter().map(|text| hash(text)).collect();
    let hashes = hashes.ok_or("a hash is 64 hexadecimal digits")?;
    checked(limits).map(|grant| Entry { name, hashes, grant })
}

fn checked(grant: Grant) -> Result<Grant, String> {
    let (least, most) = SEARCH_LIMITS;
    let allowed = [("requests", grant.requests), ("cpu_s", grant.cpu_s)];
    for (name, Allowed { quota, window_s }) in allowed {
        if quota.get() > 1_000_000 || window_s.get() > 86_400 {
            return Err(format!("{name}: at most 1000000 in at most 86400 s"));
        }
    }
    if !(1..=1000).contains(&grant.at_once) {
        return Err("at_once is from 1 to 1000".to_owned());
    }
    if !(least..=most).contains(&grant.search_limit) {
        return Err(format!("search_limit is from {least} to {most}"));
    }
    Ok(grant)
}

fn hash(text: &str) -> Option<Hash> {
    if text.len() != 64 || !text.bytes().all(|byte| byte.is_ascii_hexdigit()) {
        return None;
    }
    let mut hash = [0; 32];
    for (byte, at) in hash.iter_mut().zip((0..).step_by(2)) {
        *byte = u8::from_str_radix(text.get(at..at + 2)?, 16).ok()?;
    }
    Some(hash)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HASH: &str = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08";

    fn wrong(text: &str) -> String {
        parse(text.as_bytes()).expect_err("it is refused").to_string()
    }

    #[test]
    fn what_is_not_said_has_the_usual_limits() {
        let file = format!(r#"{{"keys": [{{"name": "crm", "sha256": ["{HASH}"]}}]}}"#);
        let entries = parse(file.as_bytes()).expect("it is a file of keys");
        assert_eq!(entries[0].grant, Grant::default());
        assert_eq!(entries[0].hashes[0][..3], [0x9f, 0x86, 0xd0]);
        assert!(parse(br#"{"keys": []}"#).is_ok(), "nobody but loopback");
    }

    #[test]
    fn a_mistake_is_named_with_its_key() {
        let key = |name: &str, rest: &str| format!(r#"{{"name": "{name}", "sha256": {rest}}}"#);
        let file = |keys: &[String]| format!(r#"{{"keys": [{}]}}"#, keys.join(","));
        let good = format!(r#"["{HASH}"]"#);
        let limited = |limits: &str| file(&[key("a", &format!(r#"{good}, "limits": {limits}"#))]);
        for (text, said) in [
            ("{}".to_owned(), "keys"),
            ("[]".to_owned(), "no file of keys"),
            (file(&[key("a b", &good)]), "key 1 (a b): a name is"),
            (file(&[key("a", "[]")]), "one hash is needed"),
            (file(&[key("a", r#"["abc"]"#)]), "64 hexadecimal"),
            (file(&[key("a", &format!(r#"["{HASH}", "{HASH}"]"#))]), "twice"),
            (file(&[key("a", &good), key("b", &good)]), "key 2 (b): a hash stands there twice"),
            (limited(r#"{"at_once": 0}"#), "at_once"),
            (limited(r#"{"search_limit": 199999}"#), "search_limit is from 200000"),
            (limited(r#"{"requests": {"quota": 0, "window_s": 1}}"#), "no file of keys"),
            (limited(r#"{"cpu_s": {"quota": 1, "window_s": 90000}}"#), "cpu_s: at most"),
            (limited(r#"{"batch": true}"#), "unknown field `batch`"),
        ] {
            let refused = wrong(&text);
            assert!(refused.contains(said), "{text}: {refused}");
        }
    }
}
