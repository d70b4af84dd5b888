//! The book of a lesson: piles, the stack with its spine, and what the hands do to it; then what is wrong with it, named.

use super::laid::{Own, row};
use crate::app::{Action, Job, Spoil, State};
use crate::gather::stack::{Placed, Stack};
use crate::gather::{Fault, Found};
use crate::marks::Lies;
use crate::practice::lesson::Goal;
use crate::scene::{PilesLay, StackLay};
use crate::ui::rooms::class::stand::Stand;
use crate::ui::rooms::gather::asker::Asker;
use crate::ui::rooms::gather::asking::{Answer, Ask, Hand, Pick};
use crate::ui::rooms::gather::backs::{Shows, backs};
use crate::ui::rooms::gather::piles::{Props as PilesProps, use_piles};
use crate::ui::rooms::gather::reading::{due, name, section_in_stack};
use crate::ui::rooms::gather::space::use_spaces;
use crate::ui::rooms::gather::stack::{Gesture, Props as StackProps, use_stack};
use std::rc::Rc;
use yew::prelude::*;

/// How far the picked row stands out at the tail.
const OUT: f64 = 14.0;

/// What the hands can do to the book here.
const HANDS: [Hand; 5] = [Hand::LeaveOut, Hand::TakeTwo, Hand::PutIn, Hand::Exchange, Hand::HeadToTail];

/// What can be said to have happened at a back, and the fault that it means.
const NAMES: [(Named, &str); 5] = [
    (Named::MissingBefore, "One is missing before it"),
    (Named::Twice, "It is there twice"),
    (Named::Wrong, "It is a wrong one here"),
    (Named::Turned, "It lies head to tail"),
    (Named::Exchanged, "It and the next changed places"),
];

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Named {
    MissingBefore,
    Twice,
    Wrong,
    Turned,
    Exchanged,
}

/// The fault that somebody means who points at a place (from 1) and says this. `None` where it means nothing.
fn meant(named: Named, row: &[Found], place: u32) -> Option<Fault> {
    let at = |place: u32| match row.get((place as usize).checked_sub(1)?)? {
        Found::Section { section, .. } => Some(*section),
        _ => None,
    };
    let here = at(place)?;
    Some(match named {
        Named::MissingBefore => Fault::Missing { section: here.checked_sub(1).filter(|s| *s > 0)? },
        Named::Twice => Fault::Double { section: here },
        Named::Wrong => Fault::WrongSection { at: place, section: here },
        Named::Turned => Fault::Lies { section: here, lies: Lies::HeadToTail },
        Named::Exchanged => {
            let next = at(place + 1)?;
            Fault::Exchanged { sections: [here.min(next), here.max(next)] }
        }
    })
}

/// What the book needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The stand whose state holds the stack.
    pub stand: Stand,
    /// Whether the window is narrow.
    pub narrow: bool,
    /// What is to come about.
    pub goal: Goal,
    /// What was said.
    pub own: Own,
    /// Says something.
    pub change: Callback<Own>,
}

