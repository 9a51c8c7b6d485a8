//! Headers of answers, beside those that name what is fixed.

use serde_json::{Map, Value, json};

use super::operations;

/// A header, by the name of its entry among the components.
struct Header {
    entry: &'static str,
    name: &'static str,
    kind: &'static str,
    about: &'static str,
    example: &'static str,
    /// Whether an answer of this status, to an operation that may ask for a key, has it.
    is_of: fn(&Answer<'_>) -> bool,
}

/// An answer of an operation.
struct Answer<'a> {
    status: &'a str,
    /// Whether the operation may ask for a key.
    guarded: bool,
    /// Whether it takes a body.
    posted: bool,
    /// Whether it has tables, which are files to keep.
    has_tables: bool,
}

/// Every header.
const HEADERS: [Header; 8] = [
    Header {
        entry: "RequestId",
        name: "x-request-id",
        kind: "string",
        about: "Name of this request in the log: the one you sent, or a new one.",
        example: "4b7f1c9e-0f4c-4f0e-9a56-2d3c8f4f8f10",
        is_of: |_| true,
    },
    Header {
        entry: "RateLimitPolicy",
        name: "ratelimit-policy",
        kind: "string",
        about: "What your key may do (draft-ietf-httpapi-ratelimit-headers-10). Absent without a key.",
        example: "\"requests\";q=600;w=60",
        is_of: |answer| answer.guarded && answer.status != "401",
    },
    Header {
        entry: "RateLimit",
        name: "ratelimit",
        kind: "string",
        about: "What is left of that, and for how long. Absent without a key.",
        example: "\"requests\";r=598;t=60",
        is_of: |answer| answer.guarded && answer.status != "401",
    },
    Header {
        entry: "Challenge",
        name: "www-authenticate",
        kind: "string",
        about: "How to say who you are (RFC 6750, 3).",
        example: "Bearer",
        is_of: |answer| ["401", "403"].contains(&answer.status),
    },
    Header {
        entry: "RetryAfter",
        name: "retry-after",
        kind: "integer",
        about: "Seconds after which to send the same request again (RFC 9110, 10.2.3). Absent where \
                that would not help.",
        example: "3",
        is_of: |answer| ["429", "503"].contains(&answer.status),
    },
    Header {
        entry: "AcceptPost",
        name: "accept-post",
        kind: "string",
        about: "Media types of bodies taken here (Linked Data Platform 1.0, 7.1).",
        example: "application/json",
        is_of: |answer| answer.posted && answer.status == "415",
    },
    Header {
        entry: "Vary",
        name: "vary",
        kind: "string",
        about: "Headers of the request the answer depends on.",
        example: "accept, accept-language",
        is_of: |answer| answer.posted && answer.status == "200",
    },
    Header {
        entry: "ContentDisposition",
        name: "content-disposition",
        kind: "string",
        about: "Name of a table as a file (RFC 6266). Other forms have none.",
        example: "attachment; filename=\"orchard-barn-order-9f86d081.csv\"",
        is_of: |answer| answer.has_tables,
    },
];

/// Health, which nobody needs a key for.
const OPEN: [&str; 2] = ["/livez", "/readyz"];

/// Says of every answer which headers it has.
pub fn say(description: &mut Value) {
    for (path, method, operation) in operations::of(description) {
        let responses = operation["responses"].as_object_mut();
        for (status, response) in responses.into_iter().flatten() {
            let answer = Answer {
                status,
                guarded: !OPEN.contains(&path.as_str()),
                posted: method == "post",
                has_tables: response["content"]["text/csv"].is_object(),
            };
            for header in HEADERS.iter().filter(|header| (header.is_of)(&answer)) {
                let reference = format!("#/components/headers/{}", header.entry);
                response["headers"][header.name] = json!({ "$ref": reference });
            }
        }
    }
    let entries = HEADERS.iter().map(|header| {
        let example = header.example.parse::<u32>().map_or(json!(header.example), Value::from);
        let said = json!({
            "description": header.about,
            "schema": { "type": header.kind },
            "example": example,
        });
        (header.entry.to_owned(), said)
    });
    description["components"]["headers"] = Value::Object(entries.collect::<Map<_, _>>());
}
