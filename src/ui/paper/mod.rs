//! Documents on paper: made by the worker, handed out as PDF. Only later parts use it; nothing here prints the page.
//!
//! - `pdf`: asks for a document, and stops asking
//! - `buttons`: saving a document and opening it, as one component for every room
//! - `printer`: the printer of this browser: its paper, how it turns it, how far its second side is off
//! - `picture`: a page of a document before it is made

mod buttons;
mod pdf;
mod picture;
mod printer;

pub use buttons::PaperOut;
pub use picture::{Seen, use_picture};
pub use printer::{Kept, keep, kept};
