//! What the browser tests share: a server that keeps a record, a browser, and a page in it.
#![allow(dead_code, reason = "each test uses some of it")]

pub mod axe;
pub mod bench;
pub mod chrome;
pub mod page;
pub mod server;

use std::time::{Duration, Instant};

/// How long anything may take before a test gives up on it: long, since machines can be slow and busy.
pub const PATIENCE: Duration = Duration::from_secs(60);

/// Asks again and again until the answer is `Some`; gives up after [`PATIENCE`] with `what`.
pub async fn until<T>(what: &str, mut ask: impl AsyncFnMut() -> Option<T>) -> T {
    let begun = Instant::now();
    loop {
        if let Some(answer) = ask().await {
            return answer;
        }
        assert!(begun.elapsed() < PATIENCE, "waited {PATIENCE:?} in vain for {what}");
        tokio::time::sleep(Duration::from_millis(25)).await;
    }
}
