//! Back marks laid out: the backs at true size with the marks as they are typed, or drawn with the hand; and beside them, once they
//! were handed in, marks that nothing speaks against.

use super::AnswerProps;
use super::parts;
use crate::app;
use crate::gather::stack::Stack;
use crate::marks::{Backs, Design, MOST_SECTIONS};
use crate::practice::{Answer, Task};
use crate::ui::rooms::job::fields::Number;
use crate::ui::rooms::job::spine;
use crate::ui::widgets::words;
use crate::units::{between, mm};
use std::rc::Rc;
use web_sys::{Element, PointerEvent};
use yew::prelude::*;

/// Lengths go by the half millimetre under the hand, as a rule is read.
const HALF: f64 = 0.5;

/// Marks before anything was answered: none.
fn nothing(spine_mm: f64) -> Design {
    Design { spine_mm, first_mm: 0.0, step_mm: 0.0, length_mm: 0.0, levels: 0 }
}

/// A book with these marks. What can't be drawn is drawn as nothing.
fn job_of(design: &Design, sections: u32) -> app::Job {
    let most = design.spine_mm;
    let fine = |length: f64| if length.is_finite() { between(length, 0.0, most) } else { 0.0 };
    let stairs = Design {
        first_mm: fine(design.first_mm),
        step_mm: fine(design.step_mm),
        length_mm: fine(design.length_mm),
        levels: design.levels.clamp(1, MOST_SECTIONS),
        ..*design
    };
    app::Job { sections, design: stairs.into(), stack: Stack::good(sections), ..app::Job::default() }
}

/// The marks after a hand drew the mark of a section to so many mm from the head: that of the first one moves all of them, any
/// other sets the steps.
fn drawn_to(design: &Design, section: u32, to_mm: f64) -> Design {
    let half = |v: f64| (v / HALF).round() * HALF;
    let levels = design.levels.max(1);
    match (section - 1) % levels {
        0 => Design { first_mm: half(to_mm).max(0.0), ..*design },
        steps => Design { step_mm: half((to_mm - design.first_mm) / f64::from(steps)).max(HALF), ..*design },
    }
}

