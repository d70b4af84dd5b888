//! Which bolts does the trim open? Every leaf of the folded section as a page with three edges, each to be pressed; the sheet on a
//! bench beside them.

use super::AnswerProps;
use super::parts;
use super::sheet_stand::SheetStand;
use crate::finish::{Edge, Leaves, Size};
use crate::fold::{Course, Measure, Reads, Worked, course_in_words};
use crate::paper::{Length, Trims};
use crate::practice::{Answer, AtEdge, LeafEdges, Marked, Task, halves};
use crate::scene::section_cut;
use crate::scene::svg::paint;
use crate::ui::widgets::{figures, words};
use crate::units::short;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement, KeyboardEvent};
use yew::prelude::*;

/// The edges of a leaf in the order of its items.
const EDGES: [Edge; 3] = [Edge::Head, Edge::Tail, Edge::ForeEdge];
/// Width and height of the picture of the leaves cut through, px.
const CUT: (f64, f64) = (330.0, 260.0);

/// What is said of an edge.
fn edge(leaf: &LeafEdges, edge: Edge) -> Option<AtEdge> {
    match edge {
        Edge::Head => leaf.head,
        Edge::Tail => leaf.tail,
        Edge::ForeEdge => leaf.fore_edge,
    }
}

fn with(mut leaf: LeafEdges, edge: Edge, at: Option<AtEdge>) -> LeafEdges {
    match edge {
        Edge::Head => leaf.head = at,
        Edge::Tail => leaf.tail = at,
        Edge::ForeEdge => leaf.fore_edge = at,
    }
    leaf
}

/// What a press makes of an edge.
const fn next(at: Option<AtEdge>) -> Option<AtEdge> {
    match at {
        None => Some(AtEdge::Free),
        Some(AtEdge::Free) => Some(AtEdge::Opened),
        Some(AtEdge::Opened) => Some(AtEdge::Closed),
        Some(AtEdge::Closed) => None,
    }
}

/// A word on the edge, and what it says.
const fn word(at: Option<AtEdge>) -> (&'static str, &'static str) {
    match at {
        None => ("?", "not answered"),
        Some(AtEdge::Free) => ("no bolt", "no bolt"),
        Some(AtEdge::Opened) => ("opened", "a bolt, opened by the trim"),
        Some(AtEdge::Closed) => ("closed", "a bolt that stays closed"),
    }
}

/// How many leaves the section has.
fn leaves_of(course: &Course, sheet: Size) -> Option<Leaves> {
    let worked = Worked::of(course).ok()?;
    let measure = Measure::equal(course.rows, course.columns, sheet.width, sheet.height);
    Leaves::of(&worked, course.copies.first()?.first()?, &measure)
}

