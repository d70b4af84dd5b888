//! Plans in sentences.

use super::make_up::{Joined, Made, ODD_BELOW, pages_of};
use super::reckon::SECTION_AIM;
use super::ways::{Suits, Way, Ways};
use super::{Job, Plan, Planned};
use crate::book::told::{Finding, count, fine, list, mm};
use crate::finish::{Severity, mill_folds, most_folds, section};
use crate::units::short;
use std::collections::BTreeMap;

/// "11 sections of 32 pages and 1 of 8": the most frequent first.
pub(super) fn make_up(sections: &[Made]) -> String {
    let mut counts: BTreeMap<u32, u32> = BTreeMap::new();
    for made in sections {
        *counts.entry(pages_of(made)).or_default() += 1;
    }
    let mut counts: Vec<(u32, u32)> = counts.into_iter().collect();
    counts.sort_by_key(|(pages, n)| std::cmp::Reverse((*n, *pages)));
    let named = counts.iter().enumerate().map(|(i, (pages, n))| match i {
        0 => format!("{} of {pages} pages", count(*n, "section", "sections")),
        _ => format!("{n} of {pages}"),
    });
    let mut says = list(&named.collect::<Vec<_>>());
    let insets = sections.iter().filter(|made| made.len() > 1).count() as u32;
    if insets > 0 {
        says.push_str(&format!(
            "; {} put together from several sheets",
            if insets == 1 { "1 is".into() } else { format!("{insets} are") }
        ));
    }
    says
}

/// What concerns every plan of a job.
pub(super) fn of_job(job: &Job, ways: &Ways) -> Vec<Finding> {
    let leaf = job.leaf();
    let mut all = vec![Finding {
        severity: Severity::Fine,
        says: format!("The leaf before the cut is {} × {} mm.", mm(leaf.width), mm(leaf.height)),
        reckoned: format!(
            "{} + {} = {} mm; {} + {} + {} = {} mm",
            mm(job.page.width),
            mm(job.trims.fore_edge),
            mm(leaf.width),
            mm(job.page.height),
            mm(job.trims.head),
            mm(job.trims.foot),
            mm(leaf.height)
        ),
        source: "Geometry.",
    }];
    if ways.iter().all(|w| w.pages < 16) {
        all.push(Finding {
            severity: Severity::Mind,
            says: "The sheet is too small for a section of sixteen pages.".into(),
            reckoned: String::new(),
            source: "Geometry.",
        });
    }
    let even = 16;
    let over = job.extent % even;
    if over > 0 {
        all.push(Finding {
            severity: Severity::Mind,
            says: format!(
                "The extent is no even working: {} pages more or {over} fewer would fill whole sixteens.",
                even - over
            ),
            reckoned: format!("{} = {} × {even} + {over}", job.extent, job.extent / even),
            source: "New Hart's Rules (2005), 1.8: aim for an even working.",
        });
    }
    all
}

/// What is to be said of a plan.
pub(super) fn findings(job: &Job, plan: &Plan, used: &[(&Way, u32)]) -> Vec<Finding> {
    let mut all = Vec::new();
    all.extend(room(job, plan));
    all.extend(odd(plan));
    all.extend(joined(plan));
    all.push(thickness(job, plan));
    for (way, _) in used {
        all.extend(folds(job, way));
    }
    all.extend(grain(used));
    all.extend(paper(job, plan));
    all
}

fn room(job: &Job, plan: &Plan) -> Option<Finding> {
    let source = "Arithmetic.";
    let reckoned = format!("{} − {} = {}", plan.pages, job.extent, i64::from(plan.pages) - i64::from(job.extent));
    if plan.pages < job.extent {
        let says = format!("{} pages find no place in these sections.", job.extent - plan.pages);
        return Some(Finding { severity: Severity::Wrong, says, reckoned, source });
    }
    let says = format!("{} stay blank, or may be filled.", count(plan.blanks, "page", "pages"));
    (plan.blanks > 0).then_some(Finding { severity: Severity::Mind, says, reckoned, source })
}