/// The way of answering.
#[component]
pub fn BackMarks(props: &AnswerProps) -> Html {
    let node = use_node_ref();
    // The section whose mark is drawn, and how far from its beginning it was taken.
    let held = use_mut_ref(|| None::<(u32, f64)>);
    let Task::BackMarks { sections, spine_mm, backs } = &props.exercise.task else { return Html::default() };
    let (sections, spine_mm) = (*sections, *spine_mm);
    let design = match &*props.answer {
        Answer::BackMarks(design) => Design { spine_mm, ..*design },
        _ => nothing(spine_mm),
    };
    let marked = props.marked.as_deref();
    let closed = marked.is_some();
    let trims = [backs.head_trim_mm.unwrap_or(0.0), backs.foot_trim_mm.unwrap_or(0.0)];
    let set = |f: fn(&mut Design, f64)| {
        props.set.reform(move |n: f64| {
            let mut design = design;
            f(&mut design, if n.is_finite() { n.max(0.0) } else { 0.0 });
            Answer::BackMarks(design)
        })
    };
    let job = Rc::new(job_of(&design, sections));
    let narrow = props.narrow;
    let at = {
        let (node, job) = (node.clone(), job.clone());
        move |e: &PointerEvent| {
            let r = node.cast::<Element>()?.query_selector("svg").ok()??.get_bounding_client_rect();
            let share = |at: i32, from: f64, wide: f64| (f64::from(at) - from) / wide.max(1.0);
            let point = (share(e.client_x(), r.left(), r.width()), share(e.client_y(), r.top(), r.height()));
            Some(spine::meant(&job, narrow, point))
        }
    };
    let press = {
        let (at, held, node) = (at.clone(), held.clone(), node.clone());
        Callback::from(move |e: PointerEvent| {
            let Some((mm, section)) = at(&e) else { return };
            if let Some(element) = node.cast::<Element>() {
                let _ = element.set_pointer_capture(e.pointer_id());
            }
            let begins = design.first_mm + f64::from((section - 1) % design.levels.max(1)) * design.step_mm;
            *held.borrow_mut() = Some((section, mm - begins));
        })
    };
    let moved = {
        let (held, set) = (held.clone(), props.set.clone());
        Callback::from(move |e: PointerEvent| {
            let Some((section, off)) = *held.borrow() else { return };
            let Some((mm, _)) = at(&e).filter(|_| e.buttons() & 1 == 1) else { return };
            let next = drawn_to(&design, section, mm - off);
            if next != design {
                set.emit(Answer::BackMarks(next));
            }
        })
    };
    let lifted = Callback::from(move |_: PointerEvent| *held.borrow_mut() = None);
    let ready = !closed && design.step_mm > 0.0 && design.length_mm > 0.0;
    let drawn = if ready {
        html! {
            <div ref={node} class="drag-marks" onpointerdown={press} onpointermove={moved} onpointerup={lifted.clone()} onpointercancel={lifted}>
                { spine::drawn_trimmed(&job, narrow, trims) }
            </div>
        }
    } else {
        html! { <div ref={node}>{ spine::drawn_trimmed(&job, narrow, trims) }</div> }
    };
    let says = if design.levels == 0 || design.length_mm <= 0.0 || design.step_mm <= 0.0 {
        "No marks yet: type the four numbers.".to_owned()
    } else {
        spine::says(&job)
    };
    let right = closed.then(|| props.exercise.right()).and_then(|right| match right {
        Answer::BackMarks(design) => Some(design),
        _ => None,
    });
    let field = |id: &'static str, label: &'static str, now: f64, unit: &'static str, step: f64, set: Callback<f64>| {
        html! { <Number {id} {label} {now} {unit} {step} {set} /> }
    };
    html! {
        <div class="back-marks">
            { ticket(sections, spine_mm, backs) }
            <div class="job-fields" hidden={closed}>
                { field("first", "First mark, from the head", design.first_mm, "mm", HALF, set(|d, n| d.first_mm = n)) }
                { field("length", "Length of a mark", design.length_mm, "mm", HALF, set(|d, n| d.length_mm = n)) }
                { field("step", "From step to step", design.step_mm, "mm", HALF, set(|d, n| d.step_mm = n)) }
                { field("levels", "Levels", f64::from(design.levels), "", 1.0, set(|d, n| d.levels = n.round() as u32)) }
            </div>
            <p class="quiet" hidden={!ready}>{ "With the hand: draw the first mark to move them all, any other to set the steps." }</p>
            <section class="spine-figure" aria-label="The backs with your marks">
                <h3 hidden={!closed}>{ "Your marks" }</h3>
                { drawn }
                <div class="said"><p role="status">{ words(&says) }</p>{ spine::table(&job) }</div>
            </section>
            <ul class="marks-here" hidden={!closed}>{ for marked.iter().flat_map(|m| &m.items).map(|item| {
                let bare = crate::practice::Item { right: String::new(), ..item.clone() };
                html! { <li key={item.what.clone()}><h3>{ words(&item.what) }</h3>{ parts::at_place(Some(&bare)) }</li> }
            }) }</ul>
            <div hidden={!closed}>{ right.map(|right| {
                let job = job_of(&right, sections);
                html! {
                    <section class="spine-figure" aria-label="Marks that nothing speaks against">
                        <h3>{ "Marks that nothing speaks against" }</h3>
                        { spine::drawn_trimmed(&job, narrow, trims) }
                        <div class="said">
                            <p>{ words(&format!(
                                "First at {} mm, {} mm long, steps of {} mm, {} levels.",
                                mm(right.first_mm), mm(right.length_mm), mm(right.step_mm), right.levels
                            )) }</p>
                            { spine::table(&job) }
                        </div>
                    </section>
                }
            }).unwrap_or_default() }</div>
        </div>
    }
}

/// What is known of the backs.
fn ticket(sections: u32, spine_mm: f64, backs: &Backs) -> Html {
    let cut = |mm_off: Option<f64>| mm(mm_off.unwrap_or(0.0));
    let says = format!(
        "{sections} sections. The spine is {} mm long before the cut; the knives take {} mm off at the head and {} mm at the \
         foot. Each section is folded {} times, and each fold is out by a little.",
        mm(spine_mm),
        cut(backs.head_trim_mm),
        cut(backs.foot_trim_mm),
        backs.folds
    );
    html! { <p class="ticket">{ words(&says) }</p> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mark_that_is_drawn_moves_all_or_sets_the_steps() {
        let design = Design { spine_mm: 216.0, first_mm: 20.0, step_mm: 6.0, length_mm: 6.0, levels: 10 };
        assert_eq!(drawn_to(&design, 1, 31.2).first_mm, 31.0);
        assert_eq!(drawn_to(&design, 11, 31.3).first_mm, 31.5, "one wrap on is the first level again");
        assert_eq!(drawn_to(&design, 5, 20.0 + 4.0 * 7.0).step_mm, 7.0);
        assert_eq!(drawn_to(&design, 5, -50.0).step_mm, HALF);
        assert_eq!(drawn_to(&nothing(200.0), 3, 12.0).first_mm, 12.0);
    }

    #[test]
    fn whatever_is_typed_can_be_drawn() {
        let wild =
            Design { spine_mm: 200.0, first_mm: f64::NAN, step_mm: 1e300, length_mm: f64::INFINITY, levels: u32::MAX };
        for design in [wild, nothing(200.0)] {
            let job = job_of(&design, 30);
            for section in 1..=30 {
                assert!(job.design.bar(section, 30).middle_mm.is_finite());
            }
            assert!(!spine::says(&job).is_empty());
        }
    }
}
