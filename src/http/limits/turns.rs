//! Who computes next. There is one place more than either lane may take, single requests or batches,
//! so that neither takes all of them. Who holds the fewest places comes first, and of those who hold
//! as many the one who has waited longest since its last turn; a caller's single requests go before
//! lines of its batches. So a caller who sends much waits behind itself, and not others behind it.

use std::collections::VecDeque;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tokio::sync::oneshot;

use crate::http::call::Share;
use crate::http::metrics::Lane;

/// Hands out places; clones hand out the same ones.
#[derive(Debug, Clone)]
pub struct Turns(Arc<Mutex<State>>);

/// As many single requests wait as may, and none of a caller who has more of them waiting.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Full;

/// A place, given back when dropped.
#[derive(Debug)]
pub struct Turn {
    turns: Turns,
    share: Share,
    lane: Lane,
    /// False where the place was never handed over.
    held: bool,
}

#[derive(Debug)]
struct State {
    free: usize,
    /// Places one lane may take.
    most: usize,
    /// Single requests that may wait.
    most_waiting: usize,
    held: [usize; 2],
    /// Those who hold a place or wait for one, the one with the latest turn last.
    callers: Vec<Caller>,
}

#[derive(Debug)]
struct Caller {
    share: Share,
    held: usize,
    waiting: [VecDeque<oneshot::Sender<Turn>>; 2],
}

const fn at(lane: Lane) -> usize {
    match lane {
        Lane::single => 0,
        Lane::batch => 1,
    }
}

impl Turns {
    /// One place more than `most`, and room for so many single requests that wait.
    #[must_use]
    pub fn new(most: usize, most_waiting: usize) -> Self {
        let state = State { free: most + 1, most, most_waiting, held: [0; 2], callers: Vec::new() };
        Self(Arc::new(Mutex::new(state)))
    }

    fn state(&self) -> MutexGuard<'_, State> {
        // Nothing panics while it is locked.
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A place, once it is this caller's turn.
    ///
    /// # Errors
    /// [`Full`] at once where too many single requests wait, and later where one of them has to make
    /// room for a caller who has fewer waiting.
    pub async fn take(&self, share: &Share, lane: Lane) -> Result<Turn, Full> {
        let receiver = {
            let mut state = self.state();
            if state.may_have_one(lane) {
                state.hand_over(share, lane);
                return Ok(self.turn(share, lane));
            }
            state.make_room_for(share, lane)?;
            let (sender, receiver) = oneshot::channel();
            state.caller(share).waiting[at(lane)].push_back(sender);
            receiver
        };
        receiver.await.map_err(|_| Full)
    }

    /// Whether a single request of this caller would be given a place, or let wait for one.
    ///
    /// # Errors
    /// [`Full`] where it would not.
    pub fn has_room_for(&self, share: &Share) -> Result<(), Full> {
        let mut state = self.state();
        if state.may_have_one(Lane::single) || state.waiting(Lane::single) < state.most_waiting {
            return Ok(());
        }
        state.longer_queue_than(share).map(|_| ()).ok_or(Full)
    }

    /// Places there are, places taken and computations that wait, by lane.
    #[must_use]
    pub fn fullness(&self) -> (usize, [usize; 2], [usize; 2]) {
        let mut state = self.state();
        let waiting = [Lane::single, Lane::batch].map(|lane| state.waiting(lane));
        (state.most + 1, state.held, waiting)
    }

    fn turn(&self, share: &Share, lane: Lane) -> Turn {
        Turn { turns: self.clone(), share: share.clone(), lane, held: true }
    }

    /// Gives free places to whose turn it is.
    fn hand_on(&self, state: &mut State) {
        while let Some((share, lane, waiting)) = state.next() {
            state.hand_over(&share, lane);
            if let Err(mut turn) = waiting.send(self.turn(&share, lane)) {
                // Who waited has left meanwhile. Dropped as it is, it would ask for this lock.
                turn.held = false;
                state.take_back(&share, lane);
            }
        }
    }
}

impl State {
    fn may_have_one(&self, lane: Lane) -> bool {
        self.free > 0 && self.held[at(lane)] < self.most
    }

    fn caller(&mut self, share: &Share) -> &mut Caller {
        let known = self.callers.iter().position(|caller| caller.share == *share);
        let at = known.unwrap_or_else(|| {
            self.callers.push(Caller {
                share: share.clone(),
                held: 0,
                waiting: [VecDeque::new(), VecDeque::new()],
            });
            self.callers.len() - 1
        });
        &mut self.callers[at]
    }

