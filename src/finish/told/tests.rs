use super::*;
use crate::fold::{Course, Direction, Fold, Lands, Part, Reads, Scheme, library};
use crate::paper::Grain;

fn mm(v: i64) -> Length {
    Length::from_whole_mm(v)
}

fn scheme(start: &str) -> Scheme {
    library().into_iter().find(|n| n.name.starts_with(start)).unwrap().scheme
}

/// What is told of a sheet folded whole, as severity, sentence and sum.
fn told_of(scheme: &Scheme, measure: &Measure, change: impl Fn(&mut Work)) -> Vec<Finding> {
    let worked = Worked::in_the_making(&Course::of_scheme(scheme)).unwrap();
    let stock = Stock { grammage: 80.0, bulk: 1.25, grain: Grain::Upright };
    let nest = vec![0];
    let mut work = Work {
        worked: &worked,
        nest: &nest,
        measure,
        stock,
        trims: Trims::default(),
        page: None,
        margins: Some(Margins { fore_edge: mm(15), ..Margins::default() }),
    };
    change(&mut work);
    told(&work)
}

fn says(all: &[Finding], about: About) -> Vec<(Severity, &str)> {
    all.iter().filter(|f| f.about == about).map(|f| (f.severity, f.says.as_str())).collect()
}

/// 32 pages at 0.1 mm: 1 × 0.1 × 7 and π/2 × 0.1 × 7 mm.
#[test]
fn a_thirty_two_of_quad_demy() {
    let scheme = scheme("Thirty-two, four");
    let measure = Measure::equal(4, 4, mm(564), mm(888));
    let all = told_of(&scheme, &measure, |_| {});
    assert_eq!(
        says(&all, About::Size),
        [(Severity::Fine, "A leaf is 141 × 222 mm, the page after the cut 138 × 216 mm.")]
    );
    let creep: Vec<&Finding> = all.iter().filter(|f| f.about == About::Creep).collect();
    assert_eq!(creep[0].says, "The innermost leaves stand out by 0.7 mm if folds are sharp, 1.1 mm if they are round.");
    assert_eq!(creep[0].reckoned, "32 pages at 0.1 mm: 1 × 0.1 × 7 = 0.7 mm; 1.57 × 0.1 × 7 = 1.1 mm");
    assert_eq!(
        creep[1].says,
        "The smallest outer margin after the cut is that of leaf 8 (pages 15 and 16): 14.3 mm, 13.9 mm with round folds."
    );
    assert_eq!(creep[1].reckoned, "15 − 0.7 = 14.3 mm; 15 − 1.1 = 13.9 mm");
    assert_eq!(
        says(&all, About::Air),
        [(
            Severity::Mind,
            "4 right-angle folds: air is shut in. Slit or perforate the crease of fold 2 (2 layers) before fold 3 and the \
             crease of fold 3 (4 layers) before fold 4."
        )]
    );
    assert_eq!(
        says(&all, About::Folds)[..2],
        [
            (Severity::Wrong, "4 right-angle folds are too many for paper of 80 g/m²: 3 at the most."),
            (Severity::Mind, "A mill's note allows uncoated paper of 80 g/m² only 3 folds, and there are 4.")
        ]
    );
    assert_eq!(says(&all, About::Grain), [(Severity::Fine, "The grain runs along the spine, as it should.")]);
    assert_eq!(says(&all, About::Thickness), [(Severity::Fine, "The section is 1.6 mm thick, pressed flat.")]);
}

#[test]
fn a_sixteen_on_which_the_sources_disagree() {
    let measure = Measure::equal(2, 4, mm(564), mm(444));
    let all = told_of(&scheme("Sixteen, three"), &measure, |w| w.stock.grammage = 90.0);
    assert_eq!(
        says(&all, About::Folds)[..2],
        [
            (Severity::Fine, "3 right-angle folds suit paper of 90 g/m²."),
            (
                Severity::Mind,
                "A mill's note allows uncoated paper of 90 g/m² only 2 folds, and there are 3. Here the two rules disagree; \
                 try it on the stock."
            )
        ]
    );
    let heavy = told_of(&scheme("Sixteen, three"), &measure, |w| w.stock.grammage = 130.0);
    assert!(
        says(&heavy, About::Folds)
            .contains(&(Severity::Mind, "3 right-angle folds are as many as paper of 130 g/m² may just take."))
    );
    assert!(says(&heavy, About::Folds).contains(&(Severity::Mind, "Paper of 130 g/m² is scored before it is folded.")));
}

