//! The logbook: what was handed in, what is weak, what to practise next and by which rule; as a table and as a file.
//!
//! - `entries`: what was handed in, newest first
//! - `totals`: sums by kind and level, drawn
//! - `file`: the name, the table, the logbook as a file and back again

mod entries;
mod file;
mod totals;

use super::{Part, PartProps};
use crate::class::DeskAct;
use crate::ui::widgets::words;
use entries::Entries;
use file::LogbookFile;
use yew::prelude::*;

/// The part.
#[component]
pub fn LogbookPage(props: &PartProps) -> Html {
    let desk = &props.desk.desk;
    let act = props.desk.act.clone();
    let logbook = &desk.logbook;
    let empty = logbook.entries().is_empty();
    let next = logbook.next();
    let practise = {
        let (act, open, set) = (act.clone(), props.open.clone(), (next.kind, next.level, next.seed));
        Callback::from(move |_: MouseEvent| {
            act.emit(DeskAct::Set(set.0, set.1, set.2));
            open.emit(Part::Practise);
        })
    };
    let look_again = {
        let (act, open) = (act.clone(), props.open.clone());
        Callback::from(move |(kind, level, seed)| {
            act.emit(DeskAct::Set(kind, level, seed));
            open.emit(Part::Practise);
        })
    };
    let says = if empty {
        "Nothing was handed in yet. Take an exercise: what you hand in is written down here.".to_owned()
    } else {
        weak_told(&logbook.weak())
    };
    html! {
        <section class="logbook" aria-label="Logbook">
            <div class="logbook-next">
                <p class="lesson-does weak">{ words(&says) }</p>
                <p class="next-says" hidden={empty}>
                    { words(&format!("Next: “{}”, level {}. {}", next.kind.title(), next.level, next.says)) }
                </p>
                <p class="quiet next-rule" hidden={empty}>{ words(&format!("By this rule: {}", next.rule)) }</p>
                <button type="button" class="button slip practise-next" onclick={practise}>
                    { if empty { "Take the first exercise" } else { "Practise it" } }
                </button>
            </div>
            { totals::totals(&logbook.totals()) }
            <Entries logbook={desk.logbook.entries().to_vec()} {look_again} />
            <LogbookFile desk={desk.clone()} {act} />
        </section>
    }
}

/// What is weak, in a sentence.
fn weak_told(weak: &[crate::practice::Total]) -> String {
    let named: Vec<String> = weak.iter().take(3).map(|t| format!("“{}”, level {}", t.kind.title(), t.level)).collect();
    match named.as_slice() {
        [] => "Nothing is weak: every kind that was tried has 80 of a hundred marks or more in its last five tries."
            .into(),
        [one] => format!("Still weak: {one}."),
        [all @ .., last] => format!("Still weak: {}, and {last}.", all.join("; ")),
    }
}
