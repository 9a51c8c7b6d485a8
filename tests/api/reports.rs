//! What many answers come to: held against counts of this file's own, over whole files and over parts.

use std::collections::{BTreeMap, BTreeSet};
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::server::list;

/// Jobs of every kind.
const DATA: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data");

fn hookspan(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    let _ = child.stdin.take().expect("piped").write_all(input);
    child.wait_with_output().expect("the program ends")
}

/// A job on its line.
fn line(id: &str, kind: &str, job: &Value) -> String {
    json!({ "id": id, "kind": kind, "job": job }).to_string()
}

/// The jobs of `tests/data`, rechecks of events and against records, one that says what it bears, two with
/// faults and an empty line.
fn jobs() -> String {
    let mut names: Vec<PathBuf> = std::fs::read_dir(DATA)
        .expect("jobs")
        .map(|entry| entry.expect("a file").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    names.sort();
    let job = |path: &Path| -> Value {
        serde_json::from_slice(&std::fs::read(path).expect("a job")).expect("JSON")
    };
    let mut lines: Vec<String> = names
        .iter()
        .map(|path| {
            let name = path.file_stem().expect("a name").to_str().expect("text");
            line(name, name.split('-').next().expect("a kind"), &job(path))
        })
        .collect();
    assert!(lines.len() > 15, "only {} jobs", lines.len());
    for name in ["barn", "terrace"] {
        let built = job(&Path::new(DATA).join(format!("recheck-{name}.json")));
        let with = |member: &str, value: Value| {
            let mut job = built.clone();
            job[member] = value;
            job
        };
        for snow in [0.05, 0.8, 3.0] {
            let event = with("event", json!({ "snow_on_roof_kn_per_m2": snow }));
            lines.push(line(&format!("snow-{name}-{snow}"), "recheck", &event));
        }
        let gust = with("event", json!({ "peak_pressure_kn_per_m2": 0.4 }));
        lines.push(line(&format!("gust-{name}"), "recheck", &gust));
        for (verdict, used) in [("holds", 0.5), ("fails", 9.0), ("incomplete", 0.9)] {
            let recorded = json!({
                "verdict": verdict, "max_utilisation": used, "engine_model": 3, "engine_version": "0.0.1",
                "job_key": "another",
            });
            let job = with("recorded", recorded);
            lines.push(line(&format!("was-{name}-{verdict}"), "recheck", &job));
        }
        lines.push(line(&format!("bears-{name}"), "recheck", &with("capacity", json!(true))));
    }
    lines.push(String::new());
    lines.push("{\"id\":\"odd\",\"kind\":\"garage\",\"job\":{}}".to_owned());
    lines.push("{\"kind\":".to_owned());
    lines.join("\n") + "\n"
}

/// The answers to these jobs, in full and in short.
fn answers() -> &'static [String; 2] {
    static ANSWERS: OnceLock<[String; 2]> = OnceLock::new();
    ANSWERS.get_or_init(|| {
        [&["solve", "--jobs", "-"][..], &["solve", "--jobs", "-", "--summary"]].map(|arguments| {
            let output = hookspan(arguments, jobs().as_bytes());
            assert_eq!(output.status.code(), Some(1), "two lines have faults");
            String::from_utf8(output.stdout).expect("text")
        })
    })
}

fn reported(arguments: &[&str], input: &str, status: i32) -> String {
    let output = hookspan(&[&["report"], arguments].concat(), input.as_bytes());
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(status), "{arguments:?}: {said}");
    String::from_utf8(output.stdout).expect("text")
}

fn report(arguments: &[&str], input: &str, status: i32) -> Value {
    serde_json::from_str(&reported(arguments, input, status)).expect("JSON")
}

/// The answers as values, without problems.
fn values(text: &str) -> Vec<Value> {
    let lines = text.lines().map(|line| serde_json::from_str::<Value>(line).expect("JSON"));
    lines.filter(|line| line["kind"] != "problem").collect()
}

