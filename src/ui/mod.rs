//! The page.
/// Mounts the page.
pub fn run() {}
