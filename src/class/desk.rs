//! What lies on a learner's desk, and what is done there.

use crate::practice::{Answer, Entry, Exercise, Kind, Logbook, MOST_ENTRIES, Marked, NoExercise};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// How many steps back an answer goes.
const UNDO_DEPTH: usize = 200;
/// The longest name of a learner, in signs.
pub const MAX_NAME: usize = 80;
/// The most exercises that lie aside.
pub const MAX_ASIDE: usize = 20;
/// So long is counted as one sitting at the most, in seconds: who comes back the next day has not worked through the night.
const SITTING: u64 = 3 * 3600;

/// An exercise on the desk.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OnDesk {
    /// Its kind.
    pub kind: Kind,
    /// Its level, from 1.
    pub level: u8,
    /// The number it is made from.
    pub seed: u64,
    /// The answer so far.
    pub answer: Answer,
    /// Answers before, oldest first. They are not kept.
    #[serde(skip)]
    pub past: Vec<Answer>,
    /// Answers that were undone, the next to be redone last. They are not kept.
    #[serde(skip)]
    pub future: Vec<Answer>,
    /// Hints taken.
    #[serde(default)]
    pub hints: u32,
    /// Whether it was handed in: its answer stays as it is.
    #[serde(default)]
    pub handed_in: bool,
    /// When this sitting began: when the exercise was first seen, or taken up again. In seconds, of a clock from outside.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub since: Option<u64>,
    /// Seconds spent on it in sittings before.
    #[serde(default)]
    pub spent: u32,
}

/// The desk.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Desk {
    /// Who sits there, as they wrote it: for the papers that they hand in.
    pub name: String,
    /// The exercise, if one was set.
    pub on_desk: Option<OnDesk>,
    /// Exercises that were begun and laid aside for another one, the oldest first.
    pub aside: Vec<OnDesk>,
    /// What was handed in.
    pub logbook: Logbook,
    /// Lessons that were finished, by their numbers from 1.
    pub lessons: BTreeSet<u8>,
}

/// What is done at the desk.
#[derive(Clone, Debug, PartialEq)]
pub enum DeskAct {
    /// What the browser kept is there.
    Restored(Box<Desk>),
    /// The learner writes their name.
    Name(String),
    /// An exercise is set. One that was begun and lies there unfinished is laid aside; one that lies aside is taken up again.
    Set(Kind, u8, u64),
    /// The exercise on the desk is before its learner at this second of a clock.
    Seen(u64),
    /// It is so no more, from this second on.
    Left(u64),
    /// Something is answered: the whole answer as it is now.
    Answer(Answer),
    /// The answer as it was one step before.
    Undo,
    /// That step again.
    Redo,
    /// Another hint is taken.
    Hint,
    /// The answer is handed in.
    HandIn {
        /// The date, as it is written here.
        date: String,
        /// Minutes spent on it.
        minutes: u32,
    },
    /// A lesson was finished.
    Finished(u8),
    /// What another desk has is added to this one: entries, finished lessons. Nothing here is lost.
    TakenIn(Box<Desk>),
}

impl OnDesk {
    /// An exercise that nothing was answered to.
    #[must_use]
    pub fn new(kind: Kind, level: u8, seed: u64) -> Self {
        let (past, future) = (Vec::new(), Vec::new());
        let answer = Answer::Nothing;
        Self { kind, level, seed, answer, past, future, hints: 0, handed_in: false, since: None, spent: 0 }
    }

    /// Whether it is the exercise of these three.
    #[must_use]
    pub fn is(&self, kind: Kind, level: u8, seed: u64) -> bool {
        (self.kind, self.level, self.seed) == (kind, level, seed)
    }

    /// Whether anything would be lost with it: something was answered, or a hint taken, and it is not handed in.
    #[must_use]
    pub fn is_begun(&self) -> bool {
        !self.handed_in && (self.answer != Answer::Nothing || self.hints > 0)
    }

    /// Minutes spent on it up to this second of the clock, begun ones counted whole.
    #[must_use]
    pub fn minutes(&self, now: u64) -> u32 {
        let seconds = u64::from(self.spent) + self.sitting(now);
        u32::try_from(seconds.div_ceil(60).max(1)).unwrap_or(u32::MAX)
    }

    /// Seconds of this sitting.
    fn sitting(&self, now: u64) -> u64 {
        self.since.map_or(0, |since| now.saturating_sub(since).min(SITTING))
    }

