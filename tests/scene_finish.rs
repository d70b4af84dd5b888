//! The pictures of what the trimmer does, against the numbers that they show.

#![allow(clippy::unwrap_used, clippy::panic, reason = "what tests call may panic as tests may")]

use backmark::finish::{Edge, Leaves, trimmed};
use backmark::fold::{Course, Measure, Reads, Scheme, Worked, library};
use backmark::paper::{Length, Margins, Trims};
use backmark::scene::{Group, Ink, Item, Line, Scene, section_cut, section_cut_rows, svg, trim_plan, trim_plan_says};
use kurbo::{Affine, Rect, Shape};

const fn mm(v: i64) -> Length {
    Length::from_whole_mm(v)
}

fn all(trim: Length) -> Trims {
    Trims { head: trim, foot: trim, fore_edge: trim, bleed: trim }
}

/// Margins with 15 mm at the fore-edge.
const MARGINS: Margins = Margins { back: mm(15), head: mm(18), fore_edge: mm(15), foot: mm(30) };

const CALIPER: Length = Length::from_um(100);
const SIZE: (f64, f64) = (640.0, 360.0);

fn leaves(scheme: &Scheme, lip: i64) -> Leaves {
    let worked = Worked::of(&Course::of_scheme(scheme)).unwrap();
    let (width, height) = (mm(i64::from(scheme.columns) * 141), mm(i64::from(scheme.rows) * 222));
    let mut measure = Measure::equal(scheme.rows, scheme.columns, width, height);
    measure.columns[0] += mm(lip);
    Leaves::of(&worked, &vec![0], &measure).unwrap()
}

/// All paths of a scene with what fills and strokes them.
fn paths(scene: &Scene) -> Vec<(Rect, Option<Ink>, Option<Line>)> {
    fn walk(items: &[Item], place: Affine, found: &mut Vec<(Rect, Option<Ink>, Option<Line>)>) {
        for item in items {
            match item {
                Item::Path { path, fill, line } => found.push(((place * path).bounding_box(), *fill, *line)),
                Item::Group(Group { place: own, items, .. }) => walk(items, place * *own, found),
                Item::Figure { .. } | Item::Words { .. } => {}
            }
        }
    }
    let mut found = Vec::new();
    walk(&scene.items, Affine::IDENTITY, &mut found);
    found
}

#[test]
fn nothing_is_drawn_outside_the_picture() {
    for named in library() {
        for lip in [0, 10] {
            for reads in [Reads::LeftToRight, Reads::RightToLeft] {
                let leaves = leaves(&named.scheme, lip);
                let trims = all(mm(3));
                let cut = section_cut(&leaves, &trims, CALIPER, Some(&MARGINS), (reads, 0), SIZE);
                let plans = (1..=leaves.leaves.len() as u32)
                    .map(|n| trim_plan(&leaves, &trims, CALIPER, Some(&MARGINS), n, (reads, 16)));
                for scene in std::iter::once(cut.scene).chain(plans) {
                    let all = Rect::new(0.0, 0.0, scene.size.0, scene.size.1).inset(0.01);
                    for (path, ..) in
                        paths(&scene).into_iter().filter(|(r, ..)| r.is_finite() && r.width() + r.height() > 0.0)
                    {
                        assert_eq!(all.union(path), all, "{} {lip} {reads:?}", named.name);
                    }
                    let text = svg::paint(&scene, "x", &|_| None);
                    assert!(!text.contains("NaN") && !text.contains("inf"));
                }
            }
        }
    }
}

/// The spine is at the right for who looks from the head at a book that reads from left to right, and the knife beyond it.
#[test]
fn the_knife_lies_where_the_outermost_leaf_is_cut() {
    for named in library() {
        let leaves = leaves(&named.scheme, 0);
        let at = |trim: i64, reads| {
            let trims = Trims { fore_edge: mm(trim), ..all(Length::ZERO) };
            let cut = section_cut(&leaves, &trims, CALIPER, None, (reads, 0), SIZE);
            let knife = paths(&cut.scene).into_iter().find(|(.., l)| l.is_some_and(|l| l.dash.is_some()));
            knife.map(|(r, ..)| r.x0)
        };
        assert_eq!(at(0, Reads::LeftToRight), None, "no cut, no line");
        let [near, far] = [3, 41].map(|t| at(t, Reads::LeftToRight).unwrap());
        let [near_rtl, far_rtl] = [3, 41].map(|t| at(t, Reads::RightToLeft).unwrap());
        assert!(far > near && far_rtl < near_rtl, "{}", named.name);
        assert!((near + near_rtl - SIZE.0).abs() < 1e-6, "one is the mirror image of the other");
    }
}

