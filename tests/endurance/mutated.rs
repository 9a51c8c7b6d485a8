//! Mutated requests and lines: each is answered or refused, in time and within memory, and the program
//! runs on.

use std::fs::{self, File};
use std::io::{BufRead, BufReader, BufWriter, Write};
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use futures_util::stream;
use hyper::body::Bytes;
use serde_json::Value;

use crate::caller::{Caller, Reply, batch};
use crate::child::most_memory_mb;
use crate::corpus::{Case, Corpus, shown};
use crate::mutations::{damaged, mutated};
use crate::program::{Folder, Service, solving};
use crate::{Dice, size};

/// Callers at once.
const CALLERS: usize = 4;
/// Most memory the program may hold, MB, of the 512 its manifests give it.
const CEILING_MB: f64 = 400.0;
/// Time a job has. Without optimisation everything takes some twenty times as long.
const DEADLINE_S: u64 = if cfg!(debug_assertions) { 300 } else { 10 };

/// How a request is sent beside its body.
struct Sent {
    query: &'static str,
    accept: &'static str,
    packed: bool,
}

fn sent(dice: &mut Dice) -> Sent {
    let queries =
        ["", "", "", "?trace=full", "?lang=de", "?units=imperial", "?lang=xx", "?a=%ff&&="];
    let accepts = ["", "", "", "", "image/svg+xml", "text/html", "application/pdf"];
    Sent {
        query: queries[dice.roll(queries.len())],
        accept: accepts[dice.roll(accepts.len())],
        packed: dice.roll(20) == 0,
    }
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packed.write_all(bytes).expect("it fits");
    packed.finish().expect("it ends")
}

/// Asserts what holds of every reply, and says what it shows.
fn looked_at(path: &str, reply: &Reply, text: &[u8]) -> Vec<String> {
    let told = || format!("{path}: {}", String::from_utf8_lossy(text));
    assert!(reply.status < 500, "{} for {}", reply.status, told());
    assert!(reply.took < Duration::from_secs(DEADLINE_S), "{:?} for {}", reply.took, told());
    if reply.status == 200 && reply.media_type != "application/json" {
        assert!(!reply.body.is_empty(), "nothing for {}", told());
        return vec![format!("{} of a {path}", reply.media_type)];
    }
    let kind = if reply.status == 200 { "application/json" } else { "application/problem+json" };
    assert_eq!(reply.media_type, kind, "for {}", told());
    let body: Value = serde_json::from_slice(&reply.body)
        .unwrap_or_else(|error| panic!("{error} in the answer to {}", told()));
    if reply.status == 422 && !path.contains('?') {
        let faults = body["errors"].as_array().expect("faults are listed");
        assert!(!faults.is_empty(), "refused without a reason: {}", told());
    }
    shown(path.split('?').next().unwrap_or(path), reply.status, &body)
}

/// Not a number where the system does not tell.
fn within_the_ceiling(who: &str, memory_mb: f64) {
    println!("most memory of {who}: {memory_mb:.0} MB");
    assert!(memory_mb.is_nan() || memory_mb < CEILING_MB, "{who} held {memory_mb} MB");
}

/// What the program came to in the end.
fn looked_over(service: &Service) {
    let log = service.log();
    assert!(!log.contains("panicked"), "{log}");
    within_the_ceiling("the service", service.most_memory_mb());
}

fn service(folder: &Folder) -> Service {
    let deadline = DEADLINE_S.to_string();
    // None is turned away for having waited: what is asked is how long each takes by itself.
    let flags = ["--deadline-seconds", &deadline, "--queue-seconds", &deadline, "--log", "warn"];
    Service::start(folder, &flags)
}

/// The cases that earlier runs kept, and as many new ones as asked for.
#[test]
fn mutated_requests_are_answered_or_refused() {
    let count = size("ENDURANCE_REQUESTS", 300);
    let folder = Folder::new("mutated-requests");
    let service = service(&folder);
    let corpus = Mutex::new(Corpus::read());
    let known = corpus.lock().expect("nobody panicked").cases().to_vec();
    let (next, answered, refused, longest) =
        (AtomicUsize::new(0), AtomicUsize::new(0), AtomicUsize::new(0), Mutex::new(Duration::ZERO));
    let ask = |caller: &Caller, path: &str, headers: &[(&str, &str)], text: &[u8]| {
        let url = format!("http://{}{path}", service.address());
        let reply = caller.post(&url, headers, text);
        let tally = if reply.status == 200 { &answered } else { &refused };
        tally.fetch_add(1, Ordering::Relaxed);
        let mut longest = longest.lock().expect("nobody panicked");
        *longest = (*longest).max(reply.took);
        drop(longest);
        (reply.status == 200, looked_at(path, &reply, text))
    };
    let json = ("content-type", "application/json");
    std::thread::scope(|scope| {
        for number in 0..CALLERS {
            let (known, corpus, next, ask) = (&known, &corpus, &next, &ask);
            scope.spawn(move || {
                let caller = Caller::new();
                for case in known.iter().skip(number).step_by(CALLERS) {
                    let text = case.document().to_string().into_bytes();
                    let (_, shown) = ask(&caller, case.example().kind.path, &[json], &text);
                    corpus.lock().expect("nobody panicked").know(shown);
                }
                let mut dice = Dice::new(number as u64);
                while next.fetch_add(1, Ordering::Relaxed) < count {
                    let [case, other] = {
                        let corpus = corpus.lock().expect("nobody panicked");
                        let mut one = || dice.pick(corpus.cases()).expect("there are some").clone();
                        [one(), one()]
                    };
                    let kind = case.example().kind;
                    let case = mutated(&case, &other.document(), &kind.places, &mut dice);
                    let (sent, whole) = (sent(&mut dice), case.document().to_string().into_bytes());
                    let is_damaged = dice.roll(8) == 0;
                    let text = if is_damaged { damaged(whole, &mut dice) } else { whole };
                    let mut headers = vec![json];
                    headers.extend((!sent.accept.is_empty()).then_some(("accept", sent.accept)));
                    headers.extend(sent.packed.then_some(("content-encoding", "gzip")));
                    let path = format!("{}{}", kind.path, sent.query);
                    let (answered, shown) = if sent.packed {
                        ask(&caller, &path, &headers, &packed(&text))
                    } else {
                        ask(&caller, &path, &headers, &text)
                    };
                    let plain = !is_damaged && sent.query.is_empty() && sent.accept.is_empty();
                    if plain {
                        let mut corpus = corpus.lock().expect("nobody panicked");
                        // What is refused is no good to mutate: nothing beyond its fault is reached.
                        if answered {
                            corpus.learn(&case, shown);
                        } else {
                            corpus.know(shown);
                        }
                    }
                }
            });
        }
    });
    let corpus = corpus.into_inner().expect("nobody panicked");
    let [answered, refused] = [answered, refused].map(AtomicUsize::into_inner);
    println!(
        "{} requests: {answered} answered, {refused} refused, longest {:?}; {} things shown by {} \
         cases, {} of them from before",
        answered + refused,
        longest.into_inner().expect("nobody panicked"),
        corpus.shown(),
        corpus.cases().len(),
        known.len(),
    );
    assert!(answered > count / 10 && refused > count / 10, "one of them hardly ever happens");
    if std::env::var_os("ENDURANCE_KEEP").is_some() {
        println!("{} cases kept", corpus.keep());
    }
    looked_over(&service);
}

