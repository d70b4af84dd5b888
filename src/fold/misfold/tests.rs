//! The rules of misfolding come from comparing: with a comparison that always agrees, or never does, none comes out.

use super::acted::acts_out_all;
use super::cause::{Cause, Lies, Stage};
use super::explain::{Explained, FoldAt, FoundPage, explain_by};
use super::labels::{self, Agrees};
use crate::fold::{Crease, Direction, Scheme, Side, library};

fn sixteen() -> Scheme {
    library().into_iter().find(|n| n.name == "Sixteen, three folds").unwrap().scheme
}

fn all(found: &Explained) -> Vec<Cause> {
    found.causes.iter().flat_map(|e| std::iter::once(&e.cause).chain(&e.same_pages_as)).cloned().collect()
}

/// The rules that come out of a comparison, each a name and whether it did.
fn rules(agrees: Agrees) -> Vec<(&'static str, bool)> {
    let scheme = sixteen();
    let explained = |fold_at: FoldAt, pages: &[FoundPage]| explain_by(agrees, &scheme, 1, fold_at, pages).unwrap();
    let of = |cause: &Cause| -> Vec<Explained> {
        let ways = acts_out_all(&scheme, 1, cause).unwrap();
        ways.iter().map(|acted| explained(acted.fold_at, &acted.pages)).collect()
    };
    // The causes of the first way alone are these, in this order; the rest are pairs.
    let looks = |cause: &Cause, singles: &[Cause]| {
        let found = of(cause).first().map(all).unwrap_or_default();
        let alone: Vec<Cause> = found.into_iter().filter(|c| !matches!(c, Cause::Together { .. })).collect();
        alone == singles
    };
    let [way, edge]: [fn(u32) -> Cause; 2] =
        [|fold| Cause::FoldOtherWay { fold }, |fold| Cause::FoldFromOtherEdge { fold }];
    let over = |about| Cause::SheetTurnedOver { about };
    let lies = |lies| Cause::SectionLies { lies };
    let two = |a: Cause, b: Cause| Cause::Together { causes: vec![a, b] };
    let staged = |cause: &Cause, stage| of(cause).iter().all(|e| e.causes.first().is_some_and(|c| c.stage == stage));
    let right = |cause: &Cause| of(cause).iter().all(|e| e.right);
    let twice: Vec<FoundPage> =
        (0..32u32).map(|i| FoundPage { page: Some(1 + i % 16), head: Some(Direction::Up) }).collect();
    let one_after_other = all(&explained(FoldAt::Spine, &twice)).contains(&Cause::DoubleSheet);
    let fold_1 = [way(1), over(Crease::Vertical)];
    let fold_2 = [way(2), Cause::SheetEndForEnd];
    let press = [Cause::SecondSideTurnedRound, Cause::WrongSecondSide, Cause::SecondSideBlank { side: Side::A }];
    vec![
        (
            "fold 1 the other way looks like the sheet turned over",
            looks(&fold_1[0], &fold_1) && looks(&fold_1[1], &fold_1),
        ),
        ("fold 2 the other way looks like end for end", looks(&fold_2[0], &fold_2) && looks(&fold_2[1], &fold_2)),
        ("fold 3 the other way looks like nothing else", looks(&way(3), &[way(3)])),
        ("the last fold from the other edge is right, and fold 1 so is not", right(&edge(3)) && !right(&edge(1))),
        (
            "fold 1 from the other edge looks like folds 2 and 3",
            of(&edge(1)).iter().all(|e| all(e).contains(&two(way(2), way(3)))),
        ),
        (
            "turned over top to bottom is folds 1 and 2",
            of(&over(Crease::Horizontal)).iter().all(|e| all(e).contains(&two(way(1), way(2)))),
        ),
        ("broken leaf pairs are the press", press.iter().all(|c| staged(c, Stage::Press))),
        ("whole leaf pairs are the folder", (1..=3).all(|f| staged(&way(f), Stage::Folder))),
        ("two sheets as one repeat every leaf", looks(&Cause::DoubleSheet, &[Cause::DoubleSheet]) && !one_after_other),
        (
            "three ways to lie",
            [Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide].into_iter().all(|l| looks(&lies(l), &[lies(l)])),
        ),
        (
            "two pages exchanged",
            looks(&Cause::PagesExchanged { pages: [6, 7] }, &[Cause::PagesExchanged { pages: [6, 7] }]),
        ),
        ("a page head down", looks(&Cause::PageHeadDown { page: 5 }, &[Cause::PageHeadDown { page: 5 }])),
    ]
}

#[test]
fn every_rule_comes_out_of_the_comparison() {
    for (rule, holds) in rules(labels::same) {
        assert!(holds, "{rule}");
    }
}

#[test]
fn no_rule_comes_out_without_it() {
    for agrees in [(|_, _| true) as Agrees, |_, _| false] {
        for (rule, holds) in rules(agrees) {
            assert!(!holds, "{rule}");
        }
    }
}

/// Half a comparison is not enough, either: numbers alone can't tell heads, and heads alone can't tell numbers.
#[test]
fn some_rules_fail_by_half_a_comparison() {
    let numbers: Agrees = |shown, found| labels::same(shown, &FoundPage { head: None, ..*found });
    let heads: Agrees = |shown, found| {
        let number = shown.and_then(|(page, _)| u32::try_from(page).ok());
        labels::same(shown, &FoundPage { page: found.page.and(number), ..*found })
    };
    for agrees in [numbers, heads] {
        assert!(rules(agrees).iter().any(|(_, holds)| !holds));
    }
}
