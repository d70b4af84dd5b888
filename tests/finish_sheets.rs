//! From the sheet to the trimmed page, against sizes that the trade gives.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::finish::{
    Edge, EdgeCut, GrainRuns, Leaves, MadeFold, Size, air, folds_of, grain_runs, sizes, trimmed, unit_length,
};
use backmark::fold::{
    Course, Crease, Direction, End, Fold, Lands, Lip, Measure, Part, Parted, Reads, Scheme, Slit, Steps, Worked,
    library,
};
use backmark::paper::{Grain, Length, Trims};

fn mm(v: i64) -> Length {
    Length::from_whole_mm(v)
}

fn all(trim: Length) -> Trims {
    Trims { head: trim, foot: trim, fore_edge: trim, bleed: trim }
}

fn over(after: u32, moves: Part) -> Fold {
    Fold::new(after, moves, Lands::Over)
}

fn apart(crease: Crease, after: u32, first: Steps, second: Steps) -> End {
    End::Slit(Box::new(Slit { crease, after, then: Parted::Apart { first, second } }))
}

/// A quad sheet of 64 pages octavo (32 a side): slit into four, each folded three times to a section of 16 pages.
fn quad_octavo() -> Course {
    let sixteen = || Steps::piece(vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)], Direction::Up);
    let half = || Steps { folds: vec![], end: apart(Crease::Vertical, 4, sixteen(), sixteen()) };
    let steps = Steps { folds: vec![], end: apart(Crease::Horizontal, 2, half(), half()) };
    let copies = vec![(0..4).map(|p| vec![p]).collect()];
    Course { rows: 4, columns: 8, steps, copies, reads: Reads::LeftToRight }
}

/// British book sheets in mm and their trimmed octavo, width first. From memory; demy and royal also Print on Demand notes
/// of writersservices.com: 216 × 138, 234 × 156.
const OCTAVOS: [(&str, [i64; 2], [i64; 2]); 4] = [
    ("quad crown", [1008, 768], [123, 186]),
    ("quad large crown", [1056, 816], [129, 198]),
    ("quad demy", [1128, 888], [138, 216]),
    ("quad royal", [1272, 960], [156, 234]),
];

#[test]
fn quad_sheets_give_their_octavos() {
    let whole = library().into_iter().find(|n| n.name.starts_with("Sixty-four")).unwrap().scheme;
    for course in [quad_octavo(), Course::of_scheme(&whole)] {
        let worked = Worked::of(&course).unwrap();
        for (name, [width, height], [page_width, page_height]) in OCTAVOS {
            let measure = Measure::equal(course.rows, course.columns, mm(width), mm(height));
            for nest in &course.copies[0] {
                let leaves = Leaves::of(&worked, nest, &measure).unwrap();
                let found = sizes(&leaves, &all(mm(3)));
                let page = Size { width: mm(page_width), height: mm(page_height) };
                assert_eq!(found.page, page, "{name}");
                assert_eq!((found.uneven.len(), found.lip), (0, None), "{name}");
            }
        }
    }
}

/// Demy octavo, 5 5/8 by 8 3/4 in untrimmed, 1/8 in off head, tail and fore-edge: 5 1/2 by 8 1/2 in. R. Hollick, "Paper
/// sizes", rhollick.wordpress.com (2010-09-20).
#[test]
fn demy_octavo_in_inches() {
    let eighths = |n: i64| Length::INCH.times(n).shared(8);
    let scheme = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
    let measure = Measure { columns: vec![eighths(45); 4], rows: vec![eighths(70); 2] };
    let leaves = Leaves::of(&worked, &vec![0], &measure).unwrap();
    let page = sizes(&leaves, &all(eighths(1))).page;
    assert_eq!(page, Size { width: eighths(44), height: eighths(68) });
}

/// The inner side of the octavo is 7 10 11 6 over 2 15 14 3 (J. B. Nicholson, *A Manual of the Art of Bookbinding*, 1878,
/// pp. 35-36). Between the rows 7 and 2, 10 and 15, 11 and 14, 6 and 3 hang together at their heads: leaves 4 and 1, 5 and
/// 8, 6 and 7, 3 and 2. Across the first crease 10 and 11, 15 and 14 do at the fore-edge: leaves 5 and 6, 8 and 7.
#[test]
fn bolts_of_a_sixteen() {
    let scheme = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
    let measure = Measure::equal(2, 4, mm(600), mm(400));
    let leaves = Leaves::of(&worked, &vec![0], &measure).unwrap();
    let at = |edge| leaves.bolts.iter().filter(|b| b.edge == edge).map(|b| (b.leaves, b.around)).collect::<Vec<_>>();
    assert_eq!(at(Edge::Head), [((1, 4), 0), ((2, 3), 1), ((5, 8), 0), ((6, 7), 1)]);
    assert_eq!(at(Edge::ForeEdge), [((5, 6), 0), ((7, 8), 0)]);
    assert_eq!(at(Edge::Tail), []);
    // The inner bolt of the head lies one round fold deeper: 0.1 mm for its own paper, and 0.157 mm.
    let opened = |um| {
        let trims = Trims { head: Length::from_um(um), ..all(Length::ZERO) };
        trimmed(&leaves, &trims, Length::from_um(100)).opened(Edge::Head).count()
    };
    assert_eq!([99, 100, 257, 258].map(opened), [0, 2, 2, 4]);
}