    fn hand_over(&mut self, share: &Share, lane: Lane) {
        self.free -= 1;
        self.held[at(lane)] += 1;
        self.caller(share).held += 1;
        // Now the one whose turn was last.
        if let Some(at) = self.callers.iter().position(|caller| caller.share == *share) {
            let caller = self.callers.remove(at);
            self.callers.push(caller);
        }
    }

    fn take_back(&mut self, share: &Share, lane: Lane) {
        self.free += 1;
        self.held[at(lane)] -= 1;
        self.caller(share).held -= 1;
        self.callers.retain(|caller| {
            caller.held > 0 || caller.waiting.iter().any(|waiting| !waiting.is_empty())
        });
    }

    /// Those who wait, the ones forgotten who have left.
    fn waiting(&mut self, lane: Lane) -> usize {
        let queues = self.callers.iter_mut().map(|caller| &mut caller.waiting[at(lane)]);
        let lengths = queues.map(|queue| {
            queue.retain(|waiting| !waiting.is_closed());
            queue.len()
        });
        lengths.sum()
    }

    /// The caller with the most single requests waiting, if these are more than `share` would have.
    fn longer_queue_than(&mut self, share: &Share) -> Option<&mut VecDeque<oneshot::Sender<Turn>>> {
        let own = self.callers.iter().find(|caller| caller.share == *share);
        let own = own.map_or(0, |caller| caller.waiting[0].len()) + 1;
        let queues = self.callers.iter_mut().map(|caller| &mut caller.waiting[0]);
        queues.max_by_key(|queue| queue.len()).filter(|queue| queue.len() > own)
    }

    fn make_room_for(&mut self, share: &Share, lane: Lane) -> Result<(), Full> {
        if lane == Lane::batch || self.waiting(lane) < self.most_waiting {
            return Ok(());
        }
        // Who came last leaves first; told by the end of its channel.
        self.longer_queue_than(share).and_then(VecDeque::pop_back).map(drop).ok_or(Full)
    }

    /// Whose turn it is, and in which lane.
    fn next(&mut self) -> Option<(Share, Lane, oneshot::Sender<Turn>)> {
        let open = [Lane::single, Lane::batch].map(|lane| self.may_have_one(lane));
        let lane_of = |caller: &Caller| {
            [Lane::single, Lane::batch]
                .into_iter()
                .find(|lane| open[at(*lane)] && !caller.waiting[at(*lane)].is_empty())
        };
        let waiting = self.callers.iter_mut().filter_map(|caller| {
            let lane = lane_of(caller)?;
            Some((caller, lane))
        });
        // Of equals the first one is taken.
        let (caller, lane) = waiting.min_by_key(|(caller, _)| caller.held)?;
        let waiting = caller.waiting[at(lane)].pop_front()?;
        Some((caller.share.clone(), lane, waiting))
    }
}

