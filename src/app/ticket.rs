//! The job ticket: what whoever makes the book has to know of it, as labels and values.

use super::job::Job;
use crate::book::{Added, Back};
use crate::fold::fold_name;
use crate::marks::Runs;
use crate::paper::{Grain, Length};
use crate::units::short;
use crate::words::{grouped, how_many, small};

/// What stands at the end of every ticket. Common practice, no source.
const MIND: &str = "Only trained people set a folder or work a guillotine. Guards stay shut; stop, isolate and let a machine run \
    down before reaching in. The rules of the house come first.";

impl Job {
    /// The lines of the ticket; what the job does not say is left out.
    #[must_use]
    pub fn ticket(&self) -> Vec<(&'static str, String)> {
        let book = self.book();
        let (leaf, trims) = (self.sheet.leaf(), &self.paper.trims);
        let mut rows = vec![
            ("Title", self.title.clone()),
            ("Extent", format!("{}: {}", how_many(book.pages(), "page"), of_sizes(&book.sections))),
        ];
        if !self.runs.is_empty() {
            let run = |run: &crate::book::Run| {
                let name = if run.name.is_empty() { "pages".to_owned() } else { run.name.clone() };
                format!("{name} {}", run.pages)
            };
            rows.push(("Pages", book.runs.iter().map(run).collect::<Vec<_>>().join(", ")));
        }
        if !self.added.is_empty() {
            rows.push(("Added", self.added.iter().map(added_says).collect::<Vec<_>>().join("; ")));
        }
        rows.push(("Trimmed page", sides(trims.page(leaf))));
        rows.push((
            "Trims",
            format!("head {}, foot {}, fore-edge {}", trims.head.text(), trims.foot.text(), trims.fore_edge.text()),
        ));
        let named = self.sheet.trade_name().map(str::to_owned);
        let pages = 2 * self.sheet.course.rows * self.sheet.course.columns;
        rows.push(("Sheet", named.unwrap_or_else(|| format!("{pages} pages, as the folding dummy shows"))));
        rows.push(("Sheet as it is folded", sides((self.sheet.measure.width(), self.sheet.measure.height()))));
        let folds: Vec<String> = self.sheet.trunk().folds.iter().map(|fold| small(&fold_name(fold))).collect();
        if !folds.is_empty() {
            rows.push(("Folds, side A up", folds.join("; ")));
        }
        if !self.sheet.is_whole() {
            rows.push(("Slit", "The sheet is slit; its pieces are put together as the folding dummy shows.".into()));
        }
        if !self.otherwise.is_empty() {
            let all: Vec<String> = self
                .otherwise
                .iter()
                .map(|other| {
                    let name = other.sheet.trade_name().map_or_else(|| "a sheet of its own".to_owned(), str::to_owned);
                    format!("section {}: {}", other.first, small(&name))
                })
                .collect();
            rows.push(("Folded otherwise", all.join("; ")));
        }
        let press = &self.paper.press;
        rows.push((
            "Lay",
            format!("gripper edge {}, side lay {}, as side A is seen", press.gripper.word(), press.side_lay.word()),
        ));
        let stock = &self.paper.stock;
        rows.push((
            "Stock",
            format!(
                "{} g/m², bulk {} cm³/g, {} thick",
                short(stock.grammage),
                short(stock.bulk),
                stock.caliper().exact_text()
            ),
        ));
        let grain = if stock.grain == Grain::Level { "from side to side" } else { "from head to foot" };
        rows.push(("Grain", format!("{grain} of the flat sheet")));
        rows.push(("Press sheet", sides(self.planning.sheet)));
        rows.push(("Run", format!("{} copies, and overs: ______", grouped(self.planning.copies))));
        let marks = &self.design.stairs;
        let from = if self.design.runs == Runs::Up { "tail" } else { "head" };
        rows.push((
            "Back marks",
            format!(
                "first {} mm from the {from}, steps of {} mm, bars {} mm long, {} levels on a spine of {} mm",
                short(marks.first_mm),
                short(marks.step_mm),
                short(marks.length_mm),
                marks.levels,
                short(marks.spine_mm)
            ),
        ));
        let back = if self.casing.back == Back::Round { "round back" } else { "flat back" };
        rows.push((
            "Case",
            format!(
                "{back}, boards {}, squares {}, cloth turned in {}",
                self.casing.board.text(),
                self.casing.square.text(),
                self.casing.turn_in.text()
            ),
        ));
        rows.push(("Mind", MIND.into()));
        rows
    }
}

