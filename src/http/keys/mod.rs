//! API keys: which there are, and what each may do. The file is read at the start, and again when it
//! changes or the process is told to (SIGHUP); a file with a mistake leaves the keys as they were.

pub mod admission;
mod fields;
pub mod file;
mod meter;
pub mod watch;

use std::io::Read;
use std::path::{Path, PathBuf};
use std::sync::{Arc, PoisonError, RwLock};
use std::time::Duration;

use sha2::{Digest, Sha256};
use subtle::ConstantTimeEq;

use file::{Entry, Grant, Hash, KeyFileError, MOST_BYTES};
pub use meter::Meter;

/// Shortest key there is: with fewer characters it could be guessed.
const LEAST_KEY_BYTES: usize = 32;

/// Longest key there is.
const MOST_KEY_BYTES: usize = 256;

/// Times at which the file is looked at.
pub const EVERY: Duration = Duration::from_secs(5);

/// One key, as long as its file has it.
#[derive(Debug)]
pub struct Key {
    entry: Entry,
    meter: Arc<Meter>,
}

impl Key {
    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.entry.name
    }

    /// What it may do.
    #[must_use]
    pub fn grant(&self) -> &Grant {
        &self.entry.grant
    }

    /// What is left of that.
    #[must_use]
    pub fn meter(&self) -> &Meter {
        &self.meter
    }
}

/// The keys there are; clones are the same ones.
#[derive(Debug, Clone)]
pub struct Keys(Arc<Shared>);

#[derive(Debug)]
struct Shared {
    path: PathBuf,
    known: RwLock<Known>,
}

/// What was read last.
#[derive(Debug)]
struct Known {
    text: Vec<u8>,
    keys: Vec<Arc<Key>>,
}

impl Keys {
    /// Reads the file.
    ///
    /// # Errors
    /// [`KeyFileError`] where it is none.
    pub fn open(path: &Path) -> Result<Self, KeyFileError> {
        let text = read(path)?;
        let keys = made(file::parse(&text)?, &[]);
        let known = RwLock::new(Known { text, keys });
        Ok(Self(Arc::new(Shared { path: path.to_owned(), known })))
    }

    /// Reads the file again; whether it has changed. Not its time but its bytes are compared, which
    /// also notices a link that leads elsewhere now. Where the limits of a key are as they were, what
    /// is left of its quotas stays.
    ///
    /// # Errors
    /// [`KeyFileError`] where it is none any more; then nothing changes.
    pub fn reload(&self) -> Result<bool, KeyFileError> {
        let text = read(&self.0.path)?;
        let mut known = self.0.known.write().unwrap_or_else(PoisonError::into_inner);
        if known.text == text {
            return Ok(false);
        }
        let keys = made(file::parse(&text)?, &known.keys);
        *known = Known { text, keys };
        Ok(true)
    }

    /// Names of all keys, and what each may do, for the log.
    #[must_use]
    pub fn listed(&self) -> Vec<(String, Grant)> {
        let known = self.0.known.read().unwrap_or_else(PoisonError::into_inner);
        known.keys.iter().map(|key| (key.name().to_owned(), key.grant().clone())).collect()
    }

    /// The key whose text this is. Every hash is compared to its end, so that the time it takes says
    /// nothing about any of them.
    #[must_use]
    pub fn find(&self, text: &str) -> Option<Arc<Key>> {
        if !(LEAST_KEY_BYTES..=MOST_KEY_BYTES).contains(&text.len()) {
            return None;
        }
        let hash: Hash = Sha256::digest(text.as_bytes()).into();
        let known = self.0.known.read().unwrap_or_else(PoisonError::into_inner);
        let mut found = None;
        for key in &known.keys {
            for one in &key.entry.hashes {
                if bool::from(one.ct_eq(&hash)) {
                    found = Some(key);
                }
            }
        }
        found.cloned()
    }
}

fn read(path: &Path) -> Result<Vec<u8>, KeyFileError> {
    let mut text = Vec::new();
    std::fs::File::open(path)?.take(MOST_BYTES + 1).read_to_end(&mut text)?;
    if text.len() as u64 > MOST_BYTES { Err(KeyFileError::TooLarge) } else { Ok(text) }
}

/// Keys of what stands in the file; those that were there before and may do the same go on counting
/// where they were.
fn made(entries: Vec<Entry>, before: &[Arc<Key>]) -> Vec<Arc<Key>> {
    let made = entries.into_iter().map(|entry| {
        let same = before
            .iter()
            .find(|key| key.entry.name == entry.name && key.entry.grant == entry.grant);
        let meter =
            same.map_or_else(|| Arc::new(new_meter(&entry.grant)), |key| Arc::clone(&key.meter));
        Arc::new(Key { entry, meter })
    });
    made.collect()
}

fn new_meter(grant: &Grant) -> Meter {
    Meter::new(grant.requests, grant.cpu_s, grant.at_once)
}
