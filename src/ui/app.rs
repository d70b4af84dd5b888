//! The root: restores the job, performs effects, listens to keys, and shows the room that is open.

use super::bench::{Hands, OnBench, on_key, setting};
use super::browser::{checker::Checker, keep, media};
use super::later::{Missing, use_later, wasm_split};
use super::links::{self, Linked};
use super::requested::use_requested;
use super::restoring;
use super::rooms::{class, fold::FoldRoom, gather, job, trace};
use super::store::{Act, Do, Store};
use super::widgets::{Back, Dialog, Strip};
use super::words;
use crate::app::{Action, Effect, Room, State, Task};
use crate::fold::Crease;
use crate::scene::Bench;
use crate::ui::shared::Shared;
use gloo_events::{EventListener, EventListenerOptions};
use gloo_utils::{document, window};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::KeyboardEvent;
use yew::prelude::*;

/// A window less wide than this counts as narrow, and one at least that wide as a projector, as in the style sheets (px).
const NARROW: f64 = 900.0;
const PROJECTOR: f64 = 1700.0;

fn inner_width() -> f64 {
    window().inner_width().ok().and_then(|w| w.as_f64()).unwrap_or(1280.0)
}

/// Width of the rule in the Fold room, as the style sheets leave it (px).
fn rule_width(window: f64, two: bool) -> f64 {
    let beside = match window {
        w if w < NARROW => 40.0,
        w if w < PROJECTOR => 470.0 + 68.0,
        _ if two => 640.0 + 68.0,
        _ => 685.0 + 640.0 + 68.0,
    };
    (window - beside).max(240.0)
}

