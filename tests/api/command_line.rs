//! The program itself: solving without HTTP, printing the description, refusing to be open.

use std::io::Write;
use std::process::{Command, Output, Stdio};

use serde_json::{Value, json};

use crate::server::{
    ACTIONS, BARN, BUILT, CHOICES, GABLE, STATEMENT, SURVEY, all_known, example, post, send,
};

fn hookspan(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(arguments)
        .env_remove("HOOKSPAN_BIND")
        .env_remove("HOOKSPAN_ANONYMOUS")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    // A program that does not read its input closes it; that is not what is tested.
    let _ = child.stdin.take().expect("piped").write_all(input);
    child.wait_with_output().expect("the program ends")
}

#[test]
fn a_faulty_job_gives_the_same_problem_as_over_http() {
    let body = BARN.replace("\"pitch_deg\": 42.0", "\"pitch_deg\": 95");
    let output = hookspan(&["solve"], body.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    let problem: Value = serde_json::from_slice(&output.stderr).expect("a problem");
    assert_eq!(problem, post("/v1/layouts", body.as_bytes()).problem());
    assert_eq!(problem["errors"][0]["pointer"], "/roof/pitch_deg");
}

#[test]
fn a_file_gives_the_same_as_standard_input() {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/layout-barn.json");
    let mut over_http = post("/v1/layouts", BARN.as_bytes()).body;
    over_http.push(b'\n');
    for arguments in [&["solve", file][..], &["solve", "-"], &["solve"]] {
        let output = hookspan(arguments, BARN.as_bytes());
        assert!(output.stdout == over_http, "{arguments:?}: not the same bytes");
    }
}

/// Every kind of job with an example, and whether it has a sheet and whether drawings and a trace.
const KINDS: [(&str, &str, &str, bool, bool); 7] = [
    ("layout", "/v1/layouts", BARN, true, true),
    ("building", "/v1/buildings", GABLE, true, true),
    ("choices", "/v1/choices", CHOICES, false, false),
    ("recheck", "/v1/rechecks", BUILT, true, true),
    ("survey", "/v1/surveys", SURVEY, true, true),
    ("actions", "/v1/actions", ACTIONS, false, false),
    ("statement", "/v1/statements", STATEMENT, true, false),
];

/// Flags that ask for JSON, and the query that does.
const AS_JSON: [(&[&str], &str); 3] = [
    (&[], ""),
    (&["--summary", "--lang", "en"], "?answer=summary&lang=en"),
    (&["--lang", "de", "--units", "imperial"], "?lang=de&units=imperial"),
];

/// Flags that ask for a sheet, and the query that does.
const AS_SHEET: [(&[&str], &str); 2] =
    [(&["--sheet"], ""), (&["--sheet", "--lang", "de"], "?lang=de")];

/// Flags that ask for a part of a sheet that every job has which is drawn, and the query that does.
const AS_PART: (&[&str], &str) = (&["--sheet=engineer"], "?part=engineer");

/// Flags that ask for a drawing, and the query that does.
const AS_DRAWING: [(&[&str], &str); 4] = [
    (&["--drawing", "slope"], ""),
    (&["--drawing", "slope", "--lang", "de"], "?view=slope&lang=de"),
    (&["--drawing", "wind"], "?view=wind"),
    (&["--drawing", "section"], "?view=section"),
];

/// Flags that ask for a table, and the query that does.
const AS_TABLE: [(&[&str], &str); 2] = [
    (&["--csv", "utilisations"], "?table=utilisations"),
    (&["--csv", "setting_out", "--lang", "de"], "?table=setting_out&lang=de"),
];

/// What the exit status of a verdict is.
fn status_of(answer: &Value) -> i32 {
    match answer.get("verdict").or_else(|| answer["recheck"].get("verdict")) {
        None => 0,
        Some(verdict) => match verdict.as_str().expect("a word") {
            "holds" | "holds_with_warnings" => 0,
            "fails" => 3,
            "incomplete" => 4,
            other => panic!("{other}"),
        },
    }
}

#[test]
fn every_kind_in_every_form_gives_the_same_bytes_as_over_http() {
    for (kind, path, job, sheet, drawn) in KINDS {
        let json = "application/json";
        let status = status_of(&post(path, job.as_bytes()).json());
        let hook = if kind == "building" { "south/A1-2" } else { "A1-2" };
        let through_hook = ["--drawing", "section", "--hook", hook];
        let query_of_hook = format!("?view=section&hook={hook}");
        let mut forms: Vec<_> = AS_JSON.map(|form| (json, form)).into();
        if drawn {
            forms.push(("image/svg+xml", (&through_hook, &query_of_hook)));
            forms.push((json, (&["--trace"], "?trace=full")));
            forms.extend(AS_DRAWING.map(|form| ("image/svg+xml", form)));
            forms.push(("text/html", AS_PART));
            forms.extend(AS_TABLE.map(|form| ("text/csv", form)));
        }
        if sheet {
            forms.extend(AS_SHEET.map(|form| ("text/html", form)));
        }
        for (accept, (flags, query)) in forms {
            let headers = [("content-type", json), ("accept", accept)];
            let reply = send("POST", &format!("{path}{query}"), &headers, job.as_bytes());
            assert_eq!(reply.status, 200, "{kind} {query}: {}", reply.text());
            assert!(reply.header("content-type").starts_with(accept), "{kind} {query}");
            let mut expected = reply.body;
            if accept == json {
                expected.push(b'\n');
            }
            let output = hookspan(&[&["solve", "--kind", kind], flags].concat(), job.as_bytes());
            assert!(output.stdout == expected, "{kind} {flags:?}: not the same bytes");
            assert_eq!(output.status.code(), Some(status), "{kind} {flags:?}");
            assert!(output.stderr.is_empty(), "{kind} {flags:?}");
        }
    }
}

/// A script that asks whether a job holds need not read the answer.
#[test]
fn the_exit_status_says_whether_the_job_holds() {
    let known = all_known(BARN).to_string();
    let stable = include_str!("../data/layout-stable.json");
    for (job, verdict, status) in
        [(known.as_str(), "holds_with_warnings", 0), (stable, "fails", 3), (BARN, "incomplete", 4)]
    {
        for form in [&["--summary"][..], &[], &["--sheet"], &["--drawing", "slope"]] {
            let output = hookspan(&[&["solve"], form].concat(), job.as_bytes());
            assert_eq!(output.status.code(), Some(status), "{verdict} {form:?}");
            if let Ok(answer) = serde_json::from_slice::<Value>(&output.stdout) {
                assert_eq!(answer["verdict"], verdict);
            }
        }
    }
}

#[test]
fn the_kind_of_a_job_is_said_and_never_guessed() {
    let line = json!({"kind": "actions", "job": example(ACTIONS)}).to_string();
    for job in [line.as_str(), ACTIONS] {
        let output = hookspan(&["solve"], job.as_bytes());
        assert_eq!(output.status.code(), Some(1));
        let problem: Value = serde_json::from_slice(&output.stderr).expect("a problem");
        assert_eq!(problem, post("/v1/layouts", job.as_bytes()).problem());
    }
}

#[test]
fn a_hook_that_is_not_there_has_no_section() {
    let output = hookspan(&["solve", "--drawing", "section", "--hook", "none"], BARN.as_bytes());
    assert_eq!(output.status.code(), Some(1));
    assert!(output.stdout.is_empty());
    let problem: Value = serde_json::from_slice(&output.stderr).expect("a problem");
    assert_eq!(problem["errors"][0]["code"], "unknown_value");
}

#[test]
fn flags_that_make_no_sense_together_are_refused() {
    for (flags, said) in [
        (&["--summary", "--trace"][..], "--trace"),
        (&["--sheet", "--drawing", "slope"], "--drawing"),
        (&["--sheet", "--summary"], "--summary"),
        (&["--sheet", "--trace"], "--trace"),
        (&["--sheet", "--units", "imperial"], "--units"),
        (&["--drawing", "wind", "--summary"], "--summary"),
        (&["--drawing", "wind", "--trace"], "--trace"),
        (&["--drawing", "wind", "--units", "metric"], "--units"),
        (&["--drawing", "plan"], "slope, section, wind"),
        (&["--drawing", "slope", "--hook", "A1-1"], "--drawing section"),
        (&["--hook", "A1-1"], "--drawing"),
        (&["--lang", "fr"], "en, de"),
        (&["--units", "si"], "metric, imperial"),
        (&["--kind", "roof"], "layout, building, choices, recheck, survey, actions, statement"),
        (&["--kind", "actions", "--sheet"], "of which there is no sheet"),
        (&["--kind", "actions", "--drawing", "slope"], "of which there is no drawing"),
        (&["--kind", "statement", "--drawing", "slope"], "of which there is no drawing"),
        (&["--kind", "actions", "--trace"], "--kind actions"),
        (&["--kind", "statement", "--trace"], "--kind statement"),
        (&["--jobs", "-", "--kind", "layout"], "--kind"),
        (&["--jobs", "-", "--sheet"], "--sheet"),
        (&["--jobs", "-", "--drawing", "slope"], "--drawing"),
    ] {
        let output = hookspan(&[&["solve"], flags].concat(), BARN.as_bytes());
        assert_eq!(output.status.code(), Some(2), "{flags:?}");
        assert!(output.stdout.is_empty(), "{flags:?}");
        let message = String::from_utf8_lossy(&output.stderr);
        assert!(message.contains(said), "{flags:?}: {message}");
    }
}

/// Whoever computes many jobs may never open the description of the service.
#[test]
fn the_help_says_what_the_exit_statuses_mean() {
    let help = hookspan(&["solve", "--help"], b"");
    assert_eq!(help.status.code(), Some(0));
    let text =
        String::from_utf8_lossy(&help.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
    for said in ["0 it holds", "1 the request has faults", "3 the job fails", "4 it is incomplete"]
    {
        assert!(text.contains(said), "{said}: {text}");
    }
}

#[test]
fn what_cannot_be_read_ends_with_2() {
    let output = hookspan(&["solve", "/no/such/file.json"], b"");
    assert_eq!(output.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&output.stderr).contains("cannot read"));
}

/// Three good lines, a bad one and an empty one.
fn jobs() -> String {
    let line = |id: &str, kind: &str, job: &str| {
        json!({"id": id, "kind": kind, "job": example(job)}).to_string()
    };
    let lines = [
        line("a", "layout", BARN),
        line("b", "recheck", BUILT),
        "not JSON".to_owned(),
        String::new(),
        line("c", "actions", ACTIONS),
    ];
    lines.join("\n") + "\n"
}

/// Where a file of this test's own can be.
fn path(name: &str) -> String {
    let path = std::env::temp_dir().join(format!("hookspan-{}-{name}", std::process::id()));
    path.into_os_string().into_string().expect("a plain path")
}

/// A file of this test's own.
fn file(name: &str, text: &str) -> String {
    let path = path(name);
    std::fs::write(&path, text).expect("it can be written");
    path
}

/// What was written, as text: answers and summary.
fn said(output: &Output) -> (&str, Value) {
    let summary: Value = serde_json::from_slice(&output.stderr)
        .unwrap_or_else(|e| panic!("{e}: {}", String::from_utf8_lossy(&output.stderr)));
    (std::str::from_utf8(&output.stdout).expect("text"), summary["summary"].clone())
}

#[test]
fn many_jobs_give_the_same_lines_as_over_http() {
    let headers = [("content-type", "application/x-ndjson")];
    let name = file("many", &jobs());
    for (query, flags) in [
        ("", &["--jobs", &name][..]),
        ("", &["--jobs", "-"]),
        ("", &["--jobs", "-", "--threads", "1"]),
        ("?answer=summary", &["--jobs", "-", "--summary"]),
        ("?trace=full", &["--jobs", "-", "--trace"]),
        ("?lang=de&units=imperial", &["--jobs", "-", "--lang", "de", "--units", "imperial"]),
    ] {
        let path = format!("/v1/batches{query}");
        let over_http = send("POST", &path, &headers, jobs().as_bytes());
        let (answers, summary) =
            over_http.text().trim_end().rsplit_once('\n').expect("lines and a summary");
        let output = hookspan(&[&["solve"], flags].concat(), jobs().as_bytes());
        assert_eq!(output.status.code(), Some(1), "a line has a problem: {flags:?}");
        let (text, account) = said(&output);
        assert!(text.trim_end() == answers, "{flags:?}: not the same bytes");
        assert_eq!(
            json!({"kind": "end", "summary": account}),
            serde_json::from_str::<Value>(summary).expect("JSON")
        );
    }
    std::fs::remove_file(name).expect("it is there");
}

#[test]
fn a_file_of_jobs_can_be_gone_on_with_and_parted() {
    let name = file("parted", &jobs());
    let whole = hookspan(&["solve", "--jobs", &name], b"");
    let whole: Vec<&str> = said(&whole).0.lines().collect();
    let rest = hookspan(&["solve", "--jobs", &name, "--lines", "4.."], b"");
    assert_eq!(rest.status.code(), Some(0), "the bad line is passed over");
    assert_eq!(said(&rest).0.lines().collect::<Vec<_>>(), whole[3..]);
    let mut parts = Vec::new();
    for index in 0..3 {
        let (part, out) = (format!("{index}/3"), path(&format!("part-{index}")));
        let output = hookspan(&["solve", "--jobs", &name, "--part", &part, "--output", &out], b"");
        assert!(output.stdout.is_empty(), "answers go to the file");
        let text = std::fs::read_to_string(&out).expect("it was written");
        parts.extend(text.lines().map(str::to_owned));
        std::fs::remove_file(out).expect("it is there");
    }
    assert_eq!(parts, whole);
    std::fs::remove_file(name).expect("it is there");
}

/// Wherever a run was killed, the file gone on with is that of a run that was not.
#[test]
fn an_interrupted_run_is_gone_on_with_to_the_byte() {
    let (name, out) = (file("resumed", &jobs()), path("resumed-answers"));
    for share in [&[][..], &["--lines", "2..5"], &["--summary"]] {
        let whole = hookspan(&[&["solve", "--jobs", &name], share].concat(), b"").stdout;
        let line_feeds = (0..whole.len()).filter(|at| whole[*at] == b'\n');
        let places: Vec<usize> = line_feeds.flat_map(|at| [at - 1, at, at + 1]).collect();
        for killed_at in [0, 1, whole.len() / 2].into_iter().chain(places) {
            std::fs::write(&out, &whole[..killed_at]).expect("it can be written");
            let arguments = ["solve", "--jobs", &name, "--output", &out, "--resume"];
            let output = hookspan(&[&arguments, share].concat(), b"");
            assert_eq!(said(&output).1["complete"], true, "{killed_at}");
            assert!(std::fs::read(&out).expect("it is there") == whole, "killed at {killed_at}");
        }
        std::fs::remove_file(&out).expect("it is there");
    }
    let output = hookspan(&["solve", "--jobs", &name, "--output", &out, "--resume"], b"");
    assert_eq!(said(&output).1["next_line"], 6, "there need not be anything to go on with");
    // What ends with no answer is no file of answers.
    std::fs::write(&out, "precious\n").expect("it can be written");
    let output = hookspan(&["solve", "--jobs", &name, "--output", &out, "--resume"], b"");
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(std::fs::read_to_string(&out).expect("it is there"), "precious\n");
    for made in [name, out] {
        std::fs::remove_file(made).expect("it is there");
    }
}

/// Whenever a run is killed, there is no file that looks whole and is not; its command given again makes it whole.
#[test]
fn a_file_has_its_name_only_when_it_is_whole() {
    let (name, out) = (file("named", &jobs()), path("named-answers"));
    let begun = format!("{out}.begun");
    let there = |file: &str| std::path::Path::new(file).exists();
    let whole = hookspan(&["solve", "--jobs", &name, "--summary"], b"").stdout;
    let solve = |more: &[&str]| {
        let arguments = ["solve", "--jobs", &name, "--summary", "--output", &out];
        let output = hookspan(&[&arguments[..], &["--rename-when-whole"], more].concat(), b"");
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    for killed_at in [0, 1, whole.len() / 2, whole.len() - 1, whole.len()] {
        std::fs::write(&begun, &whole[..killed_at]).expect("it can be written");
        let (code, said) = solve(&[]);
        assert!(code == Some(2) && said.contains("--resume"), "{said}");
        // The third line has a fault, which the run tells that answers it.
        let answered = String::from_utf8_lossy(&whole[..killed_at]).matches('\n').count();
        assert_eq!(solve(&["--resume"]).0, Some(i32::from(answered < 3)), "killed at {killed_at}");
        assert!(std::fs::read(&out).expect("it is whole") == whole, "killed at {killed_at}");
        assert!(!there(&begun), "killed at {killed_at}");
        let (code, said) = solve(&["--resume"]);
        assert!(code == Some(0) && said.contains("whole already"), "{said}");
        assert_eq!(solve(&[]).0, Some(2), "it is not written over unless that is meant");
        std::fs::remove_file(&out).expect("it is there");
    }
    // Written over, it stays until the new one is whole.
    std::fs::write(&out, "precious\n").expect("it can be written");
    assert_eq!(solve(&["--force"]).0, Some(1));
    assert!(std::fs::read(&out).expect("it is whole") == whole && !there(&begun));
    // What cannot be named afterwards is refused before.
    let arguments = ["solve", "--jobs", &name, "--output", "/dev/null", "--rename-when-whole"];
    assert_eq!(hookspan(&arguments, b"").status.code(), Some(2));
    for made in [name, out] {
        std::fs::remove_file(made).expect("it is there");
    }
}

/// A scheduler that has lost sight of a task starts it a second time while the first goes on.
#[cfg(unix)]
#[test]
fn two_runs_never_write_one_file() {
    use std::time::Duration;
    let (name, out) = (file("twice", &jobs()), path("twice-answers"));
    let begun = format!("{out}.begun");
    for (flags, under) in [(&["--rename-when-whole"][..], &begun), (&[], &out)] {
        let solve = [&["solve", "--output", &out][..], flags].concat();
        let mut first = Command::new(env!("CARGO_BIN_EXE_hookspan"))
            .args([&solve, &["--jobs", "-"][..]].concat())
            .stdin(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let mut input = first.stdin.take().expect("piped");
        input.write_all(jobs().as_bytes()).expect("it reads");
        while std::fs::read(under).map_or(0, |text| text.len()) == 0 {
            std::thread::sleep(Duration::from_millis(5));
        }
        for again in ["--resume", "--force"] {
            let second = hookspan(&[&solve, &["--jobs", &name, again][..]].concat(), b"");
            let said = String::from_utf8_lossy(&second.stderr).into_owned();
            assert_eq!(second.status.code(), Some(2), "{again}: {said}");
            assert!(said.contains("another run is writing it"), "{again}: {said}");
        }
        drop(input);
        assert_eq!(first.wait().expect("it ends").code(), Some(1), "a line has a problem");
        assert_eq!(std::fs::read_to_string(&out).expect("it is whole").lines().count(), 4);
        std::fs::remove_file(&out).expect("it is there");
    }
    std::fs::remove_file(name).expect("it is there");
}

#[test]
fn a_share_of_a_file_says_which_line_comes_after_it() {
    let name = file("after", &jobs().repeat(20));
    let output = hookspan(&["solve", "--jobs", &name, "--lines", "1..2"], b"");
    assert_eq!((&said(&output).1["lines"], &said(&output).1["next_line"]), (&json!(2), &json!(3)));
    std::fs::remove_file(name).expect("it is there");
}

/// Told to end while more may come, it sums up what it has done.
#[cfg(unix)]
#[test]
fn a_run_that_is_told_to_end_sums_up() {
    use std::io::{BufRead, BufReader, Read};
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(["solve", "--jobs", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut input = child.stdin.take().expect("piped");
    input.write_all(jobs().as_bytes()).expect("it reads");
    let mut answers = BufReader::new(child.stdout.take().expect("piped")).lines();
    for _ in 0..4 {
        assert!(answers.next().expect("an answer").is_ok());
    }
    let stop = Command::new("kill").args(["-TERM", &child.id().to_string()]).status();
    assert!(stop.expect("kill runs").success());
    let mut account = String::new();
    child.stderr.take().expect("piped").read_to_string(&mut account).expect("it says so");
    let account: Value = serde_json::from_str(&account).expect("a summary");
    let summary = &account["summary"];
    assert_eq!((&summary["complete"], &summary["next_line"]), (&json!(false), &json!(6)));
    assert_eq!(child.wait().expect("it ends").code(), Some(2));
    drop(input);
}

/// An answer may be all that is left of a long night's work, and the jobs all there is to repeat it.
#[test]
fn no_file_is_destroyed_by_writing_answers() {
    let (name, out, link) = (file("kept", &jobs()), file("there", "precious"), path("link"));
    std::fs::hard_link(&name, &link).expect("a second name");
    let kept = |file: &str| std::fs::read_to_string(file).expect("it is there");
    let solve = |arguments: &[&str]| {
        let output = hookspan(&[&["solve"], arguments].concat(), jobs().as_bytes());
        (output.status.code(), String::from_utf8_lossy(&output.stderr).into_owned())
    };
    let (code, said) = solve(&["--jobs", &name, "--output", &out]);
    assert_eq!(code, Some(2), "{said}");
    assert!(said.contains("--force"), "{said}");
    // Jobs that are not there are noticed before anything is written.
    for jobs in ["/no/such/file.ndjson", "/no/such/folder/jobs.ndjson"] {
        let (code, said) = solve(&["--jobs", jobs, "--output", &out, "--force"]);
        assert_eq!(code, Some(2), "{said}");
        let (code, _) = solve(&["--jobs", jobs, "--output", &path("never")]);
        assert!(code == Some(2) && !std::path::Path::new(&path("never")).exists());
    }
    assert_eq!(kept(&out), "precious");
    for own in [&name, &link] {
        let (code, said) = solve(&["--jobs", &name, "--output", own, "--force"]);
        assert_eq!(code, Some(2), "{said}");
        assert!(said.contains("the jobs are read from it"), "{said}");
    }
    assert_eq!(kept(&name), jobs());
    let (code, said) = solve(&["--jobs", &name, "--output", &out, "--force"]);
    assert_eq!(code, Some(1), "a line has a problem: {said}");
    assert_eq!(kept(&out).lines().count(), 4);
    // What is no file holds nothing to lose.
    assert_eq!(solve(&["--jobs", &name, "--output", "/dev/null"]).0, Some(1));
    for made in [name, out, link] {
        std::fs::remove_file(made).expect("it is there");
    }
}

#[test]
fn a_file_of_jobs_that_cannot_be_read_or_parted_ends_with_2() {
    for arguments in [
        &["solve", "--jobs", "/no/such/file.ndjson"][..],
        &["solve", "--jobs", "-", "--part", "0/2"],
        &["solve", "--jobs", "-", "--output", "/no/such/folder/out.ndjson"],
        &["solve", "--jobs", "-", "--lines", "5..3"],
        &["solve", "--lines", "1..3"],
    ] {
        let output = hookspan(arguments, b"");
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(!output.stderr.is_empty());
    }
}

#[test]
fn the_description_is_printed() {
    let output = hookspan(&["openapi"], b"");
    assert_eq!(output.status.code(), Some(0));
    // Not assert_eq: thousands of differing bytes help nobody.
    assert!(output.stdout == include_bytes!("../../openapi/hookspan.json"), "drifted");
}

#[test]
fn an_open_address_is_refused_unless_meant() {
    let output = hookspan(&["--bind", "0.0.0.0:0"], b"");
    assert_eq!(output.status.code(), Some(1));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("--anonymous") && said.contains("API keys"), "{said}");
}

#[test]
fn an_origin_that_is_none_is_refused_at_the_start() {
    let output = hookspan(&["--bind", "127.0.0.1:0", "--cors-origins", "https://a.example/"], b"");
    assert_eq!(output.status.code(), Some(1));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("--cors-origins") && said.contains("\"https://a.example/\""), "{said}");
}

/// Starts it as an operator does, asks it once, ends it as an operator does.
#[cfg(unix)]
#[test]
fn it_serves_by_default_and_stops_in_order() {
    use std::io::{BufRead, BufReader};
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(["--bind", "127.0.0.1:0", "--log-format", "json", "--drain-seconds", "2"])
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let mut log = BufReader::new(child.stderr.take().expect("piped")).lines();
    let listening = std::iter::from_fn(|| log.next())
        .map(|line| line.expect("the log is text"))
        .map(|line| serde_json::from_str::<Value>(&line).expect("the log is JSON"))
        .find(|event| event["fields"]["message"] == "listening")
        .expect("it says where it listens");
    let address = listening["fields"]["address"].as_str().expect("an address");
    assert!(listening["fields"]["limits"].as_str().is_some_and(|l| l.contains("max_body_bytes")));
    let reply = ureq::get(format!("http://{address}/livez")).call().expect("it answers");
    assert_eq!(reply.status(), 200);
    let stop = Command::new("kill").args(["-TERM", &child.id().to_string()]).status();
    assert!(stop.expect("kill runs").success());
    let said = std::iter::from_fn(|| log.next()).map(|line| line.expect("the log is text"));
    assert!(said.into_iter().any(|line| line.contains("draining")), "it says that it drains");
    // Asked once more: still answered, and sent elsewhere.
    std::thread::sleep(std::time::Duration::from_millis(200));
    let agent: ureq::Agent =
        ureq::Agent::config_builder().http_status_as_error(false).build().into();
    let status = |path| {
        let reply = agent.get(format!("http://{address}{path}")).call().expect("it answers");
        reply.status().as_u16()
    };
    assert_eq!((status("/readyz"), status("/livez")), (503, 200));
    assert_eq!(child.wait().expect("it ends").code(), Some(0));
}
