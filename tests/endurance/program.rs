//! The program as a process of its own: started, looked at, killed.

use std::fs::File;
use std::net::SocketAddr;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use crate::child::Server;

/// A folder of its own for the files of one test, gone with it.
pub struct Folder(PathBuf);

impl Folder {
    pub fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("hookspan-{}-{name}", std::process::id()));
        std::fs::create_dir_all(&path).expect("a folder can be made");
        Self(path)
    }

    pub fn file(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // What cannot be removed is left to the system.
        let _ = std::fs::remove_dir_all(&self.0);
    }
}

/// The service, listening, and its log.
pub struct Service {
    server: Server,
    log: PathBuf,
}

impl Service {
    /// Starts it with these flags; its log goes to a file of the folder.
    pub fn start(folder: &Folder, flags: &[&str]) -> Self {
        let log = folder.file("service.log");
        let file = File::create(&log).expect("a log can be written");
        Self { server: Server::with_flags(flags, file.into()), log }
    }

    pub fn address(&self) -> SocketAddr {
        self.server.address
    }

    /// Most memory it has held so far, MB.
    pub fn most_memory_mb(&self) -> f64 {
        self.server.most_memory_mb()
    }

    /// What it logged.
    pub fn log(&self) -> String {
        std::fs::read_to_string(&self.log).expect("the log can be read")
    }
}

/// `hookspan solve` over a file of jobs, started.
pub fn solving(jobs: &Path, answers: &Path, flags: &[&str], said: &Path) -> Child {
    Command::new(env!("CARGO_BIN_EXE_hookspan"))
        .arg("solve")
        .arg("--jobs")
        .arg(jobs)
        .arg("--output")
        .arg(answers)
        .args(flags)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(File::create(said).expect("a file can be written"))
        .spawn()
        .expect("the program starts")
}
