//! The gathered book on the bench, which a person can spoil, and what a checker sees on its backs.

use std::ops::RangeInclusive;

use serde::{Deserialize, Serialize};

use crate::marks::{BackMarks, Design, Lies, MOST_SECTIONS, Seen, SeenBack};

/// What lies at one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum What {
    /// This section of the book, from 1.
    Ours(u32),
    /// A section of another job.
    Foreign,
}

/// One section in the stack.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Placed {
    /// Which one.
    pub what: What,
    /// How it lies.
    #[serde(default)]
    pub lies: Lies,
    /// The fold that was made the other way, from 1, if one was.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub misfold: Option<u32>,
}

impl Placed {
    /// A section of this book, lying right and folded right.
    pub const fn good(section: u32) -> Self {
        Self { what: What::Ours(section), lies: Lies::Right, misfold: None }
    }
}

/// Why an act can't be done to a stack, in words.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct CantDo(pub String);

/// A gathered book, from front to back. Places count from 1; at most [`MOST_SECTIONS`] are in it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Vec<Placed>")]
pub struct Stack(Vec<Placed>);

impl TryFrom<Vec<Placed>> for Stack {
    type Error = CantDo;

    fn try_from(placed: Vec<Placed>) -> Result<Self, CantDo> {
        if placed.len() > MOST_SECTIONS as usize {
            return Err(full());
        }
        placed
            .iter()
            .try_for_each(|one| match one.what {
                What::Ours(section) => numbered(section),
                What::Foreign => Ok(()),
            })
            .map(|()| Self(placed))
    }
}

/// A stack takes no more.
fn full() -> CantDo {
    CantDo(format!("A stack holds at most {MOST_SECTIONS} sections."))
}

/// Is this a number a section can have?
fn numbered(section: u32) -> Result<(), CantDo> {
    match section {
        1..=MOST_SECTIONS => Ok(()),
        _ => Err(CantDo(format!("Sections are numbered 1 to {MOST_SECTIONS}."))),
    }
}

impl Stack {
    /// A right book of `sections` sections, at most [`MOST_SECTIONS`].
    pub fn good(sections: u32) -> Self {
        Self((1..=sections.min(MOST_SECTIONS)).map(Placed::good).collect())
    }

    /// What lies in the stack, from front to back.
    pub fn placed(&self) -> &[Placed] {
        &self.0
    }

    /// Takes out what lies at a place.
    pub fn leave_out(&mut self, place: u32) -> Result<(), CantDo> {
        let index = self.index(place)?;
        self.0.remove(index);
        Ok(())
    }

    /// Lays a second copy behind what lies at a place.
    pub fn take_two(&mut self, place: u32) -> Result<(), CantDo> {
        let index = self.index(place)?;
        if self.0.len() >= MOST_SECTIONS as usize {
            return Err(full());
        }
        self.0.insert(index, self.0[index]);
        Ok(())
    }

    /// Puts a good copy of `section` in place of what lies there.
    pub fn put_in(&mut self, place: u32, section: u32) -> Result<(), CantDo> {
        let index = self.index(place)?;
        numbered(section)?;
        self.0[index] = Placed::good(section);
        Ok(())
    }

    /// Exchanges what lies at two places.
    pub fn exchange(&mut self, a: u32, b: u32) -> Result<(), CantDo> {
        let [a, b] = [self.index(a)?, self.index(b)?];
        if a == b {
            return Err(CantDo("An exchange needs two different places.".to_owned()));
        }
        self.0.swap(a, b);
        Ok(())
    }

    /// Lays what is at a place this way.
    pub fn lay(&mut self, place: u32, lies: Lies) -> Result<(), CantDo> {
        let index = self.index(place)?;
        self.0[index].lies = lies;
        Ok(())
    }

    /// Puts a section of another job in place of what lies there.
    pub fn foreign(&mut self, place: u32) -> Result<(), CantDo> {
        let index = self.index(place)?;
        self.0[index] = Placed { what: What::Foreign, lies: Lies::Right, misfold: None };
        Ok(())
    }

    /// Folds what lies at a place with this fold made the other way; none folds it right again.
    pub fn misfold(&mut self, place: u32, fold: Option<u32>) -> Result<(), CantDo> {
        let index = self.index(place)?;
        if fold == Some(0) {
            return Err(CantDo("Folds are numbered from 1.".to_owned()));
        }
        self.0[index].misfold = fold;
        Ok(())
    }

    /// Carries what lies at these places behind the place `after`, 0 for the front.
    pub fn carry(&mut self, places: RangeInclusive<u32>, after: u32) -> Result<(), CantDo> {
        let [first, last] = [self.index(*places.start())?, self.index(*places.end())?];
        if first > last {
            return Err(CantDo("The first place of a block comes before its last.".to_owned()));
        }
        if places.contains(&after) {
            return Err(CantDo("A block can't be carried behind a part of itself.".to_owned()));
        }
        let after = match after {
            0 => 0,
            after => self.index(after)? + 1,
        };
        if after <= first {
            self.0[after..=last].rotate_right(last + 1 - first);
        } else {
            self.0[first..after].rotate_left(last + 1 - first);
        }
        Ok(())
    }

    /// The place as an index.
    fn index(&self, place: u32) -> Result<usize, CantDo> {
        (place as usize).checked_sub(1).filter(|&index| index < self.0.len()).ok_or_else(|| match self.0.len() {
            0 => CantDo("The stack is empty.".to_owned()),
            count => CantDo(format!("There is no place {place}: the stack has places 1 to {count}.")),
        })
    }
}