/// The whole page.
#[component]
pub fn App() -> Html {
    let store = use_reducer(Store::default);
    use_requested(&store);
    let dispatcher = store.dispatcher();
    let act: Act = use_callback((), move |action: Action, ()| dispatcher.dispatch(Do::Act(action)));
    let hands = use_memo((), |()| Hands::default());
    let checker = use_memo((), |()| Checker::default());
    let ready = use_state(|| false);
    let width = use_state(inner_width);
    let narrow = *width < NARROW;
    let crease = use_state(|| None::<(Crease, u32)>);
    let reading = use_state(|| false);
    // Not while the sheet still lies flat as it did at first.
    let away = store.state.look.room != Room::Fold || store.state.look.at > 0.0;
    let all_words = use_later(*reading || away, words::way);
    // The first screen has few words; who goes on finds the others.
    let has_words = away || all_words.is_ok();
    let class_room = use_later(store.state.look.room == Room::Class, class::way);
    let gather_room = use_later(store.state.look.room == Room::Gather, gather::way);
    let job_room = use_later(store.state.look.room == Room::Job, job::way);
    let trace_room = use_later(store.state.look.room == Room::Trace, trace::way);
    let on_bench = use_state(|| None::<Rc<OnBench>>);

    let state = Rc::new(store.state.clone());
    let (own, meanwhile) = match use_bench(&state) {
        Ok(own) => (own, None),
        Err(meanwhile) => (None, Some(meanwhile)),
    };
    let bench = on_bench.as_ref().map(|other| other.bench.clone()).or(own);
    let put = {
        let on_bench = on_bench.setter();
        Callback::from(move |other: Option<Rc<OnBench>>| on_bench.set(other))
    };
    let backs = use_memo(state.job.clone(), |job| backs(job));
    {
        let open = state.look.room == Room::Fold;
        let setting = setting(&state, bench.clone(), open, *crease, on_bench.as_deref());
        let hands = hands.clone();
        // After each render: what is marked, or where things lie on the page, may have changed.
        use_effect(move || hands.put(setting));
    }
    let unread = use_state(|| None::<AttrValue>);
    use_restoring(&act, &ready, &unread);
    // After the sheet was put on the bench, so that a fold that was added can be shown being made.
    use_effects(&store, &hands, &act, *ready);
    let links = use_state(links::in_address);
    use_window(&hands, &act, &width, &links);
    let by_link = store.own.is_some() || *links != Linked::Nothing;
    let of_link = use_later(by_link, links::way);
    if !*ready {
        return html! { <main id="loading"><h1>{ "Backmark" }</h1></main> };
    }
    let show_book = act.reform(|()| Action::Go(Room::Job));
    let strip = html! {
        <section class="strip-box" aria-label="The book">
            <button type="button" class="plain title" onclick={show_book.reform(|_: MouseEvent| ())}
                aria-label={format!("{}: what this book is", state.job.title)}>{ state.job.title.clone() }</button>
            <Strip title={state.job.title.clone()} backs={(*backs).clone()} picked={state.look.place} across={narrow}
                pick={act.reform(Action::Pick)} />
        </section>
    };
    let read = {
        let reading = reading.setter();
        Callback::from(move |_: MouseEvent| reading.set(true))
    };
    let read_no_more = Callback::from({
        let reading = reading.setter();
        move |()| reading.set(false)
    });
    let all_words = match all_words {
        _ if !*reading => Html::default(),
        Ok(view) => view(words::Props { close: read_no_more.clone() }),
        Err(meanwhile) => meanwhile,
    };
    let of_link = match of_link {
        Ok(view) => view(links::Props {
            state: state.clone(),
            own: store.own.clone(),
            act: act.clone(),
            store: store.dispatcher(),
            links: links.clone(),
            put: put.clone(),
            on_bench: on_bench.is_some(),
        }),
        Err(meanwhile) if by_link => meanwhile,
        Err(_) => Html::default(),
    };
    html! {
        <>
        <div class="links">{ of_link }</div>
        <div class={classes!("window", on_bench.as_ref().is_some_and(|o| o.beside.is_some()).then_some("two"), match state.look.room { Room::Fold => "fold", Room::Gather => "gather", Room::Trace => "trace", Room::Class => "class", Room::Job => "job" })}>
            { rooms(&state, &act, read, has_words) }
            { match (state.look.room, bench) {
                (Room::Fold, Some(bench)) => html! {
                    <FoldRoom state={state.clone()} {bench} hands={(*hands).clone()} act={act.clone()}
                        rule_width={rule_width(*width, on_bench.as_ref().is_some_and(|o| o.beside.is_some()))} strip={strip} crease={crease.clone()}
                        checker={(*checker).clone()} on_bench={(*on_bench).clone()} put={put} links={links.setter()} />
                },
                (Room::Fold, None) => html! {
                    <main class="front fold">{ meanwhile.unwrap_or_else(|| html! { <p class="says">{ "There is no sheet." }</p> }) }</main>
                },
                (Room::Gather, _) => match gather_room {
                    Ok(view) => view(gather::Props {
                        state: state.clone(),
                        act: act.clone(),
                        checker: (*checker).clone(),
                        show_book: show_book.clone(),
                        narrow,
                    }),
                    Err(meanwhile) => html! { <main>{ meanwhile }</main> },
                },
                (Room::Class, _) => html! {
                    <>
                        { strip }
                        { match class_room {
                            Ok(view) => view(class::Props {
                                state: state.clone(),
                                act: act.clone(),
                                checker: (*checker).clone(),
                                links,
                                narrow,
                            }),
                            Err(meanwhile) => html! { <main>{ meanwhile }</main> },
                        } }
                    </>
                },
                (Room::Job, _) => html! {
                    <>
                        { strip }
                        { match job_room {
                            Ok(view) => view(job::Props {
                                state: state.clone(),
                                act: act.clone(),
                                checker: (*checker).clone(),
                                unread: (*unread).clone(),
                                links: links.setter(),
                                narrow,
                            }),
                            Err(meanwhile) => html! { <main>{ meanwhile }</main> },
                        } }
                    </>
                },
                (Room::Trace, _) => html! {
                    <>
                        { strip }
                        { match trace_room {
                            Ok(view) => view(trace::Props {
                                state: state.clone(),
                                act: act.clone(),
                                checker: (*checker).clone(),
                                put,
                                narrow,
                            }),
                            Err(meanwhile) => html! { <main>{ meanwhile }</main> },
                        } }
                    </>
                },
            } }
            <svg class="thread" aria-hidden="true">
                <path class="casing" /><path class="strand" /><path class="hole" />
            </svg>
            <Dialog open={*reading} title="Words" close={read_no_more}>{ all_words }</Dialog>
        </div>
        </>
    }
}

