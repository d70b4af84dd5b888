//! The picture of a trade word: what a [`Picture`] names, drawn by the engine.

use crate::finish::Leaves;
use crate::fold::{Course, Face, Measure, Side, Worked, courses};
use crate::gather::stack::seen_backs;
use crate::glossary::Picture;
use crate::marks::BackMarks;
use crate::paper::{Length, Press, Trims};
use crate::scene::{
    Bench, CutLeaf, Ground, Group, Ink, Item, Line, Printing, Scene, Shown, Space, StackLay, View, flat_side, inside,
    nest_cut, section_cut, setup_sheet,
};
use crate::setup::{Inputs, set_up};
use kurbo::{Affine, Point, Rect, Shape};

/// A drawing; some pictures are two, side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct WordDrawing {
    /// What stands under it; nothing under a drawing that is alone.
    pub name: &'static str,
    /// The drawing.
    pub scene: Scene,
    /// The face of the page that is followed, and that of its conjugate.
    pub followed: Vec<Face>,
    /// Whether it lies on paper, as a document does.
    pub on_paper: bool,
    /// Whether its figures stand beside the paper, on the bench.
    pub numbered: bool,
}

/// Thickness of a leaf as drawn, mm, as on the bench.
const LEAF: f64 = 3.2;
/// Width and height of what is cut through, px.
const CUT: (f64, f64) = (420.0, 260.0);
/// Height of a row of a spine, and room above and below all rows, px.
const ROW: f64 = 19.0;
const ROUND_ROWS: f64 = 62.0;
/// A page before trimming, mm: that of a book of 138 by 216 mm with 3 mm for the knife (common practice, no source).
const PAGE_MM: (i64, i64) = (141, 222);
/// Thickness of a leaf of a usual book paper (common practice, no source).
const CALIPER_UM: i64 = 117;

/// Draws a picture; nothing where it can't be, which a test excludes for all that entries name.
#[must_use]
pub fn word_drawings(picture: &Picture) -> Vec<WordDrawing> {
    match picture.course() {
        Some(name) => courses().into_iter().find(|c| c.name == name).and_then(|c| of_course(picture, &c.course)),
        None => spine(picture).map(|scene| vec![WordDrawing { numbered: true, ..alone(scene) }]),
    }
    .unwrap_or_default()
}

fn of_course(picture: &Picture, course: &Course) -> Option<Vec<WordDrawing>> {
    let worked = Worked::of(course).ok()?;
    let landing = worked.landing(0, 0)?;
    let printing = Printing::landed(landing, 0);
    let bench = || Bench::of_course(printing.clone(), course, 0).ok();
    let mm = Length::from_whole_mm;
    let (rows, columns) = (course.rows, course.columns);
    let measure = Measure::equal(rows, columns, mm(PAGE_MM.0 * i64::from(columns)), mm(PAGE_MM.1 * i64::from(rows)));
    let nest = course.copies.first()?.first()?;
    Some(match picture {
        Picture::Bench { at, .. } => vec![alone(on_bench(&bench()?, *at)?)],
        Picture::Sides { follow, .. } => {
            let followed = follow.map_or_else(Vec::new, |page| faces(&printing, page));
            let side = |(side, name)| WordDrawing {
                name,
                followed: followed.clone(),
                ..alone(flat_side(&printing, side, false))
            };
            [(Side::A, "Side A"), (Side::B, "Side B")].map(side).into()
        }
        Picture::Cut { folds, crease, at, .. } => {
            vec![alone(inside(&bench()?, *folds as usize, false, *crease, *at, CUT))]
        }
        Picture::Trimmed { .. } => {
            let leaves = Leaves::of(&worked, nest, &measure)?;
            let caliper = Length::from_um(CALIPER_UM);
            vec![alone(section_cut(&leaves, &Trims::default(), caliper, None, (course.reads, 0), CUT).scene)]
        }
        Picture::Setup { .. } => {
            let inputs = Inputs { course, measure: &measure, press: Press::default(), side_up: Side::A, sheets: None };
            vec![WordDrawing { on_paper: true, ..alone(setup_sheet(&set_up(&inputs).ok()?)) }]
        }
        Picture::Nest { .. } => {
            let leaves = Leaves::of(&worked, nest, &measure)?;
            vec![alone(nest_cut(&cut_leaves(&leaves, nest), &[], course.reads))]
        }
        Picture::Misfolded { fold, .. } => {
            let right = course.scheme()?;
            // In the middle of the fold it is seen where the part that moves goes.
            let at = f64::from(*fold) - 0.5;
            let one = |scheme, name| {
                let bench = Bench::new(printing.clone(), scheme).ok()?;
                Some(WordDrawing { name, ..alone(on_bench(&bench, at)?) })
            };
            vec![one(&right, "As it should be")?, one(&right.fold_other_way(*fold), "The other way")?]
        }
        Picture::Spine { .. } => return None,
    })
}

