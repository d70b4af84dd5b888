//! The fold engine against what binders and printers wrote: folding by hand, sums across the back, sheets by name.
//!
//! Each test names its source. Sequences and counts are in `fold_sequences.rs`, layouts in `fold_handbooks.rs`.

#![allow(clippy::panic, clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::{Direction, Fold, Folding, Landing, Lands, Packet, Part, Reads, Scheme, Side, Step, library};

fn scheme(rows: u32, columns: u32, folds: Vec<Fold>) -> Scheme {
    Scheme { rows, columns, folds, head: Direction::Up, reads: Reads::LeftToRight }
}

fn over(after: u32, moves: Part) -> Fold {
    Fold::new(after, moves, Lands::Over)
}

/// Three folds, the inner side up: right over left, head down, right over left.
fn octavo() -> Scheme {
    scheme(2, 4, vec![over(2, Part::Right), over(1, Part::Top), over(1, Part::Right)])
}

/// One side in the notation of the handbooks: `7v` is page 7 with its head down.
fn drawn(landing: &Landing, side: Side) -> Vec<String> {
    let cell = |p: &&backmark::fold::PageAt| {
        let head = match p.head {
            Direction::Up => "",
            Direction::Right => ">",
            Direction::Down => "v",
            Direction::Left => "<",
        };
        format!("{}{head}", p.page)
    };
    landing.grid(side).iter().map(|row| row.iter().map(cell).collect::<Vec<_>>().join(" ")).collect()
}

/// The pages that lie uppermost, rows from the top.
fn uppermost(landing: &Landing, packet: &Packet) -> Vec<Vec<u32>> {
    let page = |f: &Option<backmark::fold::Face>| f.and_then(|f| landing.page_on(&f)).unwrap();
    packet.uppermost().iter().map(|row| row.iter().map(page).collect()).collect()
}

/// Which page falls on which.
fn falls(landing: &Landing, step: &Step) -> Vec<(u32, u32)> {
    let page = |f| landing.page_on(&f).unwrap();
    step.contacts().iter().map(|c| (page(c.fell), page(c.on))).collect()
}

/// J. B. Nicholson, *A Manual of the Art of Bookbinding* (Philadelphia 1878), pp. 35-36; the same sheet and folds in
/// D. Cockerell, *Bookbinding, and the Care of Books* (1901), pp. 38-40: the inner side up, 2 15 14 3 below and
/// 7 10 11 6 above with the heads reversed.
#[test]
fn the_octavo_lies_before_the_folder_as_nicholson_says() {
    let landing = Landing::of(&octavo()).unwrap();
    assert_eq!(drawn(&landing, Side::A), ["7v 10v 11v 6v", "2 15 14 3"]);
    assert_eq!(drawn(&landing, Side::B), ["5v 12v 9v 8v", "4 13 16 1"], "as seen after turning left to right");
    assert_eq!(landing.outer_forme(), Side::B, "the signature lies down");
    let first = landing.page(1).unwrap();
    assert_eq!((first.face.row, first.face.column), (1, 0), "the signature lies at the left hand, below");
}

/// Nicholson, the same pages: what falls on what, and what is then uppermost.
#[test]
fn the_octavo_folds_step_by_step_as_nicholson_says() {
    let landing = Landing::of(&octavo()).unwrap();
    let folding = Folding::of(&octavo()).unwrap();
    assert_eq!(uppermost(&landing, &folding.flat), [[7, 10, 11, 6], [2, 15, 14, 3]]);
    let [first, second, third] = folding.steps.as_slice() else { panic!("three folds") };

    // 3 falls on 2 and 6 on 7; between them 14 on 15 and 11 on 10. Then 5 and 12 above, 4 and 13 below.
    assert_eq!(falls(&landing, first), [(6, 7), (11, 10), (3, 2), (14, 15)]);
    assert_eq!(uppermost(&landing, &first.after), [[5, 12], [4, 13]]);

    // The head is brought down: 12 on 13, 5 on 4; 8 and 9 are uppermost.
    assert_eq!(falls(&landing, second), [(5, 4), (12, 13)]);
    assert_eq!(uppermost(&landing, &second.after), [[8, 9]]);

    // 9 falls on 8; the signature, page 1, is outside.
    assert_eq!(falls(&landing, third), [(9, 8)]);
    assert_eq!(uppermost(&landing, &third.after), [[16]]);
    let bottom = third.after.undermost();
    assert_eq!(bottom[0][0].and_then(|f| landing.page_on(&f)), Some(1));
}

