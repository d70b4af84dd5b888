//! A room each.

pub mod class;
pub mod fold;
pub mod gather;
pub mod job;
pub mod trace;