const fn alone(scene: Scene) -> WordDrawing {
    WordDrawing { name: "", scene, followed: Vec::new(), on_paper: false, numbered: false }
}

/// The face of a page and that of its conjugate: their pages add up to one more than the section has.
fn faces(printing: &Printing, page: u32) -> Vec<Face> {
    let Some(landing) = &printing.landing else { return Vec::new() };
    let other = (landing.pages.len() as u32 + 1).saturating_sub(page);
    let face = |page: u32| landing.pages.iter().find(|at| at.page == page).map(|at| at.face);
    [face(page), face(other)].into_iter().flatten().collect()
}

/// The bench at a moment, cut to what lies there.
fn on_bench(bench: &Bench, at: f64) -> Option<Scene> {
    let items = bench.scene(at, &View::OPENING, &Shown { leaf: LEAF, crease: None }).scene.items;
    let mut all = None;
    bounds(&items, Affine::IDENTITY, &mut all);
    let all: Rect = all?;
    let all = all.inset(2.0);
    let place = Affine::translate(-all.origin().to_vec2());
    let moved = Group { place, ground: None, tag: None, size: (0.0, 0.0), items: items.into() };
    Some(Scene { size: (all.width(), all.height()), items: vec![Item::Group(moved)] })
}

/// Takes in all outlines and pages.
fn bounds(items: &[Item], place: Affine, all: &mut Option<Rect>) {
    for item in items {
        let seen = match item {
            Item::Path { path, .. } => (place * path.clone()).bounding_box(),
            Item::Group(group) if group.ground.is_some() => {
                let (w, h) = group.size;
                (place * group.place).transform_rect_bbox(Rect::new(0.0, 0.0, w, h))
            }
            Item::Group(group) => {
                bounds(&group.items, place * group.place, all);
                continue;
            }
            Item::Figure { .. } | Item::Words { .. } => continue,
        };
        *all = Some(all.map_or(seen, |all| all.union(seen)));
    }
}

/// The leaves of pieces in one another, the outermost piece first.
fn cut_leaves(leaves: &Leaves, nest: &[usize]) -> Vec<CutLeaf> {
    let piece = |of: usize| nest.iter().position(|p| *p == of).map_or(1, |at| at as u32 + 1);
    let leaf = |leaf: &crate::finish::Leaf| CutLeaf {
        piece: piece(leaf.piece),
        paper: leaf.across_spine.map_or(leaf.number, |other| other.min(leaf.number)),
        at_fore_edge: false,
        pages: [(Some(2 * leaf.number - 1), false), (Some(2 * leaf.number), false)],
        differs: false,
    };
    leaves.leaves.iter().map(leaf).collect()
}

