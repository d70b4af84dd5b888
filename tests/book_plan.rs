//! Making books up in sections: worked examples of the trade, and laws.

#![allow(clippy::unwrap_used, reason = "what tests call may panic as tests may")]

use backmark::book::{Job, Joined, Plan, plan};
use backmark::finish::{Severity, Size};
use backmark::fold::{Nest, Worked, courses};
use backmark::paper::{Grain, Length, Stock, Trims};
use proptest::prelude::*;
use std::collections::BTreeMap;

const fn size(width: i64, height: i64) -> Size {
    Size { width: Length::from_whole_mm(width), height: Length::from_whole_mm(height) }
}

/// A demy octavo on quad demy, whose untrimmed leaf is 141 × 222 mm: eight by four leaves fill the sheet.
fn demy(extent: u32) -> Job {
    Job {
        extent,
        page: size(138, 216),
        trims: Trims::default(),
        sheet: size(1128, 888),
        stock: Stock { grammage: 80.0, bulk: 1.25, grain: Grain::Upright },
        copies: 3_000,
    }
}

fn pages(plan: &Plan) -> Vec<u32> {
    plan.pages_of_sections()
}

/// 360 pages in thirty-twos are eleven and an eight, which stands last but one (make-up and place of the odd section: common
/// practice, from memory).
#[test]
fn three_hundred_and_sixty_pages() {
    let plans = plan(&demy(360), None).unwrap();
    let made: Vec<Vec<u32>> = plans.plans.iter().map(pages).collect();
    let wanted = [&[32; 10][..], &[8, 32]].concat();
    let found = plans.plans.iter().find(|p| pages(p) == wanted).unwrap();
    assert_eq!(found.says, "11 sections of 32 pages and 1 of 8");
    assert!(found.findings.iter().any(|f| f.says.contains("The section of 8 pages stands last but one")), "{found:?}");
    assert_eq!(made[0], wanted);
    // An eight inset into a thirty-two makes it 2 mm thick, which is as much as may be, and is one more work.
    let inset = [&[32; 9][..], &[40, 32]].concat();
    assert_eq!(made[1], inset, "{made:?}");
    // Twelve thirty-twos need more paper, and twenty-two sixteens more folding and sewing.
    let at = |sections: &[u32]| made.iter().position(|m| m == sections).unwrap();
    assert!(at(&[32; 12]) > 1 && at(&[&[16; 21][..], &[8, 16]].concat()) > 1);
    assert!(
        plans.plans[at(&[32; 12])].behind.contains("% more than the first plan"),
        "{:?}",
        plans.plans[at(&[32; 12])]
    );
}

/// A book of 160 pages, five thirty-twos, is cheaper than one of 156, which needs a sixteen, an eight and a four beside four
/// thirty-twos (southwoodpress.com.au, on even workings; *New Hart's Rules*, 1.8).
#[test]
fn an_even_working_is_cheaper() {
    let plans = plan(&demy(156), None).unwrap();
    let made: Vec<Vec<u32>> = plans.plans.iter().map(pages).collect();
    assert_eq!((&made[0], plans.plans[0].blanks), (&vec![32; 5], 4));
    let apart = made.iter().position(|m| *m == [32, 32, 32, 16, 8, 4, 32]).unwrap();
    let (even, apart) = (&plans.plans[0], &plans.plans[apart]);
    assert!(even.folded_per_copy < apart.folded_per_copy && !apart.behind.is_empty());
    let even = plan(&demy(160), None).unwrap();
    assert_eq!((pages(&even.plans[0]), even.plans[0].blanks), (vec![32; 5], 0));
}

