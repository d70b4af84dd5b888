//! Two benches in step: what an answer makes, beside what was found or what is right.

use crate::scene::Bench;
use crate::ui::bench::{PairProps, use_pair};
use crate::ui::shared::Shared;
use yew::prelude::*;

/// What lies there.
#[derive(Clone, PartialEq, Properties)]
pub struct SideBySideProps {
    /// What the two are called.
    pub names: [&'static str; 2],
    /// What lies at the left.
    pub left: Shared<Bench>,
    /// What lies at the right.
    pub right: Shared<Bench>,
    /// The moment at which both come to rest.
    pub end: u32,
    /// What was done at the right, in a sentence.
    pub says: AttrValue,
    /// What has to be said about the picture.
    #[prop_or_default]
    pub note: AttrValue,
}

/// The two.
#[component]
pub fn SideBySide(props: &SideBySideProps) -> Html {
    use_pair(&PairProps {
        waits: false,
        names: props.names,
        benches: Some((props.left.clone(), props.right.clone())),
        end: props.end,
        says: props.says.clone(),
        note: props.note.clone(),
        turn: 0,
        show: None,
    })
}
