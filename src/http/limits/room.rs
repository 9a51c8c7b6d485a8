//! Memory for bodies.

use std::sync::Arc;
use std::time::Duration;

use tokio::sync::{OwnedSemaphorePermit, Semaphore};

use crate::http::problem::Problem;

/// Memory for bodies, shared by all requests.
#[derive(Debug, Clone)]
pub struct Room {
    free: Arc<Semaphore>,
    pieces: usize,
}

/// Bytes that one permit stands for.
pub(super) const PIECE: usize = 1024;

/// Bytes that are held for somebody.
#[derive(Debug, Default)]
pub struct Held(Option<OwnedSemaphorePermit>);

impl Held {
    fn pieces(&self) -> usize {
        self.0.as_ref().map_or(0, OwnedSemaphorePermit::num_permits)
    }

    fn add(&mut self, more: OwnedSemaphorePermit) {
        match &mut self.0 {
            Some(held) => held.merge(more),
            None => self.0 = Some(more),
        }
    }

    /// Gives all but so many bytes to somebody else.
    #[must_use]
    pub fn split_off(&mut self, kept: usize) -> Self {
        let given = self.pieces().saturating_sub(kept.div_ceil(PIECE));
        Self(self.0.as_mut().and_then(|held| held.split(given)))
    }
}

impl Room {
    /// Room for so many bytes.
    #[must_use]
    pub fn new(bytes: usize) -> Self {
        let pieces = (bytes / PIECE).min(Semaphore::MAX_PERMITS);
        Self { free: Arc::new(Semaphore::new(pieces)), pieces }
    }

    /// Bytes that are held.
    #[must_use]
    pub fn taken(&self) -> usize {
        (self.pieces - self.free.available_permits()) * PIECE
    }

    fn missing(held: &Held, all: usize) -> u32 {
        let missing = all.div_ceil(PIECE).saturating_sub(held.pieces());
        u32::try_from(missing).unwrap_or(u32::MAX)
    }

    /// Room for so many bytes, those counted that are held.
    ///
    /// # Errors
    /// `busy` when there is none.
    pub fn hold(&self, held: &mut Held, all: usize) -> Result<(), Problem> {
        let more = Self::missing(held, all);
        let Ok(permit) = Arc::clone(&self.free).try_acquire_many_owned(more) else {
            return Err(Problem::busy("As many bodies are being read as there is memory for."));
        };
        held.add(permit);
        Ok(())
    }

    /// The same, and waits so long for others to be done. Whether there is room.
    pub async fn hold_within(&self, held: &mut Held, all: usize, longest: Duration) -> bool {
        let more = Self::missing(held, all);
        if more == 0 {
            return true;
        }
        let free = Arc::clone(&self.free).acquire_many_owned(more);
        let found = tokio::time::timeout(longest, free).await.ok().and_then(Result::ok);
        found.map(|permit| held.add(permit)).is_some()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bodies_share_the_memory_there_is() {
        let room = Room::new(10 * PIECE);
        let (mut one, mut other) = (Held::default(), Held::default());
        assert!(room.hold(&mut one, 1).is_ok() && room.hold(&mut one, 6 * PIECE).is_ok());
        assert!(room.hold(&mut other, 4 * PIECE).is_ok());
        assert!(room.hold(&mut other, 4 * PIECE + 1).is_err());
        assert_eq!(room.taken(), 10 * PIECE);
        drop(one);
        assert!(room.hold(&mut other, 10 * PIECE).is_ok());
    }

    #[tokio::test]
    async fn what_is_given_away_comes_back_by_itself() {
        let room = Room::new(4 * PIECE);
        let mut held = Held::default();
        assert!(room.hold_within(&mut held, 3 * PIECE, Duration::ZERO).await);
        let given = held.split_off(PIECE);
        assert!(!room.hold_within(&mut held, 4 * PIECE, Duration::from_millis(1)).await);
        drop(given);
        assert!(room.hold_within(&mut held, 4 * PIECE, Duration::from_millis(1)).await);
        drop(held);
        assert_eq!(room.taken(), 0);
    }
}
