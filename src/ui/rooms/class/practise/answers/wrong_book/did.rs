//! What can have happened to a section of a book, as a hand does it to a right one. No web in here.

use crate::gather::Fault;
use crate::marks::Lies;

/// What was done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Did {
    /// Left out.
    LeftOut,
    /// Taken twice.
    Twice,
    /// Another one in its place.
    Another,
    /// Changed with another.
    Exchanged,
    /// Upside down.
    HeadToTail,
    /// Its mark can't be seen.
    NoMark,
    /// One of another job in its place.
    Foreign,
    /// With those behind it, if any, at another place of the row.
    Moved,
    /// The row from back to front.
    Reversed,
    /// Two books cut apart at the wrong place.
    Divided,
}

impl Did {
    /// All, the usual ones first.
    pub const ALL: [Self; 10] = [
        Self::LeftOut,
        Self::Twice,
        Self::Another,
        Self::Exchanged,
        Self::HeadToTail,
        Self::Foreign,
        Self::NoMark,
        Self::Moved,
        Self::Divided,
        Self::Reversed,
    ];

    /// What is said of a section to which this was done.
    pub const fn says(self) -> &'static str {
        match self {
            Self::LeftOut => "It was left out",
            Self::Twice => "It was taken twice",
            Self::Another => "Another one was taken in its place",
            Self::Exchanged => "It was exchanged with another one",
            Self::HeadToTail => "It was laid head to tail",
            Self::NoMark => "It was folded wrongly, or its fold lies at the fore-edge",
            Self::Foreign => "One of another job was taken in its place",
            Self::Moved => "It stands elsewhere in the row",
            Self::Reversed => "The whole row runs backwards",
            Self::Divided => "The book was divided wrong behind it",
        }
    }

    /// What was done by a fault.
    pub const fn of(fault: &Fault) -> Self {
        match fault {
            Fault::Missing { .. } => Self::LeftOut,
            Fault::Double { .. } => Self::Twice,
            Fault::WrongSection { .. } => Self::Another,
            Fault::Exchanged { .. } => Self::Exchanged,
            Fault::Lies { lies: Lies::HeadToTail, .. } => Self::HeadToTail,
            Fault::Lies { .. } | Fault::NoMark { .. } => Self::NoMark,
            Fault::Foreign { .. } => Self::Foreign,
            Fault::Moved { .. } => Self::Moved,
            Fault::Reversed => Self::Reversed,
            Fault::DividedWrong { .. } => Self::Divided,
        }
    }
}

/// The further numbers of a fault: another section, the last of a block, the section that a block stands behind.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Further {
    /// Another section.
    pub other: Option<u32>,
    /// The last one of a block.
    pub last: Option<u32>,
    /// What a block stands behind; 0 is the front of the book.
    pub after: Option<u32>,
}

impl Further {
    /// Those of a fault of a section.
    pub fn of(fault: &Fault, section: u32) -> Self {
        match *fault {
            Fault::WrongSection { section, .. } => Self { other: Some(section), ..Self::default() },
            Fault::Exchanged { sections: [a, b] } => {
                Self { other: Some(if a == section { b } else { a }), ..Self::default() }
            }
            Fault::Moved { sections: [_, last], after } => {
                Self { last: Some(last), after: Some(after), ..Self::default() }
            }
            _ => Self::default(),
        }
    }
}

/// The fault by which this was done to a section of a book of so many. Numbers that can't be are taken for the nearest that can.
pub fn fault(did: Did, section: u32, further: Further, sections: u32) -> Fault {
    let sections = sections.max(2);
    let section = section.clamp(1, sections);
    let beside = if section < sections { section + 1 } else { section - 1 };
    let other = further.other.filter(|n| (1..=sections).contains(n)).filter(|n| *n != section).unwrap_or(beside);
    match did {
        Did::LeftOut => Fault::Missing { section },
        Did::Twice => Fault::Double { section },
        Did::Another => Fault::WrongSection { at: section, section: other },
        Did::Exchanged => Fault::Exchanged { sections: [section.min(other), section.max(other)] },
        Did::HeadToTail => Fault::Lies { section, lies: Lies::HeadToTail },
        Did::NoMark => Fault::NoMark { at: section },
        Did::Foreign => Fault::Foreign { at: section },
        Did::Moved => {
            let last = further.last.unwrap_or(section).clamp(section, sections);
            let behind = if last < sections { last + 1 } else { section.saturating_sub(2) };
            let after = further.after.filter(|n| *n <= sections && !(section..=last).contains(n)).unwrap_or(behind);
            Fault::Moved { sections: [section, last], after }
        }
        Did::Reversed => Fault::Reversed,
        // Behind the last one nothing is divided.
        Did::Divided => Fault::DividedWrong { after: section.min(sections - 1) },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gather::retold;
    use proptest::prelude::*;

    proptest! {
        /// Whatever is chosen is a fault of this book that can be acted out, and it is read back as what was done.
        #[test]
        fn what_is_done_is_a_fault_of_the_book(did in 0..10_usize, section in 0..40_u32, sections in 2..30_u32,
            other in proptest::option::of(0..40_u32), last in proptest::option::of(0..40_u32), after in proptest::option::of(0..40_u32)) {
            let did = Did::ALL[did];
            let made = fault(did, section, Further { other, last, after }, sections);
            prop_assert_eq!(Did::of(&made), did);
            prop_assert!(!retold(sections, &[made]).is_empty());
            let at = section.clamp(1, sections);
            prop_assert_eq!(fault(did, at, Further::of(&made, at), sections), made);
            if let Fault::Moved { sections: [a, b], after } = made {
                prop_assert!(a <= b && b <= sections && after <= sections && !(a..=b).contains(&after));
            }
        }
    }
}
