//! One request as the limits, the log and the counters know it: who calls, and what it has cost so far.

use std::net::{IpAddr, Ipv6Addr};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, OnceLock};
use std::time::Duration;

use tokio::sync::OwnedSemaphorePermit;

use crate::http::keys::Key;

/// The address at the other end of a connection.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Peer(pub IpAddr);

/// Whose share of the places a computation counts against.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Share {
    /// A key, wherever it is used.
    Key(String),
    /// An address; of IPv6 the network of 64 bits, all of which one caller can have.
    Peer(IpAddr),
    /// Whoever runs this program.
    Own,
}

/// One request; clones are the same one.
#[derive(Debug, Clone, Default)]
pub struct Call(Arc<Facts>);

#[derive(Debug, Default)]
struct Facts {
    peer: Option<IpAddr>,
    key: OnceLock<Arc<Key>>,
    /// Held as long as anything is done for this request.
    turn: OnceLock<OwnedSemaphorePermit>,
    digest: OnceLock<String>,
    received: AtomicU64,
    cpu_ns: AtomicU64,
}

impl Call {
    /// A request that came from there.
    #[must_use]
    pub fn from(peer: Option<Peer>) -> Self {
        // An IPv4 address may come dressed as one of IPv6.
        let peer = peer.map(|peer| peer.0.to_canonical());
        Self(Arc::new(Facts { peer, ..Facts::default() }))
    }

    /// Where it came from.
    #[must_use]
    pub fn peer(&self) -> Option<IpAddr> {
        self.0.peer
    }

    /// From now on it is known by its key, one of whose turns it holds until all is done.
    pub fn is_of(&self, key: Arc<Key>, turn: Option<OwnedSemaphorePermit>) {
        // Said once, before anything else is done.
        let _ = self.0.key.set(key);
        if let Some(turn) = turn {
            let _ = self.0.turn.set(turn);
        }
    }

    /// The key it was made with.
    #[must_use]
    pub fn key(&self) -> Option<&Arc<Key>> {
        self.0.key.get()
    }

    /// Whose share it counts against.
    #[must_use]
    pub fn share(&self) -> Share {
        match (self.key(), self.0.peer) {
            (Some(key), _) => Share::Key(key.name().to_owned()),
            (None, Some(IpAddr::V6(address))) => {
                let network = u128::from(address) & !u128::from(u64::MAX);
                Share::Peer(Ipv6Addr::from(network).into())
            }
            (None, Some(address)) => Share::Peer(address),
            (None, None) => Share::Own,
        }
    }

    /// The name of the job it asks about.
    pub fn asks_about(&self, digest: &str) {
        let _ = self.0.digest.set(digest.to_owned());
    }

    /// The name of the job, where it was read and is one.
    #[must_use]
    pub fn digest(&self) -> Option<&str> {
        self.0.digest.get().map(String::as_str)
    }

    /// So many bytes of its body have arrived.
    pub fn receive(&self, bytes: usize) {
        self.0.received.fetch_add(bytes as u64, Ordering::Relaxed);
    }

    /// Bytes of its body that have arrived.
    #[must_use]
    pub fn received(&self) -> u64 {
        self.0.received.load(Ordering::Relaxed)
    }

    /// A computation for it has taken so much of the processor.
    pub fn spend(&self, cpu: Duration) {
        let ns = u64::try_from(cpu.as_nanos()).unwrap_or(u64::MAX);
        self.0.cpu_ns.fetch_add(ns, Ordering::Relaxed);
        if let Some(key) = self.key() {
            key.meter().cpu.spend(cpu);
        }
    }

    /// What it has taken of the processor.
    #[must_use]
    pub fn spent(&self) -> Duration {
        Duration::from_nanos(self.0.cpu_ns.load(Ordering::Relaxed))
    }

    /// How long it takes until its key has processor time left; nothing where it has.
    #[must_use]
    pub fn budget_wait(&self) -> Option<Duration> {
        self.key().and_then(|key| key.meter().cpu.wait())
    }

    /// Returns once its key has processor time left.
    pub async fn in_budget(&self) {
        while let Some(wait) = self.budget_wait() {
            tokio::time::sleep(wait).await;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_caller_has_one_share_whatever_address_it_uses() {
        let from =
            |address: &str| Call::from(Some(Peer(address.parse().expect("an address")))).share();
        assert_eq!(from("2001:db8:1:2::1"), from("2001:db8:1:2:ffff::9"));
        assert_ne!(from("2001:db8:1:2::1"), from("2001:db8:1:3::1"));
        assert_eq!(from("::ffff:192.0.2.1"), from("192.0.2.1"));
        assert_ne!(from("192.0.2.1"), from("192.0.2.2"));
        assert_eq!(Call::default().share(), Share::Own);
    }
}
