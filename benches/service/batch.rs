//! Batches over HTTP and files of jobs on the command line: lines per second against the same jobs
//! computed one after another in this process times the number of cores, and the most memory held.

use std::convert::Infallible;
use std::io::{Read, Write};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use futures_util::stream;
use http_body_util::StreamBody;
use hyper::body::{Bytes, Frame};

use crate::child::{Server, most_memory_mb};
use crate::figures::figure;
use crate::load::{open, read, request};
use crate::scenes::KINDS;
use crate::{Effort, cores, scenes};

/// Bytes sent at a time.
const PIECE: usize = 64 * 1024;

/// Rates by kind, then memory by number of lines.
pub async fn measure(effort: &Effort) {
    for kind in &KINDS {
        let name = |what: &str| format!("{}: {what}", kind.name);
        let begin = Instant::now();
        let samples = (effort.lines / 8).max(20);
        for _ in 0..samples {
            std::hint::black_box((kind.answer)(kind.body));
        }
        let alone = samples as f64 / begin.elapsed().as_secs_f64();
        figure("batch", &name("computed here on one core"), alone, "/s");
        let lines = Lines::of(&scenes::line(kind), effort.lines);
        let ideal = alone * cores() as f64;
        let (took, _) = over_http(&Server::service(), &lines).await;
        let rate = lines.count as f64 / took.as_secs_f64();
        figure("batch", &name("POST /v1/batches"), rate, "/s");
        figure("batch", &name("POST /v1/batches, of computing on all cores"), rate / ideal, "");
        let (took, _) = on_the_command_line(&lines);
        let rate = lines.count as f64 / took.as_secs_f64();
        figure("batch", &name("solve --jobs"), rate, "/s");
        figure("batch", &name("solve --jobs, of computing on all cores"), rate / ideal, "");
        let core_seconds = cores() as f64 * 1e6 / rate;
        figure("batch", &name("core time of a million"), core_seconds / 3600.0, "h");
    }
    for &count in effort.many_lines {
        let [.., actions] = &KINDS;
        let lines = Lines::of(&scenes::line(actions), count);
        let name = |what: &str| format!("{count} questions for actions: {what}");
        let (took, memory) = over_http(&Server::service(), &lines).await;
        let rate = lines.count as f64 / took.as_secs_f64();
        figure("batch", &name("POST /v1/batches"), rate, "/s");
        figure("batch", &name("memory of POST /v1/batches, most"), memory, "MB");
        let (took, memory) = on_the_command_line(&lines);
        let rate = lines.count as f64 / took.as_secs_f64();
        figure("batch", &name("solve --jobs"), rate, "/s");
        figure("batch", &name("memory of solve --jobs, most"), memory, "MB");
    }
}

/// The same line many times.
struct Lines {
    /// As many lines as make a piece.
    piece: Bytes,
    line: usize,
    count: usize,
}

impl Lines {
    fn of(line: &[u8], count: usize) -> Self {
        Self { line: line.len(), piece: line.repeat(PIECE.div_ceil(line.len())).into(), count }
    }

    /// Pieces of whole lines.
    fn pieces(&self) -> impl Iterator<Item = Bytes> + Send + 'static {
        let (piece, line) = (self.piece.clone(), self.line);
        let mut left = self.count * line;
        std::iter::from_fn(move || {
            let next = piece.slice(..left.min(piece.len()));
            left -= next.len();
            (!next.is_empty()).then_some(next)
        })
    }
}

/// Time until the last answer, and the most memory the service has held.
async fn over_http(service: &Server, lines: &Lines) -> (Duration, f64) {
    let begin = Instant::now();
    let frames = lines.pieces().map(|piece| Ok::<_, Infallible>(Frame::data(piece)));
    let body = StreamBody::new(stream::iter(frames));
    let mut connection = open(service.address).await;
    let request = request("/v1/batches", "application/x-ndjson", body);
    let mut response = connection.send_request(request).await.expect("an answer");
    assert_eq!(response.status(), 200);
    let mut answers = 0;
    read(&mut response, |piece| answers += line_feeds(piece)).await;
    assert_eq!(answers, lines.count + 1, "every line and the summary");
    (begin.elapsed(), service.most_memory_mb())
}

/// The same for the command line, with the lines through a pipe.
fn on_the_command_line(lines: &Lines) -> (Duration, f64) {
    let begin = Instant::now();
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(["solve", "--jobs", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .expect("the program starts");
    let mut input = child.stdin.take().expect("a pipe");
    let mut output = child.stdout.take().expect("a pipe");
    let pieces = lines.pieces();
    let writer = std::thread::spawn(move || {
        for piece in pieces {
            input.write_all(&piece).expect("the program reads");
        }
        // Kept open: the program ends with its input, and its memory is to be looked at before.
        input
    });
    let (mut answers, mut piece) = (0, vec![0; PIECE]);
    while answers < lines.count {
        let length = output.read(&mut piece).expect("the program writes");
        assert!(length > 0, "the program ended after {answers} answers");
        answers += line_feeds(&piece[..length]);
    }
    let took = begin.elapsed();
    let memory = most_memory_mb(&child);
    drop(writer.join().expect("all was written"));
    assert!(child.wait().expect("it ends").success());
    (took, memory)
}

fn line_feeds(piece: &[u8]) -> usize {
    memchr::memchr_iter(b'\n', piece).count()
}
