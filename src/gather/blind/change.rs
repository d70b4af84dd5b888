//! Small changes of a design, the smallest first, and the first that removes a blind spot.
//!
//! What counts as small is this program's own order: shifting costs least, printing more costs most.
//!
//! A change counts only if the design can still be printed (nothing new stands in the trim, beside the back or on
//! another bar), if everything acted out again shows the blind spot gone, and if the marks are blind to nothing that they showed before.

use std::mem::{Discriminant, discriminant};

use serde::Serialize;

use super::acts::Books;
use super::say::length;
use super::sight::{Blind, Sight, shows_ends};
use super::table::{Table, Why};
use crate::marks::{AfterWrap, BackMarks, Backs, HeadMarks, Inset, Label, Runs, Warning};
use crate::units::between;

/// Designs that are acted out to the end for one blind spot.
const ACTED: usize = 8;

/// The most that the first bar is shifted, in half millimetres.
const SHIFTS: u32 = 40;

/// A changed design.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Change {
    /// What is changed, in a sentence or two.
    pub says: String,
    /// The whole design with it.
    pub marks: BackMarks,
}

/// A design that may be tried.
struct Candidate {
    change: Change,
    /// What is known of it by the looks of its backs, once they were looked at.
    looked: Option<Looked>,
    /// Which blind spots it has, and whether it is blind to more than before, once it was acted out.
    acted: Option<(Vec<Why>, bool)>,
}

/// What the looks of the backs say of a design.
struct Looked {
    /// Nothing on the backs fits worse than before.
    fits: bool,
    small_step: bool,
    blind: Vec<Why>,
}

/// All changes of a design that are tried, the smallest first.
pub(super) struct Candidates<'a> {
    sections: u32,
    backs: &'a Backs,
    books: &'a Books,
    before: Vec<Blind>,
    misfits: Vec<Discriminant<Warning>>,
    all: Vec<Candidate>,
}

impl<'a> Candidates<'a> {
    /// Thinks up the changes of a design.
    pub(super) fn of(
        sections: u32,
        marks: &BackMarks,
        backs: &'a Backs,
        title: &str,
        books: &'a Books,
        sight: &Sight,
    ) -> Self {
        let mut more = Vec::new();
        more.extend(ends(marks));
        more.extend(columns(marks, backs));
        more.extend(widths(marks, backs));
        more.extend(head(marks, sections, backs));
        more.extend(levels(marks, sections, backs));
        let mut all = Vec::new();
        // Two changes at once: a shift and something else.
        for (cost, first) in &more {
            for (also, second) in shifts(&first.marks) {
                let says = format!("{} {}", first.says, second.says);
                all.push((cost + also, Change { says, marks: second.marks }));
            }
        }
        all.extend(more);
        all.extend(shifts(marks));
        all.extend(steps(marks));
        all.extend(labels(marks, sections, backs, title));
        all.retain(|(_, change)| change.marks.check(sections).is_ok());
        all.sort_by(|(one, _), (other, _)| one.total_cmp(other));
        let misfits = marks.misfits(sections, backs).iter().map(discriminant).collect();
        let before = sight.blind.clone();
        let all = all.into_iter().map(|(_, change)| Candidate { change, looked: None, acted: None }).collect();
        Self { sections, backs, books, before, misfits, all }
    }

    /// The smallest change that removes a blind spot.
    pub(super) fn first_without(&mut self, why: Why) -> Option<Change> {
        if matches!(why, Why::BlankBack | Why::PressFault | Why::InnerBlank | Why::ReadOtherwise) {
            return None;
        }
        let mut acted = 0;
        for at in 0..self.all.len() {
            if !self.may_do(at, why) {
                continue;
            }
            let (sections, books) = (self.sections, self.books);
            let candidate = self.all.get_mut(at)?;
            let before = &self.before;
            let (blind, more) = candidate.acted.get_or_insert_with(|| {
                acted += 1;
                let marks = &candidate.change.marks;
                let sight = Sight::of(books, &Table::of(marks, sections), marks);
                let more = sight.blind.iter().zip(before).any(|(now, before)| now > before);
                (sight.by_why.into_keys().collect(), more)
            });
            if !blind.contains(&why) && !*more {
                return Some(candidate.change.clone());
            }
            if acted >= ACTED {
                return None;
            }
        }
        None
    }

    /// Whether a change may remove a blind spot, as far as the looks of its backs say.
    fn may_do(&mut self, at: usize, why: Why) -> bool {
        let Some(candidate) = self.all.get_mut(at) else { return false };
        let marks = &candidate.change.marks;
        if why == Why::NoGap && !shows_ends(marks, self.sections) {
            return false;
        }
        let looked = candidate.looked.get_or_insert_with(|| {
            let misfits = marks.misfits(self.sections, self.backs);
            let fits = misfits.iter().all(|misfit| self.misfits.contains(&discriminant(misfit)));
            let blind = if fits { Table::of(marks, self.sections).blind() } else { Vec::new() };
            Looked { fits, small_step: misfits.iter().any(|w| matches!(w, Warning::SmallStep { .. })), blind }
        });
        looked.fits && !looked.blind.contains(&why) && !(why == Why::Scatter && looked.small_step)
    }
}