/// By hand: eleven thirty-twos on quad demy, of which two go on a sheet, are five sheets and one that gives two copies; of the
/// eight, eight go on a sheet. 40 sheets are spoilt for each, 1.1 % in folding and 1 % in gathering (*American Printer*,
/// 1996).
#[test]
fn sheets_of_a_run() {
    let plans = plan(&demy(360), Some(&[&[32; 10][..], &[8, 32]].concat())).unwrap();
    let made = plans.by_hand.unwrap();
    let numbers: Vec<_> =
        made.press_sheets.iter().map(|s| (s.on_sheet, s.different, s.sheets_net, s.sheets_run)).collect();
    let thirty_twos = 5 * 3_000 + 1_500;
    assert_eq!(
        numbers,
        [(2, 6, thirty_twos, thirty_twos + 347 + 240), (8, 1, 375, 375 + 8 + 40)],
        "2.1 % of 16,500 is 346.5, of 375 7.9"
    );
    assert_eq!(made.sheets_per_copy, 5.5 + 0.125);
    assert!(made.waste_percent.abs() < 1e-9, "quad demy gives 32 leaves of 141 × 222 mm: {}", made.waste_percent);
    assert_eq!(
        made.press_sheets[0].whole_sheet, None,
        "no course at hand slits it into two by three folds and a parallel"
    );
}

/// Sections of four pages spoil twice as much as sixteens (postpressmag.com, 2005). By hand: sixteen fours on a sheet, four of
/// them four times each; 750 sheets, of which 2 × 1.1 % and 1 %, and 40 for the set-up, are spoilt.
#[test]
fn fours_spoil_twice_as_much() {
    let made = plan(&demy(16), Some(&[4; 4])).unwrap().by_hand.unwrap();
    let sheet = &made.press_sheets[0];
    assert_eq!((sheet.on_sheet, sheet.sheets_net, sheet.sheets_run), (16, 750, 750 + 24 + 40));
}

/// A four is not sewn by itself, and an eight does not stand last, where they can be wrapped round or laid into a neighbour
/// (from memory).
#[test]
fn odd_sections_are_joined_rather_than_weak() {
    let hundred = plan(&demy(100), None).unwrap().plans;
    assert_eq!(pages(&hundred[0]), [32, 36, 32]);
    assert_eq!(hundred[0].sections[1].parts[0].joined, Joined::Wrapped);
    let apart = hundred.iter().find(|p| pages(p) == [32, 32, 4, 32]).unwrap();
    assert!(apart.behind.contains("a four is sewn by itself"), "{}", apart.behind);
    let forty = plan(&demy(40), None).unwrap().plans;
    assert_eq!(pages(&forty[0]), [40]);
    let last = forty.iter().find(|p| pages(p) == [32, 8]).unwrap();
    assert!(last.behind.contains("first or last"), "{}", last.behind);
}

/// Waste of a leaf that does not fill the sheet, by hand: 32 leaves of 141 × 222 mm on 1200 × 900 mm.
#[test]
fn waste_by_the_leaf() {
    let job = Job { sheet: size(1200, 900), ..demy(320) };
    let made = &plan(&job, None).unwrap().plans[0];
    let waste = 100.0 * (1.0 - 32.0 * 141.0 * 222.0 / (1200.0 * 900.0));
    assert!((made.waste_percent - waste).abs() < 1e-9 && (made.press_sheets[0].cut_off_percent - waste).abs() < 1e-9);
}

/// Heavier paper takes fewer folds: 150 g/m² no thirty-two folded as one, and the first plan has none; 80 g/m² of bulk 2 makes
/// thirty-twos of 2.56 mm.
#[test]
fn paper_decides_the_section() {
    let heavy = Job { stock: Stock { grammage: 150.0, bulk: 0.9, grain: Grain::Upright }, ..demy(320) };
    let first = &plan(&heavy, None).unwrap().plans[0];
    assert!(first.findings.iter().all(|f| f.severity != Severity::Wrong), "{first:?}");
    assert_eq!(first.press_sheets[0].course, "Sixteen, two parallel and right angle");
    let bulky = Job { stock: Stock { grammage: 80.0, bulk: 2.0, grain: Grain::Upright }, ..demy(320) };
    assert_eq!(pages(&plan(&bulky, None).unwrap().plans[0]), [16; 20]);
}