/// The gathered book with its spine facing, and the number of each place.
fn spine(picture: &Picture) -> Option<Scene> {
    let Picture::Spine { sections, .. } = picture else { return None };
    let stack = picture.stack()?;
    let marks = BackMarks::default();
    let backs = seen_backs(&stack, &marks, *sections, &|_| true);
    let count = backs.len() as u32;
    let height = f64::from(count) * ROW + ROUND_ROWS;
    let space = Space { width: CUT.0, height: Some(height), scale: 1.0 };
    let lay = StackLay::new(space, count, marks.stairs.spine_mm);
    let (f, d) = (lay.face, lay.depth);
    let ink = |tone| Ink::Paper(Ground { side: Side::A, tone });
    let line = || Some(Line::solid(Ink::Crease, 1.0));
    let top = [(f.x0, f.y0), (f.x0 + d.x, f.y0 + d.y), (f.x1 + d.x, f.y0 + d.y), (f.x1, f.y0)].map(Point::from);
    let side = [(f.x1, f.y0), (f.x1 + d.x, f.y0 + d.y), (f.x1 + d.x, f.y1 + d.y), (f.x1, f.y1)].map(Point::from);
    let mut items = vec![Item::polygon(&top, Some(ink(1)), line()), Item::polygon(&side, Some(ink(3)), line())];
    for (place, back) in (1..).zip(&backs) {
        let row = lay.row(place);
        items.push(Item::filled(row, ink(if place % 2 == 1 { 0 } else { 1 })));
        items.push(Item::stroke((row.x0, row.y1), (row.x1, row.y1), Line::solid(Ink::Edge, 1.0)));
        items.extend(lay.bars(place, &marks, back).into_iter().map(|bar| Item::filled(bar, Ink::Black)));
        let baseline = Point::new(row.x0 - 14.0, row.center().y + 5.0);
        items.push(Item::Figure { text: place.to_string(), baseline, size: 14.0, halo: 0.0 });
    }
    Some(Scene { size: (lay.size.0, f.y1 + 4.0), items })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::glossary::{Spoilt, entries};

    #[test]
    fn every_entry_that_names_a_picture_has_one() {
        for entry in entries() {
            let Some(picture) = &entry.picture else { continue };
            let drawn = word_drawings(picture);
            let two = matches!(picture, Picture::Sides { .. } | Picture::Misfolded { .. });
            assert_eq!(drawn.len(), if two { 2 } else { 1 }, "{}", entry.term);
            for one in &drawn {
                let (w, h) = one.scene.size;
                assert!(w > 10.0 && h > 10.0 && w < 3000.0 && h < 3000.0, "{}: {w} by {h}", entry.term);
                assert!(!one.scene.items.is_empty() && one.name.is_empty() != two, "{}", entry.term);
            }
        }
    }

    #[test]
    fn a_page_is_followed_with_its_conjugate_on_one_leaf_across_the_back() {
        let drawn = word_drawings(&Picture::Sides { course: "Sixteen, three folds", follow: Some(1) });
        let [one, other] = drawn[0].followed[..] else { panic!("{:?}", drawn[0].followed) };
        // 1 and 16 stand beside each other on the outer forme.
        assert_eq!((one.side, one.row), (other.side, other.row));
        assert_eq!(one.column.abs_diff(other.column), 1);
        assert!(word_drawings(&Picture::Setup { course: "No such sheet" }).is_empty());
    }

    #[test]
    fn what_is_spoilt_is_seen_on_the_spine() {
        let bars = |fault| {
            let drawn = word_drawings(&Picture::Spine { sections: 12, fault });
            let black = |item: &&Item| matches!(item, Item::Path { fill: Some(Ink::Black), .. });
            drawn[0].scene.items.iter().filter(black).count()
        };
        assert_eq!([bars(None), bars(Some(Spoilt::Missing(5))), bars(Some(Spoilt::Double(5)))], [12, 11, 13]);
        assert_eq!(bars(Some(Spoilt::Lies(5, crate::gather::Lies::TurnedInPlane))), 11);
    }
}
