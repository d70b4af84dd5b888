//! The folded section at the trimmer: its leaves cut through, one leaf to scale, and what follows for the bindery.

use crate::app::{Job, State};
use crate::finish::{About, Finding, Leaves, Severity, Work, told};
use crate::paper::Length;
use crate::scene::svg::paint;
use crate::scene::{SectionCutRow, section_cut, section_cut_rows, trim_plan, trim_plan_says};
use crate::ui::store::Act;
use crate::units::short;
use std::rc::Rc;
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

/// Said beside everything that has to do with knives. Common practice, no source.
const CAUTION: &str = "Three-knife trimmers are for trained people who have been told that they may. Guards stay shut, and \
    the machine is stopped and isolated before anybody reaches in. Local rules and the maker’s instructions come before \
    anything said here.";

/// All that is reckoned for one section, kept until the sheet, its paper or the section changes.
struct Reckoned {
    findings: Vec<Finding>,
    leaves: Option<Leaves>,
    /// The picture of the leaves, and how far it exaggerates.
    cut: (AttrValue, f64),
    rows: Vec<SectionCutRow>,
}

impl Reckoned {
    fn of(job: &Job, section: u32) -> Option<Self> {
        let of = job.sheet_of(section);
        let (worked, nest, paper) = (of.making()?, job.pieces_of(section), job.paper);
        let findings = told(&Work {
            worked: &worked,
            nest: &nest,
            measure: &of.measure,
            stock: paper.stock,
            trims: paper.trims,
            page: None,
            margins: Some(paper.margins),
        });
        let leaves = Leaves::of(&worked, &nest, &of.measure);
        let (trims, caliper, margins) = (&paper.trims, paper.stock.caliper(), Some(&paper.margins));
        let reads = (of.course.reads, job.pages_before(section));
        let cut = leaves.as_ref().map(|leaves| section_cut(leaves, trims, caliper, margins, reads, CUT));
        let cut = cut.map(|cut| (AttrValue::from(paint(&cut.scene, "trim-picture", &|_| None)), cut.times));
        let rows = leaves.as_ref().map(|leaves| section_cut_rows(leaves, trims, caliper, margins));
        Some(Self { findings, leaves, cut: cut.unwrap_or_default(), rows: rows.unwrap_or_default() })
    }
}

/// The pane.
#[component]
pub fn TrimPane(props: &Props) -> Html {
    let number = use_state(|| 1u32);
    let (job, section) = (&props.state.job, props.state.section_on_bench());
    let reckoned = use_memo((job.sheet_of(section).clone(), job.paper, section), |_| Reckoned::of(job, section));
    let Some(reckoned) = reckoned.as_ref() else {
        return html! { <p class="pane-says">{ "This sheet can’t be folded so." }</p> };
    };
    let pictures = match &reckoned.leaves {
        Some(leaves) => pictures(leaves, reckoned, job, section, &number),
        None => html! { <p class="pane-says">{ "Fold the sheet down to a page, and its leaves are shown here." }</p> },
    };
    html! {
        <div class="pane trim">
            { told_html(reckoned.findings.clone()) }
            <div>{ pictures }</div>
            <p class="sum caution">{ CAUTION }</p>
        </div>
    }
}

/// The leaves cut through, and one leaf to scale.
fn pictures(leaves: &Leaves, reckoned: &Reckoned, job: &Job, section: u32, number: &UseStateHandle<u32>) -> Html {
    let (trims, caliper, margins) = (&job.paper.trims, job.paper.stock.caliper(), Some(&job.paper.margins));
    let count = (leaves.leaves.len() as u32).max(1);
    let leaf = (**number).clamp(1, count);
    let plan = trim_plan(
        leaves,
        trims,
        caliper,
        margins,
        leaf,
        (job.sheet_of(section).course.reads, job.pages_before(section)),
    );
    let (cut, times) = reckoned.cut.clone();
    let times = if times > 0.0 {
        format!("Leaves from front to back. Creep is drawn {} times as large as the pages.", short(times))
    } else {
        "Leaves from front to back.".to_owned()
    };
    let go = |name: &'static str, to: u32| {
        let number = number.clone();
        let onclick = Callback::from(move |_: MouseEvent| number.set(to));
        html! { <button type="button" class="button" aria-disabled={(to == leaf).to_string()} {onclick}>{ name }</button> }
    };
    html! {
        <>
            <figure>
                <div class="trim-cut" aria-hidden="true">{ Html::from_html_unchecked(cut) }</div>
                <figcaption>{ times }</figcaption>
            </figure>
            { rows(&reckoned.rows) }
            <figure>
                <div class="inside-foot">
                    { go("Before", leaf.saturating_sub(1).max(1)) }
                    <p class="leaf" aria-live="polite">{ format!("Leaf {leaf} of {count}") }</p>
                    { go("Next", (leaf + 1).min(count)) }
                </div>
                <div class="trim-plan" aria-hidden="true">{ svg(paint(&plan, "trim-picture", &|_| None)) }</div>
                <figcaption>{ for trim_plan_says(leaves, trims, caliper, leaf).into_iter().map(|s| html! { <span>{ s }{ " " }</span> }) }</figcaption>
            </figure>
        </>
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

#[cfg(test)]
mod tests {
    use super::*;

    fn finding(about: About, severity: Severity, says: &str) -> Finding {
        Finding { about, severity, says: says.into(), reckoned: String::new(), source: "" }
    }

    #[test]
    fn the_worst_subject_comes_first_and_in_it_the_worst_finding() {
        let groups = grouped(vec![
            finding(About::Size, Severity::Fine, "a"),
            finding(About::Bolts, Severity::Mind, "b"),
            finding(About::Creep, Severity::Fine, "c"),
            finding(About::Creep, Severity::Wrong, "d"),
            finding(About::Size, Severity::Fine, "e"),
        ]);
        let told: Vec<(About, String)> =
            groups.into_iter().map(|(about, of)| (about, of.into_iter().map(|f| f.says).collect())).collect();
        let wanted = [(About::Creep, "dc"), (About::Bolts, "b"), (About::Size, "ae")];
        assert_eq!(told, wanted.map(|(about, says)| (about, says.to_owned())));
    }
}
