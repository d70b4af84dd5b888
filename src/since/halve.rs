//! Halving: which book to open to find a change with the fewest openings.

/// The most openings that halving needs among `books` books whose fault begins at one of them or at none: there are
/// `books + 1` cases and each opening parts them in two, so the logarithm to the base 2, rounded up.
#[must_use]
pub const fn bound(books: u32) -> u32 {
    parts(books as u64 + 1)
}

/// How often a number of cases has to be parted in two until one is left.
#[must_use]
pub const fn parts(cases: u64) -> u32 {
    if cases <= 1 { 0 } else { (cases - 1).ilog2() + 1 }
}

/// The book to open when a change happens behind book `low` and not after book `high`; none if it is known.
///
/// `likely` are changes that are likelier than others, such as the first book that a lift can have gone into: each is
/// given as much weight as all books together, and the book is opened that parts the weight most evenly. `budget` is how many
/// openings may be used from here on; a book that would leave more cases on one side than the rest of the budget can part
/// is not taken. So a wrong guess never costs more than the budget allows, and without `likely` this is plain halving.
#[must_use]
pub fn open_next(low: u32, high: u32, likely: &[u32], budget: u32) -> Option<u32> {
    let cases = u64::from(high.checked_sub(low)?);
    if cases < 2 {
        return None;
    }
    if likely.is_empty() {
        return Some(low + (high - low) / 2);
    }
    let budget = budget.max(parts(cases));
    // Opening book m leaves the changes behind `low` up to m if it is bad, and those behind m up to `high` if it is good.
    let most = 1_u64 << (budget - 1).min(40);
    let from = u64::from(high).saturating_sub(most).max(u64::from(low) + 1);
    let to = (u64::from(low) + most).min(u64::from(high) - 1);
    let mut hints: Vec<u64> = likely.iter().filter(|h| low < **h && **h <= high).map(|h| u64::from(*h)).collect();
    hints.sort_unstable();
    hints.dedup();
    let weight = cases;
    let whole = cases + weight * hints.len() as u64;
    let up_to = |m: u64| m - u64::from(low) + weight * hints.partition_point(|h| *h <= m) as u64;
    // The weight up to m only rises, so the first m with half of it or more, and the one before it, are the best two.
    let (mut a, mut b) = (from, to);
    while a < b {
        let m = a.midpoint(b);
        if 2 * up_to(m) >= whole { b = m } else { a = m + 1 }
    }
    let uneven = |m: u64| (2 * up_to(m)).abs_diff(whole);
    let before = a.saturating_sub(1).max(from);
    u32::try_from(if uneven(before) <= uneven(a) { before } else { a }).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_thousand_books_take_eleven_openings_and_begin_in_the_middle() {
        assert_eq!((bound(2000), bound(1), bound(0), bound(3), bound(4)), (11, 1, 0, 2, 3));
        assert_eq!(open_next(0, 2001, &[], bound(2000)), Some(1000));
        assert_eq!(bound(u32::MAX), 32);
    }

    #[test]
    fn a_likely_beginning_is_opened_first() {
        // If it begins at 2,251, then 2,250 is good and 2,251 is bad.
        let first = open_next(0, 10_001, &[2251], bound(10_000) + 1).unwrap();
        assert_eq!(first, 2251);
        assert_eq!(open_next(0, 2251, &[2251], bound(10_000)), Some(2250));
        assert_eq!(open_next(2250, 2251, &[2251], 12), None);
        // Of several, the middle one first.
        assert_eq!(open_next(0, 1001, &[100, 300, 900], 11), Some(300));
    }

    #[test]
    fn without_room_in_the_budget_a_guess_is_not_followed() {
        assert_eq!(open_next(0, 1024, &[3], 10), Some(512));
        assert_eq!(open_next(0, 1024, &[3], 0), Some(512));
        assert_eq!(open_next(5, 5, &[], 3), None);
        assert_eq!(open_next(6, 5, &[], 3), None);
    }
}
