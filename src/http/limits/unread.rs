//! Memory for answers that nobody has taken yet.

use std::pin::Pin;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::task::{Context, Poll};

use axum::body::{Body, Bytes, HttpBody};
use hyper::body::{Frame, SizeHint};
use tokio::sync::Notify;

/// What answers hold that are computed and not yet sent, of all requests together.
///
/// How long an answer is shows only when it is there. So nothing is refused for its size; but while
/// the answers of others hold as much as they may, no further one is begun.
#[derive(Debug, Clone)]
pub struct Unread(Arc<State>);

#[derive(Debug)]
struct State {
    most: usize,
    bytes: AtomicUsize,
    freed: Notify,
}

/// The memory of one answer, until it is dropped.
#[derive(Debug)]
pub struct Kept {
    unread: Unread,
    bytes: usize,
}

impl Unread {
    /// Memory for so many bytes.
    #[must_use]
    pub fn new(most: usize) -> Self {
        Self(Arc::new(State { most, bytes: AtomicUsize::new(0), freed: Notify::new() }))
    }

    /// Bytes that are held.
    #[must_use]
    pub fn bytes(&self) -> usize {
        self.0.bytes.load(Ordering::Relaxed)
    }

    /// Whether a further answer may be begun.
    #[must_use]
    pub fn has_room(&self) -> bool {
        self.bytes() < self.0.most
    }

    /// Waits until a further answer may be begun, or `anyway` says it has to be.
    pub async fn room_or(&self, anyway: impl Fn() -> bool) {
        loop {
            let mut freed = std::pin::pin!(self.0.freed.notified());
            // From here on nothing that is freed is missed.
            freed.as_mut().enable();
            if self.has_room() || anyway() {
                return;
            }
            freed.await;
        }
    }

    /// Lets those who wait see whether they still have to.
    pub fn look_again(&self) {
        self.0.freed.notify_waiters();
    }

    /// Counts an answer of so many bytes.
    #[must_use]
    pub fn keep(&self, bytes: usize) -> Kept {
        self.0.bytes.fetch_add(bytes, Ordering::Relaxed);
        Kept { unread: self.clone(), bytes }
    }

    /// The same body, each piece of which counts from when it is handed over until it is sent.
    pub fn counted(&self, body: Body) -> Body {
        Body::new(Counted { body, unread: self.clone() })
    }

    fn piece(&self, bytes: Bytes) -> Bytes {
        let kept = self.keep(bytes.len());
        Bytes::from_owner(Piece { bytes, _kept: kept })
    }
}

impl Drop for Kept {
    fn drop(&mut self) {
        self.unread.0.bytes.fetch_sub(self.bytes, Ordering::Relaxed);
        self.unread.look_again();
    }
}

struct Counted {
    body: Body,
    unread: Unread,
}

impl HttpBody for Counted {
    type Data = Bytes;
    type Error = axum::Error;

    fn poll_frame(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
    ) -> Poll<Option<Result<Frame<Bytes>, axum::Error>>> {
        let next = Pin::new(&mut self.body).poll_frame(context);
        next.map_ok(|frame| frame.map_data(|bytes| self.unread.piece(bytes)))
    }

    fn is_end_stream(&self) -> bool {
        self.body.is_end_stream()
    }

    fn size_hint(&self) -> SizeHint {
        self.body.size_hint()
    }
}

/// A piece of an answer on its way.
struct Piece {
    bytes: Bytes,
    _kept: Kept,
}

impl AsRef<[u8]> for Piece {
    fn as_ref(&self) -> &[u8] {
        &self.bytes
    }
}

#[cfg(test)]
mod tests {
    use futures_util::FutureExt;
    use http_body_util::BodyExt;

    use super::*;

    #[tokio::test]
    async fn a_piece_counts_until_its_bytes_are_gone() {
        let unread = Unread::new(5);
        let mut body = unread.counted(Body::from("an answer"));
        assert_eq!((unread.bytes(), body.size_hint().exact()), (0, Some(9)));
        let piece = body.frame().await.expect("a piece").expect("whole").into_data().expect("data");
        drop(body);
        let part = piece.slice(3..);
        drop(piece);
        assert_eq!((unread.bytes(), unread.has_room()), (9, false), "a part of it is still there");
        drop(part);
        assert_eq!((unread.bytes(), unread.has_room()), (0, true));
    }

    #[tokio::test]
    async fn who_waits_goes_on_once_there_is_room() {
        let unread = Unread::new(5);
        let kept = unread.keep(5);
        unread.room_or(|| true).await;
        let mut waits = std::pin::pin!(unread.room_or(|| false));
        assert!(waits.as_mut().now_or_never().is_none());
        drop(kept);
        assert!(waits.now_or_never().is_some());
    }
}