/// How often each value occurs that one member of an answer has, by verdict.
fn by(lines: &[Value], of: impl Fn(&Value) -> Option<String>) -> BTreeMap<String, [u64; 5]> {
    let verdicts = ["holds", "holds_with_warnings", "fails", "incomplete"];
    let mut counts = BTreeMap::<String, [u64; 5]>::new();
    for line in lines {
        let Some(name) = of(line) else { continue };
        let count = counts.entry(name).or_default();
        count[0] += 1;
        let verdict = line["result"]["verdict"].as_str();
        if let Some(at) = verdicts.iter().position(|one| Some(*one) == verdict) {
            count[at + 1] += 1;
        }
    }
    counts
}

fn told(rows: &Value, name: &str) -> BTreeMap<String, [u64; 5]> {
    let number = |value: &Value| value.as_u64().expect("a number");
    let row = |row: &Value| {
        let verdicts = &row["verdicts"];
        let counts = [
            number(&row["answers"]),
            number(&verdicts["holds"]),
            number(&verdicts["holds_with_warnings"]),
            number(&verdicts["fails"]),
            number(&verdicts["incomplete"]),
        ];
        (row[name].as_str().expect("a name").to_owned(), counts)
    };
    list(rows).iter().map(row).collect()
}

fn text(value: &Value) -> Option<String> {
    value.as_str().map(str::to_owned)
}

#[test]
fn a_report_counts_what_the_answers_say() {
    let [full, short] = answers();
    let (lines, shorts) = (values(full), values(short));
    let report = report(&["-", "--worst", "7"], full, 0);
    assert_eq!(report["lines"]["answers"], lines.len());
    assert_eq!(report["lines"]["problems"], 2);
    assert_eq!(told(&report["by_kind"], "of"), by(&lines, |line| text(&line["kind"])));
    let rules = |line: &Value| text(&line["result"]["engine"]["rules"]["id"]);
    assert_eq!(told(&report["by_rules"], "name"), by(&lines, rules));
    // Short answers name the hook of choices, too.
    let hooks = by(&shorts, |line| text(&line["result"]["hook_part"]));
    assert!(hooks.len() > 3, "{hooks:?}");
    assert_eq!(told(&report["by_hook"], "name"), hooks);
    let all: u64 =
        list(&report["by_kind"]).iter().map(|row| row["answers"].as_u64().expect("n")).sum();
    assert_eq!(all, lines.len() as u64);
    for row in list(&report["by_scope"]) {
        let scope = row["scope"].as_str().expect("a scope");
        let count = |verdict: &str| {
            shorts.iter().filter(|line| line["result"]["verdicts"][scope] == verdict).count()
        };
        for verdict in ["holds", "holds_with_warnings", "fails", "incomplete"] {
            assert_eq!(row["verdicts"][verdict], count(verdict), "{scope} {verdict}");
        }
        assert_eq!(row["not_assessed"], count("not_assessed"), "{scope}");
    }
    let mut codes = BTreeMap::<(String, String), u64>::new();
    for line in &shorts {
        for (member, severity) in [
            ("failures", "failure"),
            ("incomplete", "incomplete"),
            ("warnings", "warning"),
            ("notices", "notice"),
        ] {
            for code in list(&line["result"]["codes"][member]) {
                *codes.entry((severity.to_owned(), text(code).expect("a code"))).or_default() += 1;
            }
        }
    }
    let found = list(&report["findings"]).iter().map(|row| {
        assert!(!list(&row["scopes"]).is_empty() && row["source"].is_string(), "{row}");
        let key = (text(&row["severity"]).expect("one"), text(&row["code"]).expect("a code"));
        (key, row["answers"].as_u64().expect("a number"))
    });
    assert_eq!(found.collect::<BTreeMap<_, _>>(), codes);
}

