//! Between which books the fault lies: the last good one before it, the first bad, the last bad, the first good after.

use super::{Books, Judged, Line, Opened};
use crate::words::{grouped, how_many};
use serde::Serialize;

/// Bad books with no good one opened between them, and what bounds them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Bracket {
    /// The last book before them that was found good.
    pub last_good: Option<u32>,
    /// The first that was found bad.
    pub first_bad: u32,
    /// The last that was found bad.
    pub last_bad: u32,
    /// The first book after them that was found good.
    pub first_good: Option<u32>,
    /// How many were found bad.
    pub found_bad: u32,
    /// The fewest bad books, if all between the first and the last bad one are.
    pub least: u32,
    /// The most: all books between the two good ones, or to the end of the run where no good one was opened.
    pub most: u32,
}

impl Bracket {
    /// From the first to the last that was found bad.
    #[must_use]
    pub const fn inner(&self) -> Books {
        Books { from: self.first_bad, to: self.last_bad }
    }

    /// All that may be bad.
    #[must_use]
    pub fn outer(&self, line: &Line) -> Books {
        Books {
            from: self.last_good.map_or(line.first, |g| g.saturating_add(1)),
            to: self.first_good.map_or(line.last, |g| g.saturating_sub(1)),
        }
    }
}

/// What the opened books say.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Brackets {
    /// The runs of bad books, from the front.
    pub blocks: Vec<Bracket>,
    /// How many different books were opened.
    pub opened: u32,
    /// How many of them are bad: the fewest bad books that there can be.
    pub bad: u32,
    /// The same in sentences.
    pub says: Vec<String>,
    /// What doesn't agree, in sentences.
    pub disagrees: Vec<String>,
}

/// The opened books in rising order, each once, and those that were judged both ways. Such a book counts as bad, so that
/// it is held.
#[must_use]
pub fn in_order(opened: &[Opened]) -> (Vec<Opened>, Vec<u32>) {
    let mut all = opened.to_vec();
    // A bad one before a good one of the same number.
    all.sort_by_key(|o| (o.counter, o.judged == Judged::Good));
    let (mut order, mut both): (Vec<Opened>, Vec<u32>) = (Vec::with_capacity(all.len()), Vec::new());
    for one in all {
        match order.last() {
            Some(last) if last.counter == one.counter => {
                if last.judged != one.judged && both.last() != Some(&one.counter) {
                    both.push(one.counter);
                }
            }
            _ => order.push(one),
        }
    }
    (order, both)
}

/// Brackets from the opened books. `lift` is how many sections are loaded at once, where a fault of that size is supposed.
#[must_use]
pub fn brackets(line: &Line, opened: &[Opened], lift: Option<u32>) -> Brackets {
    let (order, both) = in_order(opened);
    let mut blocks: Vec<Bracket> = Vec::new();
    let (mut good, mut open) = (None, false);
    for one in &order {
        match one.judged {
            Judged::Good => {
                if let (true, Some(block)) = (open, blocks.last_mut()) {
                    block.first_good = Some(one.counter);
                }
                (good, open) = (Some(one.counter), false);
            }
            Judged::Bad => {
                let n = one.counter;
                let new = Bracket {
                    last_good: good,
                    first_bad: n,
                    last_bad: n,
                    first_good: None,
                    found_bad: 0,
                    least: 0,
                    most: 0,
                };
                if !open {
                    blocks.push(new);
                }
                if let Some(block) = blocks.last_mut() {
                    (block.last_bad, block.found_bad) = (n, block.found_bad + 1);
                }
                open = true;
            }
        }
    }
    for block in &mut blocks {
        (block.least, block.most) = (block.inner().count(), block.outer(line).count());
    }
    let bad = blocks.iter().map(|b| b.found_bad).sum();
    let says = says(line, &blocks, order.len() as u32);
    let disagrees = disagrees(&blocks, &both, lift);
    Brackets { blocks, opened: order.len() as u32, bad, says, disagrees }
}

