//! `describe_book`: what a book is: extent and folios, the collational formula, block and case.

use super::error::Refusal;
use super::plan_book::{Paper, Sides};
use crate::book::{Back, Binding, Book, Bound, Folio, Formula, Signing, bound, extent_told, formula};
use crate::paper::{Length, Stock};
use serde::{Deserialize, Serialize};

/// The most pages, folios and signatures that are looked up at once; a bound of this program.
const MOST_LOOKED_UP: usize = 1_000;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    book: Book,
    #[serde(default)]
    signing: Signing,
    #[serde(default)]
    unsigned: u32,
    leaves_to_sheet: Option<u32>,
    binding: Option<Bind>,
    #[serde(default)]
    positions: Vec<u32>,
    #[serde(default)]
    folios: Vec<String>,
    #[serde(default)]
    signatures: Vec<String>,
}

/// What it is bound of; what is left out is as usual.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Bind {
    page: Sides,
    paper: Paper,
    endpaper: Option<Paper>,
    thread_mm: Option<f64>,
    #[serde(default)]
    nipped_percent: f64,
    #[serde(default)]
    back: Shape,
    board_mm: Option<f64>,
    square_mm: Option<f64>,
    joint_mm: Option<f64>,
    turn_in_mm: Option<f64>,
}

#[derive(Clone, Copy, Default, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Shape {
    #[default]
    Flat,
    Round,
}

impl From<Bind> for Binding {
    fn from(bind: Bind) -> Self {
        let stock = Stock::from(bind.paper);
        let usual = Self::usual(bind.page.into(), stock);
        let or = |mm: Option<f64>, usual: Length| mm.map_or(usual, Length::from_mm);
        Self {
            endpaper: bind.endpaper.map_or(usual.endpaper, Stock::from),
            thread: or(bind.thread_mm, usual.thread),
            nipped_percent: bind.nipped_percent,
            back: match bind.back {
                Shape::Flat => Back::Flat,
                Shape::Round => Back::Round,
            },
            board: or(bind.board_mm, usual.board),
            square: or(bind.square_mm, usual.square),
            joint: bind.joint_mm.map(Length::from_mm),
            turn_in: or(bind.turn_in_mm, usual.turn_in),
            ..usual
        }
    }
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Described {
    extent: Vec<String>,
    sections: Vec<SectionTold>,
    formula: Formula,
    bound: Option<Bound>,
    positions: Vec<Place>,
    folios: Vec<Folio>,
    signatures: Vec<SignatureTold>,
}

/// A section: its signature and its pages.
#[derive(Serialize)]
struct SectionTold {
    signature: Option<String>,
    first_page: u32,
    last_page: u32,
}

/// A page position looked up.
#[derive(Serialize)]
struct Place {
    folio: Option<String>,
    section: Option<u32>,
    page_of_section: Option<u32>,
    says: String,
}

/// A signature looked up; where it is none of the book, why.
#[derive(Serialize)]
struct SignatureTold {
    section: Option<u32>,
    leaf: Option<u32>,
    says: String,
}

pub(super) fn answer(ask: Ask) -> Result<Described, Refusal> {
    let Ask { book, signing, unsigned, leaves_to_sheet, binding, positions, folios, signatures } = ask;
    for (at, n) in [("positions", positions.len()), ("folios", folios.len()), ("signatures", signatures.len())] {
        if n > MOST_LOOKED_UP {
            return Err(Refusal::new(at, format!("At most {MOST_LOOKED_UP} are looked up at once.")));
        }
    }
    book.check().map_err(|why| Refusal::from(why).under("book"))?;
    let formula = formula(&book, &signing, unsigned, leaves_to_sheet)?;
    let bound =
        binding.map(|b| bound(&book, &b.into()).map_err(|why| Refusal::from(why).under("binding"))).transpose()?;
    let sections = book.sections.len() as u32;
    let section = |n: u32| SectionTold {
        signature: n.checked_sub(unsigned).filter(|n| *n > 0).map(|n| signing.signature(n)),
        first_page: book.first_of(n),
        last_page: book.last_of(n).unwrap_or_default(),
    };
    let place = |position: &u32| {
        let (section, page_of_section) = book.section_of(*position).unzip();
        Place { folio: book.folio(*position), section, page_of_section, says: book.say(*position) }
    };
    let signed = |text: &String| match signing.section_of_book(text, sections, unsigned) {
        Ok(found) => SignatureTold { section: Some(found.section), leaf: Some(found.leaf), says: found.says },
        Err(why) => SignatureTold { section: None, leaf: None, says: why.says },
    };
    Ok(Described {
        extent: extent_told(&book)?,
        sections: (1..=sections).map(section).collect(),
        formula,
        bound,
        positions: positions.iter().map(place).collect(),
        folios: folios.iter().map(|folio| book.find(folio)).collect(),
        signatures: signatures.iter().map(signed).collect(),
    })
}
