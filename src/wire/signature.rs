//! The signature of an answer, and the key it can be checked by.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

use super::provenance::Engine;
use super::remarks::Verdict;

/// Who vouches for an answer: a signature over what it says and over all of it. There where the operator has a key for
/// it, and never on a problem.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Signature {
    /// Algorithm, by its name in JOSE: Ed25519 (RFC 8037, 3.1).
    #[schema(example = "EdDSA")]
    pub algorithm: String,
    /// The key, by its thumbprint (RFC 7638): `kid` of `GET /v1/signing-key`.
    #[schema(example = "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k")]
    pub key_id: String,
    /// What is signed.
    pub signs: Signed,
    /// The signature: a JWS in compact form whose payload is detached (RFC 7515, appendix F). The payload is `signs` in
    /// its canonical form (RFC 8785).
    #[schema(
        example = "eyJhbGciOiJFZERTQSJ9..hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg"
    )]
    pub jws: String,
}

/// What is signed of an answer.
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
#[serde(deny_unknown_fields)]
pub struct Signed {
    /// SHA-256 of the answer without its `signature` in canonical form (RFC 8785), hexadecimal: no figure of it can be
    /// another.
    pub answer_digest: String,
    /// `engine` of the answer.
    pub engine: Engine,
    /// `input_digest` of the answer.
    pub input_digest: String,
    /// `verdict` of the answer, where it has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false)]
    pub verdict: Option<Verdict>,
}

/// The public key that signatures are checked by: a JSON Web Key (RFC 7517, RFC 8037).
#[derive(Debug, Clone, Serialize, Deserialize, ToSchema)]
pub struct SigningKey {
    /// Kind of key: one on a curve.
    #[schema(example = "OKP")]
    pub kty: String,
    /// The curve.
    #[schema(example = "Ed25519")]
    pub crv: String,
    /// The key, base64url.
    #[schema(example = "11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo")]
    pub x: String,
    /// Its thumbprint (RFC 7638), by which signatures name it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k")]
    pub kid: Option<String>,
    /// Algorithm of its signatures.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "EdDSA")]
    pub alg: Option<String>,
    /// What it is for: signatures.
    #[serde(rename = "use", default, skip_serializing_if = "Option::is_none")]
    #[schema(nullable = false, example = "sig")]
    pub used_for: Option<String>,
}