    /// The exercise itself.
    ///
    /// # Errors
    /// When there is none of that level.
    pub fn exercise(&self) -> Result<Exercise, NoExercise> {
        Exercise::of(self.kind, self.level, self.seed)
    }

    /// The answer, marked.
    #[must_use]
    pub fn marked(&self) -> Option<Marked> {
        Some(self.exercise().ok()?.mark(&self.answer, self.hints))
    }
}

impl Desk {
    /// The desk after something was done, and a sentence where it can't be.
    #[must_use]
    pub fn after(&self, act: DeskAct) -> (Self, Option<String>) {
        let mut next = self.clone();
        let refused = next.act(act).err();
        (if refused.is_some() { self.clone() } else { next }, refused)
    }

    fn act(&mut self, act: DeskAct) -> Result<(), String> {
        match act {
            DeskAct::Restored(desk) => *self = *desk,
            DeskAct::Name(name) => self.name = name.chars().take(MAX_NAME).collect(),
            DeskAct::Set(kind, level, seed) => {
                Exercise::of(kind, level, seed).map_err(|why| why.to_string())?;
                self.set(OnDesk::new(kind, level, seed))?;
            }
            DeskAct::Seen(now) => {
                if let Some(on_desk) = self.on_desk.as_mut().filter(|on| !on.handed_in) {
                    on_desk.since = on_desk.since.or(Some(now));
                }
            }
            DeskAct::Left(now) => {
                if let Some(on_desk) = self.on_desk.as_mut().filter(|on| !on.handed_in) {
                    on_desk.spent =
                        on_desk.spent.saturating_add(u32::try_from(on_desk.sitting(now)).unwrap_or(u32::MAX));
                    on_desk.since = None;
                }
            }
            DeskAct::Finished(lesson) => {
                self.lessons.insert(lesson);
            }
            DeskAct::TakenIn(theirs) => {
                let both = super::merged(self, &theirs);
                if !both.holds(self) || !both.holds(&theirs) {
                    return Err(format!(
                        "Both logbooks together have more than {MOST_ENTRIES} entries. This one stays as it is."
                    ));
                }
                *self = both;
            }
            DeskAct::Answer(answer) => {
                let on_desk = self.unfinished()?;
                if on_desk.answer != answer {
                    on_desk.past.push(std::mem::replace(&mut on_desk.answer, answer));
                    let beyond = on_desk.past.len().saturating_sub(UNDO_DEPTH);
                    on_desk.past.drain(..beyond);
                    on_desk.future.clear();
                }
            }
            DeskAct::Undo => {
                let on_desk = self.unfinished()?;
                if let Some(before) = on_desk.past.pop() {
                    on_desk.future.push(std::mem::replace(&mut on_desk.answer, before));
                }
            }
            DeskAct::Redo => {
                let on_desk = self.unfinished()?;
                if let Some(after) = on_desk.future.pop() {
                    on_desk.past.push(std::mem::replace(&mut on_desk.answer, after));
                }
            }
            DeskAct::Hint => {
                let on_desk = self.unfinished()?;
                let there_are = on_desk.exercise().map_err(|why| why.to_string())?.hints().len();
                if on_desk.hints as usize >= there_are {
                    return Err("There is no further hint.".into());
                }
                on_desk.hints += 1;
            }
            DeskAct::HandIn { date, minutes } => {
                let on_desk = self.unfinished()?;
                let marked = on_desk.marked().ok_or("This exercise can't be set any more.")?;
                on_desk.handed_in = true;
                let (kind, level, seed, hints) = (on_desk.kind, on_desk.level, on_desk.seed, on_desk.hints);
                let entry = Entry { kind, level, seed, date, got: marked.got, of: marked.of, hints, minutes };
                self.logbook.add(entry).map_err(|why| why.says)?;
            }
        }
        Ok(())
    }

    /// Sets an exercise, and loses none that was begun.
    fn set(&mut self, exercise: OnDesk) -> Result<(), String> {
        let (kind, level, seed) = (exercise.kind, exercise.level, exercise.seed);
        if self.on_desk.as_ref().is_some_and(|on| on.is_begun() && on.is(kind, level, seed)) {
            return Ok(());
        }
        let again = self.aside.iter().position(|on| on.is(kind, level, seed)).map(|at| self.aside.remove(at));
        if let Some(begun) = self.on_desk.take_if(|on| on.is_begun()) {
            if self.aside.len() >= MAX_ASIDE {
                return Err(format!("{MAX_ASIDE} exercises lie aside. Take one up again and hand it in first."));
            }
            self.aside.push(OnDesk { since: None, ..begun });
        }
        self.on_desk = Some(again.unwrap_or(exercise));
        Ok(())
    }

