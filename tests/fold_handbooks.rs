//! The fold engine against layouts printed in public-domain handbooks (`tests/data/handbooks.json`, and the README
//! beside it for origin, notation and what was left out).
//!
//! A layout gives two formes as on the stone and the folds that an independent search found. The formes are turned
//! into printed sides, the folds into a scheme, and page numbers and heads on both sides must be those of the handbook.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::{Direction, Fold, Landing, Lands, Part, Reads, Scheme, Side};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Handbooks {
    layouts: Vec<Layout>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Layout {
    id: String,
    handbook: String,
    edition: String,
    page: String,
    #[allow(dead_code)]
    ebook: String,
    title: String,
    #[allow(dead_code)]
    drawn: String,
    heads_shown: bool,
    right_to_left: bool,
    turned: String,
    outer: Vec<String>,
    inner: Vec<String>,
    derived: Derived,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Derived {
    folds: Vec<String>,
    page_1: String,
}

/// A page and whether its head points down.
type Cell = (u32, bool);

fn layouts() -> Vec<Layout> {
    let handbooks: Handbooks = serde_json::from_str(include_str!("data/handbooks.json")).unwrap();
    handbooks.layouts
}

fn forme(rows: &[String]) -> Vec<Vec<Cell>> {
    let cell = |word: &str| match word.strip_suffix('v') {
        Some(page) => (page.parse().unwrap(), true),
        None => (word.parse().unwrap(), false),
    };
    rows.iter().map(|row| row.split(' ').map(cell).collect()).collect()
}

/// What a forme prints: left and right exchanged. Heads up or down stay so.
fn printed(forme: &[Vec<Cell>]) -> Vec<Vec<Cell>> {
    forme.iter().map(|row| row.iter().rev().copied().collect()).collect()
}

fn turned_half_round(side: &[Vec<Cell>]) -> Vec<Vec<Cell>> {
    side.iter().rev().map(|row| row.iter().rev().map(|(page, down)| (*page, !down)).collect()).collect()
}

/// "vertical after 2 of 4, mountain"; also the number of panels across the crease.
fn fold(words: &str) -> (Fold, u32) {
    let words: Vec<&str> = words.split([' ', ',']).filter(|w| !w.is_empty()).collect();
    let [crease, "after", after, "of", of, kind] = words.as_slice() else { panic!("{words:?}") };
    let moves = match *crease {
        "vertical" => Part::Right,
        "horizontal" => Part::Bottom,
        other => panic!("{other}"),
    };
    let lands = match *kind {
        "valley" => Lands::Over,
        "mountain" => Lands::Under,
        other => panic!("{other}"),
    };
    (Fold::new(after.parse().unwrap(), moves, lands), of.parse().unwrap())
}

/// The scheme of a layout: its outer forme is side A, and the packet lies so that its spine is at the right.
fn scheme(layout: &Layout) -> Scheme {
    let rows = layout.outer.len() as u32;
    let columns = layout.outer[0].split(' ').count() as u32;
    let mut size = [rows, columns];
    let mut folds = Vec::new();
    for words in &layout.derived.folds {
        let (fold, of) = fold(words);
        let across = &mut size[usize::from(fold.moves == Part::Right)];
        assert_eq!(*across, of, "{}: {words}", layout.id);
        *across = fold.after.max(of - fold.after);
        folds.push(fold);
    }
    assert_eq!(folds.last().map(|f| f.moves), Some(Part::Right), "{}: the packet lies left of its spine", layout.id);
    // Seen with the front up, a book read from left to right has its spine at the left. Here the spine is at the right
    // as the packet lies, so with page 1 on top the heads point to the bottom edge.
    let page_1_on_top = match layout.derived.page_1.as_str() {
        "on top" => true,
        "underneath" => false,
        other => panic!("{other}"),
    };
    let head = if page_1_on_top != layout.right_to_left { Direction::Down } else { Direction::Up };
    let reads = if layout.right_to_left { Reads::RightToLeft } else { Reads::LeftToRight };
    Scheme { rows, columns, folds, head, reads }
}

/// One side as the engine numbers it; heads must be up or down.
fn side(landing: &Landing, side: Side) -> Vec<Vec<Cell>> {
    let cell = |p: &&backmark::fold::PageAt| {
        assert!(!p.head.is_sideways());
        (p.page, p.head == Direction::Down)
    };
    landing.grid(side).iter().map(|row| row.iter().map(cell).collect()).collect()
}

fn check(layout: &Layout) {
    let says = format!("{}: {} ({}, {}, p. {})", layout.id, layout.title, layout.handbook, layout.edition, layout.page);
    let landing = Landing::of(&scheme(layout)).unwrap_or_else(|why| panic!("{says}: {why}"));
    let outer = printed(&forme(&layout.outer));
    let inner = match layout.turned.as_str() {
        "left to right" => printed(&forme(&layout.inner)),
        "head over foot" => turned_half_round(&printed(&forme(&layout.inner))),
        other => panic!("{other}"),
    };
    let mut pages: Vec<u32> = [&outer, &inner].into_iter().flatten().flatten().map(|(page, _)| *page).collect();
    pages.sort_unstable();
    let rank = |page: u32| pages.binary_search(&page).unwrap() as u32 + 1;
    for (which, expected) in [(Side::A, outer), (Side::B, inner)] {
        let expected: Vec<Vec<Cell>> = expected
            .iter()
            .map(|row| row.iter().map(|(page, down)| (rank(*page), *down && layout.heads_shown)).collect())
            .collect();
        let mut found = side(&landing, which);
        if !layout.heads_shown {
            found.iter_mut().flatten().for_each(|(_, down)| *down = false);
        }
        assert_eq!(found, expected, "{says}, side {which:?}");
    }
    assert_eq!(landing.outer_forme(), Side::A, "{says}: page 1 is on the outer forme");
    assert!(landing.loose_leaves.is_empty(), "{says}: every leaf is held");
}

#[test]
fn every_layout_that_folds_without_a_cut_comes_out_as_the_handbook_prints_it() {
    let layouts = layouts();
    assert_eq!(layouts.len(), 22);
    layouts.iter().for_each(check);
}

#[test]
fn ids_are_different() {
    let mut ids: Vec<String> = layouts().into_iter().map(|l| l.id).collect();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), layouts().len());
}

/// The reader of the layouts is no yes-man: a page or a head changed in the data is seen.
#[test]
fn a_changed_page_or_head_is_seen() {
    for (from, to) in
        [("16 13", "13 16"), ("9v", "9"), ("vertical after 1 of 2, mountain", "vertical after 1 of 2, valley")]
    {
        let mut layout = layouts().into_iter().find(|l| l.id == "mk-octavo").unwrap();
        let change = |words: &mut String| *words = words.replace(from, to);
        layout.outer.iter_mut().for_each(change);
        layout.derived.folds.iter_mut().for_each(change);
        assert!(std::panic::catch_unwind(move || check(&layout)).is_err(), "{from} to {to}");
    }
}