/// The way to all that slit sheets need on the bench, which is a later part.
#[wasm_split(dialogs, fallible)]
fn slit_way() -> Result<fn(&State) -> Option<Bench>, Missing> {
    Ok(State::bench)
}

/// What is on the bench, made anew only when it changes; or what to show until it can be made.
#[hook]
fn use_bench(state: &State) -> Result<Option<Shared<Bench>>, Html> {
    let making = state.look.task == Task::Make;
    let job = &state.job;
    let sheet = (state.sheet().clone(), job.design.clone());
    let deps = (state.folded_scheme(), state.piece(), sheet, state.placed(), state.section_on_bench(), making);
    let slit = state.shows_all_pieces();
    let make = use_later(slit, slit_way);
    let state = state.clone();
    let way = make.as_ref().ok().copied();
    let bench = use_memo((deps, way.is_some()), move |_| match way.filter(|_| slit) {
        Some(make) => make(&state).map(Shared::new),
        None if slit => None,
        None => state.lone_bench().map(Shared::new),
    });
    match make {
        Err(meanwhile) if slit => Err(meanwhile),
        _ => Ok((*bench).clone()),
    }
}

fn backs(job: &crate::app::Job) -> Rc<[Back]> {
    use crate::gather::stack::What;
    let (half, spine) = (job.design.stairs.length_mm / 2.0, job.design.stairs.spine_mm);
    let seen = job.seen();
    let back = |(placed, seen): (&crate::gather::stack::Placed, &crate::marks::SeenBack)| {
        let share = |mm: f64| crate::units::between(mm / spine, 0.0, 1.0);
        let bars: Vec<(f64, f64)> =
            seen.marks_mm.iter().flatten().map(|m| (share(m - half), share(m + half))).collect();
        let name = match placed.what {
            What::Ours(n) => format!("section {n}"),
            What::Foreign => "a section of another book".into(),
        };
        Back { bars, name: name.into() }
    };
    job.stack.placed().iter().zip(&seen).map(back).collect()
}

/// Reads what the browser kept, once.
#[hook]
fn use_restoring(act: &Act, ready: &UseStateHandle<bool>, unread: &UseStateHandle<Option<AttrValue>>) {
    let (act, ready, unread) = (act.clone(), ready.clone(), unread.clone());
    use_effect_with((), move |()| {
        spawn_local(async move {
            match keep::load().await {
                Ok(Some(text)) => match restoring::read(&text).await {
                    Ok(saved) => {
                        act.emit(Action::Opened { job: Box::new(saved.job), look: saved.look, by_hand: false })
                    }
                    Err(why) => {
                        // Where it can't be set aside, nothing is written over it either.
                        let _ = keep::set_aside(&text).await;
                        unread.set(Some(text.into()));
                        act.emit(Action::Say(format!(
                            "The job that was kept here can't be read: {why}. It lies in the room Job."
                        )));
                    }
                },
                Ok(None) => {}
                Err(why) => act.emit(Action::Say(format!(
                    "This browser keeps nothing here ({}). Save the job as a file before you leave.",
                    why.trim_end_matches('.')
                ))),
            }
            // Hands a copy of the figures' typeface to the canvas before the first picture.
            let _ = document().fonts().load("600 100px Folio");
            ready.set(true);
        });
    });
}

/// Performs the effects that actions asked for, each once.
#[hook]
fn use_effects(store: &UseReducerHandle<Store>, hands: &Rc<Hands>, act: &Act, ready: bool) {
    let (effects, turn) = (store.effects.clone(), store.turn);
    let (dispatcher, hands, act, store) = (store.dispatcher(), hands.clone(), act.clone(), store.clone());
    // What is to be kept next, and whether somebody is at it.
    let keeping = use_memo((), |()| (RefCell::new(None::<State>), Cell::new(false)));
    use_effect_with((turn, ready), move |(turn, ready)| {
        if !*ready || effects.is_empty() {
            return;
        }
        if effects.contains(&Effect::Save) {
            keeping.0.replace(Some(store.kept().clone()));
            if !keeping.1.replace(true) {
                spawn_local(keep_on(keeping, act.clone()));
            }
        }
        for effect in effects {
            match effect {
                Effect::Save => {}
                Effect::Download(name) => {
                    let (state, act) = (store.state.clone(), act.clone());
                    spawn_local(async move {
                        match restoring::write(&state).await {
                            Ok(text) => keep::hand_out(&name, &text),
                            Err(why) => act.emit(Action::Say(format!("Not saved: {why}."))),
                        }
                    });
                }
                Effect::Settle(at) => hands.settle(f64::from(at) / 1000.0),
                Effect::Glide(at) => hands.glide_to(f64::from(at)),
            }
        }
        dispatcher.dispatch(Do::Performed(*turn));
    });
}

