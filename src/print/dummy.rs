//! Folding dummies: a sheet with its figures, printed on both sides, to be cut out and folded by hand.

use super::document::{Align, Document, Drawn, Page, Stroke, Text};
use super::fold_lines::{FoldLine, fold_lines};
use super::printer::{Frame, MARGIN, Printer};
use super::words::lines_of;
use crate::fold::Landing;
use crate::fold::misfold::{Cause, FoundPage, PrintedPage, act_out};
use crate::fold::{Course, Direction, Face, Measure, Side, Worked};
use crate::marks::Refusal;
use crate::paper::Length;
use crate::scene::Line;
use crate::scene::{Figure, Group, Ink, Item, PAGE_HEIGHT, PAGE_WIDTH, Printing, flat_side, ring};
use kurbo::{Affine, BezPath, Point, Rect};

/// The most panels of a dummy. A bound on work: nobody folds more by hand.
pub const MAX_DUMMY_PANELS: u32 = 256;
/// The longest side of a sheet printed at its true size, mm.
pub const MAX_TRUE_MM: f64 = 2000.0;

/// A sheet to be folded by hand.
#[derive(Clone, Debug, PartialEq)]
pub struct Dummy {
    /// What is written at its head.
    pub name: String,
    /// How it is folded.
    pub course: Course,
    /// The number of its first page.
    pub first_page: u32,
    /// Whether its pages are wider than high, where it has no sizes.
    pub oblong: bool,
    /// The sizes of its panels; without them all are as an A5 page.
    pub measure: Option<Measure>,
    /// Printed at its true size over as many pages as that takes, or else as large as one page allows.
    pub true_size: bool,
    /// A fault, and how it is made.
    pub fault: Option<(Cause, Made)>,
}

/// How a dummy shows a fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Made {
    /// The sheet lies as it lay, and the folds are those that were really made: whoever follows them gets the fault.
    ByFolds,
    /// The folds are the right ones, and the figures are such that the section then reads as the wrong one did.
    ByFigures,
}

/// Size of the words, and from line to line, mm.
const WORDS: f64 = 3.0;
const LINE: f64 = 4.2;
/// From one page of a tiled sheet to the next, mm.
const OVERLAP: f64 = 10.0;

/// The pages of a dummy: the first side, then the second one behind it.
///
/// # Errors
/// When the course can't be carried out, is too large, or has no such fault.
pub fn dummy(dummy: &Dummy, printer: &Printer) -> Result<Document, Refusal> {
    printer.check()?;
    let sheet = Sheet::of(dummy)?;
    let pages = if dummy.true_size { sheet.tiled(printer) } else { sheet.fitted(printer) };
    Ok(Document { title: dummy.name.clone(), lang: "en".into(), pages })
}

/// What is printed on the sheet of a dummy: tests and screens show the same.
///
/// # Errors
/// As [`dummy`].
pub fn printing_of(dummy: &Dummy) -> Result<Printing, Refusal> {
    Ok(Sheet::of(dummy)?.printing)
}

/// A sheet ready to be laid on paper.
struct Sheet {
    name: String,
    printing: Printing,
    lines: Vec<FoldLine>,
    says: Vec<String>,
}

impl Sheet {
    fn of(dummy: &Dummy) -> Result<Self, Refusal> {
        let course = &dummy.course;
        if course.rows.saturating_mul(course.columns) > MAX_DUMMY_PANELS {
            let says = format!("a folding dummy has {MAX_DUMMY_PANELS} panels at the most");
            return Err(Refusal::new("", says));
        }
        if dummy.first_page == 0 || dummy.first_page > 99_999 {
            return Err(Refusal::new("first_page", "the first page is from 1 to 99999"));
        }
        let refused = |e: crate::fold::CourseError| Refusal::new(e.at.clone(), e.to_string());
        let right = Worked::of(course).map_err(refused)?;
        let mut printing = right_printing(&right, dummy.first_page);
        let mut worked = right;
        if let Some((cause, made)) = &dummy.fault {
            let Some(scheme) = course.scheme() else {
                return Err(Refusal::new("fault", "faults are known for sheets that are folded whole"));
            };
            let acted = act_out(&scheme, dummy.first_page, cause).map_err(|e| Refusal::new("fault", e.to_string()))?;
            match made {
                Made::ByFigures => {
                    let landing = worked.landing(0, 0);
                    printing = found_printing(&printing, landing.as_ref(), &acted.pages)?;
                }
                Made::ByFolds => {
                    if acted.under.is_some() {
                        return Err(Refusal::new("fault", "two sheets folded as one are made by folding two dummies"));
                    }
                    printing = lying_printing(&printing, &acted.sheet.side_a, &acted.sheet.side_b);
                    worked = Worked::of(&Course::of_scheme(&acted.folded)).map_err(refused)?;
                }
            }
        }
        let measure = match &dummy.measure {
            Some(measure) => {
                check_measure(course, measure)?;
                measure.clone()
            }
            None => equal(course, printing.sideways, dummy.oblong),
        };
        let (lines, says) = fold_lines(&worked.trunk);
        Ok(Self { name: dummy.name.clone(), printing: printing.measured(&measure), lines, says })
    }

