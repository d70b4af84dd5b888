//! From a flat sheet to a section.
//!
//! A **sheet** is a grid of equal **panels**, seen with side A up: row 0 at the top, column 0 at the left, `x` to
//! the right and `y` downwards, one panel a unit. Folding it makes a **packet** of **layers**; each layer is one
//! rectangle of the sheet with an exact place in the packet. A fold takes all layers at a crease. The finished
//! packet, one panel large, is a **section**: a panel has become a **leaf**, and its two faces are two **pages**.
//!
//! Nothing here is a table of known layouts. Trade schemes ([`library`]) are data for the one engine:
//!
//! ```text
//! Scheme ── Folding (packet after every fold, and what each fold did) ── Section (faces from front to back)
//!                                                                          ├─ Landing  (numbers on the flat sheet)
//!                                                                          └─ BackMark (printed, folded, seen)
//! ```
//!
//! Side B is always spoken of as it is seen after turning the sheet left to right.

mod allowance;
mod back_mark;
mod back_mark_place;
mod backing;
mod course;
mod course_words;
mod creases;
mod error;
mod folding;
mod geometry;
mod landing;
mod lay;
mod library;
mod measure;
pub mod misfold;
mod packet;
mod retold;
mod scheme;
mod section;
mod words;
pub mod work_back;
mod worked;

pub use allowance::{Lip, NoAllowance, tucked, with_lip, with_tucked_short};
pub use back_mark::{BackMark, Showing};
pub use back_mark_place::{MarkOnSheet, MarkSize};
pub use backing::{Backing, backing};
pub use course::{Course, End, MAX_PIECES, Nest, Parted, Slit, Steps};
pub use course_words::course_in_words;
pub use creases::{CreaseError, Creased, RealFold, Stop, stops};
pub use error::{FoldError, Place};
pub use folding::{Contact, Folding, Step};
pub use geometry::{Direction, Face, Placement, Rect, Side};
pub use landing::{Landing, PageAt};
pub use lay::Lay;
pub use library::{Family, NamedCourse, NamedScheme, courses, library, sixteen};
pub use measure::{Measure, Measured, MeasuredStep, Misfit, Place as LayerPlace, Span, span, whole_span};
pub use packet::{Layer, Packet, Turn};
pub(crate) use scheme::edge_word;
pub use scheme::{Crease, Fold, Lands, MAX_PANELS, Part, Reads, Scheme};
pub use section::{FoundFace, Section};
pub use words::{fold_name, says_after, says_landing, says_while};
pub use worked::{Branch, BranchEnd, CourseError, CourseFault, OwnSheet, Piece, Unfinished, Worked, nested, pieces_of};