/// Two pages side by side across the back add to one more than the pages of the sheet: folio 5, quarto 9, octavo
/// 17, duodecimo 25, sixteens 33, eighteens 37. W. Savage, *A Dictionary of the Art of Printing* (1841), p. 329; the
/// same rule in MacKellar, *The American Printer* (18th ed., 1893), p. 142.
///
/// The eighteens: concertina fold, envelope fold, right-angle fold, after Roberts and Etherington, *Bookbinding and
/// the Conservation of Books*, "eighteenmo".
#[test]
fn pages_across_the_back_add_to_one_more_than_the_pages() {
    use Part::{Bottom, Right, Top};
    let sheets = [
        ("folio", 5, scheme(1, 2, vec![over(1, Right)])),
        ("quarto", 9, scheme(2, 2, vec![over(1, Top), over(1, Right)])),
        ("octavo", 17, octavo()),
        ("duodecimo", 25, scheme(3, 4, vec![over(2, Bottom), over(1, Top), over(2, Right), over(1, Right)])),
        ("sixteens", 33, scheme(4, 4, vec![over(2, Top), over(2, Right), over(1, Top), over(1, Right)])),
        (
            "eighteens",
            37,
            scheme(
                3,
                6,
                vec![over(4, Right), Fold::new(2, Right, Lands::Under), over(2, Bottom), over(1, Top), over(1, Right)],
            ),
        ),
    ];
    for (name, sum, scheme) in sheets {
        let landing = Landing::of(&scheme).unwrap();
        assert_eq!(scheme.pages() + 1, sum, "{name}");
        assert!(landing.loose_leaves.is_empty(), "{name}");
        for page in &landing.pages {
            assert_eq!(page.conjugate.map(|c| c + page.page), Some(sum), "{name}, page {}", page.page);
        }
    }
    for named in library() {
        let landing = Landing::of(&named.scheme).unwrap();
        for page in &landing.pages {
            assert_eq!(page.conjugate, Some(named.scheme.pages() + 1 - page.page), "{}", named.name);
        }
    }
}

/// Heads meet heads at a head fold, and pages beside each other along a row point the same way: where rows are folded
/// in halves, every second row is reversed (MacKellar, the plans of pp. 153-188).
#[test]
fn heads_meet_heads() {
    for named in library().into_iter().filter(|n| n.scheme.rows > 1) {
        let landing = Landing::of(&named.scheme).unwrap();
        for side in [Side::A, Side::B] {
            let grid = landing.grid(side);
            for rows in grid.windows(2) {
                for (above, below) in rows[0].iter().zip(&rows[1]) {
                    assert_eq!(above.head, below.head.opposite(), "{}", named.name);
                }
            }
            for row in &grid {
                assert!(row.iter().all(|p| p.head == row[0].head), "{}", named.name);
            }
        }
    }
}

/// Leaves by halving: folio 2, quarto 4, octavo 8, sixteenmo 16, thirty-twomo 32, sixty-fourmo 64 (Cockerell, p. 36;
/// MacKellar, p. 149). 64 pages to a side make a sheet of 128: common practice, no source.
#[test]
fn sixty_four_pages_to_a_side_make_a_sheet_of_128() {
    use Part::{Right, Top};
    let folds = [(4, Top), (4, Right), (2, Top), (2, Right), (1, Top), (1, Right)].map(|(n, part)| over(n, part));
    for halvings in 1..=6 {
        let made: Vec<Fold> = folds.iter().skip(6 - halvings).copied().collect();
        let count = |crease| made.iter().filter(|f| f.crease == crease).count() as u32;
        let (rows, columns) =
            (2u32.pow(count(backmark::fold::Crease::Horizontal)), 2u32.pow(count(backmark::fold::Crease::Vertical)));
        let landing = Landing::of(&scheme(rows, columns, made)).unwrap();
        assert_eq!(landing.pages.len(), 2 << halvings);
    }
    let landing = Landing::of(&scheme(8, 8, folds.to_vec())).unwrap();
    for side in [Side::A, Side::B] {
        assert_eq!(landing.grid(side).iter().flatten().count(), 64);
    }
    assert_eq!(landing.pages.len(), 128);
    assert!(landing.pages.iter().all(|p| p.conjugate == Some(129 - p.page)));
}

/// Cowie's *Printer's Pocket-Book*, p. 31, and MacKellar, pp. 141-142: the first page lies at the compositor's left,
/// foot towards him. Vaughn, *Printing and Bookbinding for Schools*, "Imposition": seen from the foot, an odd page is
/// always to the left of an even one in the forme, so on the printed side it is to the right.
#[test]
fn seen_from_the_foot_odd_pages_print_to_the_right_of_even_ones() {
    for named in library() {
        let landing = Landing::of(&named.scheme).unwrap();
        for side in [Side::A, Side::B] {
            for row in landing.grid(side) {
                for pair in row.chunks(2) {
                    let [left, right] = pair else { panic!("an even number of columns") };
                    let odd_at_right = right.page % 2 == 1 && left.page % 2 == 0;
                    assert_eq!(
                        odd_at_right,
                        left.head == Direction::Up,
                        "{}, {} {}",
                        named.name,
                        left.page,
                        right.page
                    );
                }
            }
        }
    }
}
