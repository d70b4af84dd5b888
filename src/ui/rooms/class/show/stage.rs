//! What fills the window before a class: the picture that is seen, and what keys, mouse and finger do.

use super::begin::Begin;
use super::flats::use_flats;
use super::pictures::{Seen, use_seen};
use super::ring::use_ring;
use super::screen::{fill, is_full, unfill, use_whole_page, use_window_size};
use super::spine::{self, use_spine};
use super::strip::strip;
use super::words::{self, front};
use crate::app::{Action, read_told};
use crate::class::show::{Facts, On, ShowAct, ShowKey, Showing, show_key};
use crate::fold::Face;
use crate::marks::SeenBack;
use crate::ui::asked::use_answer;
use crate::ui::bench::{Hands, Pointed, RuleShape, Setting};
use crate::ui::browser::checker::Checker;
use crate::ui::rooms::fold::tables::tables;
use gloo_events::{EventListener, EventListenerOptions, EventListenerPhase};
use gloo_utils::document;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlCanvasElement, KeyboardEvent, PointerEvent};
use yew::prelude::*;

/// What the stage needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// What is shown.
    pub begin: Rc<Begin>,
    /// Who reads a spine.
    pub checker: Checker,
    /// Leaves.
    pub leave: Callback<()>,
}

/// The showing behind a reducer. Each act comes with what the engine knew when it was done.
#[derive(Clone, PartialEq)]
struct Going(Showing);

impl Reducible for Going {
    type Action = (ShowAct, Rc<Facts>);

    fn reduce(self: Rc<Self>, (act, facts): Self::Action) -> Rc<Self> {
        Rc::new(Self(self.0.after(act, &facts)))
    }
}

/// Pixels that a press may move and still be a tap.
const TAP: f64 = 10.0;
/// Degrees by which the eye is raised over the bench in a window that is little wider than high: figures lie less aslant there.
const RAISED: f64 = 16.0;

/// How much larger than elsewhere a sheet may be drawn, px per mm.
const LARGER: f64 = 1.1;

/// The stage.
#[component]
pub fn Stage(props: &Props) -> Html {
    let begin = &props.begin;
    let window = use_window_size();
    let going = use_reducer_eq(|| Going(Showing::of(begin.picture.clone())));
    let showing = &going.0;
    let live = use_seen(begin, &showing.picture, window);
    let seen = use_seen(begin, showing.seen(), window);
    let facts = use_memo(live.clone(), Seen::facts);
    let latest = use_mut_ref(|| facts.clone());
    *latest.borrow_mut() = facts.clone();
    let act = {
        let dispatcher = going.dispatcher();
        use_callback((), move |act: ShowAct, ()| dispatcher.dispatch((act, latest.borrow().clone())))
    };
    let node = use_node_ref();
    let keys = use_state(|| 0u32);
    use_whole_page(&node, props.leave.clone());
    let press = {
        let (act, leave, node, keys) = (act.clone(), props.leave.clone(), node.clone(), keys.clone());
        Callback::from(move |key: ShowKey| match key {
            ShowKey::Act(what) => act.emit(what),
            ShowKey::Leave => leave.emit(()),
            ShowKey::Keys => keys.set(*keys + 1),
            ShowKey::FullScreen if is_full() => unfill(),
            ShowKey::FullScreen => {
                if let Some(element) = node.cast::<Element>() {
                    fill(&element);
                }
            }
        })
    };
    use_keys(&press, showing.picture.pointing);
    let (hands, moment) = use_stage_hands(&seen, showing.held.is_some(), window, &act);
    let rests = moment == f64::from(seen.picture.at);
    let hit = use_memo((), |()| Cell::new(None::<Pointed>));
    let canvas = use_stage_canvas(&hands, &seen, &hit);
    let (ring, lead) = use_ring(seen.picture.pointing);
    let taps = use_taps(&seen, &act, &hit, lead, window);
    let flats = use_flats(&seen);
    let backs: Rc<Vec<SeenBack>> = use_memo(seen.state.job.clone(), |job| job.seen());
    let on_spine = seen.picture.on == On::Spine;
    let question = on_spine.then(|| seen.state.job.question());
    let line = question.clone().and_then(Result::ok);
    let told = use_answer(&props.checker, line.clone(), read_told);
    let told = match question {
        Some(Err(why)) => Some(Err(why)),
        _ => told.as_ref().as_ref().filter(|(of, _)| Some(of) == line.as_ref()).map(|(_, told)| told.clone()),
    };
    let spine = use_spine(&spine::Props { seen: seen.clone(), backs: backs.clone(), window, told });
    let front = front(&words::Props { seen: seen.clone(), moving: !rests, keys: *keys, press });
    let title = match (seen.picture.on, seen.picture.spoiled) {
        (On::Bench, _) if seen.places() > 1 => format!("{}, section {}", begin.title, seen.picture.place),
        (On::Bench, _) => begin.title.to_string(),
        (On::Spine, 0) => begin.title.to_string(),
        (On::Spine, n) => format!("Book {n}"),
    };
    let note = showing.note();
    let class = classes!(
        "show",
        if on_spine { "of-spine" } else { "of-bench" },
        seen.flats.across.then_some("across"),
        seen.picture.pointing.then_some("pointing"),
    );
    html! {
        <section ref={node} {class} role="region" aria-label="Before the class" tabindex="-1"
            data-step={seen.picture.at.to_string()} data-rests={rests.to_string()} data-laid={seen.picture.laid.to_string()}
            onpointerdown={taps.down} onpointermove={taps.moved} onpointerup={taps.up}>
            <h2 class="show-title">{ crate::ui::widgets::words(&title) }</h2>
            <div class="show-strip" hidden={on_spine}>{ strip(&seen, &backs) }</div>
            <div class="show-bench" hidden={on_spine}>{ canvas }</div>
            <div class="show-flats" hidden={on_spine}>{ flats }</div>
            <div class="show-book-box" hidden={!on_spine}>{ spine }</div>
            { front }
            <div class="unseen">{ lists(&seen) }</div>
            <svg class="thread" aria-hidden="true"><path class="casing" /><path class="strand" /><path class="hole" /></svg>
            { ring }
            <div class="show-blank" hidden={!showing.blank}></div>
            <p class="show-note" role="status" hidden={note.is_none()}>{ note.unwrap_or_default() }</p>
        </section>
    }
}