    /// What is told below the sheet, in lines.
    fn told(&self, width: f64) -> Vec<String> {
        let mut all = lines_of(&self.says.join(" "), Default::default(), WORDS, width);
        if all.len() > MAX_TOLD {
            all.truncate(MAX_TOLD);
            if let Some(last) = all.last_mut() {
                last.push('…');
            }
        }
        let cut = "Cut out along the thin line: the sheet is then untrimmed. Long dashes fold towards you, short ones with \
                   dots away from you; a thick line is slit. Figures in rings say which fold. Lay corner: the black angle.";
        all.extend(lines_of(cut, Default::default(), WORDS, width));
        all.push("Hand exercise: no machine. Bone folder and blunt knife.".into());
        all
    }

    /// Drawn units to millimetres for a sheet as large as a page allows.
    fn fitted(&self, printer: &Printer) -> Vec<Page> {
        let (w, h) = self.printing.sheet();
        let room = |frame: Frame| {
            let (fw, fh) = frame.size();
            let below = self.told(fw - 2.0 * MARGIN).len() as f64 * LINE;
            let high = fh - 2.0 * MARGIN - HEAD - below - GAP;
            (((fw - 2.0 * MARGIN) / w).min(high / h).max(0.0), high)
        };
        let both = [false, true].map(|across| Frame::of(printer.paper, across));
        let frame = if room(both[1]).0 > room(both[0]).0 { both[1] } else { both[0] };
        let (scale, high) = room(frame);
        let (fw, _) = frame.size();
        let top = MARGIN + HEAD + (high - h * scale) / 2.0;
        let place = Affine::translate(((fw - w * scale) / 2.0, top)) * Affine::scale(scale);
        let side = |side: Side| {
            let mut drawn = self.side(side, place, scale);
            drawn.extend(self.caption(side, frame, ""));
            drawn
        };
        vec![frame.first_side(side(Side::A)), frame.second_side(printer, side(Side::B))]
    }

    /// Both sides at true size, each over several pages, in pairs that are printed on one piece of paper.
    fn tiled(&self, printer: &Printer) -> Vec<Page> {
        let scale = 1.0 / self.printing.scale();
        let (w, h) = self.printing.sheet();
        let (w, h) = (w * scale, h * scale);
        let tiles = |frame: Frame| {
            let (fw, fh) = frame.size();
            let free = (fw - 2.0 * MARGIN, fh - 2.0 * MARGIN - HEAD);
            let count = |long: f64, free: f64| ((long - OVERLAP) / (free - OVERLAP)).ceil().max(1.0);
            (count(w, free.0), count(h, free.1), free)
        };
        let both = [false, true].map(|across| Frame::of(printer.paper, across));
        let pages = |frame: Frame| tiles(frame).0 * tiles(frame).1;
        let frame = if pages(both[1]) < pages(both[0]) { both[1] } else { both[0] };
        let (columns, rows, free) = tiles(frame);
        let (fw, _) = frame.size();
        let (columns, rows) = (columns as u32, rows as u32);
        let mut out = Vec::new();
        for row in 0..rows {
            for column in 0..columns {
                let left = MARGIN - f64::from(column) * (free.0 - OVERLAP);
                let top = MARGIN + HEAD - f64::from(row) * (free.1 - OVERLAP);
                let window = Rect::new(MARGIN, MARGIN + HEAD, MARGIN + free.0, MARGIN + HEAD + free.1);
                let says = format!(
                    ", row {} of {rows}, column {} of {columns}. Hand exercise: no machine",
                    row + 1,
                    column + 1
                );
                let side = |side: Side| {
                    // Side B is the mirror image of where side A lies.
                    let left = if side == Side::A { left } else { fw - left - w };
                    let place = Affine::translate((left, top)) * Affine::scale(scale);
                    let inside = self.side(side, place, scale);
                    let mut drawn =
                        vec![Drawn::Placed { place: Affine::IDENTITY, window: Some(window), drawn: inside.into() }];
                    let (before, after) = (column > 0, column + 1 < columns);
                    let beside = if side == Side::A { (before, after) } else { (after, before) };
                    drawn.extend(overlaps(window, beside, (row > 0, row + 1 < rows)));
                    drawn.extend(self.heading(side, frame, &says));
                    drawn
                };
                out.push(frame.first_side(side(Side::A)));
                out.push(frame.second_side(printer, side(Side::B)));
            }
        }
        out
    }

