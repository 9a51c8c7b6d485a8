//! Jobs worked by hand, from the actions to every utilisation of one hook, its rail, a module and a
//! rafter, in documents an engineer can file.
//!
//! The formulas of a document are written by hand and share nothing with the crate; `sheet.rs` says
//! how a line looks. The test works every line from the lines before it and compares what is marked
//! as agreeing with the answer of the product. Forces of hooks are taken over from the answer and
//! proven by hand: in balance with the loads, and with the rail where its springs put it. Of rails up the
//! slope the forces down it are solved for by hand as well; those of rails that cross are those of a frame in space,
//! which `frames.rs` compares. The documents of a hipped and a monopitch roof
//! leave out what does not depend on the form of the roof, that of another country what does not depend on
//! its annex.
//!
//! `UPDATE_HANDWORKED=1 cargo test --test reference` writes the values anew where a job has
//! changed; the formulas stay. Where another combination governs, they have to be written anew too.

mod frames;
mod sheet;
mod stations;

use std::fs;
use std::path::Path;

use hookspan::service::layout;
use hookspan::service::request::Options;
use hookspan::wire::layout::LayoutRequest;
use serde_json::Value;

use frames::Frame;
use sheet::{Job, Sheet};

/// Each document and the job it works.
const DOCUMENTS: [(&str, &str); 15] = [
    ("barn.md", "tests/data/layout-barn.json"),
    ("cottage.md", "tests/data/layout-cottage.json"),
    ("slate.md", "tests/reference/handworked/slate.json"),
    ("farmhouse.md", "tests/reference/handworked/farmhouse.json"),
    ("workshop.md", "tests/reference/handworked/workshop.json"),
    ("longhouse.md", "tests/reference/handworked/longhouse.json"),
    ("chalet.md", "tests/reference/handworked/chalet.json"),
    ("granary.md", "tests/reference/handworked/granary.json"),
    ("terrace.md", "tests/reference/handworked/terrace.json"),
    ("dairy.md", "tests/reference/handworked/dairy.json"),
    ("creamery.md", "tests/reference/handworked/creamery.json"),
    ("smithy.md", "tests/reference/handworked/smithy.json"),
    ("winery.md", "tests/reference/handworked/winery.json"),
    ("sheepfold.md", "tests/reference/handworked/sheepfold.json"),
    ("boathouse.md", BOATHOUSE),
];

/// A job whose rails cross, which has a frame beside its document.
const BOATHOUSE: &str = "tests/data/layout-boathouse.json";

fn job(path: &Path) -> Job {
    let text = fs::read_to_string(path).expect("an example");
    let request: Value = serde_json::from_str(&text).expect("an example is JSON");
    let typed: LayoutRequest = serde_json::from_str(&text).expect("an example is a request");
    let options = Options { trace: true, ..Options::default() };
    let answer = layout::run(&typed, String::new(), &options).expect("an example has no faults");
    Job::new(request, serde_json::to_value(answer).expect("an answer is JSON"))
}

#[test]
fn every_document_is_worked_as_it_says_and_agrees_with_the_answer() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    for (name, example) in DOCUMENTS {
        let path = root.join("tests/reference/handworked").join(name);
        let written = fs::read_to_string(&path).expect("a document");
        let mut job = job(&root.join(example));
        if example == BOATHOUSE {
            job.take(frame(root));
        }
        let worked = Sheet::work(&written, &job);
        println!("{name}: {} values, {} agree with the answer", worked.values, worked.compared);
        if std::env::var_os("UPDATE_HANDWORKED").is_some() {
            fs::write(&path, &worked.text).expect("a document can be written");
        }
        assert!(worked.trouble.is_empty(), "{name}:\n{}", worked.trouble.join("\n"));
        assert!(worked.compared >= 20, "{name}: little is compared with the answer");
        for (at, (is, should)) in written.lines().zip(worked.text.lines()).enumerate() {
            assert_eq!(is, should, "{name}, line {}: write the values anew?", at + 1);
        }
        assert_eq!(written, worked.text, "{name}: write the values anew?");
    }
}

#[test]
fn rails_that_cross_agree_with_a_frame_in_space() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut job = job(&root.join(BOATHOUSE));
    job.take(frame(root));
    let trouble = job.beside_frame();
    assert!(trouble.is_empty(), "{}", trouble.join("\n"));
}

/// What another program made of the job whose rails cross.
fn frame(root: &Path) -> Frame {
    let path = root.join("tests/reference/handworked/boathouse_frame.json");
    Frame::read(&fs::read_to_string(path).expect("a frame"))
}