/// What a checker sees of a plain staircase on each back: the heights alone. `back_of` answers whether a section of
/// this book, folded as it is, has its mark on the outside of its last fold. A section of another job shows two bars.
pub fn seen(stack: &Stack, design: &Design, back_of: &dyn Fn(&Placed) -> bool) -> Vec<Seen> {
    let backs = seen_backs(stack, &(*design).into(), MOST_SECTIONS, back_of);
    backs.into_iter().map(|back| Seen { marks_mm: back.marks_mm }).collect()
}

/// The same of all that is printed on the backs, in a book that should have so many sections.
pub fn seen_backs(stack: &Stack, marks: &BackMarks, sections: u32, back_of: &dyn Fn(&Placed) -> bool) -> Vec<SeenBack> {
    let back = |placed: &Placed| match placed.what {
        What::Foreign => foreign_back(marks, placed.lies),
        What::Ours(section) if back_of(placed) => SeenBack::of(marks, section, sections, placed.lies),
        What::Ours(_) => SeenBack::blank(),
    };
    stack.0.iter().map(back).collect()
}

/// The back of another book: a design of two bars, about a quarter down and one bar apart.
pub(super) fn foreign_back(marks: &BackMarks, lies: Lies) -> SeenBack {
    let (spine_mm, length_mm) = (marks.stairs.spine_mm, marks.stairs.length_mm);
    let bars = [spine_mm * 0.25, spine_mm * 0.25 + 2.0 * length_mm];
    let bars = match lies {
        Lies::Right => bars,
        Lies::HeadToTail => bars.map(|mark| spine_mm - mark),
        // The fold lies at the fore-edge, and the mark with it.
        Lies::TurnedInPlane | Lies::SideToSide => return SeenBack::blank(),
    };
    SeenBack { marks_mm: Some(bars.to_vec()), ..SeenBack::default() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn order(stack: &Stack) -> Vec<u32> {
        stack
            .placed()
            .iter()
            .map(|placed| match placed.what {
                What::Ours(section) => section,
                What::Foreign => 0,
            })
            .collect()
    }

    #[test]
    fn every_act() {
        let mut stack = Stack::good(6);
        stack.leave_out(2).unwrap();
        assert_eq!(order(&stack), [1, 3, 4, 5, 6]);
        stack.take_two(1).unwrap();
        assert_eq!(order(&stack), [1, 1, 3, 4, 5, 6]);
        stack.put_in(2, 5).unwrap();
        stack.exchange(3, 4).unwrap();
        stack.foreign(6).unwrap();
        assert_eq!(order(&stack), [1, 5, 4, 3, 5, 0]);
        stack.carry(1..=2, 4).unwrap();
        assert_eq!(order(&stack), [4, 3, 1, 5, 5, 0]);
        stack.carry(5..=6, 0).unwrap();
        assert_eq!(order(&stack), [5, 0, 4, 3, 1, 5]);
        stack.carry(2..=3, 1).unwrap();
        assert_eq!(order(&stack), [5, 0, 4, 3, 1, 5]);
    }

    #[test]
    fn what_cant_be_done_is_said() {
        let mut stack = Stack::good(3);
        let good = stack.clone();
        let refused = [
            stack.leave_out(0),
            stack.leave_out(4),
            stack.take_two(u32::MAX),
            stack.put_in(1, 0),
            stack.put_in(1, 401),
            stack.exchange(2, 2),
            stack.lay(9, Lies::Right),
            stack.misfold(1, Some(0)),
            stack.carry(1..=2, 2),
            stack.carry(1..=2, 1),
            stack.carry(0..=2, 3),
            #[expect(clippy::reversed_empty_ranges, reason = "that is what is refused")]
            stack.carry(3..=2, 0),
            stack.carry(1..=1, 7),
        ];
        for (index, refused) in refused.iter().enumerate() {
            assert!(refused.is_err(), "{index}");
        }
        assert_eq!(stack, good);
        assert_eq!(Stack::good(u32::MAX).placed().len(), 400);
        assert!(Stack::good(400).take_two(1).is_err());
        assert!(Stack::default().leave_out(1).is_err());
    }

    #[test]
    fn saved_and_read_back() {
        let mut stack = Stack::good(3);
        stack.lay(2, Lies::SideToSide).unwrap();
        stack.foreign(3).unwrap();
        stack.misfold(1, Some(2)).unwrap();
        let text = serde_json::to_string(&stack).unwrap();
        assert_eq!(serde_json::from_str::<Stack>(&text).unwrap(), stack);
        assert!(serde_json::from_str::<Stack>(r#"[{"what":{"ours":0}}]"#).is_err());
        let many = format!("[{}]", vec![r#"{"what":"foreign"}"#; 401].join(","));
        assert!(serde_json::from_str::<Stack>(&many).is_err());
    }

    #[test]
    fn what_a_checker_sees() {
        let design = Design::default();
        let mut stack = Stack::good(6);
        stack.lay(2, Lies::HeadToTail).unwrap();
        stack.lay(3, Lies::TurnedInPlane).unwrap();
        stack.lay(4, Lies::SideToSide).unwrap();
        stack.misfold(5, Some(1)).unwrap();
        stack.foreign(6).unwrap();
        let marks = seen(&stack, &design, &|placed| placed.misfold.is_none());
        let marks = marks.into_iter().map(|seen| seen.marks_mm.unwrap()).collect::<Vec<_>>();
        assert_eq!(marks[0], [24.5]);
        assert_eq!(marks[1], [216.0 - 33.5]);
        assert!(marks[2].is_empty() && marks[3].is_empty() && marks[4].is_empty());
        assert_eq!(marks[5].len(), 2);
    }
}
