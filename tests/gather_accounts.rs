//! Explanations accounted for: every kind of fault has its reasons, its remedy and the book it makes; other odds rank
//! otherwise and explain nothing else.

#![expect(clippy::unwrap_used, reason = "a test may panic")]

use backmark::gather::explain::{Account, accounts, farther};
use backmark::gather::run::{parse_run, print_run};
use backmark::gather::{Fault, Found, Lies, Odds, explain, explain_with, retold};
use proptest::prelude::*;

fn accounted(odds: &Odds, sections: u32, run: &str) -> Vec<Account> {
    let found = parse_run(run).unwrap();
    accounts(odds, sections, &found, &explain_with(odds, sections, &found).unwrap(), 100)
}

fn whole(sentence: &str) -> bool {
    sentence.starts_with(|first: char| first.is_uppercase()) && sentence.ends_with('.') && !sentence.contains("  ")
}

#[test]
fn every_kind_of_fault_has_its_account() {
    let kinds = [
        Fault::Missing { section: 5 },
        Fault::Double { section: 5 },
        Fault::WrongSection { at: 5, section: 9 },
        Fault::WrongSection { at: 5, section: 6 },
        Fault::Exchanged { sections: [5, 6] },
        Fault::Exchanged { sections: [2, 9] },
        Fault::Lies { section: 5, lies: Lies::HeadToTail },
        Fault::Lies { section: 5, lies: Lies::TurnedInPlane },
        Fault::Lies { section: 5, lies: Lies::SideToSide },
        Fault::Foreign { at: 5 },
        Fault::NoMark { at: 5 },
        Fault::Moved { sections: [3, 6], after: 10 },
        Fault::Moved { sections: [7, 7], after: 3 },
        Fault::Moved { sections: [1, 5], after: 12 },
        Fault::Reversed,
    ];
    let mut remedies = Vec::new();
    for fault in kinds {
        let found = retold(12, &[fault]);
        let told = accounted(&Odds::default(), 12, &print_run(&found));
        assert_eq!(told.len(), 1, "{fault:?}");
        let one = &told[0];
        assert_eq!(one.faults, [fault]);
        assert_eq!((one.makes.as_slice(), parse_run(&one.run).unwrap()), (found.as_slice(), found.clone()));
        assert!(whole(&one.why) && whole(&one.remedy) && whole(&one.next_check), "{one:#?}");
        assert!(one.why_not.is_empty() && !one.says.is_empty());
        assert!(!one.seen_if.is_empty() && one.seen_if.iter().all(|sentence| whole(sentence)), "{one:#?}");
        assert_eq!(one.caution.is_empty(), matches!(fault, Fault::Lies { .. }));
        remedies.push(one.remedy.clone());
        // A row that is shifted round may be a book divided wrong, which is mended otherwise.
        for also in &one.same_order_as {
            assert_eq!(also.faults, [Fault::DividedWrong { after: 5 }]);
            assert!(
                whole(&also.remedy) && whole(&also.next_check) && also.seen_if.iter().all(|s| whole(s)),
                "{also:?}"
            );
            assert_ne!(also.remedy, one.remedy);
            remedies.push(also.remedy.clone());
        }
    }
    assert_eq!(remedies.len(), kinds.len() + 1);
    let all = remedies.len();
    remedies.sort();
    remedies.dedup();
    // Turned in its plane and turned from side to side are mended alike.
    assert_eq!(remedies.len(), all - 1);
}

/// Station 6 held section 5: it looks like a double, but section 6 is missing. (A binder's example: count the sections.)
#[test]
fn the_next_one_takes_two_faults_and_leaves_other_piles_short() {
    let found = parse_run("1-5 5 7").unwrap();
    let explained = explain(7, &found).unwrap();
    let next = farther(&Odds::default(), 7, &found, &explained, 3);
    assert_eq!(next[0].faults, [Fault::Double { section: 5 }, Fault::Missing { section: 6 }]);
    assert_eq!(
        next[0].why_not,
        "It takes two faults where one fault explains the book. For it, this would have to be seen: The pile of section 5 \
         comes out one short. The books on either side are likely right. A copy of section 6 lies over at its station."
    );
    // A right book has nothing further, nor one that is not explained.
    for run in ["1-7", "7 3 5 1 2 2 2 4"] {
        let found = parse_run(run).unwrap();
        assert!(farther(&Odds::default(), 7, &found, &explain(7, &found).unwrap(), 3).is_empty());
    }
}