/// Type that is not cut off in life is not cut off in the picture, although creep is drawn larger.
#[test]
fn type_stays_within_the_cut_in_the_picture() {
    for named in library() {
        let leaves = leaves(&named.scheme, 0);
        let cut = section_cut(&leaves, &all(mm(3)), CALIPER, Some(&MARGINS), (Reads::RightToLeft, 0), SIZE);
        let all = paths(&cut.scene);
        let knife = all.iter().find(|(.., l)| l.is_some_and(|l| l.dash.is_some())).unwrap().0.x0;
        let bars = all.iter().find(|(_, fill, line)| *fill == Some(Ink::Black) && line.is_none()).unwrap().0;
        assert!(bars.x1 < knife, "{}: {} and {knife}", named.name, bars.x1);
        let deepest = leaves.pairs_deep() - 1;
        assert_eq!(cut.times > 0.0, deepest > 0);
    }
}

#[test]
fn rows_say_what_the_trimmer_does() {
    for named in library() {
        let leaves = leaves(&named.scheme, 0);
        let trims = all(mm(3));
        let cut = trimmed(&leaves, &trims, CALIPER);
        let rows = section_cut_rows(&leaves, &trims, CALIPER, Some(&MARGINS));
        assert_eq!(rows.len(), leaves.leaves.len());
        let opened = rows.iter().filter(|r| r.bolt.is_some_and(|(_, opened)| opened)).count();
        assert_eq!(opened, 2 * cut.opened(Edge::ForeEdge).count(), "each bolt is two leaves'");
        for row in &rows {
            assert_eq!(row.taken, mm(3) + row.creep_flat, "{}", named.name);
            assert_eq!(row.margin, Some(mm(15) - row.creep_flat));
        }
    }
}

/// The first leaf of an octavo is one paper with leaf 8 at the spine, with leaf 4 at the head, and open elsewhere (J. B.
/// Nicholson, *A Manual of the Art of Bookbinding*, 1878, pp. 35-36).
#[test]
fn a_leaf_in_sentences() {
    let scheme = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    let leaves = leaves(&scheme, 0);
    let trims = Trims { head: Length::from_um(50), foot: mm(3), ..all(Length::ZERO) };
    assert_eq!(
        trim_plan_says(&leaves, &trims, CALIPER, 1),
        [
            "Spine: one paper with leaf 8.",
            "Head: one paper with leaf 4; the knife takes 0.05 mm, and it stays closed, since that wants 0.1 mm.",
            "Tail: open; the knife takes 3 mm.",
            "Fore-edge: open; it is not cut.",
        ]
    );
    assert!(trim_plan_says(&leaves, &trims, CALIPER, 9).is_empty());
    assert_eq!(trim_plan(&leaves, &trims, CALIPER, None, 0, (Reads::LeftToRight, 0)), Scene::default());
}

/// The plan is in millimetres: the knives leave the page, the type stands within its margins, the bleed goes beyond three
/// edges.
#[test]
fn the_plan_of_a_leaf_is_to_scale() {
    let scheme = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    let leaves = leaves(&scheme, 0);
    let trims = Trims { head: mm(2), foot: mm(4), fore_edge: mm(5), bleed: mm(3) };
    for (number, reads) in (1..=8).flat_map(|n| [(n, Reads::LeftToRight), (n, Reads::RightToLeft)]) {
        let scene = trim_plan(&leaves, &trims, CALIPER, Some(&MARGINS), number, (reads, 0));
        let all = paths(&scene);
        let near = |a: f64, b: f64| assert!((a - b).abs() < 1e-6, "{a} and {b}");
        let kind = |ink: Ink| all.iter().filter(move |(.., l)| l.is_some_and(|l| l.dash.is_some() && l.ink == ink));
        let type_area = all.iter().find(|(_, fill, _)| *fill == Some(Ink::CastOnPaper)).unwrap().0;
        let bleed = kind(Ink::Crease).next().unwrap().0;
        // A leaf of 141 by 222 mm: a page of 136 by 216.
        near(type_area.width(), 136.0 - 15.0 - 15.0);
        near(type_area.height(), 216.0 - 18.0 - 30.0);
        near(bleed.width(), 136.0 + 3.0);
        near(bleed.height(), 216.0 + 6.0);
        let knives: Vec<Rect> = kind(Ink::Light).map(|(r, ..)| *r).collect();
        let (level, upright): (Vec<Rect>, Vec<Rect>) = knives.into_iter().partition(|r| r.width() > r.height());
        near(level[1].y0 - level[0].y0, 216.0);
        near(type_area.y0 - level[0].y0, 18.0);
        let spine_at = if reads == Reads::LeftToRight { bleed.x0 } else { bleed.x1 };
        near((upright[0].x0 - spine_at).abs(), 136.0);
        // As many doubled lines as edges that are closed: the spine, and those of the bolts.
        let doubled = all.iter().filter(|(.., l)| l.is_some_and(|l| l.dash.is_none() && l.ink == Ink::Light)).count();
        assert_eq!(doubled, 1 + Edge::ALL.into_iter().filter(|e| leaves.bolt(number, *e).is_some()).count());
    }
}
