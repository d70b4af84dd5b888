//! The folds that crease a piece, on its way from the whole sheet.

use crate::fold::{Branch, BranchEnd, Crease, Layer, Packet, Worked};
use std::collections::{BTreeMap, BTreeSet};

/// A fold that creases a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MadeFold {
    /// Its number among all folds that are made on the way from the whole sheet to this piece, from 1.
    pub number: u32,
    /// Which way the crease runs on the bench, and on the flat sheet.
    pub crease: Crease,
    /// Layers that it creases at one place, with those of other pieces that are not slit off yet.
    pub layers: u32,
}

/// The folds that crease a piece, in order. Folds that only turn it over are left out.
#[must_use]
pub fn folds_of(worked: &Worked, piece: usize) -> Vec<MadeFold> {
    let Some(found) = worked.pieces.get(piece) else { return Vec::new() };
    let own: BTreeSet<(i32, i32)> = found.packet.layers.iter().flat_map(|l| l.area.cells()).collect();
    let mut way = Vec::new();
    way_to(&worked.trunk, piece, &mut way);
    let mut folds = Vec::new();
    let mut number = 0;
    for branch in way {
        for (i, step) in branch.folding.steps.iter().enumerate() {
            number += 1;
            let (crease, at, before) = (step.turn.fold.crease, step.turn.at, branch.folding.packet(i));
            if before.layers.iter().any(|l| creases(l, crease, at, &own)) {
                folds.push(MadeFold { number, crease, layers: layers_at(before, crease, at) });
            }
        }
    }
    folds
}

/// The branches from the trunk to a piece.
fn way_to<'a>(branch: &'a Branch, piece: usize, way: &mut Vec<&'a Branch>) -> bool {
    way.push(branch);
    let found = match &branch.end {
        BranchEnd::Piece(n) => *n == piece,
        BranchEnd::Apart { parts, .. } => parts.iter().any(|part| way_to(part, piece, way)),
        BranchEnd::Laid { then, .. } => way_to(then, piece, way),
    };
    if !found {
        way.pop();
    }
    found
}

fn spans(layer: &Layer, crease: Crease, at: i32) -> bool {
    let r = layer.footprint();
    match crease {
        Crease::Vertical => r.x0 < at && at < r.x1,
        Crease::Horizontal => r.y0 < at && at < r.y1,
    }
}

/// Whether a crease runs between two panels of the piece.
fn creases(layer: &Layer, crease: Crease, at: i32, own: &BTreeSet<(i32, i32)>) -> bool {
    let (x, y) = layer.placement.sheet_from_packet(at, at);
    let both = |a, b| own.contains(&a) && own.contains(&b);
    let area = layer.area;
    spans(layer, crease, at)
        && match crease {
            Crease::Vertical => (area.y0..area.y1).any(|y| both((x - 1, y), (x, y))),
            Crease::Horizontal => (area.x0..area.x1).any(|x| both((x, y - 1), (x, y))),
        }
}

/// The most layers that a crease goes through at one place.
fn layers_at(packet: &Packet, crease: Crease, at: i32) -> u32 {
    let mut change: BTreeMap<i32, i64> = BTreeMap::new();
    for layer in packet.layers.iter().filter(|l| spans(l, crease, at)) {
        let r = layer.footprint();
        let (from, to) = match crease {
            Crease::Vertical => (r.y0, r.y1),
            Crease::Horizontal => (r.x0, r.x1),
        };
        *change.entry(from).or_default() += 1;
        *change.entry(to).or_default() -= 1;
    }
    let mut there = 0;
    let sums = change.values().map(|by| {
        there += by;
        there
    });
    sums.max().and_then(|most| u32::try_from(most).ok()).unwrap_or(0)
}