/// The members of a list, ordered as the report promises: by verdict, by utilisation, by line.
fn worst_of<'a>(lines: impl Iterator<Item = &'a Value>) -> Vec<u64> {
    let order = ["fails", "incomplete", "holds_with_warnings", "holds"];
    let mut rows: Vec<(usize, f64, u64)> = lines
        .map(|line| {
            let verdict = line["result"]["verdict"].as_str().expect("a verdict");
            let group = order.iter().position(|one| *one == verdict).expect("one of four");
            let used = line["result"]["utilisation"]["max"].as_f64().unwrap_or(0.0);
            (group, -used, line["line"].as_u64().expect("a number"))
        })
        .collect();
    rows.sort_by(|a, b| a.partial_cmp(b).expect("numbers"));
    rows.into_iter().map(|(_, _, line)| line).collect()
}

fn lines_of(rows: &Value) -> Vec<u64> {
    list(rows).iter().map(|row| row["line"].as_u64().expect("a number")).collect()
}

#[test]
fn a_report_ranks_spreads_and_compares_what_the_answers_say() {
    let [full, short] = answers();
    let (lines, shorts) = (values(full), values(short));
    let report = report(&["-", "--worst", "1000"], full, 0);
    let judged = || shorts.iter().filter(|line| line["result"]["verdict"].is_string());
    assert_eq!(lines_of(&report["worst"]), worst_of(judged()));
    for (row, line) in list(&report["worst"]).iter().map(|row| {
        let line = shorts.iter().find(|line| line["line"] == row["line"]).expect("its line");
        (row, &line["result"])
    }) {
        for (member, of) in [
            ("verdict", &line["verdict"]),
            ("utilisation", &line["utilisation"]["max"]),
            ("element", &line["utilisation"]["element"]),
            ("check", &line["utilisation"]["check"]),
            ("combination", &line["utilisation"]["combination"]),
            ("headline", &line["headline"]),
            ("hook_part", &line["hook_part"]),
            ("job", &line["of"]),
        ] {
            assert_eq!(row.get(member).unwrap_or(&Value::Null), of, "{member} of {row}");
        }
    }
    // The event: those to look at are those that do not hold under it.
    let events: Vec<&Value> = lines.iter().filter(|l| l["result"]["event"].is_object()).collect();
    let bad =
        |line: &&Value| matches!(line["result"]["verdict"].as_str(), Some("fails" | "incomplete"));
    let within =
        events.iter().filter(|line| line["result"]["event"]["within_resistances"] == true).count();
    assert_eq!(events.len(), 8);
    assert_eq!(report["event"]["answers"], events.len());
    assert_eq!(report["event"]["within_resistances"], within);
    let look_at = worst_of(events.iter().copied().filter(bad));
    assert!(!look_at.is_empty() && look_at.len() < events.len(), "{look_at:?}");
    assert_eq!(lines_of(&report["event"]["look_at"]), look_at);
    // Records.
    let compared: Vec<&Value> =
        lines.iter().filter(|line| line["result"]["difference"].is_object()).collect();
    let difference = |line: &Value, member: &str| line["result"]["difference"][member].clone();
    let changes = &report["changes"];
    assert!(compared.len() > 10);
    assert_eq!(changes["compared"], compared.len());
    let count = |of: &dyn Fn(&Value) -> bool| compared.iter().filter(|line| of(line)).count();
    assert_eq!(changes["verdict_changed"], count(&|l| difference(l, "verdict_changed") == true));
    assert_eq!(changes["verdict_kept"], count(&|l| difference(l, "verdict_changed") == false));
    let change = |line: &Value| difference(line, "change").as_f64();
    assert_eq!(changes["used_more"], count(&|l| change(l).is_some_and(|by| by > 0.0)));
    assert_eq!(changes["used_less"], count(&|l| change(l).is_some_and(|by| by < 0.0)));
    for member in ["engine_changed", "model_changed", "rules_changed", "input_changed"] {
        assert_eq!(changes[member], count(&|l| difference(l, member) == true), "{member}");
    }
    for row in list(&changes["causes"]) {
        let names = |line: &Value| list(&difference(line, "causes")).contains(&row["cause"]);
        assert_eq!(row["answers"], count(&names), "{row}");
        let both = |line: &Value| names(line) && difference(line, "verdict_changed") == true;
        assert_eq!(row["verdict_changed"], count(&both), "{row}");
    }
    let named: BTreeSet<String> =
        list(&changes["causes"]).iter().filter_map(|row| text(&row["cause"])).collect();
    let known: BTreeSet<String> = compared
        .iter()
        .flat_map(|line| list(&line["result"]["difference"]["causes"]).iter().filter_map(text))
        .collect();
    assert_eq!(named, known);
    for row in list(&changes["verdicts"]) {
        let pair = |line: &Value| {
            difference(line, "recorded_verdict") == row["from"]
                && line["result"]["verdict"] == row["to"]
        };
        assert_eq!(row["answers"], count(&pair), "{row}");
    }
    let changed = compared.iter().copied().filter(|l| difference(l, "verdict_changed") == true);
    assert_eq!(lines_of(&changes["worst"]), worst_of(changed));
    // Utilisations: by nearest rank among those in order, which lie on the steps of the spread.
    let used = |check: Option<&str>| {
        let of = shorts.iter().map(|line| &line["result"]["utilisation"]);
        let of = of.filter(|used| check.is_none_or(|check| used["check"] == check));
        let mut used: Vec<f64> = of.filter_map(|used| used["max"].as_f64()).collect();
        used.sort_by(f64::total_cmp);
        used
    };
    let step = report["resolution"]["step"].as_f64().expect("a number");
    let exact_to = report["resolution"]["exact_to"].as_f64().expect("a number");
    let share = report["resolution"]["share"].as_f64().expect("a number");
    assert!(list(&report["utilisation"]).len() > 3);
    for spread in list(&report["utilisation"]) {
        let sorted = used(spread["check"].as_str());
        assert_eq!(spread["answers"], sorted.len());
        assert!((spread["max"].as_f64().expect("one") - sorted[sorted.len() - 1]).abs() < 1e-9);
        for quantile in list(&spread["quantiles"]) {
            let at = quantile["share"].as_f64().expect("a share");
            let mut ranks = (1..=sorted.len()).zip(&sorted);
            let reached = |rank: usize| rank as f64 / sorted.len() as f64 >= at - 1e-9;
            let exact = *ranks.find(|(rank, _)| reached(*rank)).expect("a value").1;
            let above = quantile["value"].as_f64().expect("a value") - exact;
            let most = if exact > exact_to { step + share * exact } else { 1e-9 };
            assert!((-1e-9..=most).contains(&above), "{quantile} for {exact}");
        }
        let in_bins: u64 =
            list(&spread["bins"]).iter().map(|b| b["answers"].as_u64().expect("n")).sum();
        assert_eq!(in_bins, sorted.len() as u64);
    }
}

