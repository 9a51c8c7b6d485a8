//! Mutations of requests that know what a request looks like, and mutations of bytes that do not.

use serde_json::{Value, json};

use crate::Dice;
use crate::corpus::{Case, Edit};
use crate::places::{Place, Places};

/// Pointers of a document and what stands there, the document itself first.
pub fn pointers<'a>(value: &'a Value, at: &str, found: &mut Vec<(String, &'a Value)>) {
    found.push((at.to_owned(), value));
    match value {
        Value::Object(members) => {
            for (name, member) in members {
                let name = name.replace('~', "~0").replace('/', "~1");
                pointers(member, &format!("{at}/{name}"), found);
            }
        }
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                pointers(item, &format!("{at}/{index}"), found);
            }
        }
        _ => {}
    }
}

/// The case with one to four edits more; `other` lends values.
pub fn mutated(case: &Case, other: &Value, places: &Places, dice: &mut Dice) -> Case {
    let mut case = case.clone();
    let mut document = case.document();
    for _ in 0..=dice.roll(4) {
        if let Some(edit) = edit(&document, other, places, dice) {
            edit.make(&mut document);
            case.edits.push(edit);
        }
    }
    case
}

/// One edit of a document.
fn edit(document: &Value, other: &Value, places: &Places, dice: &mut Dice) -> Option<Edit> {
    let mut all = Vec::new();
    pointers(document, "", &mut all);
    let (at, now) = dice.pick(&all[1.min(all.len() - 1)..])?;
    let known = places.at(at);
    let set = |value: Value| Some(Edit { at: at.clone(), to: Some(value) });
    match dice.roll(12) {
        0..3 => set(dice.pick(&known?.values)?.clone()),
        3..5 => set(near(now, dice)?),
        5 => set(odd(dice)),
        6 => Some(Edit { at: at.clone(), to: None }),
        7..9 => added(&all, places, dice),
        9 => set(rearranged(now, dice)?),
        10 => {
            // What stands in the same place of another job, or anywhere in it.
            let mut lent = Vec::new();
            pointers(other, "", &mut lent);
            let there = other.pointer(at).or_else(|| dice.pick(&lent).map(|(_, value)| *value));
            set(there?.clone())
        }
        _ => set(dice.pick(&all)?.1.clone()),
    }
}

/// A member that an object may have and has not.
fn added(all: &[(String, &Value)], places: &Places, dice: &mut Dice) -> Option<Edit> {
    let lacks = |(at, value): &(String, &Value)| -> Vec<Edit> {
        let Some(Place { members, .. }) = places.at(at).filter(|_| value.is_object()) else {
            return Vec::new();
        };
        let missing = members.iter().filter(|(name, _)| value.get(name.as_str()).is_none());
        let edit = |(name, to): (&String, &Value)| Edit {
            at: format!("{at}/{name}"),
            to: Some(to.clone()),
        };
        missing.map(edit).collect()
    };
    let missing: Vec<Edit> = all.iter().flat_map(lacks).collect();
    dice.pick(&missing).cloned()
}

/// A number near one that is there, or nothing where there is none.
fn near(now: &Value, dice: &mut Dice) -> Option<Value> {
    let now = now.as_f64()?;
    let all = [
        now * (1.0 + 1e-9),
        now * 0.999,
        now * 1.07,
        now * 2.0,
        now / 2.0,
        now * 10.0,
        now / 10.0,
        now + 1.0,
        now - 1.0,
        now + 30.0,
        now - 30.0,
        -now,
        now.round(),
        now.next_up(),
        now.next_down(),
    ];
    let value = *dice.pick(&all)?;
    // Counts stay counts, else nothing would be tried but that they are not.
    let whole = value.fract() == 0.0 && value.abs() < 1e15;
    #[expect(clippy::cast_possible_truncation, reason = "it is whole and small")]
    Some(if whole { json!(value as i64) } else { json!(value) })
}

/// What nobody would send.
fn odd(dice: &mut Dice) -> Value {
    let deep = |levels: usize| (0..levels).fold(json!({}), |inner, _| json!({ "a": inner }));
    match dice.roll(16) {
        0 => Value::Null,
        1 => json!(true),
        2 => json!(-0.0),
        3 => json!(0),
        4 => json!(1e-300),
        5 => json!(1e300),
        6 => json!(u64::MAX),
        7 => json!(""),
        8 => json!("x".repeat(1 + dice.roll(3000))),
        9 => json!("\u{0}\u{202e}<script>'\"&\n"),
        10 => json!([]),
        11 => json!({}),
        12 => deep(1 + dice.roll(150)),
        13 => json!(vec![0; 1 + dice.roll(3000)]),
        14 => json!(vec![json!({}); 1 + dice.roll(3000)]),
        _ => json!({ "unknown": 1 }),
    }
}

/// A list with entries left out, doubled, turned round or many times over.
fn rearranged(now: &Value, dice: &mut Dice) -> Option<Value> {
    let items = now.as_array()?;
    let mut items = items.clone();
    let at = dice.roll(items.len().max(1));
    match dice.roll(5) {
        0 if !items.is_empty() => drop(items.remove(at)),
        1 => items.reverse(),
        2 => items.extend(items.clone()),
        3 => {
            let one = items.get(at)?.clone();
            items.extend(vec![one; 1 + dice.roll(200)]);
        }
        _ => {
            let other = dice.roll(items.len().max(1));
            if items.is_empty() {
                return None;
            }
            items.swap(at, other);
        }
    }
    Some(Value::Array(items))
}

/// Bytes changed without regard to what they are.
pub fn damaged(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    for _ in 0..=dice.roll(3) {
        let at = dice.roll(bytes.len().max(1));
        match dice.roll(7) {
            _ if bytes.is_empty() => bytes.push(b'{'),
            0 => bytes[at] = u8::try_from(dice.roll(256)).expect("a byte"),
            1 => drop(bytes.remove(at)),
            2 => bytes.insert(at, b"0123456789-.eE\"{}[],:tfn\\ "[dice.roll(25)]),
            3 => bytes.truncate(at),
            4 => {
                let part = bytes[at..(at + 1 + dice.roll(60)).min(bytes.len())].to_vec();
                bytes.splice(at..at, part);
            }
            5 => drop(bytes.splice(at..at, *b"\xff\xfe\xed\xa0\x80")),
            _ => drop(bytes.splice(at..at, *b"1e999")),
        }
    }
    bytes
}
