//! What can be done to the stack by hand: buttons along the foot, or behind one button in a narrow window.

use super::asking::Hand;
use crate::gather::stack::Placed;
use crate::marks::Lies;
use crate::ui::widgets::Dialog;
use yew::prelude::*;

/// The acts.
pub struct Props {
    /// The picked place.
    pub place: u32,
    /// What lies there.
    pub placed: Placed,
    /// Begins an act.
    pub hand: Callback<Hand>,
    /// Begins to tap marks.
    pub tap: Callback<MouseEvent>,
    /// Whether the window is narrow.
    pub narrow: bool,
}

/// The foot of the room while the stack is looked at.
#[hook]
pub fn use_acts(props: &Props) -> Html {
    let open = use_state_eq(|| false);
    let set = |to: bool| {
        let open = open.setter();
        move || open.set(to)
    };
    let (show, close) = (
        set(true),
        Callback::from({
            let close = set(false);
            move |()| close()
        }),
    );
    let acts = || Hand::ALL.into_iter().map(|hand| button(props, hand, &close));
    let good = {
        let (hand, close) = (props.hand.clone(), close.clone());
        Callback::from(move |_: MouseEvent| {
            close.emit(());
            hand.emit(Hand::MakeGood);
        })
    };
    let good = html! { <button type="button" class="button slip" onclick={good}>{ Hand::MakeGood.name() }</button> };
    if !props.narrow {
        return html! {
            <div class="acts">
                { for acts() }
                <span class="push"></span>
                <button type="button" class="button" onclick={props.tap.clone()}>{ "Tap marks" }</button>
                { good }
            </div>
        };
    }
    html! {
        <div class="acts">
            <button type="button" class="button" onclick={Callback::from(move |_: MouseEvent| show())}>{ "Spoil it" }</button>
            <button type="button" class="button" onclick={props.tap.clone()}>{ "Tap marks" }</button>
            <Dialog open={*open} title={format!("Spoil it at place {}", props.place)} close={close.clone()}>
                <div class="act-list">
                    { for acts() }{ good }
                    <button type="button" class="button" onclick={close.reform(|_: MouseEvent| ())}>{ "Close" }</button>
                </div>
            </Dialog>
        </div>
    }
}

/// One act. A turn that the picked section has already is held down; pressing it again undoes the turn.
fn button(props: &Props, act: Hand, close: &Callback<()>) -> Html {
    let lies = |lies: Lies| Some((props.placed.lies == lies).to_string());
    let pressed = match act {
        Hand::HeadToTail => lies(Lies::HeadToTail),
        Hand::SideToSide => lies(Lies::SideToSide),
        Hand::InPlane => lies(Lies::TurnedInPlane),
        _ => None,
    };
    let onclick = {
        let (hand, close) = (props.hand.clone(), close.clone());
        Callback::from(move |_: MouseEvent| {
            close.emit(());
            hand.emit(act);
        })
    };
    html! { <button type="button" class="button" aria-pressed={pressed} {onclick}>{ act.name() }</button> }
}