fn says(line: &Line, blocks: &[Bracket], opened: u32) -> Vec<String> {
    if blocks.is_empty() {
        return vec![match opened {
            0 => format!("No book has been opened of {}.", how_many(line.books(), "book")),
            n => format!("No bad book was found among the {} that were opened.", grouped(n)),
        }];
    }
    let mut says = Vec::new();
    for b in blocks {
        let of = |from: u32, to: u32| format!("one of the books {} to {}", grouped(from), grouped(to));
        let begins = match b.last_good {
            Some(g) if g + 1 == b.first_bad => {
                format!("It begins with book {}: the one before it is good.", grouped(b.first_bad))
            }
            Some(g) => format!("It begins with {}.", of(g + 1, b.first_bad)),
            None if b.first_bad == line.first => "The first book of the run is bad.".to_owned(),
            None => {
                format!("It begins with book {} or earlier; no book before it was found good.", grouped(b.first_bad))
            }
        };
        let ends = match b.first_good {
            Some(g) if b.last_bad + 1 == g => {
                format!("It ends with book {}: the one after it is good.", grouped(b.last_bad))
            }
            Some(g) => format!("It ends with {}.", of(b.last_bad, g - 1)),
            None if b.last_bad == line.last => "The last book of the run is bad.".to_owned(),
            None => format!("It ends with book {} or later; no book after it was found good.", grouped(b.last_bad)),
        };
        let many = if b.least == b.most {
            format!("If all between are bad, that is {}.", how_many(b.least, "book"))
        } else {
            format!("If it is one block, it has from {} to {}.", grouped(b.least), how_many(b.most, "book"))
        };
        // Where there are very many, the first ones are enough to read.
        if says.len() < 20 {
            says.push(format!("{begins} {ends} {many}"));
        }
    }
    says
}

fn disagrees(blocks: &[Bracket], both: &[u32], lift: Option<u32>) -> Vec<String> {
    let mut out: Vec<String> = both
        .iter()
        .take(20)
        .map(|n| format!("Book {} was judged good and bad. It counts as bad until it is opened again.", grouped(*n)))
        .collect();
    let Some(lift) = lift else { return out };
    for pair in blocks.windows(2) {
        let [a, b] = pair else { continue };
        let Some(good) = a.first_good else { continue };
        if out.len() < 20 && b.first_bad - a.last_bad < lift {
            out.push(format!(
                "Books {} and {} are bad and lie within one lift of {}, but book {} between them is good. One lift put in \
                 wrong makes every book of it bad: open book {} again, or look for another cause.",
                grouped(a.last_bad),
                grouped(b.first_bad),
                grouped(lift),
                grouped(good),
                grouped(good)
            ));
        }
    }
    for b in blocks.iter().filter(|b| b.least > lift).take(5) {
        out.push(format!(
            "Books {} and {} are bad and lie further apart than one lift of {}: it was more than one lift, or it was not \
             a lift.",
            grouped(b.first_bad),
            grouped(b.last_bad),
            grouped(lift)
        ));
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_four_books_that_bound_a_block() {
        let line = Line::of(1, 2000);
        let opened = [Opened::bad(1480), Opened::good(1400), Opened::good(1501), Opened::bad(1421), Opened::good(7)];
        let found = brackets(&line, &opened, Some(80));
        let block = Bracket {
            last_good: Some(1400),
            first_bad: 1421,
            last_bad: 1480,
            first_good: Some(1501),
            found_bad: 2,
            least: 60,
            most: 100,
        };
        assert_eq!((found.blocks.as_slice(), found.opened, found.bad), ([block].as_slice(), 5, 2));
        assert_eq!(block.outer(&line), Books { from: 1401, to: 1500 });
        assert_eq!(found.disagrees, Vec::<String>::new());
        assert_eq!(
            found.says,
            ["It begins with one of the books 1,401 to 1,421. It ends with one of the books 1,480 to 1,500. \
              If it is one block, it has from 60 to 100 books."]
        );
    }

    #[test]
    fn a_good_book_within_a_lift_is_said() {
        let line = Line::of(1, 2000);
        let opened = [Opened::bad(1421), Opened::good(1450), Opened::bad(1490)];
        let found = brackets(&line, &opened, Some(80));
        assert_eq!(found.blocks.len(), 2);
        assert!(found.disagrees[0].contains("book 1,450 between them is good"), "{:?}", found.disagrees);
        assert_eq!(brackets(&line, &opened, Some(60)).disagrees, Vec::<String>::new());
        assert_eq!(brackets(&line, &opened, None).disagrees, Vec::<String>::new());
    }

    #[test]
    fn bad_books_too_far_apart_and_books_judged_twice_are_said() {
        let line = Line::of(1, 2000);
        let opened = [Opened::bad(100), Opened::bad(300), Opened::good(300), Opened::good(300), Opened::good(301)];
        let found = brackets(&line, &opened, Some(80));
        assert!(found.disagrees[0].contains("Book 300 was judged good and bad"));
        assert!(found.disagrees[1].contains("further apart than one lift of 80"));
        assert_eq!((found.disagrees.len(), found.opened, found.bad), (2, 3, 2));
    }

    #[test]
    fn the_ends_of_a_run_bound_as_well() {
        let line = Line::of(5, 9);
        let found = brackets(&line, &[Opened::bad(5), Opened::bad(9)], None);
        assert_eq!((found.blocks[0].least, found.blocks[0].most), (5, 5));
        assert!(found.says[0].starts_with("The first book of the run is bad. The last book of the run is bad."));
        assert_eq!(brackets(&line, &[], None).says, ["No book has been opened of 5 books."]);
    }
}
