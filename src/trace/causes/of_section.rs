//! What press, folder and hands can have done inside a section: the causes that give its pages, as the check of a section
//! has them, and the machines behind them.

use super::draft::{Draft, Wish, likes};
use crate::fold::misfold::{self, Card, Happened, Mark};
use crate::gather::Fault;
use crate::marks::Found;
use crate::trace::extent::Likely;
use crate::trace::inside::Opened;
use crate::trace::told::{InsideCause, Stage};
use crate::trace::words::small;

/// What stands behind a cause inside a section.
struct Behind {
    kind: &'static str,
    stage: Stage,
    likes: Likely,
    remedy: &'static str,
    note: &'static str,
}

const REFOLD: &str = "Fold the section again if its perforation allows; otherwise replace it from the overs.";
const REPRINT: &str = "Print the section again; the bindery can't mend it. For a few books a cancel leaf may do.";
const REPLACE: &str = "Replace the section from the overs.";

const SET_UP: Behind = Behind {
    kind: "folder_set_up",
    stage: Stage::Folder,
    likes: likes::SET_UP,
    remedy: REFOLD,
    note: "A setting of the folder spoils every section from the moment it was set.",
};
const FED: Behind = Behind {
    kind: "sheet_fed_wrong",
    stage: Stage::Folder,
    likes: likes::LIFT,
    remedy: REFOLD,
    note: "A pile laid the wrong way spoils one lift.",
};
const PILE: Behind = Behind {
    kind: "pile_turned",
    stage: Stage::Press,
    likes: likes::PRESS_PILE,
    remedy: REPRINT,
    note: "It spoils the pile from where it was turned, and the back mark looks right.",
};

/// What stands behind something that was done to a section.
fn behind(happened: &Happened) -> Behind {
    use misfold::{Cause, Stranger};
    match happened {
        Happened::Sheet(cause) => match cause {
            Cause::FoldOtherWay { .. } | Cause::FoldFromOtherEdge { .. } => SET_UP,
            Cause::SheetEndForEnd | Cause::SheetTurnedOver { .. } => FED,
            Cause::SecondSideTurnedRound => PILE,
            Cause::SecondSideBlank { .. } => Behind {
                kind: "missed_pass",
                likes: likes::SHEET,
                remedy: REPLACE,
                note: "A sheet that missed a pass comes alone, or a few together.",
                ..PILE
            },
            Cause::WrongSecondSide => Behind {
                kind: "wrong_plate",
                likes: likes::PLATE,
                note: "Its twin, with the other two sides, may lie in the section whose pages stand here.",
                ..PILE
            },
            Cause::PagesExchanged { .. } | Cause::PageHeadDown { .. } => Behind {
                kind: "forme_wrong",
                likes: likes::PLATE,
                note: "Every sheet from that plate shows it.",
                ..PILE
            },
            Cause::SectionLies { .. } => Behind {
                kind: "lift_turned",
                stage: Stage::Gathering,
                likes: likes::LIFT,
                remedy: "Turn the section before sewing, and look through the rest of its lift.",
                note: "The section itself is right.",
            },
            Cause::DoubleSheet => Behind {
                kind: "double_sheet",
                likes: likes::SHEET,
                remedy: REPLACE,
                note: "It bulks twice as much as one section.",
                ..SET_UP
            },
            Cause::Together { causes } => {
                causes.first().map_or(SET_UP, |first| behind(&Happened::Sheet(first.clone())))
            }
        },
        Happened::Stranger(stranger) => match stranger {
            Stranger::OtherSection { .. } => Behind {
                kind: "wrong_pile",
                stage: Stage::Gathering,
                likes: likes::LIFT,
                remedy: "Take the wrong section out and put the right one in.",
                note: "A whole section of another number stands here.",
            },
            Stranger::LanesMixed { .. } => Behind {
                kind: "deliveries_mixed",
                likes: likes::MIXED,
                remedy: "Sort the bundles again by their signatures.",
                note: "Two deliveries of one slit sheet came into one pile.",
                ..SET_UP
            },
            Stranger::HalfSheet { .. } => PILE,
            Stranger::OuterSheet { cause } | Stranger::InsetSheet { cause } => behind(&Happened::Sheet(cause.clone())),
            Stranger::InsetLeftOut
            | Stranger::OuterLeftOut
            | Stranger::InsetOfOtherSection { .. }
            | Stranger::InsetTwice { .. }
            | Stranger::InsetLies { .. }
            | Stranger::InsetOutside
            | Stranger::InsetBeside { .. } => Behind {
                kind: "inset_wrong",
                likes: [0.5, 0.3, 1.0, 0.4, 0.1, 0.4, 0.5],
                remedy: "Take the section apart, and lay the inset in again.",
                note: "Insets are laid in by hand or by a station of their own.",
                ..SET_UP
            },
            _ => Behind {
                kind: "leaf_wrong",
                stage: Stage::Hand,
                likes: likes::ONCE,
                remedy: REPLACE,
                note: "A single leaf is a matter of hands, or of a cancel.",
            },
        },
        Happened::Together(_) => happened.parts().first().map_or(SET_UP, behind),
    }
}