    /// One side of the sheet: panels, outline, folds. `scale` leads from its units to millimetres.
    fn side(&self, side: Side, place: Affine, scale: f64) -> Vec<Drawn> {
        let flat = flat_side(&self.printing, side, false);
        // Its creases are drawn here in their own way.
        let panels: Vec<Item> = flat.items.into_iter().filter(|i| matches!(i, Item::Group(Group { .. }))).collect();
        let mut drawn = vec![Drawn::Scene { place, items: panels.into(), pixel_mm: 0.2 / scale }];
        let (w, h) = self.printing.sheet();
        let corner = |x: f64, y: f64| place * Point::new(x, y);
        let around = [corner(0.0, 0.0), corner(w, 0.0), corner(w, h), corner(0.0, h), corner(0.0, 0.0)];
        drawn.extend(around.windows(2).filter_map(|p| Some(Stroke::solid(*p.first()?, *p.get(1)?, 0.15).into())));
        let at = |(x, y): (i32, i32)| {
            let x = self.printing.line_x(x.unsigned_abs());
            let x = if side == Side::B { w - x } else { x };
            corner(x, self.printing.line_y(y.unsigned_abs()))
        };
        let mut rings = Vec::new();
        for line in &self.lines {
            let (from, to) = (at(line.from), at(line.to));
            let Some(fold) = line.fold else {
                drawn.push(Stroke::solid(from, to, 0.7).into());
                rings.push((from.midpoint(to), "slit".to_owned()));
                continue;
            };
            let valley = line.valley_on_a == (side == Side::A);
            let dash = if valley { [4.0, 1.6, 4.0, 1.6] } else { [2.2, 1.0, 0.4, 1.0] };
            drawn.push(Stroke::solid(from, to, 0.25).dashed(dash).into());
            // In the middle of its first panel, since other folds cross it between panels.
            let along = (line.to.0 - line.from.0) + (line.to.1 - line.from.1);
            let middle = from.lerp(to, 0.5 / f64::from(along.max(1)));
            rings.push((middle, fold.to_string()));
        }
        let room = self.smallest() * scale;
        let size = crate::units::between(room * 0.1, 1.2, 3.0);
        for (middle, says) in rings {
            let radius = size * if says.len() > 2 { 1.2 } else { 0.8 };
            let disc: BezPath = ring(middle, radius);
            let line = Some(Line::solid(Ink::Black, 1.0));
            let items = [Item::Path { path: disc, fill: Some(Ink::Ground), line }];
            drawn.push(Drawn::Scene { place: Affine::IDENTITY, items: items.into(), pixel_mm: 0.12 });
            let base = Point::new(middle.x, middle.y + 0.36 * size);
            drawn.push(Text::plain(says, base, size).aligned(Align::Middle).into());
        }
        drawn
    }

    /// The shorter side of the smallest panel.
    fn smallest(&self) -> f64 {
        let columns = (0..self.printing.columns).map(|c| self.printing.line_x(c + 1) - self.printing.line_x(c));
        let rows = (0..self.printing.rows).map(|r| self.printing.line_y(r + 1) - self.printing.line_y(r));
        columns.chain(rows).fold(f64::INFINITY, f64::min)
    }

    fn heading(&self, side: Side, frame: Frame, more: &str) -> Vec<Drawn> {
        let (fw, _) = frame.size();
        let (this, turn) = match side {
            Side::A => ("Side A up", ""),
            Side::B => ("Side B", ", as seen after turning left to right"),
        };
        let says = format!("{this}{turn}{more}");
        let base = MARGIN + 4.0;
        let room = fw - 2.0 * MARGIN - super::words::width_of(&says, Default::default(), WORDS) - 4.0;
        let name = lines_of(&self.name, super::Weight::Bold, 4.2, room).into_iter().next().unwrap_or_default();
        vec![
            Text::plain(name, (MARGIN, base), 4.2).bold().into(),
            Text::plain(says, (fw - MARGIN, base), WORDS).aligned(Align::Right).into(),
        ]
    }

    fn caption(&self, side: Side, frame: Frame, more: &str) -> Vec<Drawn> {
        let (fw, fh) = frame.size();
        let mut drawn = self.heading(side, frame, more);
        let told = self.told(fw - 2.0 * MARGIN);
        let first = fh - MARGIN - (told.len() as f64 - 1.0) * LINE;
        for (i, says) in told.into_iter().enumerate() {
            drawn.push(Text::plain(says, (MARGIN, first + i as f64 * LINE), WORDS).into());
        }
        drawn
    }
}

/// Room for the line at the head, and between the sheet and what is told below it, mm.
const HEAD: f64 = 7.0;
const GAP: f64 = 3.0;
/// Lines that the folds are told in, at the most.
const MAX_TOLD: usize = 7;

