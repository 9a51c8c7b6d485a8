//! Digest of a request: the same job has the same digest, however it was written down.
//!
//! **Layer.** Part of `service`; knows no wire type. What makes one form of many, RFC 8785, is with the
//! gate, which holds the document.

use std::fmt::Write;

use sha2::{Digest, Sha256};

/// SHA-256 of a request in its canonical form, as 64 lower case hexadecimal digits.
#[must_use]
pub fn input_digest(canonical: &[u8]) -> String {
    Sha256::digest(canonical).iter().fold(String::with_capacity(64), |mut hex, byte| {
        // Writing to a String cannot fail.
        let _ = write!(hex, "{byte:02x}");
        hex
    })
}

#[cfg(test)]
mod tests {
    use super::input_digest;

    /// FIPS 180-4, example of the message "abc" (published with the standard).
    #[test]
    fn it_is_the_digest_of_the_bytes() {
        assert_eq!(
            input_digest(b"abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }
}