#[test]
fn what_is_less_likely_says_by_how_much_and_what_would_be_seen() {
    // Three sections the wrong way round: the ends exchanged, or the whole row laid backwards.
    let told = accounted(&Odds::default(), 3, "3 2 1");
    assert_eq!(told.len(), 2);
    assert_eq!(told[0].faults, [Fault::Exchanged { sections: [1, 3] }]);
    assert_eq!(
        told[0].why,
        "One fault explains the book, and nothing explains it with fewer. Among the 2 explanations with as few it has \
         62.5 of 100 parts, by how often such faults are met: two piles far apart that changed places (5)."
    );
    assert_eq!(
        told[1].why_not,
        "It takes as many faults as the first, but is 1.67 times less likely: piles laid from the wrong end (3) instead of \
         two piles far apart that changed places (5). For it, this would have to be seen: All books since the piles were \
         laid run backwards."
    );
    let odds = Odds { reversed: 50.0, ..Odds::default() };
    let told = accounted(&odds, 3, "3 2 1");
    assert_eq!(told[0].faults, [Fault::Reversed]);
    assert!(told[1].why_not.contains("10 times less likely"), "{}", told[1].why_not);
    let odds = Odds { reversed: 5.0, ..Odds::default() };
    let told = accounted(&odds, 3, "3 2 1");
    assert!(told[0].why.ends_with("Two of them are as likely; only what is seen besides decides."), "{}", told[0].why);
    assert!(told[1].why_not.contains("is as likely"), "{}", told[1].why_not);
}

#[test]
fn figures_out_of_bounds_are_refused_by_name() {
    let odds = Odds { moved_one: 0.0, ..Odds::default() };
    assert_eq!(explain_with(&odds, 3, &[]).unwrap_err().at, "odds.moved_one");
}

fn any_odds() -> impl Strategy<Value = Odds> {
    prop::array::uniform13(0.01..1000.0_f64).prop_map(|f| Odds {
        missing: f[0],
        double: f[1],
        wrong_load: f[2],
        wrong_load_beside: f[3],
        foreign: f[4],
        no_mark: f[5],
        lies: f[6],
        exchanged_beside: f[7],
        exchanged: f[8],
        moved: f[9],
        moved_one: f[10],
        shifted: f[11],
        reversed: f[12],
    })
}

fn any_book() -> impl Strategy<Value = Vec<Found>> {
    let back = prop_oneof![
        8 => (1..=5_u32).prop_map(Found::right),
        1 => (1..=5_u32).prop_map(|section| Found::Section { section, lies: Lies::HeadToTail }),
        1 => Just(Found::NoMark),
        1 => Just(Found::Foreign),
        1 => Just(Found::Unread),
    ];
    prop::collection::vec(back, 2..7)
}

/// Is this book the one that was found, as far as its backs were read?
fn fits(makes: &[Found], found: &[Found]) -> bool {
    makes.len() == found.len() && makes.iter().zip(found).all(|(one, seen)| *seen == Found::Unread || one == seen)
}

/// The same sections, each lying right.
fn laid_right(found: &[Found]) -> Vec<Found> {
    let right = |found: &Found| match *found {
        Found::Section { section, .. } => Found::right(section),
        other => other,
    };
    found.iter().map(right).collect()
}

proptest! {
    /// The odds change the order and the shares, and nothing else.
    #[test]
    fn other_odds_rank_the_same_explanations(odds in any_odds(), found in any_book()) {
        let [at_hand, other] = [Odds::default(), odds].map(|odds| explain_with(&odds, 5, &found).unwrap());
        let lists = |explained: &backmark::gather::Explained| {
            let mut lists = explained.explanations.iter().map(|one| one.faults.clone()).collect::<Vec<_>>();
            lists.sort();
            lists
        };
        if at_hand.complete && other.complete {
            prop_assert_eq!(lists(&at_hand), lists(&other));
        }
        let told = accounts(&odds, 5, &found, &other, 20);
        prop_assert_eq!(told.len(), other.explanations.len().min(20));
        for (place, one) in told.iter().enumerate() {
            prop_assert!(whole(&one.why) && whole(&one.remedy), "{:#?}", one);
            prop_assert_eq!(one.why_not.is_empty(), place == 0);
            prop_assert!(fits(&one.makes, &found), "{:?} makes {:?}", one.faults, one.makes);
            prop_assert!(place == 0 || whole(&one.why_not), "{}", one.why_not);
        }
        for next in farther(&odds, 5, &found, &other, 5) {
            prop_assert!(next.faults.len() > other.explanations[0].faults.len());
            prop_assert!(whole(&next.why_not), "{}", next.why_not);
            let makes = retold(5, &next.faults);
            prop_assert_eq!(makes.len(), found.len());
            prop_assert!(fits(&laid_right(&makes), &laid_right(&found)), "{:?} makes {:?}", next.faults, makes);
        }
    }
}