/// Keeps what there is to be kept, the newest state each time, until there is nothing more.
async fn keep_on(keeping: Rc<(RefCell<Option<State>>, Cell<bool>)>, act: Act) {
    loop {
        // Taken before anything is waited for: what comes meanwhile is another round.
        let state = keeping.0.borrow_mut().take();
        let Some(state) = state else { break };
        let saved = match restoring::write(&state).await {
            Ok(text) => keep::save(&text).await,
            Err(why) => Err(why),
        };
        let root = document().document_element();
        let _ = root.map(|r| r.set_attribute("data-kept", if saved.is_ok() { "yes" } else { "no" }));
        if let Err(why) = saved
            && !why.is_empty()
        {
            act.emit(Action::Say(format!(
                "Not kept in this browser: {}. Save the job as a file.",
                why.trim_end_matches('.')
            )));
        }
    }
    keeping.1.set(false);
}

/// Listens to the window: its size, its keys, links in its address, and colours that are forced.
#[hook]
fn use_window(hands: &Rc<Hands>, act: &Act, width: &UseStateHandle<f64>, links: &UseStateHandle<Linked>) {
    let (hands, act, width, links) = (hands.clone(), act.clone(), width.setter(), links.setter());
    use_effect_with((), move |()| {
        hands.tell(act.clone());
        let refit = hands.clone();
        let resized = EventListener::new(&window(), "resize", move |_| {
            width.set(inner_width());
            refit.refit();
        });
        let refit = hands.clone();
        let colours = media::listen("(forced-colors: active)", move |_| refit.refit());
        let refit = hands.clone();
        let scheme = media::listen("(prefers-color-scheme: dark)", move |_| refit.refit());
        let active = EventListenerOptions::enable_prevent_default();
        let keys = EventListener::new_with_options(&document(), "keydown", active, move |e| {
            if let Some(e) = e.dyn_ref::<KeyboardEvent>() {
                on_key(e, &hands, &act);
            }
        });
        let followed = EventListener::new(&window(), "hashchange", move |_| match links::in_address() {
            // Taken out of the address again.
            Linked::Nothing => {}
            arrived => links.set(arrived),
        });
        move || drop((resized, colours, scheme, keys, followed))
    });
}

/// The rooms, what was said last, undo, and the words.
fn rooms(state: &State, act: &Act, read: Callback<MouseEvent>, has_words: bool) -> Html {
    let room = |room: Room, name: &'static str| {
        let go = act.reform(move |_: MouseEvent| Action::Go(room));
        let current = (state.look.room == room).then_some("page");
        html! { <button type="button" class="room" aria-current={current} onclick={go}>{ name }</button> }
    };
    html! {
        <header class="rooms">
            <h1>{ "Backmark" }</h1>
            <nav aria-label="Rooms">{ room(Room::Fold, "Fold") }{ room(Room::Gather, "Gather") }{ room(Room::Trace, "Trace") }{ room(Room::Class, "Class") }{ room(Room::Job, "Job") }</nav>
            <p class="said push" role="status">{ state.said.clone().unwrap_or_default() }</p>
            <button type="button" class="plain" hidden={state.past.is_empty()} onclick={act.reform(|_: MouseEvent| Action::Undo)}>
                { "Undo" }
            </button>
            <button type="button" class="plain" hidden={state.future.is_empty()} onclick={act.reform(|_: MouseEvent| Action::Redo)}>
                { "Redo" }
            </button>
            <button type="button" class="plain words-open" hidden={!has_words} aria-haspopup="dialog" onclick={read}>{ "Words" }</button>
        </header>
    }
}
