//! The canonical form of a document (RFC 8785): the same bytes however it was written down. Digests
//! are taken of it.
//!
//! Written here because a general writer, which has to sort what it is given one value at a time,
//! keeps a buffer for every object and cost more than reading and checking the request; a document
//! that is held whole is only walked. The tests hold it against such a writer.

use serde_json::{Map, Number, Value};

/// A request in canonical form, without some of its members if so wanted.
pub fn canonical(document: &Value, left_out: &[&str]) -> Vec<u8> {
    let mut out = Vec::new();
    match document {
        Value::Object(members) => object(members, left_out, &mut out),
        other => value(other, &mut out),
    }
    out
}

fn value(value: &Value, out: &mut Vec<u8>) {
    match value {
        Value::Null => out.extend_from_slice(b"null"),
        Value::Bool(true) => out.extend_from_slice(b"true"),
        Value::Bool(false) => out.extend_from_slice(b"false"),
        Value::Number(one) => number(one, out),
        Value::String(one) => text(one, out),
        Value::Array(items) => {
            out.push(b'[');
            for (i, item) in items.iter().enumerate() {
                if i > 0 {
                    out.push(b',');
                }
                self::value(item, out);
            }
            out.push(b']');
        }
        Value::Object(members) => object(members, &[], out),
    }
}

/// Members ascending by the UTF-16 units of their names (3.2.3).
fn object(members: &Map<String, Value>, left_out: &[&str], out: &mut Vec<u8>) {
    let mut sorted: Vec<(&String, &Value)> =
        members.iter().filter(|(name, _)| !left_out.contains(&name.as_str())).collect();
    sorted.sort_unstable_by(|(a, _), (b, _)| a.encode_utf16().cmp(b.encode_utf16()));
    out.push(b'{');
    for (i, (name, member)) in sorted.into_iter().enumerate() {
        if i > 0 {
            out.push(b',');
        }
        text(name, out);
        out.push(b':');
        value(member, out);
    }
    out.push(b'}');
}

/// A number as ECMAScript writes it (3.2.2.3). A document has no number that is not finite.
fn number(number: &Number, out: &mut Vec<u8>) {
    let number = number.as_f64().unwrap_or_default();
    out.extend_from_slice(ryu_js::Buffer::new().format_finite(number).as_bytes());
}

/// A string (3.2.2.2): what must be escaped is, as short as can be; serde does the same.
fn text(text: &str, out: &mut Vec<u8>) {
    // Writing a string to memory cannot fail.
    let _ = serde_json::to_writer(out, text);
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde_json::json;

    use super::*;

    fn written(document: &Value) -> String {
        String::from_utf8(canonical(document, &[])).expect("JSON is UTF-8")
    }

    /// RFC 8785, 3.2.2 and 3.2.3: input and output of the sample object.
    #[test]
    fn the_sample_of_the_standard_comes_out_as_printed_there() {
        let sample: Value = serde_json::from_str(
            r#"{
              "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
              "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
              "literals": [null, true, false]
            }"#,
        )
        .expect("the sample is JSON");
        assert_eq!(
            written(&sample),
            "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],\
             \"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}"
        );
    }

    /// RFC 8785, 3.2.3: the order of names by UTF-16 units, which is not that of code points.
    #[test]
    fn names_are_in_the_order_of_the_standard() {
        let sample = json!({
            "\u{20ac}": 1, "\r": 2, "\u{fb33}": 3, "1": 4, "\u{1f600}": 5, "\u{80}": 6, "\u{f6}": 7
        });
        assert_eq!(
            written(&sample),
            "{\"\\r\":2,\"1\":4,\"\u{80}\":6,\"\u{f6}\":7,\"\u{20ac}\":1,\"\u{1f600}\":5,\"\u{fb33}\":3}"
        );
    }

    #[test]
    fn spelling_of_numbers_and_order_of_members_do_not_matter() {
        let read = |text: &str| written(&serde_json::from_str(text).expect("it is JSON"));
        assert_eq!(read(r#"{"b": 30.0, "a": 7}"#), read(r#"{"a":7.0,"b":3e1}"#));
        assert_ne!(read(r#"{"b": 30.0, "a": 7}"#), read(r#"{"b": 30.0, "a": 8}"#));
    }

    #[test]
    fn members_of_the_whole_may_be_left_out() {
        let document = json!({ "a": { "b": 1 }, "b": 2 });
        assert_eq!(canonical(&document, &["b"]), b"{\"a\":{\"b\":1}}");
        assert_eq!(canonical(&json!([]), &["b"]), b"[]");
    }

    fn documents() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            any::<u64>().prop_map(Value::from),
            (-1e9..1e9).prop_map(Value::from),
            any::<f64>().prop_filter_map("finite", |x| Number::from_f64(x).map(Value::Number)),
            any::<String>().prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 60, 8, |inner| {
            prop_oneof![
                prop::collection::vec(inner.clone(), 0..8).prop_map(Value::from),
                prop::collection::vec((any::<String>(), inner), 0..8)
                    .prop_map(|members| Value::Object(members.into_iter().collect())),
            ]
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..Default::default() })]
        #[test]
        fn a_general_writer_writes_the_same(document in documents()) {
            let general = serde_json_canonicalizer::to_vec(&document).expect("it has a form");
            prop_assert_eq!(canonical(&document, &[]), general);
        }
    }
}
