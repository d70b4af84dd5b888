//! Block and case: how thick the block is, how much its back swells, and what sizes boards, spine strip and cloth are cut to.

use super::extent::{Added, Book};
use super::told::{Finding, as_mm, count, fine, mm};
use crate::finish::{Severity, Size};
use crate::marks::Refusal;
use crate::paper::{Length, Stock};
use crate::units::short;
use serde::Serialize;

/// The shape of the back.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Back {
    /// Square, as it comes from the sewing.
    #[default]
    Flat,
    /// Rounded to a third of a circle, and backed so that its shoulders stand out by a board.
    Round,
}

/// What a book is bound of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Binding {
    /// The page after the cut.
    pub page: Size,
    /// The paper of sections, plates and wraps.
    pub stock: Stock,
    /// The paper of the endpapers.
    pub endpaper: Stock,
    /// Thickness of the sewing thread.
    pub thread: Length,
    /// What of the swell is pressed away by nipping, in %.
    pub nipped_percent: f64,
    /// The back.
    pub back: Back,
    /// Thickness of the boards.
    pub board: Length,
    /// How far the boards stand out beyond the block.
    pub square: Length,
    /// Between board and spine strip; none: as wide as the square, as hand binders have it.
    pub joint: Option<Length>,
    /// What of the cloth is turned in over the boards.
    pub turn_in: Length,
}

impl Binding {
    /// Thread of 0.3 mm, as sewing machines have it (hand binders take up to 0.5 mm), boards of 2.5 mm, squares of 3 mm, turn-ins
    /// of 15 mm, endpapers of 120 g/m² and bulk 1.2: common practice, no source.
    #[must_use]
    pub const fn usual(page: Size, stock: Stock) -> Self {
        Self {
            page,
            stock,
            endpaper: Stock { grammage: 120.0, bulk: 1.2, grain: stock.grain },
            thread: Length::from_um(300),
            nipped_percent: 0.0,
            back: Back::Flat,
            board: Length::from_um(2_500),
            square: Length::from_whole_mm(3),
            joint: None,
            turn_in: Length::from_whole_mm(15),
        }
    }
}

/// Block and case of a book, in mm.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Bound {
    /// One leaf.
    #[serde(rename = "leaf_mm", serialize_with = "as_mm")]
    pub leaf: Length,
    /// The leaves of all sections with plates and wraps, pressed.
    #[serde(rename = "bulk_mm", serialize_with = "as_mm")]
    pub bulk: Length,
    /// With the endpapers: the block at the fore-edge.
    #[serde(rename = "block_mm", serialize_with = "as_mm")]
    pub block: Length,
    /// What the thread adds at the back.
    #[serde(rename = "swell_mm", serialize_with = "as_mm")]
    pub swell: Length,
    /// The block at its back.
    #[serde(rename = "back_mm", serialize_with = "as_mm")]
    pub back: Length,
    /// How far a round back stands out.
    #[serde(rename = "rise_mm", serialize_with = "as_mm")]
    pub rise: Length,
    /// The boards.
    #[serde(rename = "board_mm", serialize_with = "sides")]
    pub board: Size,
    /// The spine strip.
    #[serde(rename = "strip_mm", serialize_with = "sides")]
    pub strip: Size,
    /// Between strip and board.
    #[serde(rename = "joint_mm", serialize_with = "as_mm")]
    pub joint: Length,
    /// The cloth.
    #[serde(rename = "cloth_mm", serialize_with = "sides")]
    pub cloth: Size,
    /// Each figure in a sentence, with its sum and its source.
    pub findings: Vec<Finding>,
}

fn sides<S: serde::Serializer>(size: &Size, to: S) -> Result<S::Ok, S::Error> {
    [size.width.mm(), size.height.mm()].serialize(to)
}

/// Swell at the back up to 30 % of the block is borne by hand binders (papercraftpanda.com, on sewing).
pub const MOST_SWELL_PERCENT: f64 = 30.0;
/// A third of a circle, the round of a back (from memory): its arc is 2π / (3 √3) of its chord.
const ARC: f64 = 1.209_199_576_156_145;
/// And it stands out by 1 / (2 √3) of it.
const RISE: f64 = 0.288_675_134_594_813;
/// Squares of 1/8 to 3/16 in (ligatus.org.uk/lob/1631; M. T. Roberts and D. Etherington, *Bookbinding and the Conservation of
/// Books* (1982), "squares").
const SQUARES: [Length; 2] = [Length::INCH.shared(8), Length::from_nm(25_400_000 * 3 / 16)];
/// Where the sizes of a case come from.
const CASE: &str = "Printing and Bookbinding for Schools (Vaughn); ligatus.org.uk/lob/1631; Indiana University Libraries, \
                    preservation pages on cases.";

