//! Folding parameters of XJDF, an open standard (CIP4, *XJDF Specification* 2.x, "FoldingParams" and "Fold").
//!
//! `From` is the edge that a fold is made from, `Left` or `Front` (the near one, at the foot). `To` is `Up` when the
//! left or near part comes over the other and `Down` when it goes under. `Travel` is the way from that edge to the
//! crease, in points of 25.4/72 mm (the unit: from memory). A sheet's size, its head and inset pieces are not in it.

mod read;
mod write;
mod xml;

pub use read::{NotRead, ReadFolds, read_xjdf};
pub use write::{NotWritten, Written, write_xjdf};
