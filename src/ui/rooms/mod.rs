//! A room each, and the dialogs that belong to no room.

pub mod book;
pub mod fold;
pub mod gather;
pub mod trace;
