//! The sheet as it really is: its size and panels in millimetres, its paper, its lays, and what is cut off.

use crate::app::{Action, Job, Paper, Sheet, State, misfit_sentences, read_sizes, resized, sizes_text};
use crate::fold::{Lip, Measure, Side, with_lip, with_tucked_short};
use crate::paper::{Edge, Family, Grain, Length, SIZES, Unit, size_name};
use crate::scene::svg::paint;
use crate::scene::{Overlay, Printing, measured_side};
use crate::ui::store::Act;
use crate::ui::widgets::{Typed, chosen};
use crate::units::{parse_decimal, short};
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

/// The pane.
#[component]
pub fn PaperPane(props: &Props) -> Html {
    let lip = use_state(|| Length::from_whole_mm(8));
    let tucked = use_state(|| Length::from_whole_mm(2));
    let (of, job, act) = (props.state.sheet(), &props.state.job, &props.act);
    let sides = use_memo((props.state.whole_printing(), job.paper), |(printing, paper)| sides(printing, paper));
    html! {
        <div class="pane paper">
            { (*sides).clone() }
            { sheet(of, act) }
            { panels(of, act) }
            { presets(of, act, &lip, &tucked) }
            { comes_to(of, job) }
            { stock(of, job, act) }
            { lays(job, act) }
            { cuts(job, act) }
        </div>
    }
}

/// Both sides to scale: rulers with the places of the creases, what is cut off, type area, lays, grain.
fn sides(printing: &Printing, paper: &Paper) -> Html {
    let overlay = Overlay {
        rulers: true,
        trims: Some(paper.trims),
        type_area: Some(paper.margins),
        press: Some(paper.press),
        grain: Some(paper.stock.grain),
    };
    let side = |side: Side, letter: &'static str| {
        let scene = measured_side(printing, side, false, &overlay);
        let picture = AttrValue::from(paint(&scene, "measured-picture", &|_| None));
        html! {
            <figure class="measured">
                <figcaption><span class="letter">{ letter }</span></figcaption>
                { Html::from_html_unchecked(picture) }
            </figure>
        }
    };
    html! {
        <section class="measured-sides" aria-label="Both sides, measured in millimetres">
            { side(Side::A, "A") }
            { side(Side::B, "B") }
            <p class="measured-key">
                { "Lines: page as trimmed. Short dashes: bleed. Long dashes: type area. Figures: mm from the edge." }
            </p>
        </section>
    }
}

/// Reads a length, as millimetres unless it says otherwise.
fn length(text: &str) -> Result<Length, String> {
    Length::parse(text, Unit::Mm).map_err(|why| format!("“{}”: {why}.", text.trim()))
}

fn measured(read: Result<Measure, String>) -> Result<Option<Action>, String> {
    read.map(|measure| Some(Action::Measure(measure)))
}

/// Name, width and height of the sheet.
fn sheet(of: &Sheet, act: &Act) -> Html {
    let measure = &of.measure;
    let (width, height) = (measure.width(), measure.height());
    let named = size_name(width, height);
    let by_name = {
        let (act, measure) = (act.clone(), measure.clone());
        Callback::from(move |e: Event| {
            let size = chosen(&e).and_then(|name| SIZES.iter().find(|s| s.name == name));
            if let Some(size) = size {
                // The sheet keeps lying as it lies.
                let (w, h) = if width > height { (size.long, size.short) } else { (size.short, size.long) };
                act.emit(Action::Measure(resized(&measure, w, h)));
            }
        })
    };
    let group = |family: &Family| {
        let sizes = SIZES.iter().filter(|s| s.family == *family);
        let option = |s: &crate::paper::NamedSize| {
            let says = format!("{}, {} × {}", s.name, s.short.short_mm(), s.long.short_mm());
            html! { <option value={s.name} selected={named == Some(s)}>{ says }</option> }
        };
        html! { <optgroup label={family.name()}>{ for sizes.map(option) }</optgroup> }
    };
    let (of_width, of_height) = (measure.clone(), measure.clone());
    let turned = resized(measure, height, width);
    html! {
        <section>
            <h2>{ "Sheet" }</h2>
            <label class="pane-line" for="sheet-size">{ "Size" }
                <select id="sheet-size" class="field" onchange={by_name}>
                    <option value="" selected={named.is_none()}>{ "own size" }</option>
                    { for Family::ALL.iter().map(group) }
                </select>
            </label>
            <Typed id="sheet-width" label="Width" now={width.text()} beside={width.inches_text()} act={act.clone()}
                read={Callback::from(move |t: String| measured(length(&t).map(|w| resized(&of_width, w, height))))} />
            <Typed id="sheet-height" label="Height" now={height.text()} beside={height.inches_text()} act={act.clone()}
                read={Callback::from(move |t: String| measured(length(&t).map(|h| resized(&of_height, width, h))))} />
            <button type="button" class="button" onclick={act.reform(move |_: MouseEvent| Action::Measure(turned.clone()))}
                title="Width and height change places">{ "Turn" }</button>
        </section>
    }
}

