//! What the model of jobs has read before it packs or unpacks one.
//!
//! A primer never changes once links were made with it. When the form of jobs changes so much that links grow, another one is
//! added; the shortest is taken for writing, and every one is read for ever.

use super::pack::Model;
use std::sync::OnceLock;

/// Sample texts of forms 3 and 4, the seldom in front and the usual at the end.
const FIRST: &str = include_str!("primer.txt");

/// Each primer and its number in the link.
const ALL: [(u8, &str); 1] = [(1, FIRST)];

/// The models that have read them, each with its number. Reading takes a few milliseconds, so it is done once.
pub(super) fn models() -> &'static [(u8, Model)] {
    static READ: OnceLock<Vec<(u8, Model)>> = OnceLock::new();
    READ.get_or_init(|| ALL.iter().map(|(number, text)| (*number, Model::primed(text))).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::link::crc::crc32;

    #[test]
    fn a_primer_never_changes() {
        let checks: Vec<u32> = ALL.iter().map(|(_, text)| crc32(text.bytes(), 8)).collect();
        assert_eq!(checks, [0x3d2f_8eb0]);
    }
}