#[test]
fn what_jobs_bear_is_ranked_by_the_least_of_their_scopes() {
    let full = &answers()[0];
    let report = report(&["-"], full, 0);
    for load in ["ground_snow", "peak_pressure"] {
        let mut least: Vec<(f64, u64)> = Vec::new();
        let mut statements = 0;
        for line in values(full) {
            let observed = &line["result"]["capacity"][load]["observed"];
            let Some(scopes) = observed.as_array() else { continue };
            statements += 1;
            let of = scopes.iter().filter_map(|scope| match scope["outcome"].as_str() {
                Some("never") => Some(0.0),
                _ => scope["load_kn_per_m2"].as_f64(),
            });
            let number = line["line"].as_u64().expect("a number");
            least.extend(of.min_by(f64::total_cmp).map(|kn_per_m2| (kn_per_m2, number)));
        }
        least.sort_by(|a, b| a.partial_cmp(b).expect("numbers"));
        let told = &report["capacity"][load];
        assert_eq!((statements, &told["statements"]), (2, &json!(2)));
        let rows = list(&told["smallest"]).iter().map(|row| {
            (row["load_kn_per_m2"].as_f64().expect("a load"), row["line"].as_u64().expect("a line"))
        });
        assert_eq!(rows.collect::<Vec<_>>(), least, "{load}");
        let counted = ["limited", "never", "open"].map(|name| told[name].as_u64().expect("n"));
        assert_eq!(counted.iter().sum::<u64>(), 2, "{told}");
    }
}