impl Drop for Turn {
    fn drop(&mut self) {
        if self.held {
            let mut state = self.turns.state();
            state.take_back(&self.share, self.lane);
            self.turns.hand_on(&mut state);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(name: &str) -> Share {
        Share::Key(name.to_owned())
    }

    /// Puts a request into the queue and lets it get there.
    async fn waits(
        turns: &Turns,
        share: &Share,
        lane: Lane,
    ) -> tokio::task::JoinHandle<Result<Turn, Full>> {
        let task = tokio::spawn({
            let (turns, share) = (turns.clone(), share.clone());
            async move { turns.take(&share, lane).await }
        });
        tokio::task::yield_now().await;
        task
    }

    async fn taken(turns: &Turns, share: &Share, lane: Lane) -> Turn {
        turns.take(share, lane).await.expect("there is a place")
    }

    #[tokio::test]
    async fn no_lane_takes_every_place() {
        for (lane, other) in [(Lane::single, Lane::batch), (Lane::batch, Lane::single)] {
            let turns = Turns::new(2, 10);
            let _two = [taken(&turns, &key("a"), lane).await, taken(&turns, &key("b"), lane).await];
            let third = waits(&turns, &key("c"), lane).await;
            assert!(!third.is_finished(), "all but one place are taken");
            let _last = taken(&turns, &key("a"), other).await;
            third.abort();
        }
    }

    #[tokio::test]
    async fn who_holds_fewer_places_comes_first() {
        let turns = Turns::new(2, 10);
        let first = taken(&turns, &key("much"), Lane::single).await;
        let second = taken(&turns, &key("much"), Lane::single).await;
        let much = waits(&turns, &key("much"), Lane::single).await;
        let little = waits(&turns, &key("little"), Lane::single).await;
        drop(first);
        let little = little.await.expect("it ran").expect("it is its turn");
        assert!(!much.is_finished());
        drop(second);
        much.await.expect("it ran").expect("now it is").held.then_some(()).expect("held");
        drop(little);
        assert_eq!(turns.fullness(), (3, [0, 0], [0, 0]));
    }

    #[tokio::test]
    async fn callers_who_hold_as_much_take_turns() {
        let turns = Turns::new(1, 10);
        let held = taken(&turns, &key("x"), Lane::single).await;
        let (say, mut hear) = tokio::sync::mpsc::unbounded_channel();
        for name in ["a", "a", "a", "b", "b", "c"] {
            let (turns, say) = (turns.clone(), say.clone());
            tokio::spawn(async move {
                let turn = turns.take(&key(name), Lane::single).await;
                say.send(name).expect("somebody listens");
                drop(turn);
            });
            tokio::task::yield_now().await;
        }
        drop((held, say));
        let mut order = Vec::new();
        while let Some(name) = hear.recv().await {
            order.push(name);
        }
        // Who was served and still waits stands behind the others.
        assert_eq!(
            order[..3].iter().collect::<std::collections::BTreeSet<_>>().len(),
            3,
            "{order:?}"
        );
        assert_eq!(order.len(), 6, "{order:?}");
    }

    /// A batch has every place it may; single requests of others get all that come free but one.
    #[tokio::test]
    async fn single_requests_get_more_than_one_place_beside_a_batch() {
        let turns = Turns::new(3, 10);
        let mut lines = Vec::new();
        for _ in 0..3 {
            lines.push(taken(&turns, &key("batch"), Lane::batch).await);
        }
        let more = waits(&turns, &key("batch"), Lane::batch).await;
        let _first = taken(&turns, &key("other"), Lane::single).await;
        let second = waits(&turns, &key("other"), Lane::single).await;
        lines.pop();
        let _second = second.await.expect("it ran").expect("it goes before the next line");
        assert!(!more.is_finished());
        more.abort();
    }

    #[tokio::test]
    async fn single_requests_of_a_caller_go_before_its_batch() {
        let turns = Turns::new(1, 10);
        let line = taken(&turns, &key("a"), Lane::batch).await;
        let single = taken(&turns, &key("a"), Lane::single).await;
        let next_line = waits(&turns, &key("a"), Lane::batch).await;
        let next_single = waits(&turns, &key("a"), Lane::single).await;
        drop(single);
        next_single.await.expect("it ran").expect("it is its turn");
        drop(line);
        next_line.await.expect("it ran").expect("it is its turn");
    }

    #[tokio::test]
    async fn who_has_most_waiting_makes_room() {
        let turns = Turns::new(1, 3);
        let _held = taken(&turns, &key("much"), Lane::single).await;
        let mut much = Vec::new();
        for _ in 0..3 {
            much.push(waits(&turns, &key("much"), Lane::single).await);
        }
        assert_eq!(turns.has_room_for(&key("much")), Err(Full));
        assert_eq!(turns.take(&key("much"), Lane::single).await.err(), Some(Full));
        assert_eq!(turns.has_room_for(&key("little")), Ok(()));
        let little = waits(&turns, &key("little"), Lane::single).await;
        let last = much.pop().expect("there are three").await.expect("it ran");
        assert_eq!(last.err(), Some(Full), "the one who came last makes room");
        assert!(!little.is_finished() && much.iter().all(|waits| !waits.is_finished()));
        // Two against one: taking another would only turn the tables.
        assert_eq!(turns.has_room_for(&key("little")), Err(Full));
        assert_eq!(turns.fullness().2, [3, 0]);
    }

    #[tokio::test]
    async fn no_place_is_lost_with_who_leaves() {
        let turns = Turns::new(1, 10);
        for _ in 0..100 {
            let held = taken(&turns, &key("a"), Lane::single).await;
            let leaves = waits(&turns, &key("b"), Lane::single).await;
            let stays = waits(&turns, &key("b"), Lane::single).await;
            leaves.abort();
            // Whether or not it had left when the place came free.
            drop(held);
            stays.await.expect("it ran").expect("it is its turn");
            let _ = leaves.await;
            assert_eq!(turns.fullness(), (2, [0, 0], [0, 0]));
        }
    }
}
