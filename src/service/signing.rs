//! Ed25519 (RFC 8032) over detached payloads (RFC 7515, appendix F), and keys as files and documents have them.
//!
//! Signatures are deterministic: the same key and text give the same bytes, so an answer stays the same answer.
//! The arithmetic is that of `ed25519-dalek`; what is here is the form around it.
//!
//! **Layer.** Part of `service`; knows texts and keys, no answers.

use std::fmt;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD as BASE64URL;
use ed25519_dalek::pkcs8::{DecodePrivateKey, DecodePublicKey};
use ed25519_dalek::{Signature, Signer as _, SigningKey, VerifyingKey};
use sha2::{Digest, Sha256};

use crate::wire::signature;

/// Name of the algorithm in JOSE (RFC 8037, 3.1).
pub const ALGORITHM: &str = "EdDSA";

/// Why a text is no key.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NoKey {
    /// No private key of this kind.
    #[error(
        "it is no Ed25519 private key in PKCS #8 and PEM, as `openssl genpkey -algorithm ed25519` writes it"
    )]
    Private,
    /// No public key of this kind.
    #[error("it is no Ed25519 public key, in PEM or as a JSON Web Key")]
    Public,
    /// A public key under the name of another.
    #[error("its kid is not its thumbprint, which is {0}")]
    Kid(String),
}

/// Signs.
pub struct Signer {
    key: SigningKey,
    public: PublicKey,
}

impl fmt::Debug for Signer {
    /// The name of the key, never the key.
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.debug_tuple("Signer").field(&self.public.id).finish()
    }
}

impl Signer {
    /// By a private key in PKCS #8 and PEM (RFC 8410, RFC 7468).
    ///
    /// # Errors
    /// [`NoKey`] where it is none.
    pub fn from_pem(pem: &str) -> Result<Self, NoKey> {
        SigningKey::from_pkcs8_pem(pem).map(Self::of).map_err(|_| NoKey::Private)
    }

    fn of(key: SigningKey) -> Self {
        let public = PublicKey::of(key.verifying_key());
        Self { key, public }
    }

    /// The key to check by.
    #[must_use]
    pub const fn public(&self) -> &PublicKey {
        &self.public
    }

    /// A JWS over a payload that is not in it.
    #[must_use]
    pub fn detached(&self, payload: &[u8]) -> String {
        let header = BASE64URL.encode(header(&self.public.id));
        let signature = self.key.sign(&signing_input(&header, payload));
        format!("{header}..{}", BASE64URL.encode(signature.to_bytes()))
    }
}

/// Checks signatures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PublicKey {
    key: VerifyingKey,
    id: String,
}

impl PublicKey {
    fn of(key: VerifyingKey) -> Self {
        // RFC 7638, 3; RFC 8037, 2: the members that are required, in order.
        let members = format!(
            r#"{{"crv":"Ed25519","kty":"OKP","x":"{}"}}"#,
            BASE64URL.encode(key.as_bytes())
        );
        Self { key, id: BASE64URL.encode(Sha256::digest(members)) }
    }

    /// A public key in PEM (RFC 8410), or as a JSON Web Key (RFC 8037).
    ///
    /// # Errors
    /// [`NoKey`] where it is none, or has a name that is not its thumbprint.
    pub fn from_text(text: &str) -> Result<Self, NoKey> {
        if !text.trim_start().starts_with('{') {
            return VerifyingKey::from_public_key_pem(text)
                .map(Self::of)
                .map_err(|_| NoKey::Public);
        }
        let jwk: signature::SigningKey = serde_json::from_str(text).map_err(|_| NoKey::Public)?;
        if (&*jwk.kty, &*jwk.crv) != ("OKP", "Ed25519") {
            return Err(NoKey::Public);
        }
        let bytes = BASE64URL.decode(&jwk.x).ok().and_then(|bytes| bytes.try_into().ok());
        let key = bytes.and_then(|bytes| VerifyingKey::from_bytes(&bytes).ok());
        let key = Self::of(key.ok_or(NoKey::Public)?);
        match jwk.kid {
            Some(kid) if kid != key.id => Err(NoKey::Kid(key.id)),
            _ => Ok(key),
        }
    }

    /// Its thumbprint (RFC 7638).
    #[must_use]
    pub fn id(&self) -> &str {
        &self.id
    }

    /// The key as it is published.
    #[must_use]
    pub fn published(&self) -> signature::SigningKey {
        signature::SigningKey {
            kty: "OKP".to_owned(),
            crv: "Ed25519".to_owned(),
            x: BASE64URL.encode(self.key.as_bytes()),
            kid: Some(self.id.clone()),
            alg: Some(ALGORITHM.to_owned()),
            used_for: Some("sig".to_owned()),
        }
    }