/// A file of mutated lines, of which some are damaged, some empty and one is too long.
fn lines(folder: &Folder, count: usize) -> std::path::PathBuf {
    let path = folder.file("jobs.ndjson");
    let mut file = BufWriter::new(File::create(&path).expect("a file can be made"));
    let (corpus, mut dice) = (Corpus::read(), Dice::new(4711));
    for number in 0..count {
        let mut one = || dice.pick(corpus.cases()).expect("there are some").clone();
        let [case, other]: [Case; 2] = [one(), one()];
        let places = &case.example().kind.places;
        let line = match dice.roll(10) {
            0 => Vec::new(),
            1 | 2 => damaged(case.line(), &mut dice),
            _ => mutated(&case, &other.document(), places, &mut dice).line(),
        };
        let line = if number == count / 2 { vec![b'7'; 2 << 20] } else { line };
        file.write_all(&line).and_then(|()| file.write_all(b"\n")).expect("it can be written");
    }
    file.flush().expect("it can be written");
    path
}

/// Asserts that every line that is not empty has its answer, in order, and none a 5xx; how many have.
fn every_line_is_answered(jobs: &std::path::Path, answers: impl BufRead) -> usize {
    let text = fs::read(jobs).expect("it was written");
    let numbered = text.split(|byte| *byte == b'\n').zip(1_u64..);
    let mut wanted = numbered.filter(|(line, _)| !line.trim_ascii().is_empty());
    let mut count = 0;
    for answer in answers.lines() {
        let answer = answer.expect("answers are text");
        let answer: Value = serde_json::from_str(&answer).expect("answers are JSON");
        if answer["kind"] == "end" {
            assert_eq!(answer["summary"]["complete"], true, "{answer}");
            continue;
        }
        let (line, number) = wanted.next().expect("no more answers than lines");
        assert_eq!(answer["line"], number, "{answer}");
        let status = answer["status"].as_u64().expect("a status");
        assert!(status < 500, "{status} for {}", String::from_utf8_lossy(line));
        count += 1;
    }
    assert!(wanted.next().is_none(), "{count} lines are answered, more are not");
    count
}

/// By the reader of files and over HTTP alike, with the same bytes.
#[test]
fn mutated_lines_are_answered_or_refused() {
    let folder = Folder::new("mutated-lines");
    let jobs = lines(&folder, size("ENDURANCE_LINES", 200));
    let (answers, said) = (folder.file("answers.ndjson"), folder.file("said"));
    let begin = Instant::now();
    let mut child = solving(&jobs, &answers, &[], &said);
    let mut most = f64::NAN;
    let status = loop {
        if let Some(status) = child.try_wait().expect("it can be asked") {
            break status;
        }
        most = most.max(most_memory_mb(&child));
        std::thread::sleep(Duration::from_millis(2));
    };
    let said = fs::read_to_string(said).expect("it says something");
    assert_eq!(status.code(), Some(1), "lines have faults, and nothing worse: {said}");
    println!("solve took {:?}", begin.elapsed());
    within_the_ceiling("solve", most);
    let file = File::open(&answers).expect("it was written");
    let count = every_line_is_answered(&jobs, BufReader::new(file));

    let service = service(&folder);
    let mut over_http = Vec::new();
    let runtime = tokio::runtime::Runtime::new().expect("a runtime");
    let text = Bytes::from(fs::read(&jobs).expect("it was written"));
    let pieces = (0..text.len()).step_by(10_007);
    let pieces = pieces.map(move |at| text.slice(at..(at + 10_007).min(text.len())));
    let begin = Instant::now();
    runtime.block_on(batch(service.address(), stream::iter(pieces), |piece| {
        over_http.extend_from_slice(piece);
        true
    }));
    println!("{count} lines over HTTP: {:?}", begin.elapsed());
    assert_eq!(every_line_is_answered(&jobs, &over_http[..]), count);
    assert!(over_http.starts_with(&fs::read(&answers).expect("it was written")), "not the same");
    looked_over(&service);
}
