//! Schemes and courses at hand by their trade name. Data for the one engine; nothing is looked up here while folding.
//!
//! Names and fold orders: common practice. The three-fold sixteen with the inner side up is described in J. B.
//! Nicholson, *A Manual of the Art of Bookbinding* (1878), pp. 35-36.

mod courses;
mod notation;

pub use courses::{Family, NamedCourse, courses};

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

/// The common sixteen, inner side up: the sheet that everyone begins with. It is here by itself, since the first page needs
/// this one of all courses.
#[must_use]
pub fn sixteen() -> NamedScheme {
    let over = |after, part| Fold::new(after, part, Lands::Over);
    let folds = vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)];
    let (head, reads) = (Direction::Up, Reads::LeftToRight);
    NamedScheme { name: "Sixteen, three folds", scheme: Scheme { rows: 2, columns: 4, folds, head, reads } }
}

/// The sheets at hand that are folded whole into one section, upright and read from left to right, from the smallest to the
/// largest.
#[must_use]
pub fn library() -> Vec<NamedScheme> {
    let whole = courses().into_iter().filter(|c| c.family == Family::Whole);
    whole.filter_map(|c| Some(NamedScheme { name: c.name, scheme: c.course.scheme()? })).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::Worked;

    #[test]
    fn the_sixteen_by_itself_is_the_one_of_the_list() {
        assert!(library().contains(&sixteen()));
    }

    #[test]
    fn every_course_at_hand_is_read_and_can_be_carried_out() {
        let all = courses();
        assert_eq!(all.len(), courses::lines());
        for named in &all {
            let worked = Worked::of(&named.course).unwrap_or_else(|why| panic!("{}: {} {why}", named.name, why.at));
            // Copies have the same pages.
            let pages = |copy: usize| named.course.copies[copy].iter().map(|n| worked.pages_of(n)).collect::<Vec<_>>();
            for copy in 1..named.course.copies.len() {
                assert_eq!(pages(copy), pages(0), "{}", named.name);
            }
            assert_eq!(all.iter().filter(|other| other.name == named.name).count(), 1, "{}", named.name);
        }
    }
}
