//! What can be wrong with a gathered book.

use serde::{Deserialize, Serialize};

use crate::marks::Lies;

/// One fault. Stations and sections count from 1; in a right book station n gives section n.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Fault {
    /// The section is not there.
    Missing {
        /// Its number.
        section: u32,
    },
    /// Two copies of the section lie together.
    Double {
        /// Its number.
        section: u32,
    },
    /// A station held a section that belongs elsewhere.
    WrongSection {
        /// The station.
        at: u32,
        /// The section it held.
        section: u32,
    },
    /// Two sections stand in each other's place.
    Exchanged {
        /// The two, ascending.
        sections: [u32; 2],
    },
    /// A section does not lie right.
    Lies {
        /// Its number.
        section: u32,
        /// How it lies.
        lies: Lies,
    },
    /// A station held a section of another job.
    Foreign {
        /// The station.
        at: u32,
    },
    /// The section shows no mark: misfolded, or turned with its fold away from the spine.
    NoMark {
        /// The station.
        at: u32,
    },
    /// A block of sections stands elsewhere.
    Moved {
        /// The first and the last section of the block.
        sections: [u32; 2],
        /// The section it stands after; 0 at the front.
        after: u32,
    },
    /// The whole book runs backwards.
    Reversed,
    /// The row of sections was cut into books at the wrong place: it begins behind this section and ends with it.
    DividedWrong {
        /// The last section in the book.
        after: u32,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn written_as_the_protocol_says() {
        let cases = [
            (
                Fault::Missing { section: 5 },
                r#"{"kind":"missing","section":5}"#,
            ),
            (
                Fault::Double { section: 5 },
                r#"{"kind":"double","section":5}"#,
            ),
            (
                Fault::WrongSection { at: 5, section: 9 },
                r#"{"kind":"wrong_section","at":5,"section":9}"#,
            ),
            (
                Fault::Exchanged { sections: [5, 6] },
                r#"{"kind":"exchanged","sections":[5,6]}"#,
            ),
            (
                Fault::Lies {
                    section: 5,
                    lies: Lies::HeadToTail,
                },
                r#"{"kind":"lies","section":5,"lies":"head_to_tail"}"#,
            ),
            (Fault::Foreign { at: 5 }, r#"{"kind":"foreign","at":5}"#),
            (Fault::NoMark { at: 5 }, r#"{"kind":"no_mark","at":5}"#),
            (
                Fault::Moved {
                    sections: [3, 6],
                    after: 10,
                },
                r#"{"kind":"moved","sections":[3,6],"after":10}"#,
            ),
            (Fault::Reversed, r#"{"kind":"reversed"}"#),
            (
                Fault::DividedWrong { after: 6 },
                r#"{"kind":"divided_wrong","after":6}"#,
            ),
        ];
        for (fault, text) in cases {
            assert_eq!(serde_json::to_string(&fault).unwrap(), text);
            assert_eq!(serde_json::from_str::<Fault>(text).unwrap(), fault);
        }
        assert!(serde_json::from_str::<Fault>(r#"{"kind":"missing","section":5,"at":1}"#).is_err());
    }
}
