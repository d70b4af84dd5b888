//! Paper before it is folded: lengths, sheet sizes by name, and what a stock is like.

mod length;

pub use length::Length;