#[test]
fn short_answers_come_to_the_report_of_the_full_ones() {
    let [mut full, short] = [0, 1].map(|form| report(&["-"], &answers()[form], 0));
    // Only full answers say what a job bears.
    assert!(full.as_object_mut().expect("a report").remove("capacity").is_some());
    assert_eq!(full, short);
}

/// A line like others with another number, and with other contents where asked for.
fn planted(line: &str, number: u64, edit: impl FnOnce(&mut Value)) -> String {
    let mut value: Value = serde_json::from_str(line).expect("JSON");
    value["line"] = json!(number);
    edit(&mut value);
    value.to_string()
}

#[test]
fn what_is_no_answer_is_counted_and_named_and_other_versions_are_told_apart() {
    let short = &answers()[1];
    let first = short.lines().next().expect("an answer");
    let last = short.lines().count() as u64 + 1;
    let older = planted(first, last + 1, |line| {
        line["result"]["engine"]["version"] = json!("0.0.1");
        line["result"]["engine"].as_object_mut().expect("an engine").remove("model");
        line["result"]["codes"]["failures"] = json!(["code.of-old"]);
    });
    let half = &planted(first, last + 2, |_| {});
    let half = &half[..half.len() / 2];
    let odd = planted(first, last + 3, |line| line["kind"] = json!("garage"));
    let negative = planted(first, last + 4, |line| line["result"]["verdict"] = json!("maybe"));
    let end = r#"{"kind":"end","summary":{"complete":false,"next_line":3,"lines":2}}"#;
    let bytes = "\u{fffd}\u{0}[";
    let text = format!("{short}{older}\n\n{half}\n{odd}\r\n{negative}\n{end}\nno answer\n{bytes}");
    let report = report(&["-"], &text, 1);
    let before = report_of_short();
    let number = |report: &Value, member: &str| report["lines"][member].as_u64().expect("a number");
    assert_eq!(number(&report, "answers"), number(&before, "answers") + 1);
    assert_eq!((number(&report, "unread"), number(&report, "broken_off")), (5, 1));
    assert_eq!((&before["comparable"], &report["comparable"]), (&json!(true), &json!(false)));
    let engine = list(&report["engines"]).iter().find(|engine| engine["version"] == "0.0.1");
    let engine = engine.expect("the older one");
    assert_eq!(
        (&engine["model"], &engine["own"], &engine["answers"], &engine["first_line"]),
        (&json!(1), &json!(false), &json!(1), &json!(last + 1))
    );
    let old = list(&report["findings"]).iter().find(|row| row["code"] == "code.of-old");
    assert_eq!(old.expect("a code").get("source"), None, "what is not known is not explained");
    let listed: Vec<(Option<u64>, Option<u64>, &str)> = list(&report["unread"]["listed"])
        .iter()
        .map(|row| {
            let reason = row["reason"].as_str().expect("a reason");
            (row["line"].as_u64(), row["line_of_file"].as_u64(), reason)
        })
        .collect();
    // The lines of the file: those before, the older answer, an empty one, three unread, an end.
    let at = short.lines().count() as u64 + 7;
    assert_eq!(
        listed,
        [
            (Some(last + 2), None, "not_json"),
            (Some(last + 3), None, "not_an_answer"),
            (Some(last + 4), None, "not_an_answer"),
            (None, Some(at), "not_json"),
            (None, Some(at + 1), "not_json"),
        ]
    );
    assert_eq!(report["unread"]["listed"][3]["file"], "-");
}

fn report_of_short() -> Value {
    report(&["-"], &answers()[1], 0)
}