/// The causes of the pages inside a section. `faults` is what the book's row shows beside it; a blank back at this section
/// goes with a fold that hides the mark.
pub(in crate::trace) fn drafts(opened: &Opened, faults: &[Fault], row: Option<&[Found]>) -> Vec<Draft> {
    let Some(told) = &opened.told else { return vec![unknown(opened, faults)] };
    let mut all = Vec::new();
    for card in &told.causes {
        let Some(cause) = &card.cause else {
            all.push(unknown(opened, faults));
            continue;
        };
        let mut first = draft(opened, faults, row, cause, &card.title);
        first.check.clone_from(&card.next_check);
        all.push(first);
        for alike in &card.alike {
            let mut other = draft(opened, faults, row, &alike.cause, &alike.title);
            other.check = check_of(&alike.cause, card, &alike.tell);
            all.push(other);
        }
    }
    all
}

/// The check for a look-alike: its own, and what tells it from the first.
fn check_of(cause: &Happened, card: &Card, tell: &str) -> String {
    let own = cause.parts().into_iter().filter_map(|part| match part {
        Happened::Sheet(cause) => Some(cause.next_check()),
        _ => None,
    });
    let own = own.collect::<Vec<_>>().join(" Then: ");
    let own = if own.is_empty() { card.next_check.clone() } else { own };
    if tell.is_empty() { own } else { format!("{own} {tell}") }
}

fn draft(opened: &Opened, faults: &[Fault], row: Option<&[Found]>, cause: &Happened, title: &str) -> Draft {
    let s = opened.section;
    let behind = behind(cause);
    let mut draft = Draft::new(behind.kind, behind.stage, faults, format!("In section {s}, {}", small(title)))
        .of(s)
        .remedy(behind.remedy)
        .likes(behind.likes)
        .note(behind.note);
    if behind.stage == Stage::Gathering {
        draft = draft.at(s).wish(Wish::Reload(vec![s]));
    }
    // Two things at once are as likely as both together (from memory: each about one in fifty of such books).
    let parts = cause.parts().len() as i32 - 1;
    draft.weight = 0.02f64.powi(parts.max(0));
    if let (Some(row), Some(mark)) = (row, opened.mark_of(cause)) {
        let shows = row.iter().any(|found| matches!(found, Found::Section { section, .. } if *section == s));
        let blank = row.contains(&Found::NoMark);
        match mark {
            Mark::Blank if shows => {
                draft
                    .refused
                    .push(format!("Then the mark of section {s} would not be on its back. On the spine it shows."));
            }
            Mark::Shows if blank && !shows => {
                draft.refused.push(format!("Then the mark of section {s} would show. On the spine its back is blank."));
            }
            Mark::Blank if blank => {
                draft.notes.push("Its mark is then folded in: the blank back goes with it.".to_owned())
            }
            Mark::Shows if shows => {
                draft.notes.push("Its mark then shows as if nothing were wrong, as it does on the spine.".to_owned());
            }
            _ => {}
        }
    }
    draft.inside = Some(inside(opened, Some(cause.clone())));
    draft
}

fn inside(opened: &Opened, cause: Option<Happened>) -> InsideCause {
    InsideCause {
        section: opened.section,
        first_page: opened.first_page,
        typed: misfold::print_pages(&opened.pages),
        fore_edge: opened.fold_at == misfold::FoldAt::ForeEdge,
        scheme: opened.scheme.clone(),
        cause,
    }
}

/// Pages that nothing known gives: what holds all the same is the stage.
fn unknown(opened: &Opened, faults: &[Fault]) -> Draft {
    let s = opened.section;
    let mut draft = if opened.torn.is_empty() {
        Draft::new("folder_set_up", Stage::Folder, faults, format!("Section {s} was folded or put together wrongly."))
            .remedy(REFOLD)
            .note("Each leaf carries its own two pages, so it was not the press.")
            .check(format!("Lay a passed section {s} beside it, open both flat, and compare them fold by fold."))
    } else {
        Draft::new("pile_turned", Stage::Press, faults, format!("Section {s} was printed wrongly."))
            .remedy(REPRINT)
            .note("Leaves do not carry their own two pages, and no fold parts the two sides of a leaf.")
            .check(format!("Open section {s} flat beside a passed sheet, and compare side by side."))
    };
    draft.inside = Some(inside(opened, None));
    draft.section = Some(s);
    draft
}