/// Lines where the next page is laid over, and which ones.
fn overlaps(window: Rect, (left, right): (bool, bool), (above, below): (bool, bool)) -> Vec<Drawn> {
    let dash = [1.0, 2.0, 1.0, 2.0];
    let upright = |x: f64| Stroke::solid((x, window.y0), (x, window.y1), 0.15).dashed(dash).in_ink(Ink::Quiet).into();
    let level = |y: f64| Stroke::solid((window.x0, y), (window.x1, y), 0.15).dashed(dash).in_ink(Ink::Quiet).into();
    let mut drawn = Vec::new();
    drawn.extend(left.then(|| upright(window.x0 + OVERLAP)));
    drawn.extend(right.then(|| upright(window.x1 - OVERLAP)));
    drawn.extend(above.then(|| level(window.y0 + OVERLAP)));
    drawn.extend(below.then(|| level(window.y1 - OVERLAP)));
    drawn
}

/// Every section of every copy with its figures; sections of one copy follow each other.
fn right_printing(worked: &Worked, first_page: u32) -> Printing {
    let course = &worked.course;
    let mut all = Printing { reads: course.reads, ..Printing::blank(course.rows, course.columns) };
    let mut first = true;
    for (copy, nests) in course.copies.iter().enumerate() {
        let mut shift = first_page.saturating_sub(1);
        for section in 0..nests.len() {
            let Some(landing) = worked.landing(copy, section) else { continue };
            for at in &landing.pages {
                all = all.printed(&at.face, Some(Figure { page: at.page + shift, head: Some(at.head) }));
            }
            if first {
                all.sideways = landing.pages.first().is_some_and(|p| p.head.is_sideways());
                first = false;
            }
            shift = shift.saturating_add(landing.pages.len() as u32);
        }
    }
    all
}

/// The same sheet with figures such that the right folds give these pages.
fn found_printing(right: &Printing, landing: Option<&Landing>, pages: &[FoundPage]) -> Result<Printing, Refusal> {
    let landing = landing.filter(|l| l.pages.len() == pages.len());
    let Some(landing) = landing else {
        return Err(Refusal::new("fault", "this fault gives another number of pages than the sheet has"));
    };
    let mut all =
        Printing { reads: right.reads, sideways: right.sideways, ..Printing::blank(right.rows, right.columns) };
    for (at, found) in landing.pages.iter().zip(pages) {
        let turned = match found.head {
            None | Some(Direction::Up) => at.head,
            Some(Direction::Down) => at.head.opposite(),
            // Seen from behind, a quarter turn goes the other way; such heads do not come of folding.
            Some(_) => at.head.clockwise(),
        };
        all = all.printed(&at.face, found.page.map(|page| Figure { page, head: Some(turned) }));
    }
    Ok(all)
}

/// The sheet as it lay when the fault was made.
fn lying_printing(right: &Printing, a: &[Vec<Option<PrintedPage>>], b: &[Vec<Option<PrintedPage>>]) -> Printing {
    let blank = Printing::blank(right.rows, right.columns);
    let mut all = Printing { reads: right.reads, sideways: right.sideways, ..blank };
    for (side, grid) in [(Side::A, a), (Side::B, b)] {
        for (row, cells) in (0_u32..).zip(grid) {
            for (seen, cell) in (0_u32..).zip(cells) {
                let column = if side == Side::A { seen } else { right.columns.saturating_sub(seen + 1) };
                let figure = cell.map(|p| Figure { page: p.page, head: Some(p.head) });
                all = all.printed(&Face { side, row, column }, figure);
            }
        }
    }
    all
}

/// Panels all of one size, that of an A5 page.
fn equal(course: &Course, sideways: bool, oblong: bool) -> Measure {
    let (w, h) = if sideways == oblong { (PAGE_WIDTH, PAGE_HEIGHT) } else { (PAGE_HEIGHT, PAGE_WIDTH) };
    let all = |n: u32, mm: f64| vec![Length::from_mm(mm); n as usize];
    Measure { columns: all(course.columns, w), rows: all(course.rows, h) }
}

fn check_measure(course: &Course, measure: &Measure) -> Result<(), Refusal> {
    let fits = (measure.rows.len(), measure.columns.len()) == (course.rows as usize, course.columns as usize);
    if !fits {
        return Err(Refusal::new("measure", "there is a width for every column and a height for every row"));
    }
    let small = |l: &Length| l.mm() < 10.0;
    if measure.rows.iter().chain(&measure.columns).any(small) {
        return Err(Refusal::new("measure", "a panel is 10 mm wide and high at the least"));
    }
    if measure.width().mm() > MAX_TRUE_MM || measure.height().mm() > MAX_TRUE_MM {
        return Err(Refusal::new("measure", "the sheet is 2000 mm long and wide at the most"));
    }
    Ok(())
}