#[test]
fn lines_without_an_answer_and_lines_with_two_are_named() {
    let short = &answers()[1];
    let all: Vec<&str> = short.lines().collect();
    let (last, jobs) = (all.len(), jobs().lines().count() as u64);
    let without = |report: &Value| {
        let range =
            |range: &Value| [range["first"].as_u64(), range["last"].as_u64()].map(Option::unwrap);
        let of = |name: &str| list(&report["answered"][name]).iter().map(range).collect::<Vec<_>>();
        (of("without_ranges"), of("repeated_ranges"))
    };
    // The empty line among the jobs is the last but two.
    let empty = jobs - 2;
    assert_eq!(without(&report_of_short()), (vec![[empty, empty]], vec![]));
    let some: Vec<&str> = [&all[3..8], &all[6..last - 4]].concat();
    let text = some.join("\n");
    let report = |arguments: &[&str]| report(&[&["-"], arguments].concat(), &text, 0);
    assert_eq!(without(&report(&[])), (vec![], vec![[7, 8]]));
    let of_all = report(&["--lines", &format!("1..{jobs}")]);
    let last_there = last as u64 - 4;
    assert_eq!(without(&of_all).0, [[1, 3], [last_there + 1, jobs]]);
    assert_eq!(of_all["answered"]["without"], 3 + jobs - last_there);
    assert_eq!(without(&report(&["--lines", "2.."])).0, [[2, 3]]);
    assert_eq!(of_all["answered"]["repeated"], 2);
    assert_eq!(of_all["lines"]["answers"], some.len());
}

