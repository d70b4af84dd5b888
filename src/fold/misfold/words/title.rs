//! A cause in one sentence, and small pieces of sentences.

use crate::fold::misfold::{Cause, FoundPage, Lies};
use crate::fold::{Crease, Direction, Side};

/// How many runs of pages a sentence names.
const RUNS: usize = 4;
/// How many numbers a list names before it only counts.
const NAMED: usize = 6;

impl Cause {
    /// What was done, in one sentence.
    #[must_use]
    pub fn title(&self) -> String {
        match self {
            Self::FoldOtherWay { fold } => format!("Fold {fold} was made the other way."),
            Self::FoldFromOtherEdge { fold } => format!("Fold {fold} was made from the other edge."),
            Self::SheetEndForEnd => "The sheet was laid end for end before folding.".into(),
            Self::SheetTurnedOver { about } => format!("The sheet was turned over {} before folding.", turned(*about)),
            Self::SecondSideTurnedRound => "The second side was printed half turned round.".into(),
            Self::SecondSideBlank { side } => format!("Side {} was not printed.", side_word(*side)),
            Self::WrongSecondSide => "One side was printed with the pages of another section.".into(),
            Self::PagesExchanged { pages: [a, b] } => format!("Pages {a} and {b} stand in each other's place."),
            Self::PageHeadDown { page } => format!("Page {page} stands head down on the forme."),
            Self::SectionLies { lies } => format!("The section lies {}.", lies_words(*lies)),
            Self::DoubleSheet => "Two sheets were folded as one.".into(),
            Self::Together { causes } => and(&causes.iter().map(Self::title).collect::<Vec<_>>()),
        }
    }
}

/// Left to right for a turn about a vertical line.
pub(super) fn turned(about: Crease) -> &'static str {
    match about {
        Crease::Vertical => "left to right",
        Crease::Horizontal => "top to bottom",
    }
}

pub(super) fn side_word(side: Side) -> &'static str {
    if side == Side::A { "A" } else { "B" }
}

/// How something lies, as `lies …` goes on.
pub(in crate::fold::misfold) fn lies_words(lies: Lies) -> &'static str {
    match lies {
        Lies::HeadToTail => "head to tail",
        Lies::TurnedInPlane => "turned half round",
        Lies::SideToSide => "back to front",
    }
}

/// Sentences joined to one: `A was so, and b was so.`
pub(in crate::fold::misfold) fn and(sentences: &[String]) -> String {
    let mut said = String::new();
    for sentence in sentences {
        if said.is_empty() {
            said.push_str(sentence.trim_end_matches('.'));
        } else {
            said.push_str(", and ");
            said.push_str(&crate::words::small(sentence.trim_end_matches('.')));
        }
    }
    said + "."
}

/// Words joined by commas and a last `and`; a long list is counted at its end.
pub(in crate::fold::misfold) fn list(words: &[String]) -> String {
    crate::words::list_of(words, NAMED + 1, NAMED)
}

/// The section that lies so far from this one.
pub(in crate::fold::misfold) fn the_section(offset: i64) -> String {
    match offset {
        0 => "this section".into(),
        1 => "the next section".into(),
        -1 => "the section before".into(),
        2 => "the second section after this one".into(),
        3 => "the third section after this one".into(),
        -2 => "the second section before this one".into(),
        -3 => "the third section before this one".into(),
        4.. => format!("the section {offset} places after this one"),
        _ => format!("the section {} places before this one", -offset),
    }
}

/// How a row of pages begins: `3 4, 1 2, 9 to 16 and so on`.
pub(in crate::fold::misfold) fn opening(row: &[FoundPage]) -> String {
    let mut said = Vec::new();
    let mut rest = row;
    while !rest.is_empty() && said.len() < RUNS {
        let (run, after) = rest.split_at(run(rest));
        said.push(run_words(run));
        rest = after;
    }
    said.join(", ") + if rest.is_empty() { "" } else { " and so on" }
}

/// How many pages from the first on follow each other, all with their heads one way, or are all blank.
pub(in crate::fold::misfold) fn run(row: &[FoundPage]) -> usize {
    let step = |step: i64| {
        let goes_on = |pair: &[FoundPage]| match pair {
            [a, b] => match (a.page, b.page) {
                (Some(p), Some(q)) => i64::from(p) + step == i64::from(q) && a.head == b.head,
                (None, None) => true,
                _ => false,
            },
            _ => false,
        };
        1 + row.windows(2).take_while(|pair| goes_on(pair)).count()
    };
    step(1).max(step(-1)).min(row.len())
}

fn run_words(run: &[FoundPage]) -> String {
    let (Some(first), Some(last)) = (run.first(), run.last()) else { return String::new() };
    let (Some(a), Some(b)) = (first.page, last.page) else {
        return match run.len() {
            1 => "a blank side".into(),
            sides => format!("{sides} blank sides"),
        };
    };
    let down = if first.head == Some(Direction::Down) { " head down" } else { "" };
    match run.len() {
        1 => format!("{a}{down}"),
        2 => format!("{a} {b}{down}"),
        _ => format!("{a} to {b}{down}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::misfold::parse_pages;

    #[test]
    fn rows_in_words() {
        let said = |typed: &str| opening(&parse_pages(typed).unwrap());
        assert_eq!(said("3 4 1 2 7 8 5 6 11 12"), "3 4, 1 2, 7 8, 5 6 and so on");
        assert_eq!(said("9-16 1-8"), "9 to 16, 1 to 8");
        assert_eq!(said("8-1v 1 _ _ 4"), "8 to 1 head down, 1, 2 blank sides, 4");
        assert_eq!(said(""), "");
    }

    #[test]
    fn two_sentences_become_one() {
        let both = Cause::Together { causes: vec![Cause::FoldOtherWay { fold: 1 }, Cause::SheetEndForEnd] };
        assert_eq!(both.title(), "Fold 1 was made the other way, and the sheet was laid end for end before folding.");
        assert_eq!(and(&["Page 5 is wrong.".into()]), "Page 5 is wrong.");
    }
}
