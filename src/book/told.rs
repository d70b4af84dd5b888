//! A finding about a book: the sentence, the sum behind it, and where the rule comes from.

use crate::finish::Severity;
use crate::paper::Length;
use serde::{Serialize, Serializer};

/// One finding, of the pattern of [`crate::finish::Finding`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// How much it matters: `fine`, `mind` or `wrong`.
    #[serde(serialize_with = "word")]
    pub severity: Severity,
    /// The finding, in whole sentences.
    pub says: String,
    /// The sum, with its numbers put in; empty where there is none.
    pub reckoned: String,
    /// Where the rule comes from.
    pub source: &'static str,
}

fn word<S: Serializer>(severity: &Severity, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(match severity {
        Severity::Fine => "fine",
        Severity::Mind => "mind",
        Severity::Wrong => "wrong",
    })
}

/// Millimetres to a hundredth.
pub(super) fn mm(length: Length) -> String {
    crate::units::short(length.mm())
}

/// Millimetres to the micrometre, for the thickness of paper.
pub(super) fn fine(length: Length) -> String {
    let um = (length.nm().max(0) + 500) / 1_000;
    let decimals = format!("{:03}", um % 1_000);
    match decimals.trim_end_matches('0') {
        "" => (um / 1_000).to_string(),
        decimals => format!("{}.{decimals}", um / 1_000),
    }
}

/// "1 leaf", "3 leaves".
pub(super) fn count(n: u32, one: &str, more: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {more}") }
}

/// "1, 2 and 3".
pub(super) fn list(all: &[String]) -> String {
    crate::words::list_of(all, usize::MAX, 0)
}

/// A length as a number of millimetres.
pub(super) fn as_mm<S: Serializer>(length: &Length, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_f64(length.mm())
}
