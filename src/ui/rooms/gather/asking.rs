//! Spoiling the stack by hand: which acts there are, and what an act still has to ask before it is done.
//!
//! An act begins at the picked place. One that needs more asks for it in a sentence, one pick after the other. A pick
//! comes from a row of the stack, from a pile, or from a number that was typed.

use crate::app::Spoil;
use crate::marks::Lies;

/// An act of the hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hand {
    LeaveOut,
    TakeTwo,
    PutIn,
    Exchange,
    HeadToTail,
    SideToSide,
    InPlane,
    Foreign,
    Misfold,
    Carry,
    MakeGood,
}

impl Hand {
    /// All acts that spoil, in the order of their buttons.
    pub const ALL: [Self; 10] = [
        Self::LeaveOut,
        Self::TakeTwo,
        Self::PutIn,
        Self::Exchange,
        Self::HeadToTail,
        Self::SideToSide,
        Self::InPlane,
        Self::Foreign,
        Self::Misfold,
        Self::Carry,
    ];

    /// What stands on its button.
    pub fn name(self) -> &'static str {
        match self {
            Self::LeaveOut => "Leave one out",
            Self::TakeTwo => "Take two",
            Self::PutIn => "Put in another",
            Self::Exchange => "Exchange two",
            Self::HeadToTail => "Turn head to tail",
            Self::SideToSide => "Turn side to side",
            Self::InPlane => "Turn in its plane",
            Self::Foreign => "Put in a foreign one",
            Self::Misfold => "Fold one wrongly",
            Self::Carry => "Carry a run elsewhere",
            Self::MakeGood => "Make it good",
        }
    }

    /// Begins the act at the picked place.
    pub fn begin(self, place: u32) -> Answer {
        let spoil = match self {
            Self::LeaveOut => Spoil::LeaveOut(place),
            Self::TakeTwo => Spoil::TakeTwo(place),
            Self::HeadToTail => Spoil::Lay(place, Lies::HeadToTail),
            Self::SideToSide => Spoil::Lay(place, Lies::SideToSide),
            Self::InPlane => Spoil::Lay(place, Lies::TurnedInPlane),
            Self::Foreign => Spoil::Foreign(place),
            Self::MakeGood => Spoil::MakeGood,
            Self::PutIn => return Answer::Ask(Ask::Which { place }),
            Self::Exchange => return Answer::Ask(Ask::Other { place }),
            Self::Misfold => return Answer::Ask(Ask::Fold { place }),
            Self::Carry => return Answer::Ask(Ask::Last { first: place }),
        };
        Answer::Do(spoil)
    }
}

/// What is asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ask {
    /// Which section is put in at this place?
    Which { place: u32 },
    /// Which place is exchanged with this one?
    Other { place: u32 },
    /// Which fold of the section at this place is made the other way?
    Fold { place: u32 },
    /// Where does the run that begins here end?
    Last { first: u32 },
    /// Behind which place is the run carried?
    After { first: u32, last: u32 },
}

/// What was picked, as far as it can be either.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pick {
    /// A place in the stack.
    pub place: Option<u32>,
    /// A section of the book.
    pub section: Option<u32>,
    /// A number as such.
    pub number: Option<u32>,
}

impl Pick {
    /// A row of the stack, and the section that lies there.
    pub fn row(place: u32, section: Option<u32>) -> Self {
        Self { place: Some(place), section, number: None }
    }

    /// A pile, and where its section lies in the stack.
    pub fn pile(section: u32, place: Option<u32>) -> Self {
        Self { place, section: Some(section), number: None }
    }

    /// A number that was typed: whatever was asked for.
    pub fn typed(number: u32) -> Self {
        Self { place: Some(number), section: Some(number), number: Some(number) }
    }
}

/// What follows.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// Do this.
    Do(Spoil),
    /// Ask this next.
    Ask(Ask),
    /// That can't be taken; the question stays.
    No(&'static str),
}

impl Ask {
    /// The question.
    pub fn sentence(self) -> String {
        match self {
            Self::Which { place } => format!("Which section lies at place {place} instead? Pick its pile."),
            Self::Other { place } => format!("Which changes with the one at place {place}? Pick it."),
            Self::Fold { place } => format!("Which fold of the one at place {place} goes the other way?"),
            Self::Last { first } => format!("The run begins at place {first}. Where does it end? Pick its last."),
            Self::After { first, last } if first == last => {
                format!("Behind which place does the one at {first} go? Pick it; 0 is the front.")
            }
            Self::After { first, last } => {
                format!("Behind which place do {first} to {last} go? Pick it; 0 is the front.")
            }
        }
    }