#[component]
pub fn BookView(props: &Props) -> Html {
    let state = &props.stand.state;
    let job = &state.job;
    let picked = use_state_eq(|| 1u32);
    let ask = use_state_eq(|| None::<Ask>);
    let refused = use_state_eq(|| None::<&'static str>);
    let (piles_box, stack_box, node) = (use_node_ref(), use_node_ref(), use_node_ref());
    let spaces = use_spaces(&piles_box, &stack_box, props.narrow);
    let shown: Rc<[Shows]> = backs(job).into();
    let count = shown.len() as u32;
    let place = (*picked).clamp(1, count.max(1));
    let lay = Rc::new(StackLay::new(spaces.stack, count, job.design.stairs.spine_mm));
    let piles = Rc::new(PilesLay::new(spaces.piles, job.sections));
    let found = row(state);
    let names: Rc<[AttrValue]> = (1u32..).zip(shown.iter()).map(|(p, back)| name(&found, p, back).into()).collect();
    let due: Rc<[Option<f64>]> = found.iter().map(|found| due(job, Some(found))).collect();
    let asked = *ask;
    let settle = {
        let (act, ask, refused) = (props.stand.act.clone(), ask.setter(), refused.setter());
        let (own, change) = (props.own.clone(), props.change.clone());
        Callback::from(move |answer: Answer| match answer {
            Answer::Do(spoil) => {
                ask.set(None);
                refused.set(None);
                // What was said of the book before is not said of this one.
                change.emit(Own { named: None, ..own.clone() });
                act.emit(Action::Spoil(spoil));
            }
            Answer::Ask(next) => {
                ask.set(Some(next));
                refused.set(None);
            }
            Answer::No(why) => refused.set(Some(why)),
        })
    };
    let answer = {
        let settle = settle.clone();
        Callback::from(move |pick: Pick| {
            if let Some(ask) = asked {
                settle.emit(ask.answer(pick));
            }
        })
    };
    let hand = {
        let (picked, answer, job) = (picked.setter(), answer.clone(), job.clone());
        Callback::from(move |gesture: Gesture| match gesture {
            Gesture::Row(to) => picked.set(to),
            Gesture::Choose(to) => answer.emit(Pick::row(to, section_in_stack(&job, to))),
            _ => {}
        })
    };
    let pile = {
        let (put, state, answer, picked) = (props.stand.put.clone(), state.clone(), answer.clone(), picked.setter());
        Callback::from(move |section: u32| match asked {
            Some(_) => answer.emit(Pick::pile(section, None)),
            None => {
                picked.set(state.job.stack.placed().len() as u32 + 1);
                put.emit(with_one_more(&state, section));
            }
        })
    };
    let row_of_piles = use_piles(&PilesProps { lay: piles, picked: last_taken(&found), pick: pile });
    let spine = use_stack(&StackProps {
        lay,
        backs: shown,
        names,
        due,
        design: job.design.clone(),
        picked: (place, OUT * spaces.stack.scale),
        caret: None,
        asking: asked.is_some(),
        hand,
        node,
    });
    let naming = props.goal == Goal::Explained;
    let laying = matches!(props.goal, Goal::RightBook(_));
    let begin = {
        let settle = settle.clone();
        settle.reform(move |hand: Hand| hand.begin(place))
    };
    let hands = HANDS.into_iter().map(|act| {
        let onclick = begin.reform(move |_: MouseEvent| act);
        html! { <button type="button" class="button" {onclick} disabled={count == 0}>{ act.name() }</button> }
    });
    let good = settle.reform(|_: MouseEvent| Answer::Do(Spoil::MakeGood));
    let clear = {
        let (put, state) = (props.stand.put.clone(), state.clone());
        Callback::from(move |_: MouseEvent| put.emit(with_stack(&state, Vec::new())))
    };
    let say = |(named, says): (Named, &'static str)| {
        let fault = meant(named, &found, place);
        let pressed = (fault.is_some() && props.own.named == fault).to_string();
        let (own, change) = (props.own.clone(), props.change.clone());
        let onclick = Callback::from(move |_: MouseEvent| {
            if fault.is_some() {
                change.emit(Own { named: fault, ..own.clone() });
            }
        });
        html! { <button type="button" class="button" aria-pressed={pressed} {onclick}>{ says }</button> }
    };
    let give_up = {
        let ask = ask.setter();
        Callback::from(move |()| ask.set(None))
    };
    let foot = match asked {
        Some(ask) => html! {
            <Asker {ask} refused={refused.map(AttrValue::from)} folds={Vec::new()} narrow={props.narrow} {answer} {give_up} />
        },
        None if naming => html! {
            <div class="class-row" role="group" aria-label={format!("What happened at place {place}")}>
                <p class="lesson-place-named">{ crate::ui::widgets::words(&format!("Place {place}:")) }</p>
                { for NAMES.into_iter().map(say) }
            </div>
        },
        None => html! {
            <div class="class-row" role="group" aria-label={format!("What the hands do at place {place}")}>
                <p class="lesson-place-named" hidden={count == 0}>{ crate::ui::widgets::words(&format!("Place {place}:")) }</p>
                <span class="class-row" hidden={count == 0}>{ for hands }</span>
                <button type="button" class="button" hidden={!laying || count == 0} onclick={clear}>{ "Take them off" }</button>
                <button type="button" class="button slip" onclick={good}>
                    { if count == 0 { "Take one of each, in order" } else { Hand::MakeGood.name() } }
                </button>
            </div>
        },
    };
    html! {
        <div class="lesson-book">
            <div ref={piles_box} class="lesson-piles">{ row_of_piles }</div>
            <div ref={stack_box} class="stack-box">{ spine }</div>
            <div class="lesson-hands">{ foot }</div>
        </div>
    }
}

fn last_taken(found: &[Found]) -> u32 {
    match found.last() {
        Some(Found::Section { section, .. }) => *section,
        _ => 0,
    }
}

/// The stack with one more section on it, as long as it is not a book already.
fn with_one_more(state: &State, section: u32) -> State {
    let mut placed = state.job.stack.placed().to_vec();
    if placed.len() <= state.job.sections as usize {
        placed.push(Placed::good(section));
    }
    with_stack(state, placed)
}

fn with_stack(state: &State, placed: Vec<Placed>) -> State {
    let stack = Stack::try_from(placed).unwrap_or_default();
    let job = Job { stack, ..(*state.job).clone() };
    State { job: Rc::new(job), ..state.clone() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gather::retold;

    /// Each fault of the lessons can be said by pointing at a back.
    #[test]
    fn what_happened_can_be_said_by_pointing_at_a_back() {
        for (fault, named, place) in [
            (Fault::Missing { section: 5 }, Named::MissingBefore, 5),
            (Fault::Double { section: 4 }, Named::Twice, 5),
            (Fault::WrongSection { at: 5, section: 9 }, Named::Wrong, 5),
            (Fault::Lies { section: 3, lies: Lies::HeadToTail }, Named::Turned, 3),
            (Fault::Exchanged { sections: [6, 7] }, Named::Exchanged, 6),
        ] {
            assert_eq!(meant(named, &retold(10, &[fault]), place), Some(fault));
        }
        assert_eq!(meant(Named::MissingBefore, &[Found::right(1)], 1), None);
        assert_eq!(meant(Named::Twice, &[], 1), None);
    }
}
