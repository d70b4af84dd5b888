//! Reading the row of marks on a spine.
//!
//! One mark within a third of a step of a level's middle may be any section on that level, or, mirrored, a section
//! that lies head to tail. Which of several candidates it is follows from the whole row: the cheapest run is taken in
//! which each back follows the one before. A back without a section of this book uses up one number. The costs are
//! this program's own choice; they only order candidates, and every candidate is told as a doubt.
//!
//! Cost: backs times candidates a back, in time and memory.

use serde::Serialize;

use super::{BackMarks, Design, Found, Lies, MOST_SECTIONS, Refusal, Seen, SeenBack};

/// The most marks taken from one back. A bound of this program.
const MOST_MARKS: usize = 100;

/// The most candidates told for one back: those nearest the section due. A bound of this program.
const MOST_COULD_BE: usize = 60;

/// One section is skipped or comes twice.
const NEAR_JUMP: u32 = 80;
/// The row goes on somewhere else.
const JUMP: u32 = 100;
/// The section lies head to tail: dearer than one jump forward, cheaper than the two jumps of a stray section.
const TURNED: u32 = 90;
/// A mark at the very end of its reach.
const OUT_OF_PLACE: f64 = 10.0;

/// A back that may be read otherwise.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Doubt {
    /// The place of the back, from 1.
    pub at: u32,
    /// What it could be, the reading chosen among it where one was chosen; at most 60, those nearest the section due.
    pub could_be: Vec<Found>,
}

/// A whole spine, read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reading {
    /// What was found, from front to back.
    pub found: Vec<Found>,
    /// Where the marks leave a choice, ascending.
    pub doubts: Vec<Doubt>,
}

/// What the marks of one back allow.
enum Back {
    /// One mark that fits: each candidate with the cost of its distance, and what it could be besides when it stands
    /// rather between two levels.
    Fits(Vec<(Found, u32)>, Vec<Found>),
    /// Nothing of this book, perhaps with a doubt.
    Other(Found, Vec<Found>),
}

/// Reads the backs of a book of `sections` sections, from front to back, by the heights of a plain staircase.
///
/// # Errors
/// Where the design or what was seen is of no use, and why.
pub fn read_spine(sections: u32, design: &Design, seen: &[Seen]) -> Result<Reading, Refusal> {
    let backs = seen.iter().cloned().map(SeenBack::from).collect::<Vec<_>>();
    read_backs(sections, &(*design).into(), &backs)
}

/// The same by everything that was seen: where the bars have columns, widths or lengths, or a number stands beside
/// them, sections on one level are told apart by what was noted of it.
///
/// # Errors
/// As [`read_spine`].
pub fn read_backs(sections: u32, design: &BackMarks, seen: &[SeenBack]) -> Result<Reading, Refusal> {
    design.check(sections).map_err(|refusal| match refusal.at.as_str() {
        "sections" => refusal,
        at => Refusal::new(format!("marks.{at}"), refusal.says),
    })?;
    if seen.len() > MOST_SECTIONS as usize {
        return Err(Refusal::new("seen", format!("At most {MOST_SECTIONS} backs are read.")));
    }
    let mut backs = Vec::with_capacity(seen.len());
    for (at, back) in seen.iter().enumerate() {
        backs.push(look(sections, design, back, at)?);
    }
    let (chosen, due) = cheapest_run(sections, &backs);
    let mut reading = Reading { found: Vec::with_capacity(backs.len()), doubts: Vec::new() };
    for (at, back) in (1..).zip(&backs) {
        let index = at as usize - 1;
        let due = due[index];
        let (found, could_be) = match back {
            Back::Fits(candidates, besides) => {
                let found = candidates[chosen[index]].0;
                let all = candidates.iter().map(|&(found, _)| found).chain(besides.iter().copied()).collect::<Vec<_>>();
                (found, if all.len() > 1 { all } else { Vec::new() })
            }
            Back::Other(Found::Unread, _) => {
                let section = (1..=sections).contains(&due).then_some(Found::right(due));
                let could_be = section.into_iter().chain([Found::NoMark, Found::Foreign]);
                (Found::Unread, could_be.collect())
            }
            Back::Other(found, could_be) => (*found, could_be.clone()),
        };
        let could_be = nearest(could_be, found, due);
        reading.found.push(found);
        if !could_be.is_empty() {
            reading.doubts.push(Doubt { at, could_be });
        }
    }
    Ok(reading)
}

