//! How likely each cause is taken to be: the stated weights with their sources, to be changed and to be put back.

use super::fields::{Field, plain};
use crate::app::{Action, CaseAct, Job};
use crate::trace::{Figure, Odds};
use crate::ui::store::Act;
use crate::ui::widgets::Dialog;
use crate::units::{parse_decimal, short};
use yew::prelude::*;

/// The dialog of the odds.
pub fn odds(job: &Job, open: bool, close: &Callback<()>, act: &Act) -> Html {
    let row = |(at, figure): (usize, Figure)| {
        let stated = job.odds.iter().find(|(name, _)| *name == figure.key).map(|(_, odds)| *odds);
        let back = {
            let key = figure.key.clone();
            act.reform(move |()| Action::Case(CaseAct::Odds(key.clone(), None)))
        };
        let enter = {
            let (act, key) = (act.clone(), figure.key.clone());
            Callback::from(move |text: String| {
                act.emit(match parse_decimal(&text) {
                    Some(odds) => Action::Case(CaseAct::Odds(key.clone(), Some(odds))),
                    None => Action::Say(format!("“{text}” is no weight; it is a number such as 4 or 0.3.")),
                });
            })
        };
        let field = Field {
            id: format!("odds-{}", figure.key),
            label: &figure.says,
            value: short(stated.unwrap_or(figure.value)),
            short: true,
            wrong: String::new(),
            typing: Callback::noop(),
            enter,
        };
        let as_stated = format!("As stated: {}", short(figure.value));
        html! {
            <li key={at}>
                { field.view() }
                <p class="quiet">{ figure.source.clone() }
                    <span hidden={stated.is_none()}>{ " " }{ plain(&as_stated, Some(format!("{as_stated}, {}", figure.says)), &back) }</span></p>
            </li>
        }
    };
    let figures = if open { Odds::default().figures() } else { Vec::new() };
    let all = act.reform(|()| Action::Case(CaseAct::OddsAsStated));
    let shut = close.reform(|_: MouseEvent| ());
    html! {
        <Dialog {open} title="How likely each cause is" close={close.clone()}>
            <p>{ "Weights against each other: they rank causes that explain the finds equally well. Nobody has counted these faults." }</p>
            <ul class="odds">{ for figures.into_iter().enumerate().map(row) }</ul>
            <div class="dialog-foot">
                <span hidden={job.odds.is_empty()}>{ plain("All as stated", None, &all) }</span>
                <button type="button" class="button" onclick={shut}>{ "Close" }</button>
            </div>
        </Dialog>
    }
}