#[test]
fn knives_that_do_not_reach() {
    let measure = Measure::equal(2, 4, mm(564), mm(444));
    let all = told_of(&scheme("Sixteen, three"), &measure, |w| {
        w.trims = Trims { head: Length::from_um(200), foot: mm(3), fore_edge: Length::ZERO, bleed: mm(3) };
        w.page = Some(Size { width: mm(138), height: mm(220) });
    });
    assert_eq!(
        says(&all, About::Bolts),
        [
            (Severity::Fine, "The knife at the head takes 0.2 mm and opens 2 of 4 bolts there: leaves 1–4 and 5–8."),
            (
                Severity::Wrong,
                "At the head 2 bolts stay closed: leaves 2–3 and 6–7. The knife takes 0.2 mm and would have to take \
                 0.26 mm."
            ),
            (Severity::Mind, "Nothing is cut at the fore-edge, where 2 bolts stay closed: leaves 5–6 and 7–8."),
        ]
    );
    assert!(
        says(&all, About::Size)
            .contains(&(Severity::Wrong, "The page should be 138 × 220 mm: it is 3 mm too wide and 1.2 mm too low."))
    );
    let bolt = all.iter().find(|f| f.about == About::Bolts && f.severity == Severity::Wrong).unwrap();
    assert_eq!(bolt.reckoned, "The deepest bolt wants 1.57 × 0.1 × 1 + 0.1 = 0.26 mm");
    assert!(
        says(&all, About::Creep).iter().any(|(_, s)| s.starts_with("The bleed of 3 mm is more than the knife takes"))
    );
}

#[test]
fn a_lip_and_a_short_panel() {
    let folio = Scheme { rows: 1, columns: 2, folds: vec![Fold::new(1, Part::Right, Lands::Over)], ..scheme("Four") };
    let measure = Measure { columns: vec![mm(150), mm(160)], rows: vec![mm(200)] };
    let all = told_of(&folio, &measure, |_| {});
    assert_eq!(
        says(&all, About::Size)[1],
        (
            Severity::Fine,
            "The back half stands out by 10 mm at the fore-edge, a high-folio lip: enough for a gripper. The knife cuts it off."
        )
    );
    let letter = Scheme {
        rows: 3,
        columns: 1,
        folds: vec![Fold::new(2, Part::Bottom, Lands::Over), Fold::new(1, Part::Top, Lands::Over)],
        head: Direction::Left,
        reads: Reads::LeftToRight,
    };
    let measure = Measure { columns: vec![mm(150)], rows: vec![mm(100), mm(100), mm(95)] };
    let all = told_of(&letter, &measure, |_| {});
    assert_eq!(
        says(&all, About::Size)[1],
        (Severity::Mind, "Not all leaves are alike: leaf 2 (pages 3 and 4) is 5 mm narrower.")
    );
    assert!(says(&all, About::Bolts).iter().any(|(_, s)| s.starts_with("The spine does not hold leaf")), "{all:?}");
}

#[test]
fn what_is_no_section_yet_says_so() {
    let made = Scheme { folds: vec![Fold::new(2, Part::Right, Lands::Over)], ..scheme("Sixteen, three") };
    let all = told_of(&made, &Measure::equal(2, 4, mm(600), mm(400)), |_| {});
    assert_eq!(all[0].severity, Severity::Wrong);
    assert!(all[0].says.starts_with("Piece 1 is no section yet (300 × 400 mm): "), "{}", all[0].says);
    assert!(says(&all, About::Bolts).is_empty());
}

/// Whatever numbers come from a form: no panic, and every finding has a sentence and a source.
#[test]
fn any_paper_is_told() {
    let odd = [0.0, -3.0, f64::NAN, f64::INFINITY, 1e300, 80.0];
    for named in library() {
        let Scheme { rows, columns, .. } = named.scheme;
        for grammage in odd {
            for bulk in odd {
                for trim in [0, 3, -5, 900, i64::MAX / 1_000_000_000] {
                    let measure = Measure::equal(rows, columns, mm(1000), mm(700));
                    let all = told_of(&named.scheme, &measure, |w| {
                        w.stock = Stock { grammage, bulk, grain: Grain::Level };
                        w.trims = Trims { head: mm(trim), foot: mm(trim), fore_edge: mm(trim), bleed: mm(trim) };
                    });
                    assert!(all.iter().all(|f| f.says.ends_with('.') && !f.source.is_empty()), "{all:?}");
                }
            }
        }
    }
}