impl Binding {
    fn check(&self) -> Result<(), Refusal> {
        let between = |at: &str, value: Length, least: i64, most: i64, what: &str| {
            if value < Length::from_whole_mm(least) || value > Length::from_whole_mm(most) {
                return Err(Refusal::new(at, format!("{what} {least} to {most} mm.")));
            }
            Ok(())
        };
        between("page", self.page.width, 10, 2_000, "A page is wide")?;
        between("page", self.page.height, 10, 2_000, "A page is high")?;
        self.stock.check().map_err(|says| Refusal::new("paper", says))?;
        self.endpaper.check().map_err(|says| Refusal::new("endpaper", says))?;
        between("thread_mm", self.thread, 0, 5, "A thread is thick")?;
        between("board_mm", self.board, 0, 20, "A board is thick")?;
        between("square_mm", self.square, 0, 50, "A square is wide")?;
        between("turn_in_mm", self.turn_in, 0, 100, "A turn-in is wide")?;
        if let Some(joint) = self.joint {
            between("joint_mm", joint, 0, 50, "A joint is wide")?;
            if joint >= self.page.width + self.square {
                return Err(Refusal::new("joint_mm", "No board is left beside so wide a joint."));
            }
        }
        if !(0.0..=100.0).contains(&self.nipped_percent) {
            return Err(Refusal::new("nipped_percent", "Nipping takes away 0 to 100 % of the swell."));
        }
        Ok(())
    }
}

/// Block and case of a book.
///
/// # Errors
/// If the book does not agree with itself, or a length is none.
pub fn bound(book: &Book, binding: &Binding) -> Result<Bound, Refusal> {
    book.check()?;
    binding.check()?;
    let b = binding;
    let text = book.pages() / 2;
    let (mut more, mut ends) = (0_u32, 0_u32);
    for added in &book.added {
        match added {
            Added::Plate { pages, .. } | Added::Wrap { pages, .. } => more = more.saturating_add(pages / 2),
            Added::Endpapers { pages } => ends = *pages,
        }
    }
    let leaf = b.stock.caliper();
    let bulk = leaf.times(i64::from(text.saturating_add(more)));
    let of_ends = b.endpaper.caliper().times(i64::from(ends));
    let block = bulk + of_ends;
    let sections = book.sections.len() as i64;
    let swell = Length::from_mm(b.thread.times(sections).mm() * (1.0 - b.nipped_percent / 100.0));
    let back = block + swell;
    let across = back + b.board.times(2);
    let (strip_width, rise) = match b.back {
        Back::Flat => (across, Length::ZERO),
        Back::Round => (Length::from_mm(across.mm() * ARC), Length::from_mm(across.mm() * RISE)),
    };
    let joint = b.joint.unwrap_or(b.square);
    let board = Size { width: b.page.width + b.square - joint, height: b.page.height + b.square.times(2) };
    let strip = Size { width: strip_width, height: board.height };
    let cloth = Size {
        width: board.width.times(2) + strip.width + joint.times(2) + b.turn_in.times(2),
        height: board.height + b.turn_in.times(2),
    };
    let mut bound = Bound { leaf, bulk, block, swell, back, rise, board, strip, joint, cloth, findings: Vec::new() };
    bound.findings.extend(block_told(b, &bound, [text, more, ends], sections as u32));
    bound.findings.extend(case_told(b, &bound, across));
    Ok(bound)
}

fn finding(severity: Severity, says: String, reckoned: String, source: &'static str) -> Finding {
    Finding { severity, says, reckoned, source }
}