/// The candidates told: all of them, or those nearest the section due, and always the one found.
fn nearest(could_be: Vec<Found>, found: Found, due: u32) -> Vec<Found> {
    if could_be.len() <= MOST_COULD_BE {
        return could_be;
    }
    let far = |one: &Found| match *one {
        Found::Section { section, .. } if *one != found => section.abs_diff(due),
        _ => 0,
    };
    let mut sorted = could_be.iter().enumerate().collect::<Vec<_>>();
    sorted.sort_by_key(|(_, one)| far(one));
    sorted.truncate(MOST_COULD_BE);
    sorted.sort_by_key(|(index, _)| *index);
    sorted.into_iter().map(|(_, one)| *one).collect()
}

/// What one back may be, by its own marks alone.
fn look(sections: u32, design: &BackMarks, seen: &SeenBack, at: usize) -> Result<Back, Refusal> {
    let sizes = [("width_mm", seen.width_mm), ("length_mm", seen.length_mm)];
    if let Some((field, _)) = sizes.into_iter().find(|(_, size)| size.is_some_and(|size| !size.is_finite())) {
        return Err(Refusal::new(format!("seen[{at}].{field}"), "This is a plain number of millimetres."));
    }
    let Some(marks) = &seen.marks_mm else {
        return Ok(by_number(sections, design, seen));
    };
    if marks.len() > MOST_MARKS {
        return Err(Refusal::new(
            format!("seen[{at}].marks_mm"),
            format!("At most {MOST_MARKS} marks are taken from one back."),
        ));
    }
    if let Some(bad) = marks.iter().position(|mark| !mark.is_finite()) {
        return Err(Refusal::new(
            format!("seen[{at}].marks_mm[{bad}]"),
            "A mark's height is a plain number of millimetres.",
        ));
    }
    let mark = match marks.as_slice() {
        [] => return Ok(Back::Other(Found::NoMark, Vec::new())),
        [mark] => *mark,
        _ => return Ok(Back::Other(Found::Foreign, Vec::new())),
    };
    // A millionth of a millimetre: sums of decimal fractions are not exact.
    let reach = design.reach_mm() + 1e-6;
    if seen.title_ours == Some(false) {
        return Ok(Back::Other(Found::Foreign, Vec::new()));
    }
    let ways = all_ways(sections).filter(|&(_, section, lies)| seen.could_be(design, section, sections, lies));
    let ways = ways.collect::<Vec<_>>();
    let within = |limit: f64| {
        let fits = |(found, section, lies): (Found, u32, Lies)| {
            let far = (middle(design, section, lies) - mark).abs();
            (far <= limit).then(|| {
                let out_of_place = (far / reach * OUT_OF_PLACE).round() as u32;
                let turned = if lies == Lies::Right { 0 } else { TURNED };
                (found, out_of_place + turned)
            })
        };
        ways.iter().copied().filter_map(fits).collect::<Vec<_>>()
    };
    let candidates = within(reach);
    if !candidates.is_empty() {
        return Ok(Back::Fits(candidates, Vec::new()));
    }
    let neighbours = ways
        .iter()
        .copied()
        .filter(|&(_, section, lies)| (middle(design, section, lies) - mark).abs() < design.step_mm())
        .map(|(found, ..)| found)
        .collect::<Vec<_>>();
    // A fold that is out by less than half a step still reads as its own level, but not for certain.
    let nearest = within(design.step_mm() / 2.0 + 1e-6);
    let besides = neighbours.into_iter().chain([Found::Foreign]);
    let besides = besides.filter(|found| nearest.iter().all(|(near, _)| near != found)).collect::<Vec<_>>();
    Ok(match (nearest.is_empty(), besides.as_slice()) {
        (false, _) => Back::Fits(nearest, besides),
        (true, [Found::Foreign]) => Back::Other(Found::Foreign, Vec::new()),
        (true, _) => Back::Other(Found::Foreign, besides),
    })
}

/// What a back may be whose bar can't be read: what the number printed beside it says, if that can.
fn by_number(sections: u32, design: &BackMarks, seen: &SeenBack) -> Back {
    let number = seen.number.filter(|number| (1..=sections).contains(number));
    let Some(section) = number.filter(|_| design.label.as_ref().is_some_and(|label| label.number)) else {
        return Back::Other(Found::Unread, Vec::new());
    };
    if seen.title_ours == Some(false) {
        return Back::Other(Found::Foreign, Vec::new());
    }
    let lies = if seen.upside_down == Some(true) { Lies::HeadToTail } else { Lies::Right };
    Back::Fits(vec![(Found::Section { section, lies }, 0)], Vec::new())
}

