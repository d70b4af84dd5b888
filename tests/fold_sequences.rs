//! The fold engine against published sequences of numbers and against counts of all possible foldings.
//!
//! A-numbers are entries of the On-Line Encyclopedia of Integer Sequences. Counts that have no published source say so.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::{Crease, Direction, Fold, Folding, Landing, Lands, Packet, Part, Reads, Scheme, Section, Side};
use std::collections::BTreeSet;

fn scheme(rows: u32, columns: u32, folds: Vec<Fold>) -> Scheme {
    Scheme { rows, columns, folds, head: Direction::Up, reads: Reads::LeftToRight }
}

/// A strip of 2^times panels, halved right over left each time.
fn halved(times: u32) -> Scheme {
    let folds = (0..times).rev().map(|k| Fold::new(1 << k, Part::Right, Lands::Over)).collect();
    scheme(1, 1 << times, folds)
}

/// The creases of a strip from left to right as seen from side A: a valley is 1, a mountain 0.
fn creases(folding: &Folding) -> Vec<Option<u32>> {
    let mut found = vec![None; folding.columns as usize - 1];
    let mut before = &folding.flat;
    for step in &folding.steps {
        // A layer in two parts was creased where they meet. Side A inside makes a valley seen from side A.
        for (parent, layer) in before.layers.iter().enumerate() {
            let parts: Vec<_> = (0..step.after.layers.len())
                .filter(|&i| step.turn.parents[i] as usize == parent)
                .map(|i| step.after.layers[i].area)
                .collect();
            if let [one, other] = parts.as_slice() {
                let line = one.x0.max(other.x0);
                let a_up = layer.placement.side_up() == Side::A;
                let valley = a_up == (step.turn.fold.lands == Lands::Over);
                let slot = &mut found[line as usize - 1];
                assert_eq!(*slot, None, "a line is creased once");
                *slot = Some(u32::from(valley));
            }
        }
        before = &step.after;
    }
    found
}

/// A014577, the regular paperfolding sequence: the creases of a strip halved again and again the same way.
#[test]
fn creases_of_repeated_halving_are_a014577() {
    const A014577: [u32; 31] =
        [1, 1, 0, 1, 1, 0, 0, 1, 1, 1, 0, 0, 1, 0, 0, 1, 1, 1, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 1, 0, 0];
    for times in 1..=10 {
        let found = creases(&Folding::of(&halved(times)).unwrap());
        assert_eq!(found.len(), (1 << times) - 1);
        for (n, crease) in found.iter().enumerate() {
            // For n + 1 = 2^m k with k odd: 1 when k is 1 mod 4.
            let k = (n as u32 + 1) >> (n as u32 + 1).trailing_zeros();
            assert_eq!(*crease, Some(u32::from(k % 4 == 1)), "{times} times, crease {n}");
            if let Some(term) = A014577.get(n) {
                assert_eq!(*crease, Some(*term));
            }
        }
    }
}

/// The panels of a strip or grid from the bottom to the top of a finished packet, in reading order from 1.
fn order(packet: &Packet, columns: u32) -> Vec<u32> {
    packet.layers.iter().map(|l| l.area.y0.unsigned_abs() * columns + l.area.x0.unsigned_abs() + 1).collect()
}

/// A281589: row n is the order of 2^(n-1) cells from bottom to top after n - 1 halvings right over left.
#[test]
fn cells_of_repeated_halving_are_a281589() {
    let rows: [&[u32]; 5] = [
        &[1],
        &[1, 2],
        &[1, 4, 3, 2],
        &[1, 8, 5, 4, 3, 6, 7, 2],
        &[1, 16, 9, 8, 5, 12, 13, 4, 3, 14, 11, 6, 7, 10, 15, 2],
    ];
    for (times, row) in (0..).zip(rows) {
        let folding = Folding::of(&halved(times)).unwrap();
        assert_eq!(order(folding.last(), 1 << times), row);
    }
    // What the entry says of every row: the first is 1, the second 2^(n-1), the last 2, and pairs add to 2^(n-1) + 1.
    for times in 1..=10 {
        let cells = 1u32 << times;
        let row = order(Folding::of(&halved(times)).unwrap().last(), cells);
        assert_eq!((row[0], row[1], row[row.len() - 1]), (1, cells, 2));
        assert!(row.chunks(2).all(|pair| pair[0] + pair[1] == cells + 1));
    }
}

/// Where cell k of 2^n lies after n halvings right over left: height above the table, and whether it is turned over.
/// Arithmetic that follows each cell alone; it agrees with A281589.
fn height(k: u32, n: u32) -> (u32, bool) {
    let (mut h, mut x, mut w, mut turned) = (0, k, 1 << n, false);
    for i in 0..n {
        w /= 2;
        if x >= w {
            x = 2 * w - 1 - x;
            h = 2 * (1 << i) - 1 - h;
            turned = !turned;
        }
    }
    (h, turned)
}

