//! The list of lessons: a path of slips, each with what lies on its bench.

use crate::practice::lesson::{Lesson, OnBench};
use crate::ui::widgets::{figures, words};
use std::collections::BTreeSet;
use std::rc::Rc;
use yew::prelude::*;

/// The lesson that comes next: the first one that was not finished.
pub fn next(lessons: &[Lesson], finished: &BTreeSet<u8>) -> Option<u8> {
    (1..).zip(lessons).map(|(number, _)| number).find(|number| !finished.contains(number))
}

/// The list.
pub fn list(lessons: &Rc<Vec<Lesson>>, finished: &BTreeSet<u8>, take: &Callback<u8>) -> Html {
    let due = next(lessons, finished);
    let says = match due {
        Some(1) => "Short lessons at the bench, from one fold to a wrong book. Begin with the first.".to_owned(),
        Some(number) => format!(
            "{} of {} lessons are finished. Number {number} comes next.",
            done(lessons, finished),
            lessons.len()
        ),
        None => "All lessons are finished. Each can be taken again.".to_owned(),
    };
    let slip = |(number, lesson): (u8, &Lesson)| {
        let finished = finished.contains(&number);
        let class = classes!("lesson-slip", finished.then_some("finished"), (due == Some(number)).then_some("next"));
        let onclick = take.reform(move |_: MouseEvent| number);
        let state = match (finished, due == Some(number)) {
            (true, _) => "finished",
            (_, true) => "next",
            _ => "",
        };
        html! {
            <li key={number}>
                <button type="button" {class} {onclick}>
                    <span class="n lesson-number">{ number }</span>
                    { drawn(&lesson.start) }
                    <span class="lesson-title">{ figures(lesson.title) }</span>
                    <span class="lesson-state">{ state }</span>
                </button>
            </li>
        }
    };
    html! {
        <section class="lesson-list" aria-label="Lessons">
            <p class="lesson-does">{ words(&says) }</p>
            <ol>{ for (1..).zip(lessons.iter()).map(slip) }</ol>
        </section>
    }
}

fn done(lessons: &[Lesson], finished: &BTreeSet<u8>) -> usize {
    finished.iter().filter(|n| usize::from(**n) <= lessons.len()).count()
}

/// What lies on the bench at first: a sheet with its creases and its slit, or the backs of a book.
fn drawn(start: &OnBench) -> Html {
    let (w, h) = (64.0, 40.0);
    let number = crate::units::short;
    if start.sections > 0 && start.course.is_none() {
        let n = start.sections.max(1);
        let high = h / f64::from(n);
        let bar = |k: u32| {
            let y = number(f64::from(k) * high);
            let x = number(6.0 + f64::from(k) * 48.0 / f64::from(n));
            html! { <rect class="slip-mark" {x} {y} width="6" height={number(high)} /> }
        };
        return html! {
            <svg class="lesson-drawn" viewBox="0 0 64 40" aria-hidden="true">
                <rect class="lesson-paper" width="64" height="40" />{ for (0..n).map(bar) }
            </svg>
        };
    }
    let (rows, columns) = (start.printed.rows, start.printed.columns);
    // Leaves are drawn half as wide again as high, as a leaf of a book stands.
    let unit = (w / f64::from(columns) / 0.72).min(h / f64::from(rows));
    let (pw, ph) = (unit * 0.72 * f64::from(columns), unit * f64::from(rows));
    let (x, y) = ((w - pw) / 2.0, (h - ph) / 2.0);
    let mut creases = String::new();
    for i in 1..columns {
        creases += &format!("M{} {}v{}", number(x + f64::from(i) * pw / f64::from(columns)), number(y), number(ph));
    }
    for i in 1..rows {
        creases += &format!("M{} {}h{}", number(x), number(y + f64::from(i) * ph / f64::from(rows)), number(pw));
    }
    let slit = start.course.is_some().then(|| format!("M32 {}v{}", number(y - 3.0), number(ph + 6.0)));
    html! {
        <svg class="lesson-drawn" viewBox="0 0 64 40" aria-hidden="true">
            <rect class="lesson-paper" x={number(x)} y={number(y)} width={number(pw)} height={number(ph)} />
            <path class="lesson-crease" d={creases} />
            <path class="lesson-slit" d={slit.unwrap_or_default()} />
        </svg>
    }
}
