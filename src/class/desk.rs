//! What lies on a learner's desk, and what is done there.

use crate::practice::{Answer, Entry, Exercise, Kind, Logbook, Marked, NoExercise};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// How many steps back an answer goes.
const UNDO_DEPTH: usize = 200;
/// The longest name of a learner, in signs.
pub const MAX_NAME: usize = 80;

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
}

/// The desk.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Desk {
    /// Who sits there, as they wrote it: for the papers that they hand in.
    pub name: String,
    /// The exercise, if one was set.
    pub on_desk: Option<OnDesk>,
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
    /// An exercise is set. One that lies there unfinished is laid aside.
    Set(Kind, u8, u64),
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
}

impl OnDesk {
    /// An exercise that nothing was answered to.
    #[must_use]
    pub fn new(kind: Kind, level: u8, seed: u64) -> Self {
        let (past, future) = (Vec::new(), Vec::new());
        Self { kind, level, seed, answer: Answer::Nothing, past, future, hints: 0, handed_in: false }
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
                self.on_desk = Some(OnDesk::new(kind, level, seed));
            }
            DeskAct::Finished(lesson) => {
                self.lessons.insert(lesson);
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
