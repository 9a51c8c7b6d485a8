//! The program as a process of its own: started, looked at, killed.

use std::fs::File;
use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Longest wait for the program to listen.
const START: Duration = Duration::from_secs(20);

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

/// The service, listening.
pub struct Service {
    child: Child,
    pub address: SocketAddr,
    log: PathBuf,
}

impl Service {
    /// Starts it with these flags; its log goes to a file of the folder.
    pub fn start(folder: &Folder, flags: &[&str]) -> Self {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a port is free");
        let address = listener.local_addr().expect("it has an address");
        drop(listener);
        let log = folder.file("service.log");
        let child = Command::new(env!("CARGO_BIN_EXE_hookspan"))
            .args(["--bind", &address.to_string()])
            .args(flags)
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(File::create(&log).expect("a log can be written"))
            .spawn()
            .expect("the program starts");
        let service = Self { child, address, log };
        let begin = Instant::now();
        while TcpStream::connect(address).is_err() {
            assert!(begin.elapsed() < START, "nothing listens on {address}");
            std::thread::sleep(Duration::from_millis(20));
        }
        service
    }

    /// Most memory it has held so far, MB; nothing where the system does not tell.
    pub fn most_memory_mb(&self) -> Option<f64> {
        most_memory_mb(&self.child)
    }

    /// What it logged.
    pub fn log(&self) -> String {
        std::fs::read_to_string(&self.log).expect("the log can be read")
    }

    /// Ends it as the system would: without a word.
    pub fn kill(&mut self) {
        self.child.kill().expect("it runs");
        self.child.wait().expect("it ends");
    }
}

impl Drop for Service {
    fn drop(&mut self) {
        // It may have been killed before.
        let _ = self.child.kill();
        let _ = self.child.wait();
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

/// Most memory a running process has held so far, MB: `VmHWM` of proc(5).
pub fn most_memory_mb(child: &Child) -> Option<f64> {
    let status = std::fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    let kib: f64 = line.trim().strip_suffix("kB")?.trim().parse().ok()?;
    Some(kib * 1024.0 / 1e6)
}