/// Each panel's size, and where they would not fold so.
fn panels(of: &Sheet, act: &Act) -> Html {
    let (columns, rows) = (of.measure.clone(), of.measure.clone());
    let read_columns = move |t: String| {
        measured(read_sizes(&t, &columns.columns).map(|read| Measure { columns: read, ..columns.clone() }))
    };
    let read_rows =
        move |t: String| measured(read_sizes(&t, &rows.rows).map(|read| Measure { rows: read, ..rows.clone() }));
    let misfits = of.making().map(|worked| misfit_sentences(&worked, &of.measure)).unwrap_or_default();
    html! {
        <section>
            <h2>{ "Panels" }</h2>
            <Typed id="columns" label="Columns, mm" now={sizes_text(&of.measure.columns)} wide=true act={act.clone()}
                read={Callback::from(read_columns)} />
            <Typed id="rows" label="Rows, mm" now={sizes_text(&of.measure.rows)} wide=true act={act.clone()}
                read={Callback::from(read_rows)} />
            <div class="misfits" role="status">{ for misfits.into_iter().map(|says| html! { <p>{ says }</p> }) }</div>
        </section>
    }
}

/// Panels by a rule: equal, with a lip, with tucked panels shorter.
fn presets(of: &Sheet, act: &Act, lip: &UseStateHandle<Length>, tucked: &UseStateHandle<Length>) -> Html {
    let measure = &of.measure;
    let (rows, columns) = (measure.rows.len() as u32, measure.columns.len() as u32);
    let equal = Measure::equal(rows, columns, measure.width(), measure.height());
    // A rule begins from equal panels, so that pressing twice gives no lip twice as long.
    let by_rule = |name: &'static str, rule: Rule| {
        let (worked, equal) = (of.making(), equal.clone());
        let onclick = act.reform(move |_: MouseEvent| {
            let Some(worked) = &worked else { return Action::Say("This sheet can’t be folded so.".into()) };
            let made = match rule {
                Rule::Lip(lip, by) => with_lip(worked, &equal, lip, by),
                Rule::Tucked(by) => with_tucked_short(worked, &equal, by),
            };
            made.map_or_else(|why| Action::Say(format!("That can’t be: {why}.")), Action::Measure)
        });
        html! { <button type="button" class="button" {onclick}>{ name }</button> }
    };
    let kept = |to: &UseStateHandle<Length>| {
        let to = to.clone();
        Callback::from(move |t: String| {
            to.set(length(&t)?);
            Ok(None)
        })
    };
    let all_equal = equal.clone();
    html! {
        <section>
            <Typed id="lip" label="Lip" now={lip.text()} beside={lip.inches_text()} act={act.clone()} read={kept(lip)} />
            <div class="pane-row">
                { by_rule("Low folios longer", Rule::Lip(Lip::LowFolio, **lip)) }
                { by_rule("High folios longer", Rule::Lip(Lip::HighFolio, **lip)) }
            </div>
            <Typed id="tucked" label="Tucked panels shorter by" now={tucked.text()} act={act.clone()} read={kept(tucked)} />
            <div class="pane-row">
                { by_rule("Shorten", Rule::Tucked(**tucked)) }
                <button type="button" class="button" onclick={act.reform(move |_: MouseEvent| Action::Measure(all_equal.clone()))}>
                    { "All equal" }
                </button>
            </div>
        </section>
    }
}

/// How panels come to differ.
#[derive(Clone, Copy)]
enum Rule {
    Lip(Lip, Length),
    Tucked(Length),
}

/// Leaf, page and type area.
fn comes_to(of: &Sheet, job: &Job) -> Html {
    let by = |(w, h): (Length, Length)| format!("{} × {}", w.short_mm(), h.text());
    let (leaf, page) = (of.leaf(), job.paper.trims.page(of.leaf()));
    let area = job.paper.margins.type_area(page).map_or_else(|why| why, by);
    html! {
        <dl class="comes-to">
            <dt>{ "Leaf untrimmed" }</dt><dd>{ by(leaf) }</dd>
            <dt>{ "Page trimmed" }</dt><dd class="page-trimmed">{ by(page) }</dd>
            <dt>{ "Type area" }</dt><dd>{ area }</dd>
        </dl>
    }
}

/// A field for one number or length of the paper.
fn of_paper(
    job: &Job,
    act: &Act,
    (id, label): (&'static str, &'static str),
    (now, beside): (String, String),
    put: impl Fn(&mut Paper, &str) -> Result<(), String> + 'static,
) -> Html {
    let paper = job.paper;
    let read = Callback::from(move |text: String| {
        let mut paper = paper;
        put(&mut paper, &text)?;
        Ok(Some(Action::Paper(paper)))
    });
    html! { <Typed {id} {label} {now} {beside} act={act.clone()} {read} /> }
}

