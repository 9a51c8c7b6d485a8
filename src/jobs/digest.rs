//! Digest of a request: the same job has the same digest, however it was written down.
//!
//! **Layer.** Part of `jobs`; knows no wire type of its own.

use std::fmt::Write;

use serde::Serialize;
use sha2::{Digest, Sha256};

/// SHA-256 of `canonical` in the canonical form of RFC 8785, as 64 lower case hexadecimal digits.
///
/// Order of members, white space and the spelling of a number (`30`, `30.0`, `3e1`) do not change
/// it. A value that has no canonical form, such as one with a number that is not finite, gives
/// the digest of nothing; a request that came through JSON always has one.
#[must_use]
pub fn input_digest<T: Serialize>(canonical: &T) -> String {
    let bytes = serde_json_canonicalizer::to_vec(canonical).unwrap_or_default();
    Sha256::digest(&bytes).iter().fold(String::with_capacity(64), |mut hex, byte| {
        // Writing to a String cannot fail.
        let _ = write!(hex, "{byte:02x}");
        hex
    })
}

#[cfg(test)]
mod tests {
    use super::input_digest;

    #[test]
    fn the_empty_object_has_the_digest_of_its_two_bytes() {
        let empty = std::collections::BTreeMap::<String, f64>::new();
        // printf '{}' | sha256sum
        assert_eq!(
            input_digest(&empty),
            "44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a"
        );
    }

    #[test]
    fn spelling_of_numbers_and_order_of_members_do_not_matter() {
        #[derive(serde::Serialize)]
        struct OneOrder {
            b: f64,
            a: u32,
        }
        #[derive(serde::Serialize)]
        struct OtherOrder {
            a: f64,
            b: u32,
        }
        assert_eq!(
            input_digest(&OneOrder { b: 30.0, a: 7 }),
            input_digest(&OtherOrder { a: 7.0, b: 30 })
        );
        assert_ne!(
            input_digest(&OneOrder { b: 30.0, a: 7 }),
            input_digest(&OneOrder { b: 30.0, a: 8 })
        );
    }
}
