//! The second subject of the Trace room: what was found in one wrong section, and what would make it so.
//!
//! - `found`: the pages as entered, what is due, what is wrong (no web)
//! - `openings`, `pad`, `line`, `made_up`: the left half, where pages are entered
//! - `causes`: the right half, what would leave these pages
//! - `acted`: the right sheet and the one of a cause (no web)
//! - `put_together`: a section of several pieces, and the right one
//! - `thread`: from the wrong page in hand to the cause
//! - `teach`: a wrong section made by choice, and the table of faults that look alike

pub(in crate::ui::rooms) mod acted;
mod causes;
pub(in crate::ui::rooms) mod found;
mod line;
mod made_up;
pub(in crate::ui::rooms) mod openings;
mod pad;
mod put_together;
mod teach;
mod thread;

use super::Props;
use crate::app::{
    Action, CauseTold, NestTold, Room, SectionCase, SectionEvidence, Subject, TraceLook, WayTold, act_out_question,
    read_acted_out, read_section_told,
};
use crate::fold::Reads;
use crate::json::Json;
use crate::scene::{Bench, Printing};
use crate::ui::asked::use_answer;
use crate::ui::bench::{OnBench, PairProps, use_pair};
use crate::ui::shared::Shared;
use crate::ui::widgets::{figures, words};
use acted::{done_bench, ends_at, wrong_places};
use causes::{Chosen, Known, causes};
use found::{Found, entered, opening_of};
use line::use_line;
use made_up::made_up;
use pad::use_pad;
use put_together::{Nests, drawn, put_together};
use std::rc::Rc;
use teach::use_teach;
use thread::use_thread;
use yew::prelude::*;

