use std::sync::mpsc;

use super::*;
use crate::http::problem::ProblemCode;

/// Longer than any test runs.
const LONG: Duration = Duration::from_secs(3600);
/// Over at once.
const SHORT: Duration = Duration::from_millis(20);

fn places(limits: Limits) -> Places {
    Places::new(&Limits { jobs_at_once: 1, ..limits }, Metrics::default())
}

/// A computation that holds its place until it is told to stop, and says when it begins and ends.
fn endless(say: mpsc::Sender<&'static str>) -> impl FnOnce(&Stop) + Send + 'static {
    move |stop| {
        let _ = say.send("begun");
        while !stop.is_said() {
            std::thread::yield_now();
        }
        let _ = say.send("ended");
    }
}

async fn heard(hear: &mpsc::Receiver<&'static str>, word: &str) {
    loop {
        match hear.try_recv() {
            Ok(said) => return assert_eq!(said, word),
            Err(_) => tokio::time::sleep(Duration::from_millis(1)).await,
        }
    }
}

fn code<T>(refused: Result<T, Problem>) -> ProblemCode {
    refused.map(|_| ()).expect_err("it is refused").code()
}

#[tokio::test]
async fn who_finds_no_place_in_time_is_told_so() {
    let places = places(Limits { queue: SHORT, deadline: None, ..Limits::default() });
    let (release, held) = mpsc::channel::<()>();
    let first = tokio::spawn({
        let places = places.clone();
        async move { places.compute(&Call::default(), move |_| held.recv().is_ok()).await }
    });
    while places.fullness().taken[0] == 0 {
        tokio::task::yield_now().await;
    }
    assert_eq!(code(places.compute(&Call::default(), |_| ()).await), ProblemCode::Busy);
    release.send(()).expect("the first computation is waiting");
    assert!(first.await.expect("it ran").expect("it had its place"));
    assert!(places.compute(&Call::default(), |_| ()).await.is_ok(), "the place is free again");
}

/// With as many waiting as may, the next is refused without waiting and before its body is read.
#[tokio::test]
async fn no_more_wait_than_may() {
    let places = places(Limits { queue: LONG, waiting: 1, deadline: None, ..Limits::default() });
    let (say, hear) = mpsc::channel();
    let spawned = |job| {
        let places = places.clone();
        tokio::spawn(async move { places.compute(&Call::default(), job).await })
    };
    let first = spawned(endless(say.clone()));
    heard(&hear, "begun").await;
    assert!(places.admit(&Call::default()).is_ok());
    let second = spawned(endless(say));
    while places.fullness().waiting[0] == 0 {
        tokio::task::yield_now().await;
    }
    assert_eq!(code(places.admit(&Call::default())), ProblemCode::Busy);
    assert_eq!(code(places.compute(&Call::default(), |_| ()).await), ProblemCode::Busy);
    first.abort();
    heard(&hear, "ended").await;
    heard(&hear, "begun").await;
    assert!(places.admit(&Call::default()).is_ok(), "there is room again");
    second.abort();
}

/// Whatever batches do, a single request finds a place; and whatever single requests do, a line.
#[tokio::test]
async fn neither_batches_nor_single_requests_take_every_place() {
    let places = places(Limits { queue: LONG, deadline: None, ..Limits::default() });
    let (release, held) = mpsc::channel::<()>();
    let line = tokio::spawn({
        let places = places.clone();
        async move {
            places.compute_in_turn(&Call::default(), || false, move || held.recv().is_ok()).await
        }
    });
    while places.fullness().taken[1] == 0 {
        tokio::task::yield_now().await;
    }
    assert!(places.compute(&Call::default(), |_| ()).await.is_ok());
    release.send(()).expect("the line is still computed");
    assert!(line.await.expect("it ran").expect("it had its place"));

    let (say, hear) = mpsc::channel();
    let single = tokio::spawn({
        let places = places.clone();
        async move { places.compute(&Call::default(), endless(say)).await }
    });
    heard(&hear, "begun").await;
    assert!(places.compute_in_turn(&Call::default(), || false, || ()).await.is_ok());
    single.abort();
    heard(&hear, "ended").await;
}

#[tokio::test]
async fn a_computation_that_takes_too_long_is_ended_and_refused() {
    let places = places(Limits { deadline: Some(SHORT), ..Limits::default() });
    let (say, hear) = mpsc::channel();
    assert_eq!(code(places.compute(&Call::default(), endless(say)).await), ProblemCode::Overdue);
    heard(&hear, "begun").await;
    heard(&hear, "ended").await;
    while !places.are_free() {
        tokio::task::yield_now().await;
    }
}

#[tokio::test]
async fn a_computation_ends_when_its_caller_has_left() {
    let places = places(Limits { deadline: None, ..Limits::default() });
    let (say, hear) = mpsc::channel();
    let caller = tokio::spawn({
        let places = places.clone();
        async move { places.compute(&Call::default(), endless(say)).await }
    });
    heard(&hear, "begun").await;
    caller.abort();
    heard(&hear, "ended").await;
    while !places.are_free() {
        tokio::task::yield_now().await;
    }
}

#[tokio::test]
async fn an_instance_that_ends_refuses_what_it_computes() {
    let places = places(Limits { deadline: None, ..Limits::default() });
    let (say, hear) = mpsc::channel();
    let caller = tokio::spawn({
        let places = places.clone();
        async move { places.compute(&Call::default(), endless(say)).await }
    });
    heard(&hear, "begun").await;
    places.end();
    assert_eq!(code(caller.await.expect("it ran")), ProblemCode::Ending);
    assert_eq!(code(places.admit(&Call::default())), ProblemCode::Ending);
}

#[tokio::test]
async fn a_line_has_its_own_time_and_ends_with_its_batch() {
    let places = places(Limits { deadline: Some(SHORT), ..Limits::default() });
    let word = places.word();
    let late = places.clock(&word);
    while !late.stop.is_said() {
        tokio::time::sleep(Duration::from_millis(1)).await;
    }
    assert_eq!(late.overdue().map(|problem| problem.code()), Some(ProblemCode::Overdue));
    let next = Places { limits: Limits { deadline: Some(LONG), ..places.limits }, ..places };
    let in_time = next.clock(&word);
    assert!(!in_time.stop.is_said() && in_time.overdue().is_none());
    word.say();
    assert!(in_time.stop.is_said() && in_time.overdue().is_none(), "its batch has ended");
}

#[tokio::test]
async fn a_panic_becomes_a_bare_problem_and_frees_its_place() {
    let places = places(Limits { queue: LONG, ..Limits::default() });
    let broken = places.compute(&Call::default(), |_| panic!("planted")).await.map(|(): ()| ());
    assert_eq!(code(broken), ProblemCode::Internal);
    assert!(places.compute(&Call::default(), |_| ()).await.is_ok());
}

/// What nobody has taken yet is still in memory.
#[tokio::test]
async fn nothing_is_begun_while_answers_hold_all_memory() {
    let places = places(Limits { answers_bytes: 20, ..Limits::default() });
    let of_batches = places.unread(Lane::batch).keep(20);
    assert!(places.admit(&Call::default()).is_ok(), "batches have memory of their own");
    drop(of_batches);
    let kept = places.unread(Lane::single).keep(10);
    assert_eq!(code(places.admit(&Call::default())), ProblemCode::Busy);
    assert_eq!(code(places.compute(&Call::default(), |_| ()).await), ProblemCode::Busy);
    drop(kept);
    assert!(places.admit(&Call::default()).is_ok());
    assert!(places.compute(&Call::default(), |_| ()).await.is_ok());
}
