//! Working a layout back to its folds: the question to the worker, as a line of the ask protocol (`work_back`), and the
//! answer.

use super::form::{read_scheme, side_json};
use super::job::{Cell, Layout};
use super::part::{Part, Refused};
use crate::fold::{Direction, Face, Landing, Reads, Scheme, Side, fold_name};
use crate::json::Json;
use crate::scene::{Bench, Figure, Printing};

/// What a layout says of its folds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WorkedBack {
    /// Every scheme that prints it.
    pub schemes: Vec<Scheme>,
    /// Where there is none: single changes that make one fit.
    pub nearest: Vec<Mend>,
    /// Whether all was searched and is listed.
    pub complete: bool,
}

/// A change of a layout that makes a scheme fit.
#[derive(Clone, Debug, PartialEq)]
pub struct Mend {
    /// What would have to change.
    pub change: Change,
    /// The scheme that fits then.
    pub scheme: Scheme,
}

/// What would have to change on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
    /// Two pages put in each other's place.
    Exchange(u32, u32),
    /// A page turned head to tail.
    TurnPage(u32),
    /// Side B turned half round.
    TurnSide,
}

impl Change {
    /// In words, as something to be done.
    #[must_use]
    pub fn says(&self) -> String {
        match self {
            Self::Exchange(a, b) => format!("Exchange {a} and {b}"),
            Self::TurnPage(page) => format!("Turn {page} head to tail"),
            Self::TurnSide => "Turn side B half round".into(),
        }
    }

    /// The pages that it touches; none if it touches a whole side.
    #[must_use]
    pub fn pages(&self) -> Vec<u32> {
        match self {
            Self::Exchange(a, b) => vec![*a, *b],
            Self::TurnPage(page) => vec![*page],
            Self::TurnSide => Vec::new(),
        }
    }
}

impl Layout {
    /// Cells in which a page is known.
    #[must_use]
    pub fn known(&self) -> usize {
        self.side_a.iter().chain(&self.side_b).flatten().count()
    }

    /// The sheet with what is known printed on it.
    #[must_use]
    pub fn printing(&self) -> Printing {
        let columns = self.columns.max(1);
        let seen = |cell: &Option<Cell>| cell.map(|c| Figure { page: c.page, head: c.head });
        let side_b = self.side_b.chunks(columns as usize).flat_map(|row| row.iter().rev());
        let sideways = self.side_a.iter().chain(&self.side_b).flatten().find_map(|c| c.head);
        Printing {
            cells: self.side_a.iter().chain(side_b).map(seen).collect(),
            sideways: sideways.is_some_and(Direction::is_sideways),
            ..Printing::blank(self.rows, self.columns)
        }
    }

    /// The question which folds print this; `None` while nothing is known.
    #[must_use]
    pub fn question(&self) -> Option<String> {
        (self.known() > 0).then(|| {
            Json::object([
                ("ask", "work_back".into()),
                ("rows", self.rows.into()),
                ("columns", self.columns.into()),
                ("side_a", side_json(self, Side::A)),
                ("side_b", side_json(self, Side::B)),
            ])
            .write()
        })
    }
}

/// Reads the answer to [`Layout::question`].
///
/// # Errors
/// The reason that the answer gives, or that it is none.
pub fn read_worked_back(answer: &str) -> Result<WorkedBack, String> {
    let unreadable = |says: String| format!("The answer can't be read: {says}.");
    let answer = Json::parse(answer).map_err(|_| unreadable("it is cut off".into()))?;
    if let Some(Json::Text(says)) = answer.get("error").and_then(|e| e.get("says")) {
        return Err(says.clone());
    }
    worked_back(&Part::whole(&answer))
        .map(WorkedBack::told_by_hand)
        .map_err(|(at, says)| unreadable(format!("{at} {says}")))
}

fn worked_back(answer: &Part<'_>) -> Result<WorkedBack, Refused> {
    let ok = answer.member("ok")?;
    let nearest = match ok.maybe("nearest").filter(|n| !n.is_null()) {
        Some(nearest) => nearest.list()?.iter().map(mend).collect::<Result<_, _>>()?,
        None => Vec::new(),
    };
    Ok(WorkedBack {
        schemes: ok.member("schemes")?.list()?.iter().map(read_scheme).collect::<Result<_, _>>()?,
        nearest,
        complete: ok.member("complete")?.truth()?,
    })
}

fn mend(part: &Part<'_>) -> Result<Mend, Refused> {
    #[derive(Clone, Copy)]
    enum Kind {
        Exchange,
        Page,
        Side,
    }
    let change = part.member("change")?;
    let kinds =
        [("pages_exchanged", Kind::Exchange), ("page_head_down", Kind::Page), ("second_side_turned_round", Kind::Side)];
    let change = match change.member("kind")?.word(&kinds)? {
        Kind::Exchange => match change.member("pages")?.list()?.as_slice() {
            [a, b] => Change::Exchange(a.whole_number()?, b.whole_number()?),
            _ => return change.refuse("must name two pages"),
        },
        Kind::Page => Change::TurnPage(change.member("page")?.whole_number()?),
        Kind::Side => Change::TurnSide,
    };
    Ok(Mend { change, scheme: read_scheme(&part.member("scheme")?)? })
}