/// A lip of 10 mm: a folio folded 5 mm off the middle. Right over left, the left panel is the first leaf. Trims are taken off
/// the shorter half.
#[test]
fn a_lip_is_cut_off() {
    let scheme = library().into_iter().find(|n| n.name == "Eight, two parallel folds").unwrap().scheme;
    let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
    let folio = Scheme { columns: 2, folds: vec![over(1, Part::Right)], ..scheme };
    let folio = Worked::of(&Course::of_scheme(&folio)).unwrap();
    for (columns, half) in [([150, 160], Lip::HighFolio), ([160, 150], Lip::LowFolio)] {
        let measure = Measure { columns: columns.map(mm).to_vec(), rows: vec![mm(200)] };
        let leaves = Leaves::of(&folio, &vec![0], &measure).unwrap();
        let found = sizes(&leaves, &all(mm(3)));
        let lip = found.lip.unwrap();
        let longer = leaves.leaves.iter().max_by_key(|l| l.width()).unwrap().number;
        assert_eq!((lip.by, lip.lip), (mm(10), if longer == 1 { Lip::LowFolio } else { Lip::HighFolio }));
        assert_eq!(lip.lip, half);
        assert_eq!(found.page.width, mm(147), "the shorter half less 3 mm");
    }
    let measure = Measure::equal(1, 4, mm(600), mm(200));
    assert_eq!(sizes(&Leaves::of(&worked, &vec![0], &measure).unwrap(), &all(mm(3))).lip, None);
}

/// A letter fold whose inner panel, the lowest row, is 5 mm short: folded up first, it ends 5 mm below the second crease,
/// which becomes the head. A cut of 3 mm at the head passes it by 2 mm.
#[test]
fn a_short_panel_does_not_reach_the_knife() {
    let scheme = library().into_iter().find(|n| n.name.starts_with("Twelve, letter")).unwrap().scheme;
    let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
    let measure = Measure { columns: vec![mm(150); 2], rows: vec![mm(200), mm(200), mm(195)] };
    let leaves = Leaves::of(&worked, &vec![0], &measure).unwrap();
    let short: Vec<u32> = leaves.leaves.iter().filter(|l| l.row == 2).map(|l| l.number).collect();
    let missed = |trim| trimmed(&leaves, &all(mm(trim)), Length::ZERO).missed;
    let expected = |inside| short.iter().map(|l| EdgeCut { leaf: *l, edge: Edge::Head, inside }).collect::<Vec<_>>();
    assert_eq!(short.len(), 2);
    assert_eq!(missed(3), expected(mm(2)));
    assert_eq!(missed(5), []);
    let found = sizes(&leaves, &all(mm(3)));
    assert_eq!(found.leaf, Size { width: mm(150), height: mm(200) });
    assert_eq!(
        found.uneven.iter().map(|u| (u.leaf, u.higher)).collect::<Vec<_>>(),
        short.iter().map(|l| (*l, mm(-5))).collect::<Vec<_>>()
    );
}

/// An accordion of six panels, the fourth and fifth 10 mm narrower: the bolt between them lies 10 mm within the fore-edge,
/// and a knife opens it from 10 mm and one thickness on.
#[test]
fn a_bolt_that_lies_within_wants_a_larger_trim() {
    let lands = |n: u32| if n.is_multiple_of(2) { Lands::Over } else { Lands::Under };
    let folds = (1..6).rev().map(|n| Fold::new(n, Part::Right, lands(n))).collect();
    let scheme = Scheme { rows: 1, columns: 6, folds, head: Direction::Up, reads: Reads::LeftToRight };
    let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
    let measure = Measure { columns: [100, 100, 100, 90, 90, 100].map(mm).to_vec(), rows: vec![mm(200)] };
    let leaves = Leaves::of(&worked, &vec![0], &measure).unwrap();
    let mut out: Vec<Length> = leaves.bolts.iter().map(|b| b.stands_out).collect();
    out.sort();
    assert_eq!(out, [mm(-10), mm(0)]);
    let opened = |um| {
        let trims = Trims { fore_edge: Length::from_um(um), ..all(Length::ZERO) };
        trimmed(&leaves, &trims, Length::from_um(100)).opened(Edge::ForeEdge).count()
    };
    assert_eq!([99, 100, 10_099, 10_100].map(opened), [0, 1, 1, 2]);
}

