//! Long batches that are killed and gone on with: the answers are those of a run nobody disturbed.

use std::fs::{self, File};
use std::io::{BufRead, BufReader, BufWriter, Read, Seek, SeekFrom, Write};
use std::path::Path;
use std::time::Duration;

use futures_util::stream;
use hyper::body::Bytes;
use serde_json::{Value, json};
use sha2::{Digest, Sha256};

use crate::caller::batch;
use crate::corpus::Case;
use crate::program::{Folder, Service, solving};
use crate::{Dice, size};

/// How often each run is killed.
const KILLS: usize = 10;

/// A hundredth of the lines is bad, a five-hundredth a layout, all others ask for actions at another
/// altitude; no line is like another.
fn jobs(path: &Path, count: usize) {
    let mut file = BufWriter::new(File::create(path).expect("a file can be made"));
    let [actions, layout] =
        ["actions-barn", "layout-cottage"].map(|name| Case::plain(name).document());
    let mut dice = Dice::new(815);
    for number in 0..count {
        let altitude = json!(dice.roll(6000) as f64 / 10.0);
        let of = |kind: &str, job: &Value| {
            let mut job = job.clone();
            job["site"]["altitude_m"] = altitude.clone();
            json!({ "id": number.to_string(), "kind": kind, "job": job }).to_string()
        };
        let line = match dice.roll(500) {
            0 => of("layout", &layout),
            1..4 => of("actions", &json!({ "site": {} })),
            4..6 => of("actions", &actions).split_off(1),
            _ => of("actions", &actions),
        };
        writeln!(file, "{line}").expect("it can be written");
    }
    file.flush().expect("it can be written");
}

fn hash(path: &Path) -> String {
    let mut hash = Sha256::new();
    let mut file = File::open(path).expect("it was written");
    let mut piece = vec![0; 1 << 20];
    loop {
        match file.read(&mut piece).expect("it can be read") {
            0 => return written(hash),
            length => hash.update(&piece[..length]),
        }
    }
}

fn written(hash: Sha256) -> String {
    hash.finalize().iter().fold(String::new(), |text, byte| format!("{text}{byte:02x}"))
}

fn length(path: &Path) -> u64 {
    fs::metadata(path).map_or(0, |known| known.len())
}

/// After how many bytes of answers the runs are killed, in order.
fn ends(whole: u64) -> Vec<u64> {
    let mut dice = Dice::new(42);
    let mut ends: Vec<u64> =
        (0..KILLS).map(|_| whole * (5 + dice.roll(900) as u64) / 1000).collect();
    ends.sort_unstable();
    ends
}

#[test]
fn killed_batches_are_gone_on_with() {
    let count = size("ENDURANCE_INTERRUPTED", 1500);
    let folder = Folder::new("interrupted");
    let lines = folder.file("jobs.ndjson");
    jobs(&lines, count);
    let undisturbed = folder.file("undisturbed.ndjson");
    let status = solving(&lines, &undisturbed, &[], &folder.file("said")).wait();
    assert_eq!(status.expect("it ends").code(), Some(1), "some lines are bad");
    let wanted = hash(&undisturbed);
    let whole = length(&undisturbed);
    // A million answers are some twenty gigabytes.
    fs::remove_file(&undisturbed).expect("it is there");
    println!("{count} lines, {whole} bytes of answers, SHA-256 {wanted}");
    let resumed = folder.file("resumed.ndjson");
    let killed = killed_and_resumed(&lines, &resumed, &ends(whole), &folder);
    println!("solve: killed after {killed:?} bytes");
    assert_eq!((killed.len(), hash(&resumed)), (KILLS, wanted.clone()));
    fs::remove_file(&resumed).expect("it is there");
    let (killed, found) = killed_and_sent_again(&lines, &ends(whole), &folder);
    println!("POST /v1/batches: broken off after {killed:?} bytes");
    assert_eq!((killed.len(), found), (KILLS, wanted));
}