/// The way of answering.
#[component]
pub fn Bolts(props: &AnswerProps) -> Html {
    let stop = use_state_eq(|| (0usize, 0usize));
    let node = use_node_ref();
    let course = use_memo(props.exercise.clone(), |exercise| match &exercise.task {
        Task::Bolts { course, .. } => course.clone(),
        _ => Course::of_scheme(&crate::fold::sixteen().scheme),
    });
    let Task::Bolts { name, sheet, trims, caliper, .. } = &props.exercise.task else { return Html::default() };
    let Some(leaves) = leaves_of(&course, *sheet) else { return Html::default() };
    let count = leaves.leaves.len();
    let mut given = match &*props.answer {
        Answer::Bolts(given) => given.clone(),
        _ => Vec::new(),
    };
    given.resize(count, LeafEdges::default());
    let marked = props.marked.as_deref();
    let closed = marked.is_some();
    let set = {
        let (set, given) = (props.set.clone(), given.clone());
        Callback::from(move |(leaf, edge, at): (usize, Edge, Option<AtEdge>)| {
            let mut given = given.clone();
            if let Some(one) = given.get_mut(leaf) {
                *one = with(*one, edge, at);
                set.emit(Answer::Bolts(given));
            }
        })
    };
    let rest = {
        let (set, given) = (props.set.clone(), given.clone());
        Callback::from(move |_: MouseEvent| {
            let filled = given.iter().map(|leaf| {
                EDGES.into_iter().fold(*leaf, |leaf, e| with(leaf, e, edge(&leaf, e).or(Some(AtEdge::Free))))
            });
            set.emit(Answer::Bolts(filled.collect()));
        })
    };
    let open = given.iter().flat_map(|leaf| EDGES.map(|e| edge(leaf, e))).filter(Option::is_none).count();
    let keys = {
        let (set, stop, node) = (set.clone(), stop.clone(), node.clone());
        Callback::from(move |e: KeyboardEvent| {
            let (leaf, at) = *stop;
            let Some(now) = EDGES.get(at).copied() else { return };
            if e.ctrl_key() || e.meta_key() || e.alt_key() {
                return;
            }
            let to = match e.key().as_str() {
                "ArrowRight" => (leaf + 1, at),
                "ArrowLeft" => (leaf.saturating_sub(1), at),
                "ArrowDown" => {
                    if at == 2 {
                        (leaf + 1, 0)
                    } else {
                        (leaf, at + 1)
                    }
                }
                "ArrowUp" => {
                    if at == 0 {
                        (leaf.saturating_sub(1), if leaf == 0 { 0 } else { 2 })
                    } else {
                        (leaf, at - 1)
                    }
                }
                "Home" => (0, 0),
                "End" => (count.saturating_sub(1), 2),
                "n" | "N" => return answered(&e, &set, (leaf, now, Some(AtEdge::Free))),
                "o" | "O" => return answered(&e, &set, (leaf, now, Some(AtEdge::Opened))),
                "c" | "C" => return answered(&e, &set, (leaf, now, Some(AtEdge::Closed))),
                "Delete" | "Backspace" => return answered(&e, &set, (leaf, now, None)),
                _ => return,
            };
            e.prevent_default();
            e.stop_propagation();
            let to = if to.0 >= count { (count.saturating_sub(1), if to.0 > leaf { at } else { to.1 }) } else { to };
            stop.set(to);
            let found = node
                .cast::<Element>()
                .and_then(|n| n.query_selector(&format!("[data-edge=\"{}-{}\"]", to.0, to.1)).ok().flatten());
            if let Some(button) = found.and_then(|b| b.dyn_into::<HtmlElement>().ok()) {
                let _ = button.focus();
            }
        })
    };
    let right = closed.then(|| props.exercise.right()).and_then(|right| match right {
        Answer::Bolts(right) => Some(right),
        _ => None,
    });
    let focus = {
        let stop = stop.setter();
        Callback::from(move |to: (usize, usize)| stop.set(to))
    };
    let tile = |leaf: usize| {
        let mine = given.get(leaf).copied().unwrap_or_default();
        leaf_tile(leaf, &mine, marked, *stop, &set, &focus)
    };
    html! {
        <div class="bolts">
            { ticket(name, *sheet, trims, *caliper) }
            <ol class="told-folds">{ for course_in_words(&course).into_iter().map(|says| html! { <li>{ words(&says) }</li> }) }</ol>
            <div class="answer-columns">
                <section aria-label="The leaves, front to back">
                    <h2>{ if closed { "Your answer" } else { "The leaves, front to back" } }</h2>
                    <p class="quiet" hidden={closed}>{ "Press an edge until it says what is there. Keys: arrows go from edge to edge; N no bolt, O opened, C closed." }</p>
                    <ol ref={node} class="leaves" onkeydown={keys}>{ for (0..count).map(tile) }</ol>
                    <button type="button" class="button" hidden={closed} disabled={open == 0} onclick={rest}>
                        { figures(&format!("No bolt at the other {open}")) }
                    </button>
                </section>
                <section class="to-try" aria-label="The sheet, to be folded" hidden={closed}>
                    <h2>{ "The sheet" }</h2>
                    if !closed {
                        <SheetStand {course} first_page={1} narrow={props.narrow} />
                    }
                </section>
                <section aria-label="As it is" hidden={!closed}>
                    <h2>{ "As it is" }</h2>
                    { right.map(|right| as_it_is(&right, &leaves, trims, *caliper)).unwrap_or_default() }
                </section>
            </div>
        </div>
    }
}

fn answered(e: &KeyboardEvent, set: &Callback<(usize, Edge, Option<AtEdge>)>, what: (usize, Edge, Option<AtEdge>)) {
    e.prevent_default();
    e.stop_propagation();
    set.emit(what);
}