/// A folder of this test alone.
fn folder(name: &str) -> PathBuf {
    let folder =
        std::env::temp_dir().join(format!("hookspan-report-{}-{name}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, max_shrink_iters: 0, ..ProptestConfig::default() })]

    #[test]
    fn parts_in_any_order_come_to_the_report_of_the_whole(
        seed in any::<u64>(),
        parts in 1..6_usize,
        worst in 0..12_u16,
        threads in 1..4_u8,
    ) {
        // Answers many times over under other numbers, lines that cannot be read but say theirs, and some twice.
        let short: Vec<&str> = answers()[1].lines().collect();
        let mut state = seed;
        let mut random = move |below: usize| {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            usize::try_from(state >> 33).expect("31 bits") % below
        };
        let mut lines: Vec<String> = (1..=120_u64)
            .map(|number| planted(short[random(short.len())], number, |_| {}))
            .collect();
        for _ in 0..5 {
            let number = random(lines.len());
            let line = format!("{{\"line\":{},\"kind\":\"layout\",\"resu", number + 1);
            lines.push(line);
            let again = lines[random(120)].clone();
            lines.push(again);
        }
        let folder = folder(&format!("{seed:x}"));
        let mut texts = vec![String::new(); parts];
        for line in &lines {
            let text = &mut texts[random(parts)];
            text.push_str(line);
            text.push('\n');
        }
        let mut files: Vec<String> = Vec::new();
        for (at, text) in texts.iter().enumerate() {
            let path = folder.join(format!("part-{at}"));
            std::fs::write(&path, text).expect("a part");
            files.push(path.to_str().expect("text").to_owned());
        }
        let turn = random(parts);
        files.rotate_left(turn);
        let (worst, threads) = (worst.to_string(), threads.to_string());
        let flags = ["--worst", &worst, "--threads", &threads];
        let of_parts: Vec<&str> = files.iter().map(String::as_str).chain(flags).collect();
        let whole = reported(&["-", "--worst", &worst, "--threads", "1"], &(lines.join("\n")), 1);
        prop_assert_eq!(reported(&of_parts, "", 1), whole);
        std::fs::remove_dir_all(&folder).expect("removed");
    }
}

/// A line that does not tell its number is named by file and place in it, so there a report of parts differs from
/// that of the whole, and nowhere else. `solve --jobs` writes no such line; a disk that is full or broken may.
#[test]
fn only_lines_without_a_number_are_named_by_their_file() {
    let short: Vec<&str> = answers()[1].lines().collect();
    let folder = folder("numberless");
    let part = |name: &str, lines: &[&str]| {
        let path = folder.join(name);
        std::fs::write(&path, lines.join("\n") + "\n").expect("a part");
        path.to_str().expect("text").to_owned()
    };
    let (one, other) = short.split_at(5);
    let whole = part("whole", &[one, &["no answer"], other, &["nor this"]].concat());
    let parts =
        [part("0", &[one, &["no answer"]].concat()), part("1", &[other, &["nor this"]].concat())];
    let mut whole = report(&[&whole], "", 1);
    let mut parts = report(&[&parts[0], &parts[1]], "", 1);
    assert_ne!(whole, parts);
    for report in [&mut whole, &mut parts] {
        for row in report["unread"]["listed"].as_array_mut().expect("rows") {
            let row = row.as_object_mut().expect("a row");
            assert!(row.remove("file").is_some() && row.remove("line_of_file").is_some());
        }
    }
    assert_eq!(whole, parts);
    std::fs::remove_dir_all(&folder).expect("removed");
}

#[test]
fn every_table_is_read_back_with_the_figures_of_the_report() {
    let full = &answers()[0];
    let text = format!("{full}no answer, \"at all\"\n");
    let report = report(&["-"], &text, 1);
    let rows = |table: &str| -> Vec<BTreeMap<String, String>> {
        let text = reported(&["-", "--csv", table], &text, 1);
        assert!(text.ends_with("\r\n") && !text.replace("\r\n", "").contains('\n'), "{table}");
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        reader.deserialize().map(|row| row.expect("a row")).collect()
    };
    let same = |table: &str, of: &Value, members: &[&str]| {
        let rows = rows(table);
        assert_eq!(rows.len(), list(of).len(), "{table}");
        assert!(!rows.is_empty(), "{table}");
        for (row, of) in rows.iter().zip(list(of)) {
            for member in members {
                let expected = match &of[*member] {
                    Value::Null => String::new(),
                    Value::String(text) => text.clone(),
                    Value::Number(number) => number.as_f64().expect("finite").to_string(),
                    other => panic!("{other}"),
                };
                assert_eq!(row[*member], expected, "{table} {member}");
            }
        }
    };
    let answers =
        ["line", "id", "verdict", "utilisation", "element", "check", "headline", "hook_part"];
    same("worst", &report["worst"], &answers);
    same("changed", &report["changes"]["worst"], &answers);
    same("event", &report["event"]["look_at"], &answers);
    same("findings", &report["findings"], &["code", "severity", "answers", "source"]);
    same("causes", &report["changes"]["causes"], &["cause", "answers", "verdict_changed"]);
    let capacity = &report["capacity"];
    let both =
        [list(&capacity["ground_snow"]["smallest"]), list(&capacity["peak_pressure"]["smallest"])];
    same("capacities", &json!(both.concat()), &["line", "load_kn_per_m2", "scope", "check"]);
    let bins =
        list(&report["utilisation"]).iter().flat_map(|spread| list(&spread["bins"]).to_vec());
    same("utilisations", &json!(bins.collect::<Vec<_>>()), &["above", "up_to", "answers"]);
    let left = [list(&report["problems"]["listed"]), list(&report["unread"]["listed"])].concat();
    same("left", &json!(left), &["line", "detail"]);
    let counts = rows("counts");
    assert_eq!(counts[0]["answers"], report["lines"]["answers"].to_string());
    let groups = ["by_kind", "by_rules", "by_hook", "by_scope"];
    let of_groups: usize = groups.iter().map(|group| list(&report[*group]).len()).sum();
    assert_eq!(counts.len(), of_groups + 1);
}

#[test]
fn a_page_is_one_file_in_the_language_of_its_reader() {
    for (language, title, bears) in
        [("en", "Report on answers", "0.6500"), ("de", "Auswertung von Ergebnissen", "0,6500")]
    {
        let evil = planted(answers()[0].lines().next().expect("one"), 999, |line| {
            line["id"] = json!("<script>alert(1)</script>");
        });
        // Short of the barn: its lines are first among the worst.
        let text = format!("{}{evil}\nno answer\n", answers()[0]);
        let html = reported(&["-", "--html", "--lang", language, "--worst", "500"], &text, 1);
        assert!(html.starts_with(&format!("<!DOCTYPE html><html lang=\"{language}\">")));
        assert!(html.contains(&format!("<h1>{title}</h1>")));
        assert!(!html.contains("<script") && !html.contains("src=") && !html.contains("href="));
        assert!(html.contains(bears), "figures are written as the language does");
        for section in [
            "first", "cautions", "event", "counts", "worst", "spreads", "findings", "changes",
            "bears", "problems", "unread", "engines",
        ] {
            assert_eq!(html.matches(&format!("id=\"{section}\"")).count(), 1, "{section}");
            assert!(html.contains(&format!("aria-labelledby=\"{section}\"")), "{section}");
        }
        // A page is well-formed but for the elements of its head that need no end.
        let body =
            &html[html.find("<body>").expect("a body")..html.rfind("</html>").expect("an end")];
        let body = roxmltree::Document::parse(body).expect("well-formed");
        let plots = body
            .descendants()
            .filter(|node| node.has_tag_name(("http://www.w3.org/2000/svg", "svg")));
        assert!(plots.count() > 3);
    }
    let nothing = reported(&["-", "--html"], "", 0);
    assert!(nothing.contains("<h1>Report on answers</h1>") && !nothing.contains("<figure"));
}

#[test]
fn the_committed_schema_is_that_of_a_report() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("openapi/report.schema.json");
    let text = reported(&["--schema"], "", 0);
    if std::env::var_os("UPDATE_OPENAPI").is_some() {
        std::fs::write(&path, &text).expect("a writable file");
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(committed == text, "{} is out of date; UPDATE_OPENAPI=1 writes it", path.display());
    let schema: Value = serde_json::from_str(&text).expect("JSON");
    assert!(!text.contains("#/components/"), "it refers to another document");
    let validator = jsonschema::draft202012::new(&schema).expect("a schema");
    for input in [&format!("{}no answer\n", answers()[0]), ""] {
        let status = i32::from(!input.is_empty());
        let mut report = report(&["-"], input, status);
        let faults: Vec<_> =
            validator.iter_errors(&report).map(|fault| fault.to_string()).collect();
        assert_eq!(faults, Vec::<String>::new());
        // It says every member that is written.
        let known = schema["$defs"]["Report"]["properties"].as_object().expect("members");
        for member in report.as_object().expect("a report").keys() {
            assert!(known.contains_key(member), "{member}");
        }
        report["lines"]["read"] = json!("many");
        assert!(!validator.is_valid(&report));
    }
}

#[test]
fn writing_a_report_destroys_no_file() {
    let folder = folder("output");
    let file = folder.join("report.json");
    let path = file.to_str().expect("text");
    let text = &answers()[1];
    assert_eq!(reported(&["-", "--output", path], text, 0), "");
    let written = std::fs::read_to_string(&file).expect("a report");
    assert_eq!(written, reported(&["-"], text, 0));
    let again = hookspan(&["report", "-", "--output", path, "--html"], text.as_bytes());
    assert_eq!(again.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&again.stderr).contains("--force"));
    assert_eq!(std::fs::read_to_string(&file).expect("a report"), written);
    reported(&["-", "--output", path, "--html", "--force"], text, 0);
    assert!(std::fs::read_to_string(&file).expect("a page").starts_with("<!DOCTYPE html>"));
    std::fs::remove_dir_all(&folder).expect("removed");
}

#[test]
fn a_file_that_cannot_be_read_gives_no_report() {
    let output = hookspan(&["report", "/nowhere/answers.ndjson"], b"");
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    assert!(String::from_utf8_lossy(&output.stderr).contains("/nowhere/answers.ndjson"));
    for wrong in [
        &["report"][..],
        &["report", "-", "--csv", "nothing"],
        &["report", "-", "--html", "--json"],
    ] {
        assert_eq!(hookspan(wrong, b"").status.code(), Some(2), "{wrong:?}");
    }
}
