//! Laws of folding that hold for every sheet and every list of folds, up to 1,024 panels.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::fold::{
    Crease, Direction, Face, Fold, FoldError, Folding, Landing, Lands, Packet, Part, Reads, Scheme, Section, Side, Step,
};
use proptest::prelude::*;

/// Folds to the end by choosing every fold with the next number; the head lies where the last crease allows it.
fn finished(rows: u32, columns: u32, numbers: &[u32], reads: Reads) -> Scheme {
    let mut scheme = Scheme { rows, columns, folds: Vec::new(), head: Direction::Up, reads };
    let (mut rows, mut columns) = (rows, columns);
    let mut numbers = numbers.iter().copied().cycle();
    while rows * columns > 1 {
        let n = numbers.next().unwrap_or(0);
        let vertical = rows == 1 || (columns > 1 && n % 2 == 0);
        let size = if vertical { &mut columns } else { &mut rows };
        let after = match n / 2 % 4 {
            0 => *size / 2,
            1 => 1,
            2 => *size - 1,
            _ => 1 + n / 32 % (*size - 1),
        };
        let after = after.max(1);
        *size = after.max(*size - after);
        let parts = if vertical { [Part::Left, Part::Right] } else { [Part::Top, Part::Bottom] };
        let part = parts[(n / 8 % 2) as usize];
        scheme.folds.push(Fold::new(after, part, if n / 16 % 2 == 0 { Lands::Over } else { Lands::Under }));
    }
    if scheme.folds.last().is_some_and(|f| f.crease == Crease::Horizontal) {
        scheme.head = Direction::Left;
    }
    scheme
}

prop_compose! {
    fn a_scheme(panels: u32)(
        rows in 1..=panels.isqrt(),
        share in 0.0..1.0,
        swap in any::<bool>(),
        numbers in proptest::collection::vec(any::<u32>(), 1..24),
        right_to_left in any::<bool>(),
    ) -> Scheme {
        let columns = 2 + (f64::from(panels / rows - 2) * share) as u32;
        let (rows, columns) = if swap { (columns, rows) } else { (rows, columns) };
        finished(rows, columns, &numbers, if right_to_left { Reads::RightToLeft } else { Reads::LeftToRight })
    }
}

/// The largest sheets, folded in the ways that make most work.
fn worst() -> Vec<Scheme> {
    let strip = |fold: &dyn Fn(u32) -> Fold| {
        let folds = (1..1024).rev().map(fold).collect();
        Scheme { rows: 1, columns: 1024, folds, head: Direction::Up, reads: Reads::LeftToRight }
    };
    let lands = |n: u32| if n.is_multiple_of(2) { Lands::Over } else { Lands::Under };
    let accordion = strip(&|left| Fold::new(left, Part::Right, lands(left)));
    let roll = strip(&|_| Fold::new(1, Part::Left, Lands::Over));
    let mut tall = accordion.clone();
    (tall.rows, tall.columns, tall.head) = (1024, 1, Direction::Right);
    tall.folds.iter_mut().for_each(|f| *f = Fold::new(f.after, Part::Bottom, f.lands));
    vec![
        accordion,
        roll,
        tall,
        finished(32, 32, &[0, 1], Reads::LeftToRight),
        finished(32, 32, &[2, 3, 19, 18], Reads::RightToLeft),
        finished(1, 1024, &[0, 16], Reads::LeftToRight),
    ]
}

fn check_pages(scheme: &Scheme) {
    let landing = Landing::of(scheme).unwrap();
    let pages = scheme.pages();
    assert_eq!(landing.pages.len() as u32, pages);
    let mut faces: Vec<Face> = landing.pages.iter().map(|p| p.face).collect();
    faces.sort_unstable();
    faces.dedup();
    assert_eq!(faces.len() as u32, pages, "every page once");

    let halves = halves(scheme);
    for (number, page) in (1..).zip(&landing.pages) {
        assert_eq!(page.page, number);
        assert_eq!(landing.page_on(&page.face), Some(number));
        assert_eq!(page.leaf, number.div_ceil(2));
        let back = landing.page(page.backed_by).unwrap();
        assert_eq!(back.face, page.face.back(), "2k - 1 backs 2k");
        assert_eq!((back.leaf, back.backed_by, back.head.turned_over()), (page.leaf, number, page.head));
        match page.conjugate {
            Some(conjugate) => {
                let other = landing.page(conjugate).unwrap();
                assert_eq!(other.conjugate, Some(number), "conjugates are each other's");
                assert_eq!((other.face.side, other.head), (page.face.side, page.head));
                if halves {
                    assert_eq!(number + conjugate, pages + 1);
                }
            }
            None => assert!(landing.loose_leaves.contains(&page.leaf)),
        }
    }
    assert!(!halves || landing.loose_leaves.is_empty());
    assert_ne!(landing.pages[0].face.side, landing.pages[1].face.side);
    assert_eq!(landing.pages[0].face.side, landing.outer_forme());
}

