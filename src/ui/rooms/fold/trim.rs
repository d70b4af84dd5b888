//! The folded section at the trimmer: its leaves cut through, one leaf to scale, and what follows for the bindery.

use crate::app::State;
use crate::finish::{About, Finding, Leaves, Severity, Work, told};
use crate::paper::Length;
use crate::scene::svg::paint;
use crate::scene::{SectionCutRow, section_cut, section_cut_rows, trim_plan, trim_plan_says};
use crate::ui::store::Act;
use crate::units::short;
use std::rc::Rc;
use wasm_bindgen::JsCast;
use web_sys::HtmlSelectElement;
use yew::prelude::*;

/// What it needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Act,
}

/// Width and height of the picture of the leaves, px.
const CUT: (f64, f64) = (330.0, 260.0);

/// The pane.
#[component]
pub fn TrimPane(props: &Props) -> Html {
    let number = use_state(|| 1u32);
    let (job, section) = (&props.state.job, props.state.section_on_bench());
    let Some(worked) = job.making() else {
        return html! { <p class="pane-says">{ "This sheet can’t be folded so." }</p> };
    };
    let paper = job.paper;
    let nest = job.pieces_of(section);
    let findings = told(&Work {
        worked: &worked,
        nest: &nest,
        measure: &job.measure,
        stock: paper.stock,
        trims: paper.trims,
        page: None,
        margins: Some(paper.margins),
    });
    let leaves = Leaves::of(&worked, &nest, &job.measure);
    let pictures = leaves.map(|leaves| {
        let (trims, caliper, margins) = (&paper.trims, paper.stock.caliper(), Some(&paper.margins));
        let reads = (job.course.reads, props.state.shift());
        let cut = section_cut(&leaves, trims, caliper, margins, reads, CUT);
        let count = leaves.leaves.len() as u32;
        let leaf = (*number).clamp(1, count.max(1));
        let plan = trim_plan(&leaves, trims, caliper, margins, leaf, reads);
        let chosen = {
            let number = number.clone();
            Callback::from(move |e: Event| {
                let value = e.target().and_then(|t| t.dyn_into::<HtmlSelectElement>().ok()).map(|s| s.value());
                if let Some(leaf) = value.and_then(|v| v.parse().ok()) {
                    number.set(leaf);
                }
            })
        };
        let times = if cut.times > 0.0 {
            format!("Leaves from front to back. Creep is drawn {} times as large as the pages.", short(cut.times))
        } else {
            "Leaves from front to back.".to_owned()
        };
        html! {
            <>
                <figure>
                    <div class="trim-cut">{ svg(paint(&cut.scene, "trim-picture", &|_| None)) }</div>
                    <figcaption>{ times }</figcaption>
                </figure>
                { rows(&section_cut_rows(&leaves, trims, caliper, margins)) }
                <figure>
                    <label class="pane-line">{ "Leaf" }
                        <select class="field" onchange={chosen}>
                            { for (1..=count).map(|n| html! { <option value={n.to_string()} selected={n == leaf}>{ n }</option> }) }
                        </select>
                    </label>
                    <div class="trim-plan">{ svg(paint(&plan, "trim-picture", &|_| None)) }</div>
                    <figcaption>{ for trim_plan_says(&leaves, trims, caliper, leaf).into_iter().map(|s| html! { <span>{ s }{ " " }</span> }) }</figcaption>
                </figure>
            </>
        }
    });
    html! {
        <div class="pane trim">
            { told_html(findings) }
            <div>{ pictures.unwrap_or_default() }</div>
        </div>
    }
}

fn svg(text: String) -> Html {
    Html::from_html_unchecked(AttrValue::from(text))
}

/// What a subject is called.
const fn subject(about: About) -> &'static str {
    match about {
        About::Size => "Size",
        About::Bolts => "Bolts and knives",
        About::Creep => "Creep",
        About::Thickness => "Thickness",
        About::Grain => "Grain",
        About::Air => "Air",
        About::Folds => "Folds",
    }
}

/// A mark and a word for how much a finding matters. The mark differs in its shape alone.
const fn severity(severity: Severity) -> (&'static str, &'static str) {
    match severity {
        Severity::Wrong => ("✕", "Wrong"),
        Severity::Mind => ("—", "Mind"),
        Severity::Fine => ("·", "As it should be"),
    }
}

/// Findings by subject: the subjects with the worst finding first, and in each the worst first.
fn grouped(findings: Vec<Finding>) -> Vec<(About, Vec<Finding>)> {
    let mut groups: Vec<(About, Vec<Finding>)> = Vec::new();
    for finding in findings {
        match groups.iter_mut().find(|(about, _)| *about == finding.about) {
            Some((_, of)) => of.push(finding),
            None => groups.push((finding.about, vec![finding])),
        }
    }
    for (_, of) in &mut groups {
        of.sort_by_key(|f| std::cmp::Reverse(f.severity));
    }
    groups.sort_by_key(|(_, of)| std::cmp::Reverse(of.first().map(|f| f.severity)));
    groups
}

fn told_html(findings: Vec<Finding>) -> Html {
    let finding = |f: Finding| {
        let (mark, word) = severity(f.severity);
        let wrong = (f.severity == Severity::Wrong).then_some("wrong");
        html! {
            <li class={classes!("told", wrong)}>
                <p><span class="mark" aria-hidden="true">{ mark }</span><b>{ word }</b>{ ". " }{ f.says }</p>
                <p class="sum" hidden={f.reckoned.is_empty()}>{ f.reckoned }</p>
                <p class="sum" hidden={f.source.is_empty()}>{ f.source }</p>
            </li>
        }
    };
    let group = |(about, of): (About, Vec<Finding>)| {
        html! { <section><h2>{ subject(about) }</h2><ul>{ for of.into_iter().map(finding) }</ul></section> }
    };
    html! { <div class="findings">{ for grouped(findings).into_iter().map(group) }</div> }
}

/// The leaves as a table, for those who hear it.
fn rows(rows: &[SectionCutRow]) -> Html {
    let row = |r: &SectionCutRow| {
        let across = r.across_spine.map_or_else(|| "loose".to_owned(), |l| format!("leaf {l}"));
        let bolt = match r.bolt {
            Some((with, true)) => format!("closed with leaf {with}, opened by the knife"),
            Some((with, false)) => format!("closed with leaf {with}, stays closed"),
            None => "open".into(),
        };
        let margin = r.margin.map_or_else(String::new, Length::text);
        html! {
            <tr key={r.leaf}>
                <th scope="row">{ r.leaf }</th><td>{ across }</td><td>{ bolt }</td>
                <td>{ r.creep_flat.text() }</td><td>{ r.taken.text() }</td><td>{ margin }</td>
            </tr>
        }
    };
    html! {
        <div class="unseen"><table>
            <caption>{ "Leaves from front to back" }</caption>
            <thead><tr>
                <th>{ "leaf" }</th><th>{ "at the spine one paper with" }</th><th>{ "fore-edge" }</th>
                <th>{ "creep" }</th><th>{ "cut off" }</th><th>{ "outer margin" }</th>
            </tr></thead>
            <tbody>{ for rows.iter().map(row) }</tbody>
        </table></div>
    }
}
