//! What the book is: its pages and folios, its sections, plates, wraps and endpapers.
//!
//! ```text
//! Book ─┬─ check        whether runs, sections and what is added agree
//!       ├─ folio, say   page position -> what is printed there, in words
//!       ├─ positions_of folio -> page positions; find says how many
//!       └─ section_of   page position -> section and page in it
//! Signing ── signature, section   the letter of a section, and the section of a letter
//! Job ── plan                      the ways of making it up in sections, ranked
//! Book + Signing ── formula       the notation of bibliographers, written and spoken
//! Book + Binding ── bound         bulk, swell, boards, strip, cloth, each with its sum
//! ```
//!
//! **Page positions** count the pages of all sections from 1, front to back, whether a number is printed on them or not. A
//! **folio** is the number printed on a page. Plates, wraps and endpapers are no pages of a section: they have no position
//! and are spoken of by what they lie behind or around.

mod bound;
mod extent;
mod folio;
mod formula;
mod places;
mod plan;
mod signatures;
mod told;

pub use bound::{Back, Binding, Bound, MOST_SWELL_PERCENT, bound};
pub use extent::{Added, Book, Folios, MOST_FOLIO, MOST_PAGES, MOST_SECTION, Run};
pub use folio::{read_roman, roman};
pub use formula::{Formula, extent_told, formula};
pub use places::Folio;
pub use plan::{
    CRITERIA, GATHERING_SPOILS, Job, Joined, MOST_COPIES, MOST_EXTENT, Part, Plan, Planned, Plans, PressSheet,
    RUNNING_SPOILS, SECTION_AIM, SET_UP_SHEETS, plan,
};
pub use signatures::{Alphabet, Doubling, Signed, Signing, Start, signatures};
pub use told::Finding;