/// Whether every fold is made in the middle of the packet.
fn halves(scheme: &Scheme) -> bool {
    let (mut rows, mut columns) = (scheme.rows, scheme.columns);
    scheme.folds.iter().all(|fold| {
        let size = if fold.crease == Crease::Vertical { &mut columns } else { &mut rows };
        let middle = 2 * fold.after == *size;
        *size = fold.after.max(size.saturating_sub(fold.after));
        middle
    })
}

fn check_steps(scheme: &Scheme) {
    let folding = Folding::of(scheme).unwrap();
    assert_eq!(folding.stopped, None);
    assert_eq!(folding.steps.len(), scheme.folds.len());
    for (made, step) in folding.steps.iter().enumerate() {
        let before = folding.packet(made);
        assert_eq!(step.after.unfold(&step.turn), *before, "unfolding undoes fold {}", made + 1);
        check_crease(before, step);
        // Painting a large sheet after every fold is most of the work; after every fourth will do.
        if made % 4 == 0 || made + 1 == scheme.folds.len() {
            check_tiles(scheme, &step.after);
        }
    }
    let mut packet = folding.last().clone();
    for step in folding.steps.iter().rev() {
        packet = packet.unfold(&step.turn);
    }
    assert_eq!(packet, Packet::flat(scheme.rows, scheme.columns), "back to the flat sheet");
}

/// The crease lies where the scheme says, and the packet is then as large as the larger part.
fn check_crease(before: &Packet, step: &Step) {
    let (old, new) = (before.extent(), step.after.extent());
    let after = step.turn.fold.after.cast_signed();
    let (start, size, left, across) = match step.turn.fold.crease {
        Crease::Vertical => (old.x0, old.width(), new.width(), new.height() == old.height()),
        Crease::Horizontal => (old.y0, old.height(), new.height(), new.width() == old.width()),
    };
    assert_eq!(step.turn.at, start + after);
    assert_eq!(left, after.max(size - after));
    assert!(across, "as large as before along the crease");
}

fn check_tiles(scheme: &Scheme, packet: &Packet) {
    let mut covered = vec![0u8; scheme.leaves() as usize];
    for layer in &packet.layers {
        for (x, y) in layer.area.cells() {
            covered[(y.unsigned_abs() * scheme.columns + x.unsigned_abs()) as usize] += 1;
        }
    }
    assert!(covered.iter().all(|n| *n == 1), "the layers tile the sheet");
}

/// Neighbours on the sheet lie with opposite sides up, so the sides that are up make a chequerboard.
fn check_chequerboard(scheme: &Scheme) {
    let folding = Folding::of(scheme).unwrap();
    let first = &folding.last().layers[0];
    let parity = |l: &backmark::fold::Layer| (l.area.x0 + l.area.y0).rem_euclid(2) == 0;
    for layer in &folding.last().layers {
        let same = layer.placement.side_up() == first.placement.side_up();
        assert_eq!(same, parity(layer) == parity(first));
    }
}

/// Faces that a fold brings together stay together: they are pages 2j and 2j + 1.
fn check_contacts(scheme: &Scheme) {
    let landing = Landing::of(scheme).unwrap();
    for step in &Folding::of(scheme).unwrap().steps {
        for contact in step.contacts() {
            let [a, b] = [contact.fell, contact.on].map(|f| landing.page_on(&f).unwrap());
            assert!(a.abs_diff(b) == 1 && a.min(b) % 2 == 0, "{a} on {b}");
        }
    }
}

fn check_turned_over(scheme: &Scheme) {
    let folding = Folding::of(scheme).unwrap();
    for (made, fold) in scheme.folds.iter().enumerate() {
        let packet = folding.packet(made);
        let over = packet.turned_over();
        assert_eq!(over.turned_over(), *packet);
        let mut seen = packet.undermost();
        seen.iter_mut().for_each(|row| row.reverse());
        assert_eq!(over.uppermost(), seen, "the underside, left and right exchanged");

        // The same fold of the packet that was turned over.
        let width = packet.extent().width().unsigned_abs();
        let (after, moves) = match fold.moves {
            Part::Left | Part::Right => (width - fold.after, fold.moves.other()),
            part => (fold.after, part),
        };
        let (folded, _) = over.fold(&Fold::new(after, moves, fold.lands.other())).unwrap();
        assert_eq!(folded, folding.packet(made + 1).turned_over());
    }
}