    /// Whether a JWS is by this key over a payload that is not in it. Its header must be the one this program writes:
    /// what asks for anything else is not understood, and so not accepted.
    #[must_use]
    pub fn has_signed(&self, payload: &[u8], jws: &str) -> bool {
        let Some((header, signature)) = jws.split_once("..") else { return false };
        let decoded = BASE64URL.decode(header).ok();
        let signature = BASE64URL.decode(signature).ok();
        let signature = signature.and_then(|bytes| Signature::from_slice(&bytes).ok());
        let (Some(decoded), Some(signature)) = (decoded, signature) else { return false };
        decoded == self::header(&self.id).as_bytes()
            && self.key.verify_strict(&signing_input(header, payload), &signature).is_ok()
    }
}

fn header(id: &str) -> String {
    format!(r#"{{"alg":"{ALGORITHM}","kid":"{id}"}}"#)
}

/// RFC 7515, 5.1: what is signed of a header in base64url and a payload.
fn signing_input(header: &str, payload: &[u8]) -> Vec<u8> {
    format!("{header}.{}", BASE64URL.encode(payload)).into_bytes()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bytes<const N: usize>(hex: &str) -> [u8; N] {
        let digits: Vec<u8> = hex
            .bytes()
            .map(|digit| {
                char::from(digit).to_digit(16).and_then(|digit| digit.try_into().ok()).expect("hex")
            })
            .collect();
        let bytes: Vec<u8> = digits.chunks(2).map(|pair| pair[0] << 4 | pair[1]).collect();
        bytes.try_into().expect("as long")
    }

    /// RFC 8032, 7.1, tests 1 to 3: secret key, public key, message, signature.
    #[test]
    fn the_test_vectors_of_the_algorithm_come_out() {
        for (secret, public, message, signature) in [
            (
                "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
                "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
                &[][..],
                "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b",
            ),
            (
                "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
                "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
                &[0x72],
                "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00",
            ),
            (
                "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
                "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
                &[0xaf, 0x82],
                "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a",
            ),
        ] {
            let key = SigningKey::from_bytes(&bytes(secret));
            assert_eq!(key.verifying_key().to_bytes(), bytes(public));
            assert_eq!(key.sign(message).to_bytes(), bytes(signature));
        }
    }

    /// RFC 8037, A.1: the key of the examples. Its `d` is the secret of the first test vector above.
    fn example() -> Signer {
        let secret =
            BASE64URL.decode("nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A").expect("base64url");
        Signer::of(SigningKey::from_bytes(&secret.try_into().expect("32 bytes")))
    }

    /// RFC 8037, A.2 and A.3: public key and thumbprint.
    #[test]
    fn a_key_is_published_and_named_as_the_standard_has_it() {
        let public = example().public().published();
        assert_eq!(public.x, "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo");
        assert_eq!(public.kid.as_deref(), Some("kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k"));
        let text = serde_json::to_string(&public).expect("JSON");
        assert_eq!(&PublicKey::from_text(&text).expect("a key"), example().public());
        let nameless =
            r#"{"kty":"OKP","crv":"Ed25519","x":"11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo"}"#;
        assert_eq!(&PublicKey::from_text(nameless).expect("a key"), example().public());
        let other = text.replace("kPrK", "kPrX");
        assert!(matches!(PublicKey::from_text(&other), Err(NoKey::Kid(_))));
        for wrong in ["", "{}", "{", "-----BEGIN PUBLIC KEY-----\n-----END PUBLIC KEY-----\n"] {
            assert_eq!(PublicKey::from_text(wrong), Err(NoKey::Public), "{wrong}");
            assert_eq!(Signer::from_pem(wrong).map(|_| ()), Err(NoKey::Private), "{wrong}");
        }
    }

    /// RFC 8037, A.4: header, payload and signature of the example; RFC 7515, appendix F: the payload left out.
    #[test]
    fn the_signed_example_of_the_standard_comes_out() {
        let payload = b"Example of Ed25519 signing";
        let header = BASE64URL.encode(r#"{"alg":"EdDSA"}"#);
        let input = signing_input(&header, payload);
        assert_eq!(input, b"eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc");
        let signature = BASE64URL.encode(example().key.sign(&input).to_bytes());
        assert_eq!(
            signature,
            "hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg"
        );
    }

    #[test]
    fn nothing_but_what_was_signed_is_accepted() {
        let (signer, payload) = (example(), b"{\"verdict\":\"holds\"}");
        let jws = signer.detached(payload);
        assert_eq!(jws, signer.detached(payload), "the same bytes each time");
        assert!(signer.public().has_signed(payload, &jws));
        assert!(!signer.public().has_signed(b"{\"verdict\":\"fails\"}", &jws));
        let other = Signer::of(SigningKey::from_bytes(&[7; 32]));
        assert!(!other.public().has_signed(payload, &jws));
        // By the right key over another header: none of the header's members may be without effect.
        let header = BASE64URL.encode(r#"{"alg":"none"}"#);
        let signature = signer.key.sign(&signing_input(&header, payload));
        let foreign = format!("{header}..{}", BASE64URL.encode(signature.to_bytes()));
        for wrong in [&*foreign, "", "..", &jws[..jws.len() - 2], &jws.replace("..", ".e30.")] {
            assert!(!signer.public().has_signed(payload, wrong), "{wrong}");
        }
    }
}