/// A letter fold by itself: the short panel's free edge lies at the spine, 5 mm from the back, and nothing holds it there.
#[test]
fn the_inner_panel_of_a_letter_fold_is_loose_at_the_spine() {
    let folds = vec![over(2, Part::Right), over(1, Part::Left)];
    let scheme = Scheme { rows: 1, columns: 3, folds, head: Direction::Up, reads: Reads::LeftToRight };
    let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
    let measure = Measure { columns: vec![mm(100), mm(100), mm(95)], rows: vec![mm(200)] };
    let leaves = Leaves::of(&worked, &vec![0], &measure).unwrap();
    let short = leaves.leaves.iter().find(|l| l.column == 2).unwrap();
    assert_eq!((short.lies.spine, short.lies.fore_edge), (mm(5), mm(100)));
    assert_eq!(leaves.loose(), [short.number]);
    let cut = trimmed(&leaves, &Trims { head: mm(3), foot: mm(3), ..all(Length::ZERO) }, Length::ZERO);
    assert_eq!(cut.hanging, [short.number], "only its bolt at the fore-edge holds it");
}

/// B. Gallivan, *How to Fold Paper in Half Twelve Times* (2002): (2ⁿ + 4)(2ⁿ − 1) / 6 for n = 0 to 6.
#[test]
fn halvings_of_a_strip_take_up_what_gallivan_says() {
    let expected = [0, 1, 4, 14, 50, 186, 714];
    for (n, expected) in (0_u32..).zip(expected) {
        let columns = 1 << n;
        let folds: Vec<Fold> = (0..n).map(|i| over(columns >> (i + 1), Part::Right)).collect();
        if folds.is_empty() {
            assert_eq!(unit_length(&[], Crease::Vertical), expected);
            continue;
        }
        let scheme = Scheme { rows: 1, columns, folds, head: Direction::Up, reads: Reads::LeftToRight };
        let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
        let made = folds_of(&worked, 0);
        assert_eq!(made.last().map(|f| f.layers), Some(1 << (n - 1)));
        assert_eq!(unit_length(&made, Crease::Vertical), expected);
        let two = u64::from(columns);
        assert_eq!(6 * expected, (two + 4) * (two - 1));
    }
}

/// Right-angle folds and the creases to perforate, by the rule of R. and E. (more than two): the head of a sixteen.
#[test]
fn air_is_shut_in_from_the_third_right_angle_fold_on() {
    let told = |start: &str| {
        let scheme = library().into_iter().find(|n| n.name.starts_with(start)).unwrap().scheme;
        let worked = Worked::of(&Course::of_scheme(&scheme)).unwrap();
        let found = air(&folds_of(&worked, 0), scheme.leaves());
        (found.right_angles, found.perforate.iter().map(|p| (p.fold, p.before)).collect::<Vec<_>>(), found.parallel_32)
    };
    assert_eq!(told("Four, one"), (1, vec![], false));
    assert_eq!(told("Eight, two right"), (2, vec![], false));
    assert_eq!(told("Eight, two parallel"), (1, vec![], false));
    assert_eq!(told("Sixteen, three"), (3, vec![(2, 3)], false));
    assert_eq!(told("Sixteen, two parallel"), (2, vec![], false));
    assert_eq!(told("Thirty-two, four"), (4, vec![(2, 3), (3, 4)], false));
    assert_eq!(told("Thirty-two, three"), (3, vec![(2, 3)], true));
}

/// Only folds that crease a piece count for it, by their number on the way to it; and what is creased with it.
#[test]
fn folds_of_a_piece_slit_off_later() {
    let last = || Steps::piece(vec![over(1, Part::Right)], Direction::Up);
    let folds = vec![over(2, Part::Right)];
    let steps = Steps { folds, end: apart(Crease::Horizontal, 1, last(), last()) };
    let course = Course { rows: 2, columns: 4, steps, copies: vec![vec![vec![0], vec![1]]], reads: Reads::LeftToRight };
    let worked = Worked::of(&course).unwrap();
    let vertical = |number, layers| MadeFold { number, crease: Crease::Vertical, layers };
    for piece in [0, 1] {
        assert_eq!(folds_of(&worked, piece), [vertical(1, 1), vertical(2, 2)]);
    }
    assert_eq!(folds_of(&worked, 2), []);
}

/// The spine of the sixteen of three folds is upright on the sheet, so the grain has to run along the height of the sheet.
#[test]
fn grain_against_the_spine() {
    let sixteen = library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme;
    let worked = Worked::of(&Course::of_scheme(&sixteen)).unwrap();
    assert_eq!(grain_runs(&worked, 0, Grain::Upright), Some(GrainRuns::AlongSpine));
    assert_eq!(grain_runs(&worked, 0, Grain::Level), Some(GrainRuns::AcrossSpine));
    let lying = Scheme { rows: 2, columns: 1, folds: vec![over(1, Part::Top)], head: Direction::Left, ..sixteen };
    let worked = Worked::of(&Course::of_scheme(&lying)).unwrap();
    assert_eq!(grain_runs(&worked, 0, Grain::Level), Some(GrainRuns::AlongSpine));
}