/// Where small sections stand.
fn odd(plan: &Plan) -> Vec<Finding> {
    let source = "From memory: the first and the last section carry the endpapers and the pull of the case.";
    let usual = usual(&plan.sections);
    let last = plan.sections.len();
    let mut all = Vec::new();
    for (at, section) in (1..).zip(&plan.sections).filter(|(_, s)| s.pages < usual) {
        let end = if at == 1 { Some("first") } else { (at == last).then_some("last") };
        let (severity, says) = match end {
            Some(end) if section.pages < ODD_BELOW => (
                Severity::Mind,
                format!(
                    "The section of {} pages stands {end}. A thin section there gives way under the pull of the case; it \
                     stands better inside the book, or wrapped round or inset into its neighbour.",
                    section.pages
                ),
            ),
            Some(_) => continue,
            None if section.pages == 4 => (
                Severity::Mind,
                format!(
                    "Section {at} has 4 pages: a single fold holds the thread badly, and is better wrapped round its neighbour."
                ),
            ),
            None if at + 1 == last => (
                Severity::Fine,
                format!("The section of {} pages stands last but one, where a whole section covers it.", section.pages),
            ),
            None => (
                Severity::Fine,
                format!("The section of {} pages is number {at} of {last}, inside the book.", section.pages),
            ),
        };
        all.push(Finding { severity, says, reckoned: String::new(), source });
        // Sections of many sizes are told of as far as anyone reads.
        if all.len() == 6 {
            break;
        }
    }
    all
}

/// What is wrapped round or inset.
fn joined(plan: &Plan) -> Vec<Finding> {
    let source = "From memory.";
    let mut all = Vec::new();
    for (at, section) in (1..).zip(&plan.sections) {
        for part in section.parts.iter().filter(|p| p.joined != Joined::Main) {
            let says = if part.joined == Joined::Wrapped {
                format!(
                    "The {} pages left over are wrapped round section {at}, so that they are sewn through its fold. Signature \
                     and back mark of the section then stand on the wrap.",
                    part.pages
                )
            } else {
                format!(
                    "The {} pages left over are laid into the middle of section {at}, so that they are sewn through its fold. \
                     The back shows the mark of the outer part alone.",
                    part.pages
                )
            };
            all.push(Finding { severity: Severity::Fine, says, reckoned: String::new(), source });
            if all.len() == 6 {
                return all;
            }
        }
    }
    all
}

/// How thick the sections are that are most frequent.
fn thickness(job: &Job, plan: &Plan) -> Finding {
    let usual = usual(&plan.sections);
    let most = plan.sections.iter().map(|s| s.pages).max().unwrap_or(0);
    let caliper = job.stock.caliper();
    let (thick, thickest) = (section(usual / 2, caliper), section(most / 2, caliper));
    let [least, limit] = SECTION_AIM;
    let (severity, judged) = if thickest > limit {
        (Severity::Mind, "more than the 2 mm that sew and fold well")
    } else if thick < least {
        (Severity::Mind, "less than 1 mm, so that many sections are sewn and their thread swells the back")
    } else {
        (Severity::Fine, "as it should be: 1 to 2 mm")
    };
    let says = match most == usual || thickest <= limit {
        true => format!("A section of {usual} pages is {} mm thick, squeezed: {judged}.", mm(thick)),
        false => format!("The section of {most} pages is {} mm thick, squeezed: {judged}.", mm(thickest)),
    };
    let (leaves, thick) = if thickest > limit { (most / 2, thickest) } else { (usual / 2, thick) };
    Finding {
        severity,
        says,
        reckoned: format!(
            "{} g/m² × {} cm³/g = {} mm; {leaves} leaves × {} = {} mm",
            short(job.stock.grammage),
            short(job.stock.bulk),
            fine(caliper),
            fine(caliper),
            mm(thick)
        ),
        source: "Thickness: ISO 534. 1 to 2 mm: a worksheet of Brighton University on multi-section binding.",
    }
}

/// The pages that most sections have; of equally many the more.
fn usual(sections: &[Planned]) -> u32 {
    let mut counts: BTreeMap<u32, u32> = BTreeMap::new();
    for section in sections {
        *counts.entry(section.pages).or_default() += 1;
    }
    counts.iter().max_by_key(|(pages, n)| (**n, **pages)).map_or(0, |(pages, _)| *pages)
}