    /// What the field for a typed number is called.
    pub fn field(self) -> &'static str {
        match self {
            Self::Which { .. } => "section",
            Self::Fold { .. } => "fold",
            _ => "place",
        }
    }

    /// Takes an answer.
    pub fn answer(self, pick: Pick) -> Answer {
        let place = pick.place.ok_or("That section does not lie in the stack.");
        let next = match self {
            Self::Which { place } => match pick.section {
                Some(section) => Ok(Answer::Do(Spoil::PutIn(place, section))),
                None => Err("That is a section of another book. Pick a pile."),
            },
            Self::Other { place: one } => match place {
                Ok(other) if other == one => Err("That is the same one. Pick another."),
                other => other.map(|other| Answer::Do(Spoil::Exchange(one, other))),
            },
            Self::Fold { place } => match pick.number {
                Some(fold) => Ok(Answer::Do(Spoil::Misfold(place, fold))),
                None => Err("Choose one of the folds."),
            },
            // The two ends may come in either order; the front has no place of its own.
            Self::Last { first } => match place {
                Ok(0) => Err("The places count from 1."),
                last => last.map(|last| Answer::Ask(Self::After { first: first.min(last), last: first.max(last) })),
            },
            Self::After { first, last } => match place {
                Ok(after) if (first..=last).contains(&after) => Err("That lies in the run itself. Pick one outside."),
                after => after.map(|after| Answer::Do(Spoil::Carry(first, last, after))),
            },
        };
        next.unwrap_or_else(Answer::No)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(place: u32, section: Option<u32>) -> Pick {
        Pick::row(place, section)
    }

    #[test]
    fn one_pick_is_enough_for_most() {
        for hand in Hand::ALL.into_iter().chain([Hand::MakeGood]) {
            let asks = matches!(hand, Hand::PutIn | Hand::Exchange | Hand::Misfold | Hand::Carry);
            assert_eq!(matches!(hand.begin(3), Answer::Ask(_)), asks, "{hand:?}");
        }
        assert_eq!(Hand::InPlane.begin(3), Answer::Do(Spoil::Lay(3, Lies::TurnedInPlane)));
    }

    #[test]
    fn a_row_a_pile_and_a_number_answer() {
        let which = Ask::Which { place: 4 };
        assert_eq!(which.answer(row(9, Some(10))), Answer::Do(Spoil::PutIn(4, 10)));
        assert_eq!(which.answer(Pick::pile(7, None)), Answer::Do(Spoil::PutIn(4, 7)));
        assert_eq!(which.answer(Pick::typed(2)), Answer::Do(Spoil::PutIn(4, 2)));
        assert!(matches!(which.answer(row(9, None)), Answer::No(_)));
        let other = Ask::Other { place: 4 };
        assert_eq!(other.answer(row(9, Some(10))), Answer::Do(Spoil::Exchange(4, 9)));
        assert!(matches!(other.answer(row(4, Some(4))), Answer::No(_)));
        assert!(matches!(other.answer(Pick::pile(7, None)), Answer::No(_)));
        assert!(matches!(Ask::Fold { place: 4 }.answer(row(2, Some(2))), Answer::No(_)));
        assert_eq!(Ask::Fold { place: 4 }.answer(Pick::typed(2)), Answer::Do(Spoil::Misfold(4, 2)));
    }

    #[test]
    fn a_run_is_picked_from_either_end() {
        let last = Ask::Last { first: 6 };
        assert_eq!(Hand::Carry.begin(6), Answer::Ask(last));
        assert_eq!(last.answer(row(4, Some(4))), Answer::Ask(Ask::After { first: 4, last: 6 }));
        assert!(matches!(last.answer(Pick::typed(0)), Answer::No(_)));
        let after = Ask::After { first: 4, last: 6 };
        assert!(matches!(after.answer(row(5, Some(5))), Answer::No(_)));
        assert_eq!(after.answer(Pick::typed(0)), Answer::Do(Spoil::Carry(4, 6, 0)));
        assert_eq!(after.answer(row(9, None)), Answer::Do(Spoil::Carry(4, 6, 9)));
        assert!(after.sentence().contains("4 to 6"));
    }
}