#[test]
fn the_position_of_a_cell_follows_from_its_number() {
    for n in 1..=10 {
        let folding = Folding::of(&halved(n)).unwrap();
        for (h, layer) in (0..).zip(&folding.last().layers) {
            let k = layer.area.x0.unsigned_abs();
            let turned = layer.placement.side_up() == Side::B;
            assert_eq!(height(k, n), (h, turned), "cell {k} of 2^{n}");
            // The folds that turned it are the bits of its Gray code, so odd cells are turned over.
            assert_eq!((k ^ (k >> 1)).count_ones() % 2 == 1, turned);
            assert_eq!(k % 2 == 1, turned);
        }
    }
}

/// Sheets folded in halves, right over left (`v`) and lower over upper (`h`), page 1 underneath: the inner side.
///
/// Worked out from the position of a cell alone. `vhv` is the octavo of Nicholson, *A Manual of the Art of Bookbinding*
/// (1878), pp. 35-36, upside down; `hvhvv` has the figures of the upper half of MacKellar's half-sheet of sixty-fours,
/// *The American Printer* (1893), p. 196.
#[test]
fn sheets_of_halvings_carry_the_pages_worked_out_by_arithmetic() {
    for (folds, expected) in [
        ("v", "2 3"),
        ("hv", "2 7 / 3 6"),
        ("vhv", "2 15 14 3 / 7 10 11 6"),
        ("hvhv", "2 31 26 7 / 15 18 23 10 / 14 19 22 11 / 3 30 27 6"),
        ("hvhvv", "2 63 34 31 26 39 58 7 / 15 50 47 18 23 42 55 10 / 14 51 46 19 22 43 54 11 / 3 62 35 30 27 38 59 6"),
        ("vhvhv", "2 63 50 15 14 51 62 3 / 31 34 47 18 19 46 35 30 / 26 39 42 23 22 43 38 27 / 7 58 55 10 11 54 59 6"),
    ] {
        let count = |c: char| folds.chars().filter(|f| *f == c).count() as u32;
        let (mut rows, mut columns) = (1 << count('h'), 1 << count('v'));
        let (flat_rows, flat_columns) = (rows, columns);
        let made = folds.chars().map(|f| {
            let (size, part) = if f == 'v' { (&mut columns, Part::Right) } else { (&mut rows, Part::Bottom) };
            *size /= 2;
            Fold::new(*size, part, Lands::Over)
        });
        let made: Vec<Fold> = made.collect();
        let landing = Landing::of(&scheme(flat_rows, flat_columns, made)).unwrap();
        let rows: Vec<String> = landing
            .grid(Side::A)
            .iter()
            .map(|row| row.iter().map(|p| p.page.to_string()).collect::<Vec<_>>().join(" "))
            .collect();
        assert_eq!(rows.join(" / "), expected, "{folds}");
    }
}

/// Calls `each` with every packet of one panel that folding to the end can make. Which part moves does not matter (the
/// same packet seen from its other side), so the right and the bottom part do.
fn every_end(packet: &Packet, each: &mut impl FnMut(&Packet)) {
    let extent = packet.extent();
    if extent.width() == 1 && extent.height() == 1 {
        each(packet);
    }
    for (size, part) in [(extent.width(), Part::Right), (extent.height(), Part::Bottom)] {
        for after in 1..size.unsigned_abs() {
            for lands in [Lands::Over, Lands::Under] {
                let (folded, _) = packet.fold(&Fold::new(after, part, lands)).unwrap();
                every_end(&folded, each);
            }
        }
    }
}

fn ways(rows: u32, columns: u32) -> u32 {
    let mut count = 0;
    every_end(&Packet::flat(rows, columns), &mut |_| count += 1);
    count
}

/// A110837: ways to fold a strip of n stamps, order and direction of the folds counted.
#[test]
fn ways_to_fold_a_strip_are_a110837() {
    for (n, expected) in (1..).zip([1, 2, 8, 36, 176, 864, 4304, 21448]) {
        assert_eq!(ways(1, n), expected, "{n}");
        assert_eq!(ways(n, 1), expected, "{n}");
    }
}

