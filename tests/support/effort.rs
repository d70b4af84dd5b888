//! How long a piece of work took, whatever else the machine did meanwhile.

use std::time::{Duration, Instant};

/// The time on the clock while it is short. Of longer work, what this thread itself was given of the processor, where
/// the system says so (Linux: the first number of `schedstat`, as in "Scheduler Statistics" of the kernel's
/// documentation).
#[allow(clippy::disallowed_methods, reason = "measuring time is what this is for")]
pub fn effort<T>(work: impl FnOnce() -> T) -> (T, Duration) {
    let (begun, started) = (given(), Instant::now());
    let done = work();
    let clock = started.elapsed();
    // The system counts in ticks of some milliseconds.
    let counted = given().zip(begun).filter(|_| clock > Duration::from_millis(50));
    let took = counted.map_or(clock, |(end, begun)| end.saturating_sub(begun));
    (done, took)
}

/// Time on the processor so far.
fn given() -> Option<Duration> {
    let text = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    Some(Duration::from_nanos(text.split_whitespace().next()?.parse().ok()?))
}