/// `solve --resume`, killed each time its answers have reached so many bytes; where they were then.
fn killed_and_resumed(lines: &Path, answers: &Path, ends: &[u64], folder: &Folder) -> Vec<u64> {
    let mut killed = Vec::new();
    for end in ends {
        let mut child = solving(lines, answers, &["--resume"], &folder.file("said"));
        while length(answers) < *end {
            assert!(child.try_wait().expect("it can be asked").is_none(), "it ended before");
            std::thread::sleep(Duration::from_millis(1));
        }
        child.kill().expect("it runs");
        child.wait().expect("it ends");
        killed.push(length(answers));
    }
    let last = solving(lines, answers, &["--resume"], &folder.file("said")).wait();
    assert!(last.expect("it ends").code().is_some_and(|code| code < 2), "the rest is answered");
    killed
}

/// Batches over HTTP: after so many bytes the service is killed or the caller leaves, in turn, and the
/// lines that have no answer yet are sent again. After how many bytes, and the hash of all answers.
fn killed_and_sent_again(lines: &Path, ends: &[u64], folder: &Folder) -> (Vec<u64>, String) {
    let runtime = tokio::runtime::Runtime::new().expect("a runtime");
    let mut out = Answers::default();
    let mut service = Service::start(folder, &["--log", "warn"]);
    let mut killed = Vec::new();
    for (number, end) in ends.iter().copied().chain([u64::MAX]).enumerate() {
        let pieces = stream::iter(after(lines, out.lines));
        let (before, mut begun, mut summary) = (out.lines, Vec::new(), false);
        runtime.block_on(batch(service.address(), pieces, |piece| {
            begun.extend_from_slice(piece);
            summary |= out.take(&mut begun, before);
            out.bytes < end
        }));
        if end == u64::MAX {
            assert!(summary, "the last batch is summed up");
        } else {
            killed.push(out.bytes);
            if number % 2 == 0 {
                // With this the one before is dropped, which kills it without a word.
                service = Service::start(folder, &["--log", "warn"]);
            }
        }
    }
    (killed, written(out.hash))
}

/// The answers that arrived whole.
#[derive(Default)]
struct Answers {
    hash: Sha256,
    bytes: u64,
    lines: u64,
}

impl Answers {
    /// Takes whole lines, numbered as in the file of all lines; whether the summary was among them.
    fn take(&mut self, begun: &mut Vec<u8>, before: u64) -> bool {
        let Some(end) = begun.iter().rposition(|byte| *byte == b'\n') else { return false };
        let rest = begun.split_off(end + 1);
        for line in std::mem::replace(begun, rest).split_inclusive(|byte| *byte == b'\n') {
            let text = std::str::from_utf8(line).expect("answers are text");
            if text.starts_with("{\"kind\":\"end\"") {
                return true;
            }
            let (sent, whole) = (self.lines + 1 - before, self.lines + 1);
            let mut text =
                text.replace(&format!("\"line\":{sent},"), &format!("\"line\":{whole},"));
            if text.contains("malformed_json") {
                text = text.replace(&format!("Line {sent},"), &format!("Line {whole},"));
            }
            self.hash.update(&text);
            self.bytes += text.len() as u64;
            self.lines += 1;
        }
        false
    }
}

/// The lines of a file after so many, in pieces.
fn after(path: &Path, lines: u64) -> impl Iterator<Item = Bytes> + Send + 'static {
    let mut file = BufReader::new(File::open(path).expect("it was written"));
    let mut begin = 0;
    for _ in 0..lines {
        begin += file.skip_until(b'\n').expect("it can be read") as u64;
    }
    file.seek(SeekFrom::Start(begin)).expect("it can be read");
    std::iter::from_fn(move || {
        let mut piece = vec![0; 64 * 1024];
        let length = file.read(&mut piece).expect("it can be read");
        piece.truncate(length);
        (length > 0).then(|| Bytes::from(piece))
    })
}