/// Grain: on the same sheet with the grain the other way the leaves stand turned, if they go on it so, or it is said.
#[test]
fn the_grain_runs_along_the_spine() {
    let level = Stock { grain: Grain::Level, ..demy(320).stock };
    let turned = plan(&Job { stock: level, ..demy(320) }, None).unwrap();
    assert!(turned.plans[0].press_sheets.iter().all(|s| s.turned));
    let small = Job { stock: level, sheet: size(282, 222), ..demy(32) };
    let only = &plan(&small, None).unwrap().plans[0];
    assert!(only.findings.iter().any(|f| f.severity == Severity::Wrong && f.says.contains("across the spine")));
}

#[test]
fn a_make_up_by_hand_is_checked() {
    let by_hand = |pages: &[u32]| plan(&demy(360), Some(pages));
    let says = |pages: &[u32]| {
        by_hand(pages).unwrap().by_hand.unwrap().findings.into_iter().map(|f| f.says).collect::<String>()
    };
    assert!(says(&[&[8][..], &[32; 11]].concat()).contains("stands first"));
    assert!(says(&[&[32; 11][..], &[8]].concat()).contains("stands last."));
    assert!(says(&[32; 11]).contains("8 pages find no place"));
    let wrapped = by_hand(&[&[32; 9][..], &[40, 32]].concat()).unwrap().by_hand.unwrap();
    let parts: Vec<_> = wrapped.sections[9].parts.iter().map(|p| (p.pages, p.joined)).collect();
    assert_eq!(parts, [(32, Joined::Main), (8, Joined::Inset)]);
    let four = by_hand(&[36]).unwrap().by_hand.unwrap();
    assert_eq!(four.sections[0].parts[0].joined, Joined::Wrapped);
    for (pages, at) in [(&[][..], "made_up"), (&[32, 6], "made_up[1]"), (&[0], "made_up[0]"), (&[132], "made_up[0]")] {
        assert_eq!(by_hand(pages).unwrap_err().at, at);
    }
    assert_eq!(by_hand(&[4; 401]).unwrap_err().at, "made_up");
}

#[test]
fn jobs_that_are_none_are_refused() {
    let at = |job: Job| plan(&job, None).unwrap_err().at;
    assert_eq!(at(demy(0)), "extent");
    assert_eq!(at(demy(12_801)), "extent");
    // In fours alone 1,604 pages are more sections than can be told.
    assert_eq!(at(Job { sheet: size(300, 230), ..demy(1_604) }), "extent");
    assert_eq!(at(Job { copies: 0, ..demy(32) }), "copies");
    assert_eq!(at(Job { page: size(9, 216), ..demy(32) }), "page");
    assert_eq!(at(Job { sheet: size(200, 200), ..demy(32) }), "sheet");
    assert_eq!(at(Job { stock: Stock { grammage: f64::NAN, ..demy(32).stock }, ..demy(32) }), "paper");
    let trims = Trims { head: Length::from_whole_mm(600), ..Trims::default() };
    assert_eq!(at(Job { trims, ..demy(32) }), "trims");
}

/// What the plan says of a course is what the engine makes of it: its pages, and that pages 1 to n land once each.
#[test]
fn the_courses_of_a_plan_fold_what_it_says() {
    let all = courses();
    let mut seen: BTreeMap<&str, u32> = BTreeMap::new();
    for extent in [20, 44, 60, 156, 360] {
        for plan in plan(&demy(extent), None).unwrap().plans {
            seen.extend(plan.sections.iter().flat_map(|s| &s.parts).map(|p| (p.course, p.pages)));
            for sheet in plan.press_sheets {
                if let Some(whole) = sheet.whole_sheet {
                    let course = &all.iter().find(|c| c.name == whole).unwrap().course;
                    let worked = Worked::of(course).unwrap();
                    let sections: Vec<u32> = course.copies[0].iter().map(|nest| worked.pages_of(nest)).collect();
                    assert_eq!(sections, vec![sheet.pages; sheet.on_sheet as usize], "{whole}");
                }
            }
        }
    }
    assert!(seen.len() >= 6, "{seen:?}");
    for (name, pages) in seen {
        let course = &all.iter().find(|c| c.name == name).unwrap().course;
        let worked = Worked::of(course).unwrap();
        let nest: &Nest = &course.copies[0][0];
        assert_eq!((worked.pages_of(nest), course.copies[0].len()), (pages, 1), "{name}");
        let landing = worked.landing(0, 0).unwrap();
        assert!((1..=pages).zip(&landing.pages).all(|(n, p)| p.page == n) && landing.loose_leaves.is_empty(), "{name}");
    }
}

