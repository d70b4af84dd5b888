//! Schemes at hand by their trade name. Data for the one engine; nothing is looked up here while folding.
//!
//! Names and fold orders: common practice. The three-fold sixteen with the inner side up is described in J. B.
//! Nicholson, *A Manual of the Art of Bookbinding* (1878), pp. 35-36.

use super::geometry::Direction;
use super::scheme::{Fold, Lands, Part, Reads, Scheme};

/// A scheme and what the trade calls it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NamedScheme {
    /// Its trade name, as in "Sixteen, three folds".
    pub name: &'static str,
    /// The scheme.
    pub scheme: Scheme,
}

const fn over(after: u32, moves: Part) -> Fold {
    Fold::new(after, moves, Lands::Over)
}

fn named(name: &'static str, rows: u32, columns: u32, folds: &[(u32, Part)]) -> NamedScheme {
    let folds = folds.iter().map(|(after, part)| over(*after, *part)).collect();
    NamedScheme { name, scheme: Scheme { rows, columns, folds, head: Direction::Up, reads: Reads::LeftToRight } }
}

/// The schemes at hand, from the smallest section to the largest.
#[must_use]
pub fn library() -> Vec<NamedScheme> {
    use Part::{Bottom, Left, Right, Top};
    vec![
        named("Four, one fold", 1, 2, &[(1, Right)]),
        named("Eight, two right-angle folds", 2, 2, &[(1, Top), (1, Right)]),
        named("Eight, two parallel folds", 1, 4, &[(2, Right), (1, Right)]),
        named("Twelve, letter fold and right angle", 3, 2, &[(2, Bottom), (1, Top), (1, Right)]),
        named("Sixteen, three folds", 2, 4, &[(2, Right), (1, Top), (1, Right)]),
        named("Sixteen, two parallel and right angle", 4, 2, &[(2, Top), (1, Top), (1, Right)]),
        named("Twenty-four, letter fold and two right angles", 2, 6, &[(4, Right), (2, Left), (1, Top), (1, Right)]),
        named("Thirty-two, four right-angle folds", 4, 4, &[(2, Top), (2, Right), (1, Top), (1, Right)]),
        named("Thirty-two, three right-angle and parallel", 2, 8, &[(4, Right), (1, Top), (2, Right), (1, Right)]),
        named("Sixty-four, five folds", 4, 8, &[(2, Top), (4, Right), (1, Top), (2, Right), (1, Right)]),
    ]
}