/// Every section lying right, then every section lying head to tail.
fn all_ways(sections: u32) -> impl Iterator<Item = (Found, u32, Lies)> {
    [Lies::Right, Lies::HeadToTail]
        .into_iter()
        .flat_map(move |lies| (1..=sections).map(move |section| (Found::Section { section, lies }, section, lies)))
}

/// The middle of a section's mark in mm, lying right or head to tail.
fn middle(design: &BackMarks, section: u32, lies: Lies) -> f64 {
    match lies {
        Lies::Right => design.middle_mm(section),
        _ => design.mirrored_mm(section),
    }
}

/// One way to have come this far: the number due next, what it cost, which candidate and which earlier way it is.
#[derive(Clone, Copy)]
struct Way {
    due: u32,
    cost: u32,
    candidate: usize,
    before: usize,
}

/// For each back the candidate chosen (0 where there is no choice) and the section due there.
fn cheapest_run(sections: u32, backs: &[Back]) -> (Vec<usize>, Vec<u32>) {
    let start = Way { due: 1, cost: 0, candidate: 0, before: 0 };
    let mut layers = vec![vec![start]];
    for back in backs {
        let last = layers.last().map_or(&[][..], Vec::as_slice);
        let next = match back {
            Back::Other(..) => {
                (0..).zip(last).map(|(before, way)| Way { due: way.due + 1, candidate: 0, before, ..*way }).collect()
            }
            Back::Fits(candidates, _) => {
                // The cheapest way to each due number, and the cheapest of all; the first one on a tie.
                let mut by_due = std::collections::BTreeMap::<u32, (u32, usize)>::new();
                let mut cheapest = (u32::MAX, 0);
                for (before, way) in last.iter().enumerate() {
                    let here = (way.cost, before);
                    let entry = by_due.entry(way.due).or_insert(here);
                    *entry = (*entry).min(here);
                    cheapest = cheapest.min(here);
                }
                let way_to = |candidate: usize, (found, own): &(Found, u32)| {
                    let section = match found {
                        Found::Section { section, .. } => *section,
                        _ => 0,
                    };
                    let jump = |due: u32, price: u32| by_due.get(&due).map(|&(cost, before)| (cost + price, before));
                    let (cost, before) = [
                        jump(section, 0),
                        jump(section + 1, NEAR_JUMP),
                        jump(section.saturating_sub(1), NEAR_JUMP),
                        Some((cheapest.0.saturating_add(JUMP), cheapest.1)),
                    ]
                    .into_iter()
                    .flatten()
                    .min()
                    .unwrap_or(cheapest);
                    Way { due: section + 1, cost: cost.saturating_add(*own), candidate, before }
                };
                candidates.iter().enumerate().map(|(candidate, one)| way_to(candidate, one)).collect::<Vec<_>>()
            }
        };
        layers.push(next);
    }
    let to_the_end = |way: &Way| match way.due {
        due if due == sections + 1 => way.cost,
        due if due == sections => way.cost + NEAR_JUMP,
        _ => way.cost + JUMP,
    };
    let mut at =
        layers.last().and_then(|ways| (0..ways.len()).min_by_key(|&index| to_the_end(&ways[index]))).unwrap_or(0);
    let mut chosen = vec![0; backs.len()];
    let mut due = vec![0; backs.len()];
    for index in (0..backs.len()).rev() {
        let way = layers[index + 1][at];
        chosen[index] = way.candidate;
        at = way.before;
        due[index] = layers[index][at].due;
    }
    (chosen, due)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn six_mm() -> Design {
        Design { spine_mm: 216.0, first_mm: 30.0, step_mm: 6.0, length_mm: 6.0, levels: 24 }
    }

    fn one(mark: f64) -> Seen {
        Seen { marks_mm: Some(vec![mark]) }
    }

    fn turned(section: u32) -> Found {
        Found::Section { section, lies: Lies::HeadToTail }
    }

    fn good(design: &Design, sections: u32) -> Vec<Seen> {
        (1..=sections).map(|section| one(design.middle_mm(section))).collect()
    }

    #[test]
    fn a_right_book_without_doubts() {
        let design = Design::default();
        let reading = read_spine(20, &design, &good(&design, 20)).unwrap();
        assert_eq!(reading.found, (1..=20).map(Found::right).collect::<Vec<_>>());
        assert_eq!(reading.doubts, vec![]);
    }

    #[test]
    fn a_turned_section_on_another_level_is_told_by_its_neighbours() {
        let design = six_mm();
        let mut seen = good(&design, 24);
        seen[4] = one(design.mirrored_mm(5));
        let reading = read_spine(24, &design, &seen).unwrap();
        assert_eq!(reading.found[4], turned(5));
        let doubt = reading.doubts.iter().find(|doubt| doubt.at == 5).unwrap();
        assert_eq!(doubt.could_be, vec![Found::right(22), turned(5)]);
        // The book of twelve has no section on that level, so nothing is in doubt.
        let mut seen = good(&design, 12);
        seen[4] = one(design.mirrored_mm(5));
        let reading = read_spine(12, &design, &seen).unwrap();
        assert_eq!(reading.found[4], turned(5));
        assert_eq!(reading.doubts, vec![]);
    }

    #[test]
    fn a_lift_of_turned_sections() {
        let design = six_mm();
        let mut seen = good(&design, 24);
        for section in 5..=9 {
            seen[section as usize - 1] = one(design.mirrored_mm(section));
        }
        let reading = read_spine(24, &design, &seen).unwrap();
        assert_eq!(reading.found[4..9], (5..=9).map(turned).collect::<Vec<_>>());
    }

    #[test]
    fn shared_levels_follow_the_row() {
        let design = Design { levels: 4, ..Design::default() };
        let mut seen = good(&design, 8);
        seen.remove(3);
        let reading = read_spine(8, &design, &seen).unwrap();
        let expected = [1, 2, 3, 5, 6, 7, 8].map(Found::right);
        assert_eq!(reading.found, expected);
        assert_eq!(reading.doubts[0].could_be, vec![Found::right(1), Found::right(5)]);
        assert_eq!(reading.doubts.len(), 7);
    }

    #[test]
    fn blank_foreign_and_unread_backs() {
        let design = Design::default();
        let mut seen = good(&design, 6);
        seen[1].marks_mm = Some(vec![]);
        seen[2].marks_mm = Some(vec![40.0, 60.0]);
        seen[3].marks_mm = None;
        let reading = read_spine(6, &design, &seen).unwrap();
        assert_eq!(
            reading.found,
            [Found::right(1), Found::NoMark, Found::Foreign, Found::Unread, Found::right(5), Found::right(6)]
        );
        let expected = Doubt { at: 4, could_be: vec![Found::right(4), Found::NoMark, Found::Foreign] };
        assert_eq!(reading.doubts, vec![expected]);
    }

    #[test]
    fn a_mark_between_two_levels() {
        let design = six_mm();
        let mut seen = good(&design, 12);
        seen[2] = one(design.middle_mm(3) + 3.0);
        let reading = read_spine(12, &design, &seen).unwrap();
        // Half a step off, the row decides; it stays in doubt.
        assert_eq!(reading.found[2], Found::right(3));
        assert_eq!(reading.doubts.len(), 1);
        assert_eq!(reading.doubts[0].could_be, vec![Found::right(3), Found::right(4), Found::Foreign]);
        // Less than half a step below the next level, more than half from its own: the nearer one, in doubt.
        let first = read_spine(12, &design, &[one(36.2)]).unwrap();
        assert_eq!(first.found, [Found::right(2)]);
        assert_eq!(first.doubts[0].could_be, vec![Found::right(2), Found::right(1), Found::Foreign]);
        // Far from every level: foreign, and no doubt.
        seen[2] = one(5.0);
        let reading = read_spine(12, &design, &seen).unwrap();
        assert_eq!(reading.found[2], Found::Foreign);
        assert_eq!(reading.doubts, vec![]);
    }

    #[test]
    fn refusals_say_where() {
        let design = Design::default();
        let at = |sections, design: &Design, seen: &[Seen]| read_spine(sections, design, seen).unwrap_err().at;
        assert_eq!(at(0, &design, &[]), "sections");
        assert_eq!(at(5, &Design { levels: 0, ..design }, &[]), "marks.levels");
        assert_eq!(at(5, &design, &[one(f64::NAN)]), "seen[0].marks_mm[0]");
        assert_eq!(at(5, &design, &vec![one(1.0); 401]), "seen");
        assert!(serde_json::from_str::<Seen>("{}").is_err());
        let unread = serde_json::from_str::<Seen>(r#"{"marks_mm":null}"#).unwrap();
        assert_eq!(unread.marks_mm, None);
    }

    #[test]
    fn the_largest_book_on_one_level() {
        let design = Design { levels: 1, ..Design::default() };
        let seen = vec![one(design.middle_mm(1)); 400];
        let reading = read_spine(400, &design, &seen).unwrap();
        assert_eq!(reading.found, (1..=400).map(Found::right).collect::<Vec<_>>());
    }
}