fn any_job() -> impl Strategy<Value = Job> {
    let stock = (20.0..300.0_f64, 0.6..2.5_f64, any::<bool>());
    let stock = stock.prop_map(|(grammage, bulk, level)| Stock {
        grammage,
        bulk,
        grain: if level { Grain::Level } else { Grain::Upright },
    });
    let sheet = (400..1600_i64, 400..1600_i64);
    (1..1200_u32, (80..220_i64, 80..320_i64), sheet, stock, 1..20_000_u32).prop_map(
        |(extent, page, sheet, stock, copies)| Job {
            extent,
            page: size(page.0, page.1),
            trims: Trims::default(),
            sheet: size(sheet.0, sheet.1),
            stock,
            copies,
        },
    )
}

/// What holds for every plan of a job.
fn check(job: &Job, plan: &Plan) {
    assert_eq!(plan.pages, job.extent + plan.blanks, "the sum of the sections is the extent and the blanks");
    let mut next = 1;
    for section in &plan.sections {
        assert_eq!((section.first_page, section.last_page), (next, next + section.pages - 1), "every page once");
        assert_eq!(section.parts.iter().map(|p| p.pages).sum::<u32>(), section.pages);
        assert_eq!(section.parts.iter().filter(|p| p.joined == Joined::Main).count(), 1);
        next += section.pages;
    }
    assert_eq!(next, plan.pages + 1);
    // The sheets hold every section of every copy.
    let parts: usize = plan.sections.iter().map(|s| s.parts.len()).sum();
    assert_eq!(plan.press_sheets.iter().map(|s| s.sections as usize).sum::<usize>(), parts);
    for sheet in &plan.press_sheets {
        let room = sheet.sheets_net * u64::from(sheet.on_sheet);
        assert!(room >= u64::from(sheet.sections) * u64::from(job.copies));
        assert!(sheet.sheets_run > sheet.sheets_net && sheet.cut_off_percent > -1e-9);
    }
    assert!(plan.waste_percent > -1e-9 && plan.waste_percent < 100.0);
    assert!(plan.findings.iter().all(|f| !f.says.is_empty() && !f.source.is_empty()));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]

    #[test]
    fn every_plan_holds_every_page_once(job in any_job()) {
        match plan(&job, None) {
            Ok(plans) => {
                prop_assert!(!plans.plans.is_empty() && plans.plans[0].behind.is_empty());
                prop_assert!(plans.plans.iter().skip(1).all(|p| !p.behind.is_empty()));
                plans.plans.iter().for_each(|p| check(&job, p));
                let all: Vec<_> = plans.plans.iter().map(|p| &p.sections).collect();
                prop_assert!(all.iter().enumerate().all(|(i, a)| !all[..i].contains(a)), "no plan twice");
            }
            Err(refused) => prop_assert!(matches!(refused.at.as_str(), "sheet" | "trims"), "{}", refused),
        }
    }

    #[test]
    fn a_make_up_by_hand_is_told_or_refused(pages in proptest::collection::vec(0..33_u32, 0..20)) {
        let fours: Vec<u32> = pages.iter().map(|n| 4 * n).collect();
        if let Ok(plans) = plan(&demy(200), Some(&fours)) {
            let made = plans.by_hand.unwrap();
            prop_assert_eq!(made.sections.iter().map(|s| s.pages).collect::<Vec<_>>(), fours.clone());
            if made.pages >= 200 {
                check(&demy(200), &made);
            }
        } else {
            prop_assert!(fours.is_empty() || fours.contains(&0) || fours.iter().any(|n| *n > 128));
        }
        if !pages.is_empty() && pages.iter().any(|n| n % 4 != 0) {
            prop_assert!(plan(&demy(200), Some(&pages)).is_err());
        }
    }
}
