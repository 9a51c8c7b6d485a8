//! Do ordinary jobs reach a verdict an installer can build on? Ten of them, with what a usual data
//! sheet prints: `tests/data/ordinary/verdicts.md` says what each comes to and what it lacks.
//!
//! `UPDATE_ORDINARY=1 cargo test --test api ordinary` writes that page anew; read what changed before
//! you commit it.

use std::fmt::Write;
use std::path::Path;

use serde_json::Value;

use crate::server::{answer, list, number};

const FOLDER: &str = "tests/data/ordinary";

/// How many of the ten have to hold in what carries the array.
const AT_LEAST: usize = 6;

/// What carries the array.
const CARRYING: [&str; 3] = ["fixing", "rail", "modules"];

const SCOPES: [&str; 6] = ["fixing", "rail", "modules", "rafters", "covering", "data"];

/// A job and its answer.
struct Ordinary {
    name: String,
    job: Value,
    answer: Value,
}

impl Ordinary {
    /// Every job, in the order of their files.
    fn all() -> Vec<Self> {
        let mut files: Vec<_> = std::fs::read_dir(FOLDER)
            .expect("a folder of jobs")
            .map(|entry| entry.expect("a readable folder").path())
            .filter(|path| path.extension().is_some_and(|extension| extension == "json"))
            .collect();
        files.sort();
        files.iter().map(|path| Self::read(path)).collect()
    }

    fn read(path: &Path) -> Self {
        let text = std::fs::read_to_string(path).expect("a readable file");
        let job: Value = serde_json::from_str(&text).expect("a job is JSON");
        let name = path.file_stem().expect("a file").to_string_lossy().into_owned();
        let answer = answer("/v1/layouts", &job);
        Self { name, job, answer }
    }

    fn verdict(&self, scope: &str) -> &str {
        self.answer["verdicts"][scope].as_str().expect("a verdict")
    }

    fn carries(&self) -> bool {
        CARRYING.iter().all(|scope| self.verdict(scope).starts_with("holds"))
    }

    /// Findings of a severity, each by its code and once.
    fn codes(&self, severity: &str) -> Vec<&str> {
        let causes = list(&self.answer["causes"]).iter();
        causes.filter(|c| c["severity"] == severity).filter_map(|c| c["code"].as_str()).collect()
    }

    /// Every check that did not run, with the act that lifts it.
    fn lacks(&self) -> Vec<String> {
        let missing = list(&self.answer["missing"]).iter();
        missing
            .map(|missing| {
                let [check, act] =
                    ["check", "act"].map(|name| missing[name].as_str().unwrap_or(""));
                let declarable = if missing["declarable"] == true { ", or declare" } else { "" };
                format!("`{check}`: {}{declarable}", act.replace('_', " "))
            })
            .collect()
    }

    fn row(&self) -> String {
        let roof = &self.job["roof"];
        let text = |value: &Value| value.as_str().unwrap_or_default().replace('_', " ");
        let mut cells = vec![
            self.name.clone(),
            number(&roof["rafters"]["width_mm"]).to_string(),
            text(&roof["covering"]["kind"]),
            text(&self.job["rules"]["annex"]),
        ];
        cells.extend(SCOPES.map(|scope| self.verdict(scope).replace('_', " ")));
        cells.push(format!("{:.2}", number(&self.answer["utilisation"]["max"])));
        cells.push(or_dash(&self.lacks()));
        let warnings: Vec<_> =
            self.codes("warning").iter().map(|code| format!("`{code}`")).collect();
        cells.push(or_dash(&warnings));
        format!("| {} |\n", cells.join(" | "))
    }
}

fn or_dash(entries: &[String]) -> String {
    if entries.is_empty() { "–".to_owned() } else { entries.join("; ") }
}

fn page(jobs: &[Ordinary]) -> String {
    let held = jobs.iter().filter(|job| job.carries()).count();
    let mut page = String::from(
        "# Ten ordinary jobs\n\n\
         Roofs and parts are scenarios of our own and stand for no product. Each part has what a usual \
         data sheet prints: a hook its section, steel, foot and resistances; a screw its sizes and the \
         figures of its approval; a rail its section; a clamp its lift and mostly its slip; a module its \
         design pressures. What is not there is what such a sheet does not print: the stiffness of most \
         hooks, what a bolt holds along its slot, the slip of some clamps.\n\n\
         `tests/api/ordinary.rs` computes this page and compares it.\n\n",
    );
    let _ = writeln!(
        page,
        "{held} of {} hold, with or without warnings, in fixing, rail and modules.\n",
        jobs.len()
    );
    page.push_str(
        "| job | rafter, mm | covering | annex | fixing | rail | modules | rafters | covering | data | \
         largest utilisation | what did not run, and the act that lifts it | warnings |\n",
    );
    page.push_str("|---|---|---|---|---|---|---|---|---|---|---|---|---|\n");
    page.extend(jobs.iter().map(Ordinary::row));
    page
}

#[test]
fn ordinary_jobs_reach_holds() {
    let jobs = Ordinary::all();
    assert_eq!(jobs.len(), 10);
    let held = jobs.iter().filter(|job| job.carries()).count();
    assert!(held >= AT_LEAST, "only {held} hold in fixing, rail and modules");
    for job in &jobs {
        // An engineer would not have chosen it otherwise.
        assert_eq!(job.codes("failure"), Vec::<&str>::new(), "{}", job.name);
        // Whatever is left open can be asked for.
        for missing in list(&job.answer["missing"]) {
            assert_eq!(missing["act"], "ask_maker", "{}: {missing}", job.name);
        }
    }
    let widths = jobs.iter().map(|job| number(&job.job["roof"]["rafters"]["width_mm"]));
    assert!(widths.clone().fold(f64::MAX, f64::min) <= 47.0);
    assert!(widths.fold(0.0, f64::max) >= 100.0);
    for kind in ["plain_tile_double_lap", "interlocking", "slate_double_lap"] {
        assert!(jobs.iter().any(|job| job.job["roof"]["covering"]["kind"] == kind), "{kind}");
    }
}

#[test]
fn the_page_of_ordinary_jobs_is_what_they_come_to() {
    let written = page(&Ordinary::all());
    let path = format!("{FOLDER}/verdicts.md");
    if std::env::var_os("UPDATE_ORDINARY").is_some() {
        std::fs::write(&path, &written).expect("a writable file");
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        committed == written,
        "{path} is not what the jobs come to; UPDATE_ORDINARY=1 writes it anew:\n{written}"
    );
}