/// To a tenth of a millimetre, downwards.
fn tenth(value: f64) -> f64 {
    (value * 10.0 + 1e-6).floor() / 10.0
}

/// To half a millimetre, downwards.
fn half(value: f64) -> f64 {
    (value * 2.0 + 1e-6).floor() / 2.0
}

/// The first bar shifted, by up to one step.
fn shifts(marks: &BackMarks) -> Vec<(f64, Change)> {
    let most = ((2.0 * marks.step_mm()) as u32).min(SHIFTS);
    let mut shifts = Vec::new();
    for by in (1..=most).map(|halves| f64::from(halves) / 2.0) {
        for by in [by, -by] {
            let mut marks = marks.clone();
            let (first, from) = match &mut marks.inset {
                Inset::Through { head } => (&mut head.first_mm, "from the spine"),
                _ if marks.runs == Runs::Up => (&mut marks.stairs.first_mm, "from the tail"),
                _ => (&mut marks.stairs.first_mm, "from the head"),
            };
            *first += by;
            if *first < 0.0 {
                continue;
            }
            let says = format!("Let the first bar begin {} {from}.", length(*first));
            shifts.push((by.abs(), Change { says, marks }));
        }
    }
    shifts
}

/// A somewhat larger or smaller step.
fn steps(marks: &BackMarks) -> Vec<(f64, Change)> {
    let mut steps = Vec::new();
    for by in (1..=8).map(|halves| f64::from(halves) / 2.0) {
        for by in [by, -by] {
            let mut marks = marks.clone();
            let (step, bar) = match &mut marks.inset {
                Inset::Through { head } => (&mut head.step_mm, &mut head.length_mm),
                _ => (&mut marks.stairs.step_mm, &mut marks.stairs.length_mm),
            };
            *step += by;
            if *step <= 0.0 {
                continue;
            }
            *bar = bar.min(*step);
            let says = format!("Make the step {}, with bars of {}.", length(*step), length(*bar));
            steps.push((5.0 + by.abs(), Change { says, marks }));
        }
    }
    steps
}

/// Longer bars on the first and the last section.
fn ends(marks: &BackMarks) -> Vec<(f64, Change)> {
    let bar = marks.stairs.length_mm;
    let longer = [2.0, 1.5].map(|times| half(bar * times)).into_iter().filter(|ends_mm| *ends_mm > bar);
    let change = |ends_mm: f64| {
        let says = format!("Print bars of {} on the first and the last section.", length(ends_mm));
        (12.0, Change { says, marks: BackMarks { ends_mm: Some(ends_mm), ..marks.clone() } })
    };
    longer.map(change).collect()
}

/// A second column; on a thin back its bars are half as wide as that.
fn columns(marks: &BackMarks, backs: &Backs) -> Vec<(f64, Change)> {
    let narrow = backs.thickness_mm.map(|thick| tenth(thick / 2.0)).filter(|width| *width >= 0.2);
    let all = [Some((marks.width_mm, marks.width_mm + 0.5)), narrow.map(|width| (width.min(marks.width_mm), width))];
    let change = |(width_mm, apart_mm): (f64, f64)| {
        let bars =
            if width_mm == marks.width_mm { String::new() } else { format!(", with bars {} wide", length(width_mm)) };
        let says = format!(
            "Set the bars of every second turn in a second column, {} beside the first{bars}.",
            length(apart_mm)
        );
        let after_wrap = AfterWrap::Column { apart_mm };
        (25.0, Change { says, marks: BackMarks { width_mm, after_wrap, ..marks.clone() } })
    };
    all.into_iter().flatten().map(change).collect()
}

/// Bars of another width in every second turn.
fn widths(marks: &BackMarks, backs: &Backs) -> Vec<(f64, Change)> {
    let thick = backs.thickness_mm.filter(|thick| *thick < 2.0 * marks.width_mm).map(tenth);
    let (first, second) = match thick {
        Some(thick) => (tenth(thick - 1.0).min(marks.width_mm), thick),
        None => (marks.width_mm, 2.0 * marks.width_mm),
    };
    if first < 0.2 {
        return Vec::new();
    }
    let says = format!("Make the bars {} wide, and those of every second turn {}.", length(first), length(second));
    let after_wrap = AfterWrap::Width { width_mm: second };
    vec![(30.0, Change { says, marks: BackMarks { width_mm: first, after_wrap, ..marks.clone() } })]
}

