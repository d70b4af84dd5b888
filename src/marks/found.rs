//! What a checker finds at one place of a gathered book.

use serde::{Deserialize, Serialize};

/// How a section lies in the stack.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(rename_all = "snake_case")]
pub enum Lies {
    /// As it should.
    #[default]
    Right,
    /// Head at the tail, its spine still at the spine; the mark shows at the mirrored height.
    HeadToTail,
    /// Turned half round in its plane: head at the tail, its fold at the fore-edge; no mark shows.
    TurnedInPlane,
    /// Turned over from side to side: its fold at the fore-edge, heads up; no mark shows.
    SideToSide,
}

/// What was found at one place, from front to back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "Raw", into = "Raw")]
pub enum Found {
    /// A section of this book.
    Section {
        /// Its number, from 1.
        section: u32,
        /// How it lies.
        lies: Lies,
    },
    /// A blank back.
    NoMark,
    /// A section of another job.
    Foreign,
    /// A back that could not be read.
    Unread,
}

impl Found {
    /// Section `section`, lying right.
    pub const fn right(section: u32) -> Self {
        Self::Section {
            section,
            lies: Lies::Right,
        }
    }
}

/// The written form: exactly one of the four keys, and `lies` only beside `section`.
#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Raw {
    #[serde(default, skip_serializing_if = "Option::is_none")]
    section: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    lies: Option<Lies>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    no_mark: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    foreign: Option<bool>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    unread: Option<bool>,
}

impl From<Found> for Raw {
    fn from(found: Found) -> Self {
        let raw = Self::default();
        match found {
            Found::Section { section, lies } => Self {
                section: Some(section),
                lies: (lies != Lies::Right).then_some(lies),
                ..raw
            },
            Found::NoMark => Self {
                no_mark: Some(true),
                ..raw
            },
            Found::Foreign => Self {
                foreign: Some(true),
                ..raw
            },
            Found::Unread => Self {
                unread: Some(true),
                ..raw
            },
        }
    }
}

impl TryFrom<Raw> for Found {
    type Error = String;

    fn try_from(raw: Raw) -> Result<Self, String> {
        let flag = |flag: Option<bool>| flag == Some(true);
        let says = match (
            raw.section,
            flag(raw.no_mark),
            flag(raw.foreign),
            flag(raw.unread),
        ) {
            (Some(section), false, false, false) => {
                return Ok(Self::Section {
                    section,
                    lies: raw.lies.unwrap_or_default(),
                });
            }
            (None, ..) if raw.lies.is_some() => "`lies` stands beside `section` only",
            (None, true, false, false) => return Ok(Self::NoMark),
            (None, false, true, false) => return Ok(Self::Foreign),
            (None, false, false, true) => return Ok(Self::Unread),
            (None, false, false, false) => {
                "a find is one of {\"section\": 1}, {\"no_mark\": true}, {\"foreign\": true}, {\"unread\": true}"
            }
            _ => "a find is only one of `section`, `no_mark`, `foreign` and `unread`",
        };
        Err(says.to_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn written_as_the_protocol_says() {
        let cases = [
            (Found::right(1), r#"{"section":1}"#),
            (
                Found::Section {
                    section: 5,
                    lies: Lies::HeadToTail,
                },
                r#"{"section":5,"lies":"head_to_tail"}"#,
            ),
            (Found::NoMark, r#"{"no_mark":true}"#),
            (Found::Foreign, r#"{"foreign":true}"#),
            (Found::Unread, r#"{"unread":true}"#),
        ];
        for (found, text) in cases {
            assert_eq!(serde_json::to_string(&found).unwrap(), text);
            assert_eq!(serde_json::from_str::<Found>(text).unwrap(), found);
        }
        assert_eq!(
            serde_json::from_str::<Found>(r#"{"section":1,"lies":"right"}"#).unwrap(),
            Found::right(1)
        );
    }

    #[test]
    fn anything_else_is_refused() {
        for text in [
            "{}",
            r#"{"section":1,"unread":true}"#,
            r#"{"lies":"right"}"#,
            r#"{"no_mark":false}"#,
            r#"{"foreign":true,"lies":"right"}"#,
            r#"{"section":1,"place":2}"#,
            r#"{"section":-1}"#,
            r#"{"section":1,"lies":"sideways"}"#,
            "3",
        ] {
            assert!(serde_json::from_str::<Found>(text).is_err(), "{text}");
        }
    }
}