/// The same for a grid of c by r panels, from N(c,r) = 2 sum N(max(k,c-k), r) + 2 sum N(c, max(k,r-k)). No published
/// sequence was found; the formula is that of A110837 for two directions.
#[test]
fn ways_to_fold_a_grid_follow_the_sum_over_first_folds() {
    fn by_sum(c: u32, r: u32) -> u32 {
        if c == 1 && r == 1 {
            return 1;
        }
        let across: u32 = (1..c).map(|k| by_sum(k.max(c - k), r)).sum();
        let down: u32 = (1..r).map(|k| by_sum(c, k.max(r - k))).sum();
        2 * (across + down)
    }
    for (c, r, expected) in [(2, 2, 8), (3, 2, 48), (4, 2, 280), (3, 3, 384), (5, 2, 1664), (4, 3, 2752), (4, 4, 23136)]
    {
        assert_eq!(by_sum(c, r), expected);
        assert_eq!(ways(r, c), expected, "{c} by {r}");
    }
}

/// Halvings only: the orders of the two directions times over or under, C(a+b, a) 2^(a+b).
#[test]
fn halvings_are_counted_by_the_order_of_directions() {
    fn halvings(packet: &Packet) -> u32 {
        let extent = packet.extent();
        let mut count = u32::from(extent.width() == 1 && extent.height() == 1);
        for (size, part) in [(extent.width(), Part::Right), (extent.height(), Part::Bottom)] {
            for lands in [Lands::Over, Lands::Under].into_iter().filter(|_| size % 2 == 0) {
                count += packet.fold(&Fold::new(size.unsigned_abs() / 2, part, lands)).map_or(0, |(p, _)| halvings(&p));
            }
        }
        count
    }
    for (columns, rows, expected) in [(2, 2, 2 * 4), (4, 2, 3 * 8), (4, 4, 6 * 16), (8, 4, 10 * 32), (8, 8, 20 * 64)] {
        assert_eq!(halvings(&Packet::flat(rows, columns)), expected);
    }
}

fn orders(rows: u32, columns: u32) -> BTreeSet<Vec<u32>> {
    let mut orders = BTreeSet::new();
    every_end(&Packet::flat(rows, columns), &mut |packet| {
        orders.insert(order(packet, columns));
    });
    orders
}

/// Different orders of the panels, an order and its reverse counted separately. Of the strips, those up to 6 are
/// A000136 (every way to fold a strip of stamps); from 7 on all layers together can't make all of them (462, 1392).
/// 448 and 1328 and the grids but 2 by 2 (A001415) were computed by an independent search: no published source.
#[test]
fn orders_that_folding_all_layers_can_make() {
    for (n, expected) in (1..).zip([1, 2, 6, 16, 50, 144, 448, 1328]) {
        let orders = orders(1, n);
        assert_eq!(orders.len(), expected, "{n}");
        assert!(orders.iter().all(|o| orders.contains(&o.iter().rev().copied().collect::<Vec<_>>())));
    }
    for (columns, rows, expected) in [(2, 2, 8), (3, 2, 40), (4, 2, 168), (5, 2, 712), (3, 3, 296), (4, 3, 1720)] {
        assert_eq!(orders(rows, columns).len(), expected, "{columns} by {rows}");
    }
}

/// A001418: the eight foldings of a 2 by 2 map whose panels are 1 2 / 3 4.
#[test]
fn a_map_of_two_by_two_folds_in_the_eight_orders_of_a001418() {
    let expected = ["1243", "1342", "2134", "2431", "3124", "3421", "4213", "4312"];
    let found: Vec<String> = orders(2, 2).iter().map(|o| o.iter().map(u32::to_string).collect()).collect();
    assert_eq!(found, expected);
}

/// Every end of folding is a section with each page once, whichever way it was reached.
#[test]
fn every_way_to_fold_a_small_sheet_reads_as_a_section() {
    fn each(scheme: &mut Scheme, packet: &Packet) {
        let extent = packet.extent();
        if extent.width() == 1 && extent.height() == 1 {
            let vertical = scheme.folds.last().map(|f| f.crease) == Some(Crease::Vertical);
            scheme.head = if vertical { Direction::Up } else { Direction::Left };
            let folding = Folding::of(scheme).unwrap();
            let faces: BTreeSet<_> = Section::of(scheme, &folding).unwrap().faces.into_iter().map(|f| f.face).collect();
            assert_eq!(faces.len() as u32, scheme.pages());
        }
        for (size, parts) in [(extent.width(), [Part::Left, Part::Right]), (extent.height(), [Part::Top, Part::Bottom])]
        {
            for after in 1..size.unsigned_abs() {
                for (part, lands) in parts.iter().flat_map(|p| [(*p, Lands::Over), (*p, Lands::Under)]) {
                    let fold = Fold::new(after, part, lands);
                    scheme.folds.push(fold);
                    each(scheme, &packet.fold(&fold).unwrap().0);
                    scheme.folds.pop();
                }
            }
        }
    }
    for (rows, columns) in [(1, 4), (2, 3), (3, 2)] {
        each(&mut scheme(rows, columns, Vec::new()), &Packet::flat(rows, columns));
    }
}