impl WorkedBack {
    /// The same with every scheme told as a hand folds it: as the trade's where there is one, else as a hand likes it.
    fn told_by_hand(mut self) -> Self {
        let mends = self.nearest.iter_mut().map(|m| &mut m.scheme);
        for scheme in self.schemes.iter_mut().chain(mends) {
            if let Some(told) = scheme.named().map(|n| n.scheme).or_else(|| scheme.by_hand()) {
                *scheme = told;
            }
        }
        self
    }

    /// How many ways there are to show: schemes, or else mended ones.
    #[must_use]
    pub fn ways(&self) -> usize {
        if self.schemes.is_empty() { self.nearest.len() } else { self.schemes.len() }
    }

    /// Way number i, from 0: the scheme, and what would have to change on the sheet for it.
    #[must_use]
    pub fn way(&self, i: usize) -> Option<(&Scheme, Option<Change>)> {
        match self.schemes.get(i) {
            Some(scheme) => Some((scheme, None)),
            None if self.schemes.is_empty() => self.nearest.get(i).map(|m| (&m.scheme, Some(m.change))),
            None => None,
        }
    }

    /// The answer in a sentence.
    #[must_use]
    pub fn says(&self) -> String {
        let cut = if self.complete { "" } else { " There may be more: too little is known to look at all." };
        match (self.schemes.len(), self.nearest.len()) {
            (0, 0) if self.complete => "No way of folding prints this, nor would one change of it be enough.".into(),
            (0, 0) => "Too little is known to look at every way of folding. Write down more.".into(),
            (0, 1) => format!("No way of folding prints this. One change would mend it.{cut}"),
            (0, n) => format!("No way of folding prints this. Any of {n} changes would mend it.{cut}"),
            (1, _) => format!("One way of folding prints this.{cut}"),
            (n, _) => format!("{n} ways of folding print this.{cut}"),
        }
    }
}

/// The sheet of a scheme as it would be printed, with the faces of a change marked.
#[must_use]
pub fn worked_bench(scheme: &Scheme, change: Option<Change>) -> Option<Bench> {
    let landing = Landing::of(scheme).ok()?;
    let pages = change.map(|c| c.pages()).unwrap_or_default();
    let marked: Vec<Face> = pages.iter().filter_map(|p| landing.page(*p)).map(|at| at.face).collect();
    let printing = Printing { reads: scheme.reads, ..Printing::landed(landing, 0) };
    Bench::new(printing.marking(&marked), scheme).ok()
}

/// A scheme's folds in a line: "Right over left, then top over bottom; head at the top".
#[must_use]
pub fn scheme_in_words(scheme: &Scheme) -> String {
    let mut says = String::new();
    for (i, fold) in scheme.folds.iter().enumerate() {
        let name = fold_name(fold);
        if i == 0 {
            says += &name;
        } else {
            says += ", ";
            says += &name.to_ascii_lowercase();
        }
    }
    says += match scheme.head {
        Direction::Up => "; head at the top",
        Direction::Down => "; head at the bottom",
        Direction::Left => "; head at the left",
        Direction::Right => "; head at the right",
    };
    if scheme.reads == Reads::RightToLeft {
        says += ", read right to left";
    }
    says
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, State, update};

    fn ask(state: &State) -> WorkedBack {
        read_worked_back(&crate::ask::answer(&state.job.layout.question().unwrap())).unwrap()
    }

    #[test]
    fn the_layout_of_a_scheme_is_worked_back_to_it() {
        let state = update(&State::default(), Action::LayoutOfScheme).0;
        let found = ask(&state);
        assert!(found.complete && found.nearest.is_empty());
        let names: Vec<String> = found.schemes.iter().map(scheme_in_words).collect();
        assert!(!names.is_empty());
        assert_eq!(names, ["Right over left, top over bottom, right over left; head at the top"]);
    }

    #[test]
    fn two_pages_exchanged_are_named_as_what_to_mend() {
        let state = update(&State::default(), Action::LayoutOfScheme).0;
        let swap = |state: &State, from: u32, to: u32| {
            let cells = &state.job.layout.side_a;
            let at = cells.iter().position(|c| c.is_some_and(|c| c.page == from)).unwrap() as u32;
            let cell = cells[at as usize].map(|c| crate::app::Cell { page: to, ..c });
            (at, cell)
        };
        let mut wrong = state.clone();
        for (at, cell) in [swap(&state, 6, 7), swap(&state, 7, 6)] {
            let (row, column) = (at / 4, at % 4);
            wrong = update(&wrong, Action::LayoutCell { side: Side::A, row, column, cell }).0;
        }
        let found = ask(&wrong);
        assert!(found.schemes.is_empty());
        assert!(found.nearest.iter().any(|m| m.change == Change::Exchange(6, 7)), "{:?}", found.nearest);
        assert_eq!(Change::Exchange(6, 7).says(), "Exchange 6 and 7");
    }

    #[test]
    fn nothing_known_asks_nothing() {
        assert_eq!(State::default().job.layout.question(), None);
        assert!(read_worked_back("{\"error\":{\"at\":\"\",\"says\":\"no\"}}").is_err());
        assert!(read_worked_back("{\"ok\":{}}").is_err());
    }
}
