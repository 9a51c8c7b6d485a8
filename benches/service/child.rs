//! Programs under load: started on a free port, stopped when done with.

#![allow(dead_code, reason = "the tests that run for long start programs of their own")]

use std::net::{Ipv4Addr, SocketAddr, TcpListener, TcpStream};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// Longest wait for a program to listen.
const START: Duration = Duration::from_secs(20);

/// A program that listens.
pub struct Server {
    child: Child,
    /// Where it listens.
    pub address: SocketAddr,
}

impl Server {
    /// The service, as it is started by default.
    pub fn service() -> Self {
        Self::with_flags(&[], Stdio::null())
    }

    /// The service with these flags, and a place for its log.
    pub fn with_flags(flags: &[&str], log: Stdio) -> Self {
        let address = free_address();
        let mut command = Command::new(env!("CARGO_BIN_EXE_hookspan"));
        command.args(["--bind", &address.to_string()]).args(flags).stderr(log);
        Self::start(command, address)
    }

    /// This very program, told by `variable` to listen.
    pub fn own(variable: &str) -> Self {
        let address = free_address();
        let mut command = Command::new(std::env::current_exe().expect("it has a path"));
        command.env(variable, address.to_string()).stderr(Stdio::null());
        Self::start(command, address)
    }

    fn start(mut command: Command, address: SocketAddr) -> Self {
        let child =
            command.stdin(Stdio::null()).stdout(Stdio::null()).spawn().expect("the program starts");
        let server = Self { child, address };
        let begin = Instant::now();
        while TcpStream::connect(address).is_err() {
            assert!(begin.elapsed() < START, "nothing listens on {address}");
            std::thread::sleep(Duration::from_millis(20));
        }
        server
    }

    /// Most memory it has held so far, MB.
    pub fn most_memory_mb(&self) -> f64 {
        most_memory_mb(&self.child)
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        // It may have ended by itself; then there is nothing to do.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Most memory a running process has held so far, MB: `VmHWM` of proc(5). Not a number where the
/// system does not tell.
pub fn most_memory_mb(child: &Child) -> f64 {
    let status = std::fs::read_to_string(format!("/proc/{}/status", child.id()));
    let status = status.unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    let kib = line.and_then(|line| line.trim().strip_suffix("kB")?.trim().parse::<f64>().ok());
    kib.map_or(f64::NAN, |kib| kib * 1024.0 / 1e6)
}

fn free_address() -> SocketAddr {
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).expect("a port is free");
    listener.local_addr().expect("it has an address")
}