    /// Whether every entry of another logbook is in this one, as often.
    fn holds(&self, other: &Self) -> bool {
        let sorted = |desk: &'_ Self| {
            let mut entries = desk.logbook.entries().to_vec();
            entries.sort();
            entries
        };
        let (ours, theirs) = (sorted(self), sorted(other));
        let mut ours = ours.into_iter();
        theirs.into_iter().all(|entry| ours.any(|own| own == entry))
    }

    /// The exercise on the desk, if it can still be answered.
    fn unfinished(&mut self) -> Result<&mut OnDesk, String> {
        match &mut self.on_desk {
            None => Err("Take an exercise first.".into()),
            Some(on_desk) if on_desk.handed_in => Err("It was handed in: its answer stays as it is.".into()),
            Some(on_desk) => Ok(on_desk),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn done(desk: &Desk, act: DeskAct) -> Desk {
        let (next, refused) = desk.after(act);
        assert_eq!(refused, None);
        next
    }

    #[test]
    fn an_answer_goes_back_and_on_and_stays_once_it_is_handed_in() {
        let desk = done(&Desk::default(), DeskAct::Set(Kind::MakeUp, 1, 1));
        let desk = done(&desk, DeskAct::Answer(Answer::MakeUp(vec![16])));
        let desk = done(&desk, DeskAct::Answer(Answer::MakeUp(vec![16, 16])));
        let back = done(&desk, DeskAct::Undo);
        assert_eq!(back.on_desk.as_ref().unwrap().answer, Answer::MakeUp(vec![16]));
        assert_eq!(done(&back, DeskAct::Redo), desk);
        let handed = done(&desk, DeskAct::HandIn { date: "2026-11-25".into(), minutes: 4 });
        assert_eq!(handed.logbook.entries().len(), 1);
        assert_eq!(handed.logbook.entries()[0].minutes, 4);
        for act in [DeskAct::Undo, DeskAct::Hint, DeskAct::Answer(Answer::Nothing)] {
            let (after, refused) = handed.after(act);
            assert!(refused.unwrap().contains("handed in"));
            assert_eq!(after, handed);
        }
        let (after, refused) = handed.after(DeskAct::HandIn { date: String::new(), minutes: 0 });
        assert!(refused.is_some() && after.logbook.entries().len() == 1, "nothing is handed in twice");
    }

    #[test]
    fn a_right_answer_has_all_its_marks_less_what_hints_cost() {
        let mut desk = done(&Desk::default(), DeskAct::Set(Kind::FindFolds, 1, 3));
        let right = desk.on_desk.as_ref().unwrap().exercise().unwrap().right();
        desk = done(&desk, DeskAct::Answer(right));
        let entry = |desk: &Desk| {
            let handed = done(desk, DeskAct::HandIn { date: String::new(), minutes: 0 });
            handed.logbook.entries()[0].clone()
        };
        let whole = entry(&desk);
        assert_eq!(whole.got, whole.of);
        for hints in 1..=3 {
            desk = done(&desk, DeskAct::Hint);
            let hinted = entry(&desk);
            assert!(hinted.got < whole.got && hinted.hints == hints);
        }
        assert_eq!(desk.after(DeskAct::Hint).1.unwrap(), "There is no further hint.");
    }

    /// A file that is taken in adds what it has; taken in twice it adds nothing more, and a logbook that would overflow stays.
    #[test]
    fn a_logbook_that_is_taken_in_is_added_and_nothing_is_lost() {
        let entry = |seed: u64| Entry {
            kind: Kind::Bolts,
            level: 1,
            seed,
            date: "Monday".into(),
            got: 3,
            of: 4,
            hints: 0,
            minutes: 1,
        };
        let with = |seeds: std::ops::Range<u64>| Desk {
            logbook: Logbook::of(seeds.map(entry).collect()).unwrap(),
            ..Desk::default()
        };
        let (ours, theirs) = (with(0..3), Desk { lessons: [4].into(), ..with(2..6) });
        let both = done(&ours, DeskAct::TakenIn(Box::new(theirs.clone())));
        assert_eq!((both.logbook.entries().len(), both.lessons.len()), (6, 1));
        assert!(both.holds(&ours) && both.holds(&theirs) && !ours.holds(&theirs));
        assert_eq!(done(&both, DeskAct::TakenIn(Box::new(theirs))), both);
        let full = with(0..MOST_ENTRIES as u64);
        let (after, refused) = full.after(DeskAct::TakenIn(Box::new(with(20_000..20_001))));
        assert!(refused.unwrap().contains("more than"));
        assert_eq!(after, full);
    }

    #[test]
    fn what_was_begun_is_laid_aside_and_taken_up_again_as_it_was() {
        let begun = [DeskAct::Set(Kind::MakeUp, 1, 1), DeskAct::Answer(Answer::MakeUp(vec![16])), DeskAct::Hint];
        let first = begun.into_iter().fold(Desk::default(), |desk, act| done(&desk, act));
        let answered = first.on_desk.clone().unwrap();
        let other = done(&first, DeskAct::Set(Kind::Bolts, 1, 1));
        assert_eq!((other.aside.len(), other.on_desk.as_ref().unwrap().kind), (1, Kind::Bolts));
        // Nothing was done to this one: it does not lie aside when the first is taken up again.
        let again = done(&other, DeskAct::Set(Kind::MakeUp, 1, 1));
        assert_eq!((again.aside.len(), again.on_desk.as_ref()), (0, Some(&answered)));
        assert_eq!(done(&again, DeskAct::Set(Kind::MakeUp, 1, 1)), again, "set again it stays as it is");
        let handed = done(&again, DeskAct::HandIn { date: String::new(), minutes: 1 });
        let anew = done(&handed, DeskAct::Set(Kind::MakeUp, 1, 1));
        assert_eq!(anew.on_desk, Some(OnDesk::new(Kind::MakeUp, 1, 1)), "what was handed in begins anew");
    }

    #[test]
    fn more_than_lie_aside_are_refused_and_none_is_lost() {
        let mut desk = Desk::default();
        for seed in 0..=MAX_ASIDE as u64 {
            desk = done(&desk, DeskAct::Set(Kind::MakeUp, 1, seed));
            desk = done(&desk, DeskAct::Answer(Answer::MakeUp(vec![seed as u32])));
        }
        let (after, refused) = desk.after(DeskAct::Set(Kind::Bolts, 1, 1));
        assert!(refused.unwrap().contains("lie aside"));
        assert_eq!(after, desk);
        let swapped = done(&desk, DeskAct::Set(Kind::MakeUp, 1, 3));
        assert_eq!(swapped.aside.len(), MAX_ASIDE, "one of them can be taken up for the one that lies there");
    }

    #[test]
    fn minutes_are_those_before_the_learner() {
        let desk = done(&Desk::default(), DeskAct::Set(Kind::MakeUp, 1, 1));
        let on = |desk: &Desk| desk.on_desk.clone().unwrap();
        assert_eq!(on(&desk).minutes(5_000), 1);
        let desk = done(&desk, DeskAct::Seen(1_000));
        assert_eq!(done(&desk, DeskAct::Seen(9_000)), desk, "it was seen before");
        assert_eq!(on(&desk).minutes(1_000 + 61), 2);
        let desk = done(&desk, DeskAct::Left(1_000 + 120));
        assert_eq!(on(&desk).minutes(9_000), 2);
        let desk = done(&desk, DeskAct::Seen(20_000));
        assert_eq!(on(&desk).minutes(20_000 + 60), 3);
        assert_eq!(on(&desk).minutes(u64::MAX), 2 + 180, "no sitting lasts longer");
        assert_eq!(on(&desk).minutes(0), 2, "a clock that was put back takes nothing off");
    }

    #[test]
    fn what_can_not_be_is_refused_and_leaves_the_desk_as_it_was() {
        let desk = Desk::default();
        for act in [DeskAct::Undo, DeskAct::Answer(Answer::Nothing), DeskAct::Hint, DeskAct::Set(Kind::Bolts, 9, 1)] {
            let (after, refused) = desk.after(act);
            assert!(refused.is_some());
            assert_eq!(after, desk);
        }
        let name = "x".repeat(500);
        assert_eq!(done(&desk, DeskAct::Name(name)).name.len(), MAX_NAME);
    }
}