/// The room while one section is its subject.
#[component]
pub fn SectionRoom(props: &Props) -> Html {
    let (state, act) = (&props.state, &props.act);
    let case = &state.job.section_case;
    let first = state.shift() + 1;
    let of = use_memo((state.sheet().course.clone(), state.section_on_bench()), {
        let state = state.clone();
        move |(_, section)| state.job.section_of(*section)
    });
    // A section that was laid together from parts of the sheet has pages, and causes that nobody knows.
    let count = of.as_ref().as_ref().map_or_else(|| state.job.pages_of(state.section_on_bench()), |of| case.pages(of));
    let scheme = of.as_ref().as_ref().map_or_else(|| state.section_scheme(), |of| of.scheme.clone());
    let question = of.as_ref().as_ref().and_then(|of| case.question(of, first));
    let heard = use_answer(&props.checker, question.clone(), read_section_told);
    // The place that was chosen to be corrected, the opening that is looked at, and whether the list is at its end.
    let chosen_place = use_state_eq(|| None::<usize>);
    let chosen_opening = use_state_eq(|| None::<usize>);
    let ended = use_state_eq(|| true);
    let chosen = use_state_eq(|| -> Chosen { (0, None) });
    // Whether the causes are covered, so that a class may find them first.
    let covered = use_state_eq(|| false);

    let told = match heard.as_ref() {
        Some((of, Ok(told))) if Some(of) == question.as_ref() => Some(told),
        _ => None,
    };
    let found = Found::of(case, told, first, count);
    let here = found.pages.len();
    let going = (here == 0 || !*ended) && here < found.due.len() && !found.made && found.broken.is_none();
    let entering = (*chosen_place).filter(|at| *at <= here).or_else(|| going.then_some(here));
    let opening = match (*chosen_opening, entering) {
        (_, Some(at)) => opening_of(at),
        (Some(opening), None) => opening.min(found.places() / 2),
        (None, None) => found.first_wrong().map_or(0, opening_of),
    };
    {
        // Another section, or another evidence, is looked at from its beginning.
        let (chosen, chosen_opening) = (chosen.setter(), chosen_opening.setter());
        use_effect_with(question.clone(), move |_| {
            chosen.set((0, None));
            chosen_opening.set(None);
        });
    }
    let enter = {
        let (act, case, found, place, ended) =
            (act.clone(), case.clone(), found.clone(), chosen_place.setter(), ended.setter());
        Callback::from(move |(page, head_down): (Option<u32>, bool)| {
            let Some(at) = entering else { return };
            let evidence = SectionEvidence::Typed(found.with(at, entered(page, head_down)));
            act.emit(Action::Section(SectionCase { evidence, ..case.clone() }));
            let all = found.pages.len().max(at + 1);
            place.set((all < found.due.len() && at + 1 < found.pages.len()).then_some(at + 1));
            if at >= found.pages.len() {
                ended.set(false);
            }
        })
    };
    let back = {
        let place = chosen_place.setter();
        Callback::from(move |()| place.set(entering.map(|at| at.saturating_sub(2))))
    };
    let end = {
        let (ended, place) = (ended.setter(), chosen_place.setter());
        Callback::from(move |()| {
            ended.set(true);
            place.set(None);
        })
    };
    let paper = openings::Props {
        found: found.clone(),
        opening,
        entering,
        reads: state.sheet().course.reads,
        tap: {
            let place = chosen_place.setter();
            Callback::from(move |at: usize| place.set(if entering == Some(at) { None } else { Some(at.min(here)) }))
        },
        open: {
            let (place, opening) = (chosen_place.setter(), chosen_opening.setter());
            Callback::from(move |k: usize| {
                place.set(None);
                opening.set(Some(k));
            })
        },
        end: (going && here > 0).then(|| end.clone()),
    };
    let pad = use_pad(&pad::Props { found: found.clone(), entering, enter, back });
    let fore_edge = told.filter(|_| found.made).map_or(case.fore_edge, |told| told.fore_edge);
    let line =
        use_line(&line::Props { case: case.clone(), found: found.clone(), fore_edge, act: act.clone(), read: end });
    let known = match (heard.as_ref(), told) {
        _ if of.is_none() => Known::Untold,
        _ if question.is_none() => Known::Nothing,
        _ if going && found.broken.is_none() => Known::Going(here, found.due.len()),
        (_, Some(_)) if *covered => Known::Covered,
        (_, Some(told)) => Known::Told(Rc::new(told.clone())),
        (Some((of, Err(_))), None) if Some(of) == question.as_ref() => Known::Refused,
        _ => Known::Asked,
    };
    let acts = use_acts(props, &known, *chosen);
    let set_covered = Callback::from({
        let covered = covered.setter();
        move |to| covered.set(to)
    });
    let strangers = use_memo((of.clone(), case.made_up.clone(), first), {
        let case = case.clone();
        move |(of, _, first)| of.as_ref().as_ref().map(|of| case.strangers(of, *first)).unwrap_or_default()
    });
    let (teach, dialogs) = use_teach(&teach::Props {
        case: case.clone(),
        scheme: scheme.clone(),
        strangers: strangers.as_slice().into(),
        first,
        act: act.clone(),
        checker: props.checker.clone(),
        cover: set_covered.clone(),
    });
    let example = {
        let (act, case) = (act.clone(), case.clone());
        Callback::from(move |()| {
            let cause = Json::object([("kind", "fold_other_way".into()), ("fold", 1.into())]);
            let evidence = SectionEvidence::Made(Json::List(vec![cause]));
            act.emit(Action::Section(SectionCase { evidence, fore_edge: false, ..case.clone() }));
        })
    };
    let right_half = causes(&causes::Props {
        known: &known,
        chosen: *chosen,
        choose: Callback::from({
            let chosen = chosen.setter();
            move |to| chosen.set(to)
        }),
        example,
        teach,
        uncover: set_covered.reform(|()| false),
        pair: acts,
    });
    let room = use_node_ref();
    let recto = found::sides(opening, found.places());
    let at_right = if state.sheet().course.reads == Reads::LeftToRight { recto.1 } else { recto.0 };
    let explained = matches!(&known, Known::Told(told) if told.causes.iter().any(|c| c.cause.is_some()));
    let thread = use_thread(&room, !props.narrow && explained && at_right.is_some_and(|at| found.is_wrong(at)));
    {
        // What was put on the bench from here is taken off it by coming back.
        let put = props.put.clone();
        use_effect_with((), move |()| put.emit(None));
    }
    let leads: &[String] = match &known {
        Known::Told(told) => &told.leads,
        _ => &[],
    };
    // In a narrow window the causes lie below all that was entered; what was found out is said at once.
    let verdict = match &known {
        Known::Told(told) if told.right => "It reads right.".to_owned(),
        Known::Told(told) => told.causes.first().map(|cause| cause.title.clone()).unwrap_or_default(),
        _ => String::new(),
    };
    // What was made stands beside the section; the causes are found from its pages alone and may come in another order.
    let made_here = match (&case.evidence, &known) {
        (SectionEvidence::Made(made), Known::Told(told)) => {
            told.title_of(made).map(|title| format!("Made here: {title}")).unwrap_or_default()
        }
        _ => String::new(),
    };
    let look = state.look.trace;
    let whole_book = act.reform(move |_: MouseEvent| Action::Trace(TraceLook { subject: Subject::Book, ..look }));
    let last = found.due.last().copied().unwrap_or(first);
    let printed = state.job.printed_from(first, last).map(|says| format!(", {says}")).unwrap_or_default();
    let about = format!("Section {}, pages {} to {}{printed}", state.section_on_bench(), first, last);
    html! {
        <main ref={room} class="room-trace">
            <h1 class="unseen" hidden={!props.narrow}>{ "Trace" }</h1>
            <section class="finds" aria-label="What was found">
                <div class="half-head">
                    <h2>{ "What was found" }</h2><span class="quiet about">{ words(&about) }</span>
                    <button type="button" class="plain" onclick={whole_book}>{ "The whole book" }</button>
                </div>
                { openings::in_hand(&paper) }
                { openings::sentence(&paper) }
                <p class="quiet made-here" hidden={made_here.is_empty()}>{ words(&made_here) }</p>
                <a class="to-cause" href="#causes" hidden={verdict.is_empty()}>{ figures(&verdict) }</a>
                { pad }
                { openings::row(&paper) }
                { line }
                <ul class="leads" hidden={leads.is_empty()}>{ for leads.iter().map(|lead| html! { <li>{ words(lead) }</li> }) }</ul>
                { made_up(case, of.as_ref().as_ref(), state.sheet().per_sheet(), act) }
            </section>
            { right_half }
            { dialogs }
            { thread }
        </main>
    }
}

