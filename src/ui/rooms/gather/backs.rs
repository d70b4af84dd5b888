//! What is drawn on each back, and what it is called: taken from the evidence, never from what lies there unseen.

use crate::app::{Evidence, Job};
use crate::gather::run::{parse_run, print_run};
use crate::gather::{Found, Lies};
use crate::marks::{BackMarks, Runs, SeenBack};
use yew::prelude::*;

/// What one back shows.
#[derive(Clone, Debug, PartialEq)]
pub enum Shows {
    /// Bars as they are seen. None is a blank back.
    Bars(SeenBack),
    /// A word that was typed, at so many mm from the head.
    Word(AttrValue, f64),
    /// A section of another book, as it was typed.
    Foreign,
}

impl Shows {
    /// Bars with these middles, in mm from the head, of which nothing else is known.
    pub fn bars(marks: Vec<f64>) -> Self {
        Self::Bars(SeenBack { marks_mm: Some(marks), ..SeenBack::default() })
    }

    /// From where to where in mm the back bears anything; `word` is the length of a word in mm.
    pub fn extent(&self, design: &BackMarks, word: f64) -> Option<(f64, f64)> {
        let half = design.stairs.length_mm / 2.0;
        match self {
            Self::Bars(seen) => {
                let (half, bars) = (seen.length_mm.map_or(half, |long| long / 2.0), seen.marks_mm.as_ref()?);
                Some((bars.first()? - half, bars.last()? + half))
            }
            Self::Word(text, at) => {
                let half = word * text.len() as f64 / 2.0;
                Some((at - half, at + half))
            }
            Self::Foreign => None,
        }
    }
}

/// All backs of the evidence, from front to back. A run that can't be read shows none.
pub fn backs(job: &Job) -> Vec<Shows> {
    match &job.evidence {
        Evidence::Stack => job.seen().into_iter().map(Shows::Bars).collect(),
        Evidence::Tapped(backs) => backs.iter().map(|b| Shows::bars(b.clone())).collect(),
        Evidence::Typed(run) => {
            parse_run(run).unwrap_or_default().iter().map(|found| typed(&job.design, *found)).collect()
        }
    }
}

/// A typed word stands where the mark it tells of would be.
fn typed(design: &BackMarks, found: Found) -> Shows {
    let middle = design.stairs.spine_mm / 2.0;
    let at = match found {
        Found::Section { section, lies: Lies::Right } => design.middle_mm(section),
        Found::Section { section, lies: Lies::HeadToTail } => design.mirrored_mm(section),
        Found::Section { .. } | Found::Unread => middle,
        Found::NoMark => return Shows::bars(Vec::new()),
        Found::Foreign => return Shows::Foreign,
    };
    Shows::Word(print_run(&[found]).into(), at)
}

/// What was read on a back, in words.
pub fn found_words(found: Found) -> String {
    let lies = |lies: Lies| match lies {
        Lies::Right => "",
        Lies::HeadToTail => ", head to tail",
        Lies::TurnedInPlane => ", turned in its plane",
        Lies::SideToSide => ", back to front",
    };
    match found {
        Found::Section { section, lies: how } => format!("section {section}{}", lies(how)),
        Found::NoMark => "a blank back".into(),
        Found::Foreign => "a section of another job".into(),
        Found::Unread => "unreadable".into(),
    }
}

/// Where the bars of a back begin: "20 mm", "20 and 38 mm".
pub fn begins(design: &BackMarks, shows: &Shows) -> Option<String> {
    let Shows::Bars(seen) = shows else { return None };
    let long = seen.length_mm.unwrap_or(design.stairs.length_mm);
    let mm = |m: &f64| crate::units::mm(m - long / 2.0);
    match seen.marks_mm.iter().flatten().map(mm).collect::<Vec<_>>().as_slice() {
        [] => None,
        [one] => Some(format!("{one} mm")),
        [first @ .., last] => Some(format!("{} and {last} mm", first.join(", "))),
    }
}

/// Where a finger that pointed at so many mm meant: the middle of a level if it is near enough to be read as that
/// level, else a half millimetre.
pub fn meant(design: &BackMarks, mm: f64) -> f64 {
    let step = if design.runs == Runs::Up { -design.stairs.step_mm } else { design.stairs.step_mm };
    let levels = f64::from(design.stairs.levels.max(1) - 1);
    let level = crate::units::between(((mm - design.middle_mm(1)) / step).round(), 0.0, levels);
    let middle = design.middle_mm(1) + level * step;
    if (middle - mm).abs() <= design.reach_mm() { middle } else { (mm * 2.0).round() / 2.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_typed_run_is_drawn_as_what_it_says() {
        let job = Job { evidence: Evidence::Typed("1 2d x _ ?".into()), ..Job::default() };
        let backs = backs(&job);
        assert_eq!(backs[0], Shows::Word("1".into(), 24.5));
        assert_eq!(backs[1], Shows::Word("2d".into(), 216.0 - 33.5));
        assert_eq!(backs[2], Shows::Foreign);
        assert_eq!(backs[3], Shows::bars(vec![]));
        assert!(matches!(&backs[4], Shows::Word(word, _) if word == "?"));
    }

    #[test]
    fn a_finger_finds_the_level() {
        let design = BackMarks::default();
        assert_eq!(meant(&design, 26.9), 24.5);
        assert_eq!(meant(&design, 28.9), 29.0);
        assert_eq!(meant(&design, 0.2), 0.0);
    }

    #[test]
    fn bars_are_told_by_where_they_begin() {
        let design = BackMarks::default();
        assert_eq!(begins(&design, &Shows::bars(vec![24.5])).as_deref(), Some("20 mm"));
        assert_eq!(begins(&design, &Shows::bars(vec![24.5, 54.0])).as_deref(), Some("20 and 49.5 mm"));
        assert_eq!(begins(&design, &Shows::bars(vec![])), None);
    }
}