/// Leaf, bulk, block, swell.
fn block_told(b: &Binding, bound: &Bound, [text, more, ends]: [u32; 3], sections: u32) -> Vec<Finding> {
    let thin = fine(bound.leaf);
    let (g, vol) = (short(b.stock.grammage), short(b.stock.bulk));
    let mut all = vec![finding(
        Severity::Fine,
        format!("The pages bulk {} mm.", mm(bound.bulk)),
        match more {
            0 => format!(
                "{} pages × {g} g/m² × {vol} cm³/g / 2,000 = {} mm; a leaf is {thin} mm",
                2 * text,
                mm(bound.bulk)
            ),
            more => {
                format!("{g} × {vol} / 1,000 = {thin} mm; ({text} + {more}) leaves × {thin} = {} mm", mm(bound.bulk))
            }
        },
        "ISO 534: bulk is thickness by grammage.",
    )];
    if ends > 0 {
        let one = fine(b.endpaper.caliper());
        all.push(finding(
            Severity::Fine,
            format!("With the endpapers the block is {} mm thick.", mm(bound.block)),
            format!("{} + 2 × {} × {one} = {} mm", mm(bound.bulk), count(ends / 2, "leaf", "leaves"), mm(bound.block)),
            "Arithmetic; the pastedowns are counted with it.",
        ));
    }
    let percent = 100.0 * bound.swell.mm() / bound.block.mm().max(0.001);
    let percent_said = short((percent * 10.0).round() / 10.0);
    let nipped =
        if b.nipped_percent > 0.0 { format!(" × (1 − {} / 100)", short(b.nipped_percent)) } else { String::new() };
    let (severity, judged) = match b.back {
        _ if percent > MOST_SWELL_PERCENT => (
            Severity::Mind,
            "more than the 30 % that are borne; a thinner thread, or two sections sewn on at a time, take it down",
        ),
        Back::Round if bound.swell == Length::ZERO => {
            (Severity::Mind, "and some swell is needed for a back to be rounded")
        }
        Back::Round => (Severity::Fine, "up to 30 % is borne, and some is needed for the round"),
        Back::Flat => (Severity::Fine, "up to 30 % is borne"),
    };
    all.push(finding(
        severity,
        format!("Thread swells the back by {} mm, {percent_said} % of the block: {judged}.", mm(bound.swell)),
        format!("{sections} sections × {} mm{nipped} = {} mm; {} + {} = {} mm at the back", fine(b.thread), mm(bound.swell), mm(bound.block), mm(bound.swell), mm(bound.back)),
        "One thread for each section: D. Cockerell, Bookbinding and the Care of Books (1901), p. 119; Roberts and Etherington \
         (1982), \"swell\"; soft paper takes part of it in. 30 %: papercraftpanda.com.",
    ));
    if b.back == Back::Round {
        all.push(finding(
            Severity::Fine,
            format!("Rounded to a third of a circle and backed, it stands out by {} mm, and its shoulders by the {} mm of a board.", mm(bound.rise), mm(b.board)),
            format!("({} + 2 × {}) × 0.289 = {} mm", mm(bound.back), mm(b.board), mm(bound.rise)),
            "A third of a circle: from memory; chord / (2 √3): geometry.",
        ));
    }
    all.push(finding(
        Severity::Fine,
        format!("The block is {} × {} mm after the cut.", mm(b.page.width), mm(b.page.height)),
        String::new(),
        "As given.",
    ));
    all
}

/// Squares, boards, strip, cloth.
fn case_told(b: &Binding, bound: &Bound, across: Length) -> Vec<Finding> {
    let (square, joint, turn) = (mm(b.square), mm(bound.joint), mm(b.turn_in));
    let [least, most] = SQUARES;
    let usual = (b.square >= Length::from_whole_mm(3) && b.square <= Length::from_whole_mm(5)) || b.square == b.board;
    let (board, strip, cloth) = (bound.board, bound.strip, bound.cloth);
    vec![
        finding(
            if usual { Severity::Fine } else { Severity::Mind },
            if usual {
                format!("The boards stand out by squares of {square} mm.")
            } else {
                format!("Squares of {square} mm are unusual: 3 to 5 mm, or the thickness of the board, is the rule.")
            },
            format!("1/8 to 3/16 in = {} to {} mm", mm(least), mm(most)),
            "ligatus.org.uk/lob/1631; Roberts and Etherington (1982), \"squares\".",
        ),
        finding(
            Severity::Fine,
            format!(
                "Two boards of {} × {} mm, {} mm thick, the grain along the height.",
                mm(board.width),
                mm(board.height),
                mm(b.board)
            ),
            format!(
                "{} + {square} − {joint} (joint) = {} mm; {} + 2 × {square} = {} mm",
                mm(b.page.width),
                mm(board.width),
                mm(b.page.height),
                mm(board.height)
            ),
            CASE,
        ),
        finding(
            Severity::Fine,
            format!("The joint is {joint} mm wide."),
            match b.joint {
                None => format!("joint = square = {square} mm"),
                Some(_) => String::new(),
            },
            "By hand the board, as wide as the block, is pushed forward by the square and leaves a joint as wide; machines for flat \
             backs have 7 to 8 mm. From memory.",
        ),
        finding(
            Severity::Fine,
            format!("The spine strip is {} × {} mm.", mm(strip.width), mm(strip.height)),
            match b.back {
                Back::Flat => format!("{} + 2 × {} = {} mm", mm(bound.back), mm(b.board), mm(strip.width)),
                Back::Round => format!(
                    "({} + 2 × {}) × 1.209 = {} × 1.209 = {} mm",
                    mm(bound.back),
                    mm(b.board),
                    mm(across),
                    mm(strip.width)
                ),
            },
            match b.back {
                Back::Flat => "The back and two boards: from memory.",
                Back::Round => {
                    "The arc from shoulder to shoulder: from memory; the arc of a third of a circle is 2π / (3 √3) of its chord."
                }
            },
        ),
        finding(
            Severity::Fine,
            format!("The cloth is cut to {} × {} mm.", mm(cloth.width), mm(cloth.height)),
            format!(
                "2 × {} + {} + 2 × {joint} + 2 × {turn} = {} mm; {} + 2 × {turn} = {} mm",
                mm(board.width),
                mm(strip.width),
                mm(cloth.width),
                mm(board.height),
                mm(cloth.height)
            ),
            CASE,
        ),
        finding(
            Severity::Fine,
            format!("{turn} mm of it are turned in on all sides."),
            String::new(),
            "Schools turn in 3/4 in (19 mm), Printing and Bookbinding for Schools (Vaughn); the trade 15 mm, from memory.",
        ),
    ]
}