/// Whether the paper takes the folds of a course.
fn folds(job: &Job, way: &Way) -> Vec<Finding> {
    let g = short(job.stock.grammage);
    let (sure, perhaps) = most_folds(job.stock.grammage);
    let (severity, judged) = match way.suits {
        Suits::Yes => (Severity::Fine, "its paper takes them"),
        Suits::Maybe => (Severity::Mind, "with this paper that may go well, if the creases are perforated"),
        Suits::No => (Severity::Wrong, "this paper does not take so many"),
    };
    let mut all = vec![Finding {
        severity,
        says: format!(
            "Sections of {} pages ({}) are folded {}, {} of them at right angles: {judged}.",
            way.pages,
            way.course,
            count(way.folds, "time", "times"),
            way.right_angles
        ),
        reckoned: format!("{g} g/m²: {sure} right-angle folds for sure, {perhaps} perhaps"),
        source: "A rule of thumb, from memory.",
    }];
    if let Some(most) = mill_folds(job.stock.grammage).filter(|most| way.folds > *most) {
        all.push(Finding {
            severity: Severity::Mind,
            says: format!("A paper mill would not fold uncoated paper of {g} g/m² more than {most} times."),
            reckoned: format!("{} > {most}", way.folds),
            source: "fuyinpaper.com, note on offset paper.",
        });
    }
    all
}

fn grain(used: &[(&Way, u32)]) -> Option<Finding> {
    let across: Vec<String> = used.iter().filter(|(w, _)| !w.grain_along).map(|(w, _)| w.pages.to_string()).collect();
    (!across.is_empty()).then(|| Finding {
        severity: Severity::Wrong,
        says: format!(
            "In sections of {} pages the grain runs across the spine: the other way they don't fit on this sheet.",
            list(&across)
        ),
        reckoned: String::new(),
        source: "M. T. Roberts and D. Etherington, Bookbinding and the Conservation of Books (1982), \"against the grain\".",
    })
}

/// Sheets, waste and spoilage.
fn paper(job: &Job, plan: &Plan) -> Vec<Finding> {
    let sum =
        |of: &dyn Fn(&super::PressSheet) -> String| plan.press_sheets.iter().map(of).collect::<Vec<_>>().join("; ");
    let copies = job.copies;
    let spoilt = plan.sheets_run - plan.sheets_net;
    let percent = |v: f64| short((v * 10.0).round() / 10.0);
    let share = 100.0 * spoilt as f64 / plan.sheets_net.max(1) as f64;
    let different: u32 = plan.press_sheets.iter().map(|s| s.different).sum();
    vec![
        Finding {
            severity: Severity::Fine,
            says: format!(
                "{copies} copies take {} sheets, {} to a copy.",
                plan.sheets_net,
                short(plan.sheets_per_copy)
            ),
            reckoned: sum(&|s| {
                format!("{} × {} pages, {} to a sheet: {} sheets", s.sections, s.pages, s.on_sheet, s.sheets_net)
            }),
            source: "Arithmetic: sections that fill no sheet stand on it as often as they go.",
        },
        Finding {
            severity: Severity::Fine,
            says: format!(
                "{} % of that paper does not come into the book before the trim.",
                percent(plan.waste_percent)
            ),
            reckoned: sum(&|s| format!("{} pages: {} % cut off the sheet", s.pages, percent(s.cut_off_percent))),
            source: "Arithmetic: 1 − leaves × leaf / (sheets × sheet).",
        },
        Finding {
            severity: Severity::Fine,
            says: format!(
                "About {spoilt} sheets more are spoilt in setting up the folder, folding and gathering, {} %. Over all \
                 operations 5 % and more is usual, and varnish doubles it.",
                percent(share)
            ),
            reckoned: format!(
                "40 × {} + 1.1 % for folding (2.2 % of fours) + 1 % for gathering = {spoilt}",
                count(different, "different sheet", "different sheets")
            ),
            source: "Trade figures of American Printer (1996), finishlinebinderies.com and postpressmag.com (2005).",
        },
    ]
}
