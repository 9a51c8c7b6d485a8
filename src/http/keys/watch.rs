//! Looks at the file of keys from time to time, and at once when the process is told to.

use std::time::Duration;

use super::Keys;
use crate::http::metrics::Metrics;

/// Reads the file again and again. Never returns.
pub async fn keys(keys: Keys, metrics: Metrics, every: Duration) {
    let mut told = Told::new();
    loop {
        tokio::select! {
            () = tokio::time::sleep(every) => {}
            () = told.again() => tracing::info!("told to read the file of keys"),
        }
        let again = keys.clone();
        // It may lie on a slow disk.
        let read = tokio::task::spawn_blocking(move || again.reload()).await;
        match read {
            Ok(Ok(false)) => {}
            Ok(Ok(true)) => {
                metrics.reloaded(true);
                tracing::info!("the keys have changed");
                list(&keys);
            }
            Ok(Err(error)) => {
                metrics.reloaded(false);
                tracing::error!(%error, "the file of keys is none; the keys stay as they were");
            }
            Err(error) => tracing::error!(%error, "the file of keys was not read"),
        }
    }
}

/// Writes into the log which keys there are and what each may do.
pub fn list(keys: &Keys) {
    let listed = keys.listed();
    if listed.is_empty() {
        tracing::warn!("there are no keys in the file: nobody can have one");
    }
    for (name, grant) in listed {
        tracing::info!(key = name, ?grant, "a key");
    }
}

/// The signal to read the file now.
struct Told {
    #[cfg(unix)]
    signal: Option<tokio::signal::unix::Signal>,
}

impl Told {
    #[cfg(unix)]
    fn new() -> Self {
        let hangup = tokio::signal::unix::SignalKind::hangup();
        Self { signal: tokio::signal::unix::signal(hangup).ok() }
    }

    #[cfg(not(unix))]
    const fn new() -> Self {
        Self {}
    }

    async fn again(&mut self) {
        #[cfg(unix)]
        if let Some(signal) = &mut self.signal
            && signal.recv().await.is_some()
        {
            return;
        }
        std::future::pending::<()>().await;
    }
}