/// The same packet read from its other end: page p becomes page n + 1 - p.
fn check_other_end(scheme: &Scheme) {
    let landing = Landing::of(scheme).unwrap();
    let other_head = Scheme { head: scheme.head.opposite(), ..scheme.clone() };
    let reads = if scheme.reads == Reads::LeftToRight { Reads::RightToLeft } else { Reads::LeftToRight };
    let other_way = Scheme { reads, ..scheme.clone() };
    let both = Scheme { reads, ..other_head.clone() };
    for (other, from_the_end, head_turned) in [(other_head, true, true), (other_way, true, false), (both, false, true)]
    {
        let found = Landing::of(&other).unwrap();
        for page in &landing.pages {
            let number = if from_the_end { scheme.pages() + 1 - page.page } else { page.page };
            let twin = found.page(number).unwrap();
            assert_eq!(twin.face, page.face);
            assert_eq!(twin.head, if head_turned { page.head.opposite() } else { page.head });
        }
    }
}

#[test]
fn the_largest_sheets_keep_the_laws() {
    for scheme in worst() {
        assert_eq!(scheme.leaves(), 1024);
        check_pages(&scheme);
        check_steps(&scheme);
        check_chequerboard(&scheme);
        check_other_end(&scheme);
    }
}

#[test]
fn the_schemes_at_hand_keep_the_laws() {
    for named in backmark::fold::library() {
        check_pages(&named.scheme);
        check_steps(&named.scheme);
        check_contacts(&named.scheme);
        check_turned_over(&named.scheme);
        check_other_end(&named.scheme);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_page_lands_once_and_is_backed(scheme in a_scheme(1024)) {
        check_pages(&scheme);
        check_chequerboard(&scheme);
        check_other_end(&scheme);
    }

    #[test]
    fn unfolding_undoes_folding(scheme in a_scheme(1024)) {
        check_steps(&scheme);
    }

    #[test]
    fn what_touches_stays_together(scheme in a_scheme(128)) {
        check_contacts(&scheme);
    }

    #[test]
    fn turning_the_packet_over_mirrors_everything(scheme in a_scheme(128)) {
        check_turned_over(&scheme);
    }
}

fn any_fold() -> impl Strategy<Value = Fold> {
    let after = prop_oneof![0..6u32, any::<u32>(), Just(u32::MAX), Just(i32::MAX as u32)];
    let crease = prop_oneof![Just(Crease::Vertical), Just(Crease::Horizontal)];
    let moves = prop_oneof![Just(Part::Left), Just(Part::Right), Just(Part::Top), Just(Part::Bottom)];
    let lands = prop_oneof![Just(Lands::Over), Just(Lands::Under)];
    (after, crease, moves, lands).prop_map(|(after, crease, moves, lands)| Fold { crease, after, moves, lands })
}

fn any_head() -> impl Strategy<Value = Direction> {
    prop_oneof![Just(Direction::Up), Just(Direction::Right), Just(Direction::Down), Just(Direction::Left)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_list_of_folds_folds_as_far_as_it_goes(
        rows in prop_oneof![0..5u32, any::<u32>()],
        columns in prop_oneof![0..9u32, any::<u32>()],
        folds in proptest::collection::vec(any_fold(), 0..8),
        head in any_head(),
    ) {
        let scheme = Scheme { rows, columns, folds, head, reads: Reads::LeftToRight };
        let landed = Landing::of(&scheme);
        match Folding::of(&scheme) {
            Err(why) => {
                let size = matches!(why, FoldError::NoPanels { .. } | FoldError::TooManyPanels { .. });
                prop_assert!(size, "{}", why);
                prop_assert_eq!(landed, Err(why));
            }
            Ok(folding) => {
                prop_assert_eq!(folding.stopped.is_some(), folding.steps.len() < scheme.folds.len());
                check_tiles(&scheme, folding.last());
                for (step, made) in folding.steps.iter().zip(0..) {
                    prop_assert_eq!(&step.after.unfold(&step.turn), folding.packet(made));
                }
                match &folding.stopped {
                    Some(why) => {
                        // The reason names the fold after those made.
                        let fold = format!("folds[{}].", folding.steps.len());
                        prop_assert!(why.place().path().starts_with(&fold), "{}", why);
                        prop_assert_eq!(landed, Err(why.clone()));
                    }
                    None => prop_assert_eq!(landed.is_ok(), Section::of(&scheme, &folding).is_ok()),
                }
            }
        }
    }
}

#[test]
fn both_sides_of_a_sheet_hold_half_the_pages() {
    for scheme in worst() {
        let landing = Landing::of(&scheme).unwrap();
        for side in [Side::A, Side::B] {
            assert_eq!(landing.grid(side).iter().flatten().count(), 1024);
        }
    }
}
