//! Sheets that lie on the bench in place of the job's own.

use crate::scene::Bench;
use crate::ui::shared::Shared;
use yew::AttrValue;

/// What was put on the bench, by whoever works a layout back or traces a wrong section.
#[derive(Clone, Debug, PartialEq)]
pub struct OnBench {
    /// The sheet in hand.
    pub bench: Shared<Bench>,
    /// The same sheet as it should be folded or printed, to lie beside it.
    pub beside: Option<Shared<Bench>>,
    /// What it is, in a sentence.
    pub says: AttrValue,
    /// Whether the hands may fold it as they like.
    pub free: bool,
}