/// What lies uppermost and undermost, and both sides, for those who don't see the picture. Covered figures stay covered for them, too.
fn lists(seen: &Seen) -> Html {
    match &seen.bench {
        Some(bench) if seen.picture.covered.is_empty() && seen.picture.on == On::Bench => tables(&seen.state, bench),
        _ => Html::default(),
    }
}

/// Keys come here before anything else on the page hears of them.
#[hook]
fn use_keys(press: &Callback<ShowKey>, pointing: bool) {
    let now = use_mut_ref(|| (press.clone(), pointing));
    *now.borrow_mut() = (press.clone(), pointing);
    use_effect_with((), move |()| {
        let first = EventListenerOptions { phase: EventListenerPhase::Capture, passive: false };
        let listener = EventListener::new_with_options(&document(), "keydown", first, move |e| {
            let Some(e) = e.dyn_ref::<KeyboardEvent>() else { return };
            let key = e.key();
            if e.ctrl_key() || e.meta_key() || e.alt_key() {
                // The job behind hears of no key, not even of undo.
                e.stop_propagation();
                return;
            }
            let target = e.target().and_then(|t| t.dyn_into::<Element>().ok());
            let on_button = target.is_some_and(|t| t.tag_name() == "BUTTON");
            if key == "Tab" || (on_button && matches!(key.as_str(), "Enter" | " ")) {
                e.stop_propagation();
                return;
            }
            let (press, pointing) = now.borrow().clone();
            if let Some(what) = show_key(&key, pointing) {
                press.emit(what);
                e.prevent_default();
            }
            e.stop_propagation();
        });
        move || drop(listener)
    });
}

/// The hands that hold the sheet: they follow the picture, and tell it what was folded by dragging. Says at what moment it was last heard of.
#[hook]
fn use_stage_hands(seen: &Seen, held: bool, window: (f64, f64), act: &Callback<ShowAct>) -> (Hands, f64) {
    let hands = (*use_memo((), |()| Hands::default())).clone();
    let moment = use_state_eq(|| 0.0);
    {
        let (hands, moment, act) = (hands.clone(), moment.setter(), act.clone());
        use_effect_with((), move |()| {
            hands.within(".show");
            let held = hands.clone();
            // The last moment that was led by a hand and not by a key.
            let dragged = RefCell::new(false);
            hands.tell(Callback::from(move |action: Action| {
                let Action::Moved(at) = action else { return };
                let rests = at == at.floor();
                moment.set(at);
                if held.is_holding() {
                    dragged.replace(true);
                } else if rests && dragged.replace(false) {
                    act.emit(ShowAct::At(at as u32));
                }
            }));
            let refit = hands.clone();
            let resized = EventListener::new(&gloo_utils::window(), "resize", move |_| refit.refit());
            move || drop(resized)
        });
    }
    {
        let hands = hands.clone();
        let followed = seen.picture.followed.and_then(|face| seen.face(face)).map(|face| (face, seen.picture.place));
        let setting = Setting {
            bench: seen.bench.clone(),
            followed,
            open: seen.picture.on == On::Bench,
            lay: seen.lay(),
            ..Setting::default()
        };
        use_effect(move || hands.put(setting));
    }
    {
        let hands = hands.clone();
        let sheet = seen.bench.as_ref().map(|b| (b.folding.rows, b.folding.columns));
        use_effect_with((sheet, window), move |(_, (w, h))| {
            hands.square_up(LARGER);
            if w / h < 1.5 {
                hands.tilt(0.0, RAISED);
            }
        });
    }
    {
        let hands = hands.clone();
        let rule = seen.bench.as_ref().map(|b| b.rule);
        use_effect_with(rule, move |rule| {
            if let Some(rule) = *rule {
                // There is no rule here; but the ring at the corner is drawn.
                hands.take_rule(NodeRef::default(), NodeRef::default(), RuleShape { rule, width: 1.0 });
            }
        });
    }
    {
        let hands = hands.clone();
        let before = use_mut_ref(|| None::<(u32, bool)>);
        use_effect_with((seen.picture.at, held), move |now| {
            let (at, held) = *now;
            // From a picture that was held to the next one there is no way to be seen.
            match before.replace(Some(*now)) {
                Some((from, was)) if was == held && from.abs_diff(at) <= 4 => hands.glide_to(f64::from(at)),
                _ => hands.set(f64::from(at)),
            }
        });
    }
    (hands, *moment)
}