/// A field for a length of the paper.
fn length_of_paper(
    job: &Job,
    act: &Act,
    names: (&'static str, &'static str),
    of: for<'a> fn(&'a mut Paper) -> &'a mut Length,
) -> Html {
    let mut now = job.paper;
    let now = *of(&mut now);
    of_paper(job, act, names, (now.text(), now.inches_text()), move |paper, text| {
        *of(paper) = length(text)?;
        Ok(())
    })
}

/// Grammage, bulk, caliper, grain.
fn stock(of: &Sheet, job: &Job, act: &Act) -> Html {
    let stock = job.paper.stock;
    let number = |text: &str| parse_decimal(text.trim()).ok_or_else(|| format!("“{}” is not a number.", text.trim()));
    let upright_is_long = of.measure.height() >= of.measure.width();
    let grain = {
        let (act, paper) = (act.clone(), job.paper);
        Callback::from(move |e: Event| {
            let mut paper = paper;
            paper.stock.grain = if chosen(&e).as_deref() == Some("level") { Grain::Level } else { Grain::Upright };
            act.emit(Action::Paper(paper));
        })
    };
    let says = |upright: bool| if upright == upright_is_long { "long grain" } else { "short grain" };
    html! {
        <section>
            <h2>{ "Paper" }</h2>
            { of_paper(job, act, ("grammage", "Grammage"), (short(stock.grammage), "g/m²".into()), move |p, t| { p.stock.grammage = number(t)?; Ok(()) }) }
            { of_paper(job, act, ("bulk", "Bulk"), (short(stock.bulk), "cm³/g".into()), move |p, t| { p.stock.bulk = number(t)?; Ok(()) }) }
            <p class="pane-line"><span>{ "Caliper (ISO 534)" }</span><span>{ stock.caliper().text() }</span></p>
            <label class="pane-line" for="grain">{ "Grain" }
                <select id="grain" class="field" onchange={grain}>
                    <option value="upright" selected={stock.grain == Grain::Upright}>{ format!("upright, {}", says(true)) }</option>
                    <option value="level" selected={stock.grain == Grain::Level}>{ format!("level, {}", says(false)) }</option>
                </select>
            </label>
        </section>
    }
}

/// Gripper edge and side lay.
fn lays(job: &Job, act: &Act) -> Html {
    let press = job.paper.press;
    let edge = |id: &'static str, label: &'static str, now: Edge, offered: Vec<Edge>, put: fn(&mut Paper, Edge)| {
        let (act, paper) = (act.clone(), job.paper);
        let onchange = Callback::from(move |e: Event| {
            if let Some(edge) = chosen(&e).and_then(|word| Edge::ALL.into_iter().find(|edge| edge.word() == word)) {
                let mut paper = paper;
                put(&mut paper, edge);
                act.emit(Action::Paper(paper));
            }
        });
        let option = |e: Edge| html! { <option value={e.word()} selected={e == now}>{ e.word() }</option> };
        html! {
            <label class="pane-line" for={id}>{ label }
                <select {id} class="field" {onchange}>{ for offered.into_iter().map(option) }</select>
            </label>
        }
    };
    let crossing = Edge::ALL.into_iter().filter(|e| e.is_upright() != press.gripper.is_upright()).collect();
    html! {
        <section>
            <h2>{ "Lays" }</h2>
            { edge("gripper", "Gripper edge", press.gripper, Edge::ALL.to_vec(), |paper, edge| {
                // The side lay goes to an edge that crosses the gripper's.
                if edge.is_upright() == paper.press.side_lay.is_upright() {
                    paper.press.side_lay = if edge.is_upright() { Edge::Top } else { Edge::Left };
                }
                paper.press.gripper = edge;
            }) }
            { edge("side-lay", "Side lay", press.side_lay, crossing, |paper, edge| paper.press.side_lay = edge) }
            { length_of_paper(job, act, ("gripper-margin", "Gripper margin"), |p| &mut p.press.gripper_margin) }
        </section>
    }
}

/// What the knives take, and the margins.
fn cuts(job: &Job, act: &Act) -> Html {
    let field = |id, label, of| length_of_paper(job, act, (id, label), of);
    html! {
        <>
            <section>
                <h2>{ "Cut off" }</h2>
                { field("trim-head", "Head", |p| &mut p.trims.head) }
                { field("trim-foot", "Foot", |p| &mut p.trims.foot) }
                { field("trim-fore-edge", "Fore-edge", |p| &mut p.trims.fore_edge) }
                { field("bleed", "Bleed", |p| &mut p.trims.bleed) }
            </section>
            <section>
                <h2>{ "Margins of the trimmed page" }</h2>
                { field("margin-back", "Back", |p| &mut p.margins.back) }
                { field("margin-head", "Head", |p| &mut p.margins.head) }
                { field("margin-fore-edge", "Fore-edge", |p| &mut p.margins.fore_edge) }
                { field("margin-foot", "Foot", |p| &mut p.margins.foot) }
            </section>
        </>
    }
}
