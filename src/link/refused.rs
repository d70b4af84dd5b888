//! Why a link is refused, in words for the person who was sent it.

use thiserror::Error;

/// Why a text is not read as a link. Nothing is guessed: a link that is not whole is not opened at all.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum Refused {
    /// No signs.
    #[error("There is no link here.")]
    Empty,
    /// Far longer than any link.
    #[error("This is too long to be a link.")]
    TooLong,
    /// A sign that no link has.
    #[error(
        "Sign {at} of this link is “{sign}”, and no link has that sign. Copy it once more from where it was given."
    )]
    Sign {
        /// Which one, from 1 behind the `#`.
        at: usize,
        /// The sign.
        sign: char,
    },
    /// Not even its first signs are whole.
    #[error("This link was cut short; only its first signs are left.")]
    CutAtOnce,
    /// Its first signs don't fit one another.
    #[error("This is no link of Backmark, or its first signs were changed on the way.")]
    Beginning,
    /// From a later program.
    #[error("This link was made by a newer program: it has form {version}, and this program reads form 1.")]
    Newer {
        /// Its form.
        version: u8,
    },
    /// Cut short.
    #[error("This link was cut short: {}.", signs_missing(*missing))]
    Cut {
        /// Signs that are missing.
        missing: usize,
    },
    /// Something was put behind it, or into it.
    #[error("This link has {}.", signs_too_many(*signs))]
    Surplus {
        /// Signs too many.
        signs: usize,
    },
    /// The check fails.
    #[error("This link was changed on the way: its check does not fit. Copy it once more from where it was given.")]
    Changed,
    /// Whole, but what it holds can't be.
    #[error("This link is whole, but what it holds can't be opened: {0}")]
    Holds(String),
    /// No link can be made of it.
    #[error("No link can be made: {0}")]
    NotWritten(String),
}

fn signs_missing(signs: usize) -> String {
    if signs == 1 { "1 sign is missing".into() } else { format!("{signs} signs are missing") }
}

fn signs_too_many(signs: usize) -> String {
    if signs == 1 { "1 sign too many".into() } else { format!("{signs} signs too many") }
}

/// A refusal of what a whole link holds.
pub(super) fn holds<T>(says: impl Into<String>) -> Result<T, Refused> {
    Err(Refused::Holds(says.into()))
}