/// The sheet of the chosen cause, folding beside the right one, and how the section is put together where that takes more
/// than a sheet.
#[hook]
fn use_acts(props: &Props, known: &Known, chosen: Chosen) -> Html {
    let state = &props.state;
    let first = state.shift() + 1;
    let told = match known {
        Known::Told(told) => Some(told.clone()),
        _ => None,
    };
    let card = told.as_ref().and_then(|told| told.causes.get(chosen.0).or_else(|| told.causes.first()));
    let alike = card.zip(chosen.1).and_then(|(card, at)| card.alike.get(at));
    let apart = alike.filter(|alike| alike.nest.is_none());
    let question = apart.map(|alike| act_out_question(&state.section_scheme(), first, &alike.cause));
    let heard = use_answer(&props.checker, question.clone(), read_acted_out);
    let way: Option<WayTold> = match (apart, heard.as_ref()) {
        (None, _) => card.filter(|_| alike.is_none()).and_then(|card| card.way.clone()),
        (Some(_), Some((of, Ok(ways)))) if Some(of) == question.as_ref() => {
            let found = told.as_ref().map(|told| &told.found);
            ways.iter().find(|way| Some(&way.pages) == found).or_else(|| ways.first()).cloned()
        }
        (Some(_), Some((of, Err(_)))) if Some(of) == question.as_ref() => None,
        // Until the answer comes, the cause itself lies there.
        (Some(_), _) => card.and_then(|card| card.way.clone()),
    };
    let done = alike.map_or_else(|| card.and_then(|card| card.nest.clone()), |alike| alike.nest.clone());
    let nests = told.as_ref().and_then(|told| told.nest.clone()).zip(done);
    let nests = nests.map(|(right, done)| Nests { right, done, reads: state.sheet().course.reads });
    let pictures = use_memo(nests.clone(), |nests| nests.as_ref().map(drawn));
    // Of a section of several pieces, the one that was folded or printed wrongly.
    let piece = if alike.is_none() && card.is_some_and(CauseTold::is_on_inset) { 2 } else { 1 };
    let due: Rc<[u32]> = match (&nests, &told) {
        (Some(nests), _) => nests.right.on_piece(piece).into(),
        (None, Some(told)) => told.due.as_slice().into(),
        (None, None) => Rc::from([]),
    };
    let right = use_memo((state.sheet().course.clone(), state.job.design.clone(), state.placed(), state.shift()), {
        let state = state.clone();
        move |_| state.right_bench().map(Shared::new)
    });
    let right_piece = nests.map(|nests| (piece, nests.right));
    let acted = use_memo((way, due, (*right).clone(), right_piece), |(way, due, right, right_piece)| {
        let way = way.as_ref()?;
        let right = match right_piece {
            Some((piece, nest)) => Shared::new(piece_bench(nest, *piece)?),
            None => right.clone()?,
        };
        let wrong = wrong_places(way, due);
        let done = Shared::new(done_bench(way, &right.printing, &wrong)?);
        let end = ends_at(&done, way, &wrong);
        let note = match (way.sheets, right_piece) {
            (1, Some((2, _))) => "Folded here: the inset alone.",
            (1, Some(_)) => "Folded here: the outer sheet alone.",
            (1, None) => "",
            _ => "Two sheets are folded as one; the upper one is drawn.",
        };
        Some((right, done, end, note))
    });
    let says: AttrValue =
        alike.map(|a| &a.title).or_else(|| card.map(|c| &c.title)).cloned().unwrap_or_default().into();
    let benches: Option<(Shared<Bench>, Shared<Bench>)> =
        acted.as_ref().as_ref().map(|(r, d, ..)| (r.clone(), d.clone()));
    let show = {
        let (benches, put, act, says) = (benches.clone(), props.put.clone(), props.act.clone(), says.clone());
        Callback::from(move |()| {
            if let Some((right, done)) = benches.clone() {
                put.emit(Some(Rc::new(OnBench {
                    bench: done,
                    beside: Some(right),
                    says: format!("{says} ").into(),
                    free: false,
                })));
                act.emit(Action::Go(Room::Fold));
            }
        })
    };
    let (end, note) = acted.as_ref().as_ref().map_or((0, ""), |(_, _, end, note)| (*end, *note));
    let done_here = alike.map(|alike| format!("Done here: {}", alike.title)).unwrap_or_default();
    let turn = chosen.1.map_or(0, |at| at + 1);
    let pair = use_pair(&PairProps {
        benches,
        waits: false,
        names: ["The right way", "As it was done"],
        end,
        says: says.clone(),
        note: note.into(),
        turn,
        show: Some(show),
    });
    html! {
        <div class="acted-out">
            <p class="quiet" hidden={done_here.is_empty()}>{ words(&done_here) }</p>
            { put_together(pictures.as_ref().as_ref(), &says) }
            { pair }
        </div>
    }
}

/// A piece of a right section as a sheet.
fn piece_bench(nest: &NestTold, piece: u32) -> Option<Bench> {
    let (_, scheme, sheet) = nest.pieces.iter().find(|(number, ..)| *number == piece)?;
    Bench::new(Printing { reads: scheme.reads, ..sheet.printing() }, scheme).ok()
}
