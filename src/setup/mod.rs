//! What the folder needs: folds for its control in an open form, and the set-up sheet.

mod sheet;
mod xjdf;

pub use sheet::{CAUTIONS, Inputs, SetUp, SetUpFold, set_up};
pub use xjdf::{NotRead, NotWritten, ReadFolds, Written, read_xjdf, write_xjdf};
