//! What lies on the bench, printed: the whole sheet with every section that it gives, or one piece of it.

use super::state::State;
use crate::fold::{BackMark, Face, Landing, MarkOnSheet, Measure, OwnSheet, Section};
use crate::gather::stack::What;
use crate::scene::{Bench, Figure, Printing};

impl State {
    /// What is printed on the sheet on the bench.
    #[must_use]
    pub fn printing(&self) -> Printing {
        let whole = self.whole_printing();
        let own = self.piece().and_then(|piece| self.sheet().making()?.own_sheet(piece));
        own.map_or(whole.clone(), |own| of_piece(&whole, &own, &self.sheet().measure))
    }

    /// What is printed on the whole sheet: every section that it gives, in each copy. Followed, marked and named are
    /// the pages of the section on the bench.
    #[must_use]
    pub fn whole_printing(&self) -> Printing {
        let (job, sheet) = (&self.job, self.sheet());
        let (rows, columns) = (sheet.course.rows, sheet.course.columns);
        let here = self.section_on_bench();
        let reads = sheet.course.reads;
        let blank = Printing { shift: self.shift(), reads, ..Printing::blank(rows, columns) }.measured(&sheet.measure);
        let Some(worked) = sheet.worked() else { return blank };
        let Some((section, landing)) = job.section(here) else { return blank };
        let mark = self.mark_on(&section, &landing);
        let of_sheet = job.from_one_sheet(here);
        let mut cells = vec![None; 2 * (rows * columns) as usize];
        for sections in &worked.course.copies {
            for (section, nest) in of_sheet.iter().zip(sections) {
                let shift = job.pages_before(*section);
                let Some(nested) = worked.nested(nest) else { continue };
                for (page, found) in (1u32..).zip(&nested.faces) {
                    if let Some(cell) = cells.get_mut(blank.index(&found.face)) {
                        *cell = Some(Figure { page: page + shift, head: Some(found.head) });
                    }
                }
            }
        }
        let sideways = landing.pages.first().is_some_and(|p| p.head.is_sideways());
        Printing { cells: cells.into(), landing: Some(landing), mark, sideways, ..blank }
    }

    /// The back mark of the section on the bench, and its ends as shares of the spine from the head.
    fn mark_on(&self, section: &Section, landing: &Landing) -> Option<(BackMark, f64, f64)> {
        if self.placed().what == What::Foreign {
            return None;
        }
        let mark = BackMark::on_sheet(section, landing)?;
        let design = &self.job.design;
        let (begins, ends) = design.bar(self.section_on_bench(), self.job.sections).ends_mm();
        let share = |mm: f64| crate::units::between(mm / design.stairs.spine_mm, 0.0, 1.0);
        Some((mark, share(begins), share(ends)))
    }

    /// Where the bar of the section on the bench is to be printed on its flat sheet: one part, or one on each page beside
    /// the fold.
    #[must_use]
    pub fn mark_on_flat(&self) -> Vec<MarkOnSheet> {
        let here = self.section_on_bench();
        let mark = self.job.section(here).and_then(|(section, landing)| BackMark::on_sheet(&section, &landing));
        let size = self.job.design.bar(here, self.job.sections).size();
        mark.map_or_else(Vec::new, |mark| mark.on_flat_sheet(&self.sheet().measure, &size))
    }

    /// Whether a slit sheet lies on the bench, to be acted out with all its pieces.
    #[must_use]
    pub fn shows_all_pieces(&self) -> bool {
        !self.sheet().is_whole() && self.piece().is_none() && self.tried_scheme().is_none()
    }

    /// The sheet on the bench.
    #[must_use]
    pub fn bench(&self) -> Option<Bench> {
        if self.shows_all_pieces() {
            let printing = self.printing();
            let section = self.job.on_sheet(self.section_on_bench());
            return Bench::of_course(printing, &self.sheet().course, section).ok();
        }
        self.lone_bench()
    }

    /// The sheet on the bench where it is folded as one: a sheet that is not slit, or one piece of it. It is what the first
    /// screen shows; all that slit sheets need is fetched later.
    #[must_use]
    pub fn lone_bench(&self) -> Option<Bench> {
        Bench::new(self.printing(), &self.folded_scheme()).ok()
    }

    /// The section on the bench by itself and rightly folded: the whole sheet, or its outermost piece.
    #[must_use]
    pub fn right_bench(&self) -> Option<Bench> {
        let whole = self.whole_printing();
        let sheet = self.sheet();
        if sheet.is_whole() {
            return Bench::new(whole, &sheet.trunk()).ok();
        }
        let own = sheet.own_sheet(self.job.on_sheet(self.section_on_bench()))?;
        Bench::new(of_piece(&whole, &own, &sheet.measure), &own.scheme).ok()
    }
}

/// A piece as it was printed, seen as a sheet of its own.
///
/// Its landing numbers the piece alone, since the pages of a section that has an inset are not all on it; what is
/// printed keeps the numbers of the book.
fn of_piece(whole: &Printing, own: &OwnSheet, measure: &Measure) -> Printing {
    let (left, top) = (own.area.x0.unsigned_abs(), own.area.y0.unsigned_abs());
    let (rows, columns) = (own.scheme.rows, own.scheme.columns);
    let blank = Printing { shift: whole.shift, reads: whole.reads, ..Printing::blank(rows, columns) };
    let blank = blank.measured(&measure.part(&own.area));
    let on_whole = |f: &Face| Face { row: f.row + top, column: f.column + left, ..*f };
    let cells = blank.faces().map(|f| whole.figure(&on_whole(&f))).collect();
    let on_piece = |f: &Face| {
        let (row, column) = (f.row.checked_sub(top)?, f.column.checked_sub(left)?);
        (row < rows && column < columns).then_some(Face { row, column, ..*f })
    };
    let mark = whole.mark.as_ref().and_then(|(mark, from, to)| {
        let (first_page, last_page) = (on_piece(&mark.first_page)?, on_piece(&mark.last_page)?);
        Some((BackMark { first_page, last_page, ..*mark }, *from, *to))
    });
    let landing = Landing::of(&own.scheme).ok();
    Printing { cells, landing, mark, sideways: whole.sideways, ..blank }
}