/// Every section on a level of its own, or, where folds scatter, as many levels as leave room for that.
fn levels(marks: &BackMarks, sections: u32, backs: &Backs) -> Vec<(f64, Change)> {
    let stairs = marks.stairs;
    let room = stairs.spine_mm - stairs.first_mm - backs.foot_trim_mm.unwrap_or(0.0);
    let with = |step_mm: f64, levels: u32, says: String| {
        let mut marks = marks.clone();
        marks.stairs.step_mm = step_mm;
        marks.stairs.length_mm = stairs.length_mm.min(step_mm);
        marks.stairs.levels = levels;
        Change { says, marks }
    };
    let mut changes = Vec::new();
    let least = (backs.least_step_mm() * 2.0).ceil() / 2.0;
    // The last bar needs its length, which is a step at the most.
    let own = half(room / f64::from(sections.max(1)));
    if sections > stairs.levels {
        let says = format!("Let the staircase go on down: {sections} levels of {}.", length(stairs.step_mm));
        changes.push((8.0, with(stairs.step_mm, sections, says)));
    }
    if own > 0.0 && sections > stairs.levels {
        let says = format!("Give every section a level of its own: {sections} steps of {}.", length(own));
        changes.push((20.0, with(own, sections, says)));
    }
    if stairs.step_mm < least {
        let fit = ((room / least) as u32).clamp(1, sections.max(1));
        let says = format!("Make the step {}, and begin again after {fit} levels.", length(least));
        let wider = with(least, fit, says);
        for (cost, column) in columns(&wider.marks, backs) {
            let says = format!("{} {}", wider.says, column.says);
            changes.push((22.0 + cost, Change { says, ..column }));
        }
        changes.push((22.0, wider));
    }
    changes
}

/// A number or a title on every back, where there is room for it behind the last bar or before the first.
fn labels(marks: &BackMarks, sections: u32, backs: &Backs, title: &str) -> Vec<(f64, Change)> {
    let short = title.trim().chars().take(12).collect::<String>();
    let short = if short.is_empty() { "Title".to_owned() } else { short };
    let old = marks.label.as_ref();
    let numbered = old.is_some_and(|label| label.number);
    let titled = old.map(|label| label.title.clone()).filter(|title| !title.is_empty());
    let all = [
        (40.0, true, titled.clone().unwrap_or_default(), "Print the number of the section on every back"),
        (42.0, numbered, titled.clone().unwrap_or_else(|| short.clone()), "Print the short title on every back"),
        (48.0, true, titled.unwrap_or(short), "Print number and short title on every back"),
    ];
    let mut changes = Vec::new();
    for (cost, number, title, says) in all {
        // About 8, 7 and 6 points (from memory: what is still read at arm's length).
        let of_how_many = old.is_some_and(|label| label.of_how_many);
        let sized = |size_mm: f64| Label { number, of_how_many, title: title.clone(), from_mm: 0.0, size_mm };
        // About 8, 7 and 6 points (from memory: what is still read at arm's length).
        let placed = [2.8, 2.5, 2.1].into_iter().find_map(|size_mm| {
            let label = sized(size_mm);
            let from_mm = free(marks, sections, backs, label.length_mm(sections))?;
            Some(Label { from_mm, ..label })
        });
        if let Some(label) = placed {
            let (size, from) = (length(label.size_mm), length(label.from_mm));
            let says = format!("{says}, in letters of {size} from {from} from the head.");
            changes.push((cost, Change { says, marks: BackMarks { label: Some(label), ..marks.clone() } }));
        }
    }
    changes
}

/// Where something so long is free of the bars and the trims: behind the last bar, before the first.
fn free(marks: &BackMarks, sections: u32, backs: &Backs, long: f64) -> Option<f64> {
    let bars = (1..=sections).map(|section| marks.bar(section, sections).ends_mm());
    let (begin, end) = bars.fold((f64::MAX, 0.0_f64), |(least, most), (b, e)| (least.min(b), most.max(e)));
    let head = backs.head_trim_mm.unwrap_or(0.0) + 1.0;
    let foot = marks.stairs.spine_mm - backs.foot_trim_mm.unwrap_or(0.0) - 1.0;
    let behind = (end * 10.0).ceil() / 10.0 + 1.0;
    let before = tenth(begin - 1.0 - long);
    (behind + long <= foot).then_some(behind).or((before >= head).then_some(before))
}

/// Bars in the head trim of inner sheets.
fn head(marks: &BackMarks, sections: u32, backs: &Backs) -> Option<(f64, Change)> {
    let Inset::Sheets { sheets, head: None } = marks.inset else { return None };
    let levels = f64::from(marks.stairs.levels.min(sections));
    // On a leaf of about 100 mm and more; the bar keeps 10 mm off the spine (from memory).
    let step_mm = between(half(90.0 / levels.max(1.0)), 0.5, 5.0);
    let depth_mm = backs.head_trim_mm.filter(|trim| *trim > 0.0).unwrap_or(3.0).min(3.0);
    let head = HeadMarks { first_mm: 10.0, step_mm, length_mm: step_mm, depth_mm };
    let says = format!(
        "Print bars of {} in the head trim of the inner sheets, the first one 10 mm from the spine, each next one {} farther.",
        length(step_mm),
        length(step_mm)
    );
    Some((
        35.0,
        Change { says, marks: BackMarks { inset: Inset::Sheets { sheets, head: Some(head) }, ..marks.clone() } },
    ))
}