fn sides((width, height): (Length, Length)) -> String {
    format!("{} × {}", width.short_mm(), height.text())
}

fn added_says(added: &Added) -> String {
    match added {
        Added::Plate { after: 0, pages } => format!("plate of {} before page 1", how_many(*pages, "page")),
        Added::Plate { after, pages } => format!("plate of {} behind page {after}", how_many(*pages, "page")),
        Added::Wrap { section, pages } => format!("wrap of {} round section {section}", how_many(*pages, "page")),
        Added::Endpapers { pages } => format!("endpapers of {}, front and back", how_many(*pages, "page")),
    }
}

/// "11 sections of 32 and 1 of 8".
#[must_use]
pub fn of_sizes(sections: &[u32]) -> String {
    let mut sizes: Vec<(u32, u32)> = Vec::new();
    for pages in sections {
        match sizes.iter_mut().find(|(of, _)| of == pages) {
            Some((_, count)) => *count += 1,
            None => sizes.push((*pages, 1)),
        }
    }
    let words: Vec<String> = sizes
        .iter()
        .enumerate()
        .map(|(i, (pages, count))| match (i, count) {
            (0, 1) => format!("1 section of {pages}"),
            (0, count) => format!("{count} sections of {pages}"),
            (_, count) => format!("{count} of {pages}"),
        })
        .collect();
    match words.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::{Action, Spoil, State, update};
    use crate::fold::courses;

    fn line(rows: &[(&'static str, String)], label: &str) -> String {
        rows.iter().find(|(l, _)| *l == label).map(|(_, v)| v.clone()).unwrap_or_default()
    }

    #[test]
    fn sizes_are_counted() {
        assert_eq!(of_sizes(&[16; 18]), "18 sections of 16");
        assert_eq!(of_sizes(&[vec![32; 10], vec![8, 32]].concat()), "11 sections of 32 and 1 of 8");
        assert_eq!(of_sizes(&[32, 16, 8]), "1 section of 32, 1 of 16 and 1 of 8");
    }

    #[test]
    fn the_ticket_of_a_new_job() {
        let rows = State::default().job.ticket();
        assert_eq!(line(&rows, "Extent"), "288 pages: 18 sections of 16");
        assert_eq!(line(&rows, "Sheet"), "Sixteen, three folds");
        assert_eq!(line(&rows, "Folds, side A up"), "right over left; top over bottom; right over left");
        assert_eq!(line(&rows, "Stock"), "90 g/m², bulk 1.3 cm³/g, 0.117 mm thick");
        assert!(line(&rows, "Mind").contains("isolate"));
        assert_eq!(line(&rows, "Folded otherwise"), "");
    }

    /// What was done to the stack is not what the book is.
    #[test]
    fn a_spoiled_stack_changes_no_ticket() {
        let state = State::default();
        let spoiled = update(&state, Action::Spoil(Spoil::LeaveOut(7))).0;
        assert_eq!(spoiled.job.ticket(), state.job.ticket());
    }

    #[test]
    fn every_course_has_a_ticket_that_can_be_printed() {
        for named in courses() {
            let state = update(&State::default(), Action::Take(named.course.clone())).0;
            let rows = state.job.ticket();
            assert_eq!(state.job.sheet.is_whole(), line(&rows, "Slit").is_empty(), "{}", named.name);
            assert!(rows.iter().all(|(_, value)| !value.is_empty()), "{}: {rows:?}", named.name);
        }
    }
}
