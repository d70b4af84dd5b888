//! `pieces`: where every page lands on a sheet that is folded and slit, and whose pieces are put together again.

pub(super) mod course;

use super::error::Refusal;
use crate::fold::{Course, Direction, Landing, PageAt, Piece, Reads, Section, Side, nested, pieces_of};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// The request.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Ask {
    rows: u32,
    columns: u32,
    steps: Vec<Value>,
    gather: Vec<Value>,
    #[serde(default)]
    reads: Reads,
}

/// The answer.
#[derive(Serialize)]
pub(super) struct Landed {
    pages: Vec<Page>,
    loose_leaves: Vec<u32>,
    not_gathered: Vec<usize>,
}

/// One page, its place and head as seen from its own side.
#[derive(Serialize)]
struct Page {
    page: u32,
    side: Side,
    row: u32,
    column: u32,
    head: Direction,
    piece: usize,
    leaf: u32,
    backed_by: u32,
    conjugate: Option<u32>,
    forme: &'static str,
}

pub(super) fn answer(ask: Ask) -> Result<Landed, Refusal> {
    let Ask { rows, columns, steps, gather, reads } = ask;
    let steps = course::steps(steps, "steps")?;
    let alone: Vec<bool> = gather.iter().map(|g| !g.is_object()).collect();
    let sections = course::gather(gather)?;
    let course = Course { rows, columns, steps, copies: vec![sections], reads };
    let pieces = pieces_of(&course).map_err(|why| {
        // An inset of one piece is a piece alone to the core; here it was written as an inset.
        let inset =
            (0..alone.len()).find(|i| !alone.get(*i).copied().unwrap_or(true) && why.at == format!("gather[{i}]"));
        let within = if inset.is_some() { ".inset[0]" } else { "" };
        Refusal::new(format!("{}{within}", why.at), why.to_string())
    })?;
    let sections = course.copies.into_iter().flatten();
    let mut landed = Landed { pages: Vec::new(), loose_leaves: Vec::new(), not_gathered: Vec::new() };
    let mut gathered = vec![false; pieces.len()];
    for nest in sections {
        let (Some(section), owners) = (nested(&pieces, &nest), owners(&pieces, &nest)) else { continue };
        landed.add(&section, &owners, columns);
        for piece in nest {
            if let Some(gathered) = gathered.get_mut(piece) {
                *gathered = true;
            }
        }
    }
    landed.not_gathered = gathered.iter().enumerate().filter(|(_, g)| !**g).map(|(piece, _)| piece).collect();
    Ok(landed)
}

/// The piece of each leaf of a nest, from front to back.
fn owners(pieces: &[Piece], nest: &[usize]) -> Vec<usize> {
    let mut owners: Vec<usize> = Vec::new();
    for &piece in nest.iter().rev() {
        let leaves = pieces.get(piece).map_or(0, |p| p.section.held.len());
        let half = leaves / 2;
        let inner = std::mem::take(&mut owners);
        owners.extend(std::iter::repeat_n(piece, half));
        // What has an odd number of leaves has nothing inside it.
        if inner.is_empty() {
            owners.extend(std::iter::repeat_n(piece, leaves - half));
        } else {
            owners.extend(inner);
            owners.extend(std::iter::repeat_n(piece, half));
        }
    }
    owners
}

impl Landed {
    /// Numbers a section on after those before it.
    fn add(&mut self, section: &Section, owners: &[usize], columns: u32) {
        let landing = Landing::of_section(section);
        let outer = landing.outer_forme();
        let before = self.pages.len() as u32;
        let page = |p: &PageAt| Page {
            page: p.page + before,
            side: p.face.side,
            row: p.face.row,
            column: p.face.column_seen(columns),
            head: p.head,
            piece: owners.get(p.leaf as usize - 1).copied().unwrap_or_default(),
            leaf: p.leaf + before / 2,
            backed_by: p.backed_by + before,
            conjugate: p.conjugate.map(|c| c + before),
            forme: if p.face.side == outer { "outer" } else { "inner" },
        };
        self.loose_leaves.extend(landing.loose_leaves.iter().map(|leaf| leaf + before / 2));
        self.pages.extend(landing.pages.iter().map(page));
    }
}