/// A leaf with its edges to be pressed, and with its marks once it was handed in.
fn leaf_tile(
    leaf: usize,
    mine: &LeafEdges,
    marked: Option<&Marked>,
    stop: (usize, usize),
    set: &Callback<(usize, Edge, Option<AtEdge>)>,
    focus: &Callback<(usize, usize)>,
) -> Html {
    let one = |(nth, at): (usize, Edge)| {
        let now = edge(mine, at);
        let (short, says) = word(now);
        let item = parts::item(marked, 3 * leaf + nth);
        let lost = item.is_some_and(|i| i.got < i.of);
        let told = match item {
            None => String::new(),
            Some(i) if lost => format!(". {} of {}. Right: {}", halves(i.got), parts::marks(i.of), i.right),
            Some(i) => format!(". {} of {}", halves(i.got), parts::marks(i.of)),
        };
        let label = format!("Leaf {}, {}: {says}{told}", leaf + 1, at.word());
        let class = classes!(
            "edge",
            match at {
                Edge::Head => "head",
                Edge::Tail => "tail",
                Edge::ForeEdge => "fore",
            },
            kind(now),
            lost.then_some("lost")
        );
        let tab = if stop == (leaf, nth) { "0" } else { "-1" };
        let onclick = set.reform(move |_: MouseEvent| (leaf, at, next(now)));
        let onfocus = focus.reform(move |_: FocusEvent| (leaf, nth));
        html! {
            <button key={nth} type="button" {class} data-edge={format!("{leaf}-{nth}")} tabindex={tab} aria-label={label}
                aria-disabled={marked.is_some().to_string()} onclick={if marked.is_some() { Callback::noop() } else { onclick }} {onfocus}>{ short }</button>
        }
    };
    html! {
        <li key={leaf} class="leaf-tile">
            <span class="leaf-number n" aria-hidden="true">{ leaf + 1 }</span>
            { for EDGES.into_iter().enumerate().map(one) }
        </li>
    }
}

const fn kind(at: Option<AtEdge>) -> &'static str {
    match at {
        None => "unsaid",
        Some(AtEdge::Free) => "free",
        Some(AtEdge::Opened) => "opened",
        Some(AtEdge::Closed) => "closed",
    }
}

/// The right answer: the leaves, and the section cut through as seen from its head.
fn as_it_is(right: &[LeafEdges], leaves: &Leaves, trims: &Trims, caliper: Length) -> Html {
    let tile = |(leaf, edges): (usize, &LeafEdges)| {
        let one = |at: Edge| {
            let (short, says) = word(edge(edges, at));
            let class = classes!(
                "edge",
                match at {
                    Edge::Head => "head",
                    Edge::Tail => "tail",
                    Edge::ForeEdge => "fore",
                },
                kind(edge(edges, at))
            );
            html! { <span {class}><span aria-hidden="true">{ short }</span><span class="unseen">{ format!("{}: {says}. ", at.word()) }</span></span> }
        };
        html! {
            <li key={leaf} class="leaf-tile">
                <span class="leaf-number n"><span class="unseen">{ "Leaf " }</span>{ leaf + 1 }</span>
                { for EDGES.into_iter().map(one) }
            </li>
        }
    };
    let cut = section_cut(leaves, trims, caliper, None, (Reads::LeftToRight, 0), CUT);
    let svg = AttrValue::from(paint(&cut.scene, "trim-picture", &|_| None));
    html! {
        <>
            <ol class="leaves">{ for right.iter().enumerate().map(tile) }</ol>
            <figure>
                <div class="trim-cut" aria-hidden="true">{ Html::from_html_unchecked(svg) }</div>
                <figcaption class="quiet">{ "The section cut through, seen from the head." }</figcaption>
            </figure>
        </>
    }
}

/// What is known of the sheet and the trim.
fn ticket(name: &str, sheet: Size, trims: &Trims, caliper: Length) -> Html {
    let cut = |name: &str, length: Length| match length {
        Length::ZERO => format!("nothing at the {name}"),
        length => format!("{} at the {name}", length.text()),
    };
    let says = format!(
        "{name}: a sheet of {} × {} mm, one leaf {} thick. The knives take off {}, {} and {}.",
        short(sheet.width.mm()),
        short(sheet.height.mm()),
        caliper.text(),
        cut("head", trims.head),
        cut("tail", trims.foot),
        cut("fore-edge", trims.fore_edge)
    );
    html! { <p class="ticket">{ words(&says) }</p> }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::practice::{Exercise, Kind, LEVELS};

    #[test]
    fn there_is_a_leaf_for_everything_that_is_asked() {
        for level in 1..=LEVELS {
            for seed in 0..6 {
                let exercise = Exercise::of(Kind::Bolts, level, seed).unwrap();
                let Task::Bolts { course, sheet, .. } = &exercise.task else { panic!() };
                let Answer::Bolts(right) = exercise.right() else { panic!() };
                assert_eq!(leaves_of(course, *sheet).unwrap().leaves.len(), right.len());
            }
        }
    }

    #[test]
    fn pressing_goes_through_all_that_can_be_said() {
        let mut at = None;
        let all: Vec<_> = (0..4)
            .map(|_| {
                at = next(at);
                at
            })
            .collect();
        assert_eq!(all, [Some(AtEdge::Free), Some(AtEdge::Opened), Some(AtEdge::Closed), None]);
        let leaf = with(LeafEdges::default(), Edge::Tail, Some(AtEdge::Closed));
        assert_eq!(EDGES.map(|e| edge(&leaf, e)), [None, Some(AtEdge::Closed), None]);
    }
}
