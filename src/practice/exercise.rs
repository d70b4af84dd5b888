//! An exercise, set from a kind, a level and a seed.

use super::answer::Answer;
use super::kind::{Kind, LEVELS, NoExercise};
use super::marked::Marked;
use super::task::Task;
use super::{judge, make};
use crate::link;

/// An exercise.
#[derive(Clone, Debug, PartialEq)]
pub struct Exercise {
    /// Its kind.
    pub kind: Kind,
    /// Its level, from 1.
    pub level: u8,
    /// The number it is made from.
    pub seed: u64,
    /// What is set.
    pub task: Task,
}

impl Exercise {
    /// Sets an exercise: the same everywhere for the same three.
    ///
    /// # Errors
    /// When there is no such level.
    pub fn of(kind: Kind, level: u8, seed: u64) -> Result<Self, NoExercise> {
        if level == 0 || level > LEVELS {
            return Err(NoExercise::Level);
        }
        let task = make::task(kind, level, seed).ok_or(NoExercise::NotMade)?;
        Ok(Self { kind, level, seed, task })
    }

    /// The exercise of a link.
    ///
    /// # Errors
    /// When this program has no such kind or level.
    pub fn of_link(link: &link::Exercise) -> Result<Self, NoExercise> {
        Self::of(Kind::of_number(link.kind).ok_or(NoExercise::Kind)?, link.level, link.seed)
    }

    /// What a link to it holds: kind, level and seed, and nothing else.
    #[must_use]
    pub fn link(&self) -> link::Exercise {
        link::Exercise { kind: self.kind.number(), level: self.level, seed: self.seed }
    }

    /// A right answer. There may be others that are as right.
    #[must_use]
    pub fn right(&self) -> Answer {
        judge::right(&self.task).unwrap_or(Answer::Nothing)
    }

    /// Other answers that are as right, in words: causes that look alike, other ways of folding the same sheet.
    #[must_use]
    pub fn also_right(&self) -> Vec<String> {
        judge::also(&self.task).unwrap_or_default()
    }

    /// Marks an answer for which so many hints were taken. An answer of another kind counts as none.
    #[must_use]
    pub fn mark(&self, answer: &Answer, hints: u32) -> Marked {
        judge::mark(&self.task, answer, hints)
    }
}