/// The canvas. What a press without a drag pointed at is left in `hit`.
#[hook]
fn use_stage_canvas(hands: &Hands, seen: &Seen, hit: &Rc<Cell<Option<Pointed>>>) -> Html {
    let canvas = use_node_ref();
    {
        let (hands, canvas) = (hands.clone(), canvas.clone());
        use_effect_with((), move |()| {
            hands.take_canvas(canvas.cast::<HtmlCanvasElement>());
            move || hands.take_canvas(None)
        });
    }
    let pressed = {
        let hands = hands.clone();
        Callback::from(move |e: PointerEvent| {
            if let Some(target) = e.target().and_then(|t| t.dyn_into::<Element>().ok()) {
                let _ = target.set_pointer_capture(e.pointer_id());
            }
            hands.press(&e);
        })
    };
    let moved = {
        let hands = hands.clone();
        Callback::from(move |e: PointerEvent| {
            hands.moved(&e);
        })
    };
    let lifted = {
        let (hands, hit) = (hands.clone(), hit.clone());
        Callback::from(move |e: PointerEvent| hit.set(hands.lifted(&e, false)))
    };
    let left = {
        let hands = hands.clone();
        Callback::from(move |_: PointerEvent| hands.left())
    };
    let says = seen.told();
    html! {
        <canvas ref={canvas} role="img" aria-label={format!("The sheet on the bench. {says}")} onpointerdown={pressed} onpointermove={moved}
            onpointerup={lifted.clone()} onpointercancel={lifted} onpointerout={left} />
    }
}

/// What the pointer does anywhere.
struct Taps {
    down: Callback<PointerEvent>,
    moved: Callback<PointerEvent>,
    up: Callback<PointerEvent>,
}

#[hook]
fn use_taps(
    seen: &Seen,
    act: &Callback<ShowAct>,
    hit: &Rc<Cell<Option<Pointed>>>,
    lead: Callback<(f64, f64)>,
    window: (f64, f64),
) -> Taps {
    let began = use_memo((), |()| Cell::new(None::<(f64, f64)>));
    let at = |e: &PointerEvent| (f64::from(e.client_x()), f64::from(e.client_y()));
    let down = {
        let (began, lead) = (began.clone(), lead.clone());
        Callback::from(move |e: PointerEvent| {
            began.set(Some(at(&e)));
            lead.emit(at(&e));
        })
    };
    let moved = Callback::from(move |e: PointerEvent| lead.emit(at(&e)));
    let up = {
        let (act, hit, seen) = (act.clone(), hit.clone(), seen.clone());
        Callback::from(move |e: PointerEvent| {
            let pointed = hit.take();
            let (x, y) = at(&e);
            let Some((x0, y0)) = began.take() else { return };
            let target = e.target().and_then(|t| t.dyn_into::<Element>().ok());
            let Some(target) = target.filter(|t| t.closest("button").ok().flatten().is_none()) else { return };
            if (x - x0).hypot(y - y0) > TAP {
                return;
            }
            let number =
                |css: &str, name: &str| -> Option<u32> { target.closest(css).ok()??.get_attribute(name)?.parse().ok() };
            if let Some(place) = number(".show-strip [data-place]", "data-place") {
                return act.emit(ShowAct::Place(place));
            }
            let index = |face: Face| seen.bench.as_ref().map(|b| b.printing.index(&face) as u32);
            let face = match pointed {
                Some(Pointed::Face(face)) => index(face),
                _ => number("[data-face]", "data-face"),
            };
            let finger = e.pointer_type() == "touch";
            let covered = face.filter(|face| seen.picture.covered.contains(face));
            act.emit(match (covered, face) {
                (Some(face), _) => ShowAct::Cell(face),
                (None, Some(face)) if !finger || seen.picture.pointing => ShowAct::Follow(Some(face)),
                _ if x < window.0 / 3.0 => ShowAct::Back,
                _ if x > window.0 * 2.0 / 3.0 => ShowAct::On,
                (None, Some(face)) => ShowAct::Follow(Some(face)),
                (None, None) => ShowAct::Answer,
            });
        })
    };
    Taps { down, moved, up }
}
