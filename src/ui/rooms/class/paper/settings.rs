//! The fields for what is set.

use super::Set;
use super::faults::use_faults;
use super::fields::{choice, fixed, offset, text, tick};
use super::kinds::What;
use super::sheet::SheetChoice;
use super::wishes::{Change, MOST_CARDS, MOST_EXERCISES, MOST_OF_KIND, MOST_SEED, MOST_VARIANTS, Settings};
use crate::app::{Action, Room};
use crate::class::DeskAct;
use crate::fold::Side;
use crate::practice::{Kind, LEVELS, OUTCOMES};
use crate::print::{Flip, MOST_OFF_MM, Made, Off, Paper, Printer};
use crate::ui::paper::Kept;
use crate::ui::rooms::class;
use crate::ui::rooms::class::desk::Desk;
use crate::ui::widgets::{count_field, words};
use yew::prelude::*;

/// What the fields need.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The document.
    pub what: What,
    /// All that is set.
    pub settings: Settings,
    /// Changes it.
    pub set: Set,
    /// What is known of the printer.
    pub known: Kept,
    /// Keeps what is known.
    pub know: Callback<Kept>,
    /// Chooses another document.
    pub pick: Callback<What>,
    /// What the room has.
    pub room: class::Props,
    /// The learner’s desk.
    pub desk: Desk,
}

/// What is set for a document, and the paper that it is printed on.
#[component]
pub fn Form(props: &Props) -> Html {
    let Props { what, settings, set, .. } = props;
    let faulty = matches!(what, What::Dummy | What::Cards);
    let job = &props.room.state.job;
    let (sheet, _) = settings.sheet(job);
    let faults = use_faults(&props.room.checker, &sheet.course, faulty);
    let own = match what {
        What::Worksheet | What::Key => worksheet(settings, set),
        What::TestPage => html! { <div class="paper-fields">{ printer(props) }</div> },
        What::Dummy | What::Cards => {
            let choice = html! { <SheetChoice job={job.clone()} course={settings.course.clone()} set={set.clone()} /> };
            let rest = if *what == What::Dummy { dummy(settings, set, &faults) } else { cards(settings, set, &faults) };
            html! { <>{ untested(props) }<div class="paper-fields">{ choice }{ rest }</div></> }
        }
        What::SetUp => {
            let up = set.reform(|at: usize| Change::of(move |s| s.side_up = if at == 1 { Side::B } else { Side::A }));
            let now = usize::from(settings.side_up == Side::B);
            html! { <div class="paper-fields">{ fixed("side-up", "Lies up", &["side A", "side B"], now, up) }</div> }
        }
        What::Strips | What::Marks => to_room(props, Room::Job, "The marks are set in the room Job"),
        What::Ticket => to_room(props, Room::Job, "The book is described in the room Job"),
        What::Report => to_room(props, Room::Trace, "What was found is noted in the room Trace"),
        What::Logbook => {
            let name = props.desk.act.reform(DeskAct::Name);
            html! { <div class="paper-fields">{ text("desk-name", "Name", &props.desk.desk.name, "a line to write on", name) }</div> }
        }
    };
    html! { <>{ own }<div class="paper-fields">{ paper(props) }</div></> }
}

/// The paper in the printer.
fn paper(props: &Props) -> Html {
    let names = Paper::ALL.map(Paper::name);
    let now = Paper::ALL.iter().position(|p| *p == props.known.printer.paper).unwrap_or(0);
    let (known, know) = (props.known.clone(), props.know.clone());
    let set = Callback::from(move |at: usize| {
        let paper = Paper::ALL.get(at).copied().unwrap_or_default();
        know.emit(Kept { printer: Printer { paper, ..known.printer }, ..known.clone() });
    });
    fixed("paper-size", "Paper in the printer", &names, now, set)
}

/// How the printer turns the paper, and how far off its second side lands.
fn printer(props: &Props) -> Html {
    let now = props.known.printer;
    let change = |of: fn(&mut Printer, f64)| {
        let (known, know) = (props.known.clone(), props.know.clone());
        Callback::from(move |to: f64| {
            let mut printer = known.printer;
            of(&mut printer, to);
            know.emit(Kept { printer, ..known.clone() });
        })
    };
    let flip =
        change(|p, to| p.flip = if to > 0.5 { Flip::ShortEdge } else { Flip::LongEdge }).reform(|at: usize| at as f64);
    let Off { right_mm, down_mm } = now.off;
    html! {
        <>
            { fixed("flip", "Turned about", &["the long edge", "the short edge"], usize::from(now.flip == Flip::ShortEdge), flip) }
            { offset("off-right", "Side B too far right", right_mm, MOST_OFF_MM, change(|p, mm| p.off.right_mm = mm)) }
            { offset("off-down", "Side B too far down", down_mm, MOST_OFF_MM, change(|p, mm| p.off.down_mm = mm)) }
            <p class="quiet note">{ "Read both numbers from the test page. They are kept in this browser and hold for every document." }</p>
        </>
    }
}

/// Why the test page comes first.
fn untested(props: &Props) -> Html {
    let pick = props.pick.reform(|_: MouseEvent| What::TestPage);
    html! {
        <div class="paper-first" hidden={props.known.tested}>
            <p>{ "Print the test page first: where side B lands off, figures don’t back up, and a dummy folds wrong." }</p>
            <button type="button" class="button" onclick={pick}>{ "Printer test page" }</button>
        </div>
    }
}

fn to_room(props: &Props, room: Room, says: &'static str) -> Html {
    let go = props.room.act.reform(move |_: MouseEvent| Action::Go(room));
    html! { <p><button type="button" class="plain" onclick={go}>{ says }</button></p> }
}

fn worksheet(settings: &Settings, set: &Set) -> Html {
    let wish = &settings.worksheet;
    let own = set.reform(|at: usize| Change::of(move |s| s.own = at == 1));
    let level = set.reform(|at: usize| Change::of(move |s| s.worksheet.level = at as u8 + 1));
    let variants = set.reform(|n: u32| Change::of(move |s| s.worksheet.variants = n));
    let seed = set.reform(|n: u32| Change::of(move |s| s.worksheet.seed = n));
    let another = set.reform(|_: MouseEvent| Change::of(|s| s.worksheet.seed = s.worksheet.seed % MOST_SEED + 1));
    let class = set.reform(|text: String| Change::of(move |s| s.worksheet.class.clone_from(&text)));
    let date = set.reform(|text: String| Change::of(move |s| s.worksheet.date.clone_from(&text)));
    let both = set.reform(|on: bool| Change::of(move |s| s.worksheet.both_sides = on));
    let sets = ["sheet, folds, five spines", "your own choice"];
    let levels: Vec<String> = (1..=LEVELS).map(level_name).collect();
    html! {
        <div class="paper-fields">
            { fixed("worksheet-set", "What is set", &sets, usize::from(settings.own), own) }
            { if settings.own { kinds(settings, set) } else {
                html! { <div>{ choice("worksheet-level", "Level", &levels, usize::from(wish.level.max(1)) - 1, level) }</div> }
            } }
            <div class="paper-counts">
                { count_field("worksheet-variants", "Variants", wish.variants, MOST_VARIANTS, variants) }
                { count_field("worksheet-seed", "Seed", wish.seed, MOST_SEED, seed) }
                <button type="button" class="button" onclick={another}>{ "Another seed" }</button>
            </div>
            { text("worksheet-class", "Class", &wish.class, "a line to write on", class) }
            { text("worksheet-date", "Date", &wish.date, "a line to write on", date) }
            { tick("worksheet-both".into(), html! { "Printed on both sides: each variant begins a leaf" }, wish.both_sides, both) }
            <details class="paper-outcomes note" hidden={!set_any(settings)}>
                <summary>{ "Outcomes served" }</summary>
                <ul>{ for outcomes(settings).into_iter().map(|says| html! { <li>{ says }</li> }) }</ul>
            </details>
        </div>
    }
}

fn level_name(level: u8) -> String {
    match level {
        1 => "1, to begin with".into(),
        3 => "3, sixteens of three folds".into(),
        LEVELS => format!("{LEVELS}, the hardest"),
        n => n.to_string(),
    }
}

/// Kinds of exercise, each with a level and how many.
fn kinds(settings: &Settings, set: &Set) -> Html {
    let one = |(at, (kind, level, many)): (usize, &(Kind, u8, u32))| {
        let changed = |of: fn(&mut (Kind, u8, u32), u32)| {
            let set = set.clone();
            Callback::from(move |e: Event| {
                let Some(value) = crate::ui::widgets::chosen(&e).and_then(|v| v.parse::<u32>().ok()) else { return };
                set.emit(Change::of(move |s| {
                    if let Some(row) = s.kinds.get_mut(at) {
                        of(row, value);
                    }
                }));
            })
        };
        let options = |from: u32, to: u32, now: u32, name: &'static str| {
            (from..=to).map(
                move |n| html! { <option value={n.to_string()} selected={n == now}>{ format!("{n}{name}") }</option> },
            )
        };
        html! {
            <li key={kind.number()}>
                <span>{ kind.title() }</span>
                <select class="field words" aria-label={format!("How many: {}", kind.title())} onchange={changed(|row, n| row.2 = n)}>
                    { for options(0, MOST_OF_KIND, *many, "") }
                </select>
                <select class="field words" aria-label={format!("Level: {}", kind.title())} onchange={changed(|row, n| row.1 = n as u8)}>
                    { for (1..=LEVELS).map(|n| html! { <option value={n.to_string()} selected={n == *level}>{ format!("level {n}") }</option> }) }
                </select>
            </li>
        }
    };
    let many: u32 = settings.kinds.iter().map(|(_, _, many)| many).sum();
    let too_many = many as usize > MOST_EXERCISES;
    let says = match many {
        0 => "Choose how many of each.".to_owned(),
        _ if too_many => format!("A worksheet has {MOST_EXERCISES} exercises at the most; the first ones are set."),
        _ => String::new(),
    };
    html! {
        <div>
            <ul class="paper-kinds-set">{ for settings.kinds.iter().enumerate().map(one) }</ul>
            <p class="quiet note" role="status">{ says }</p>
        </div>
    }
}

/// Whether an exercise is set.
fn set_any(settings: &Settings) -> bool {
    !settings.own || !settings.exercises().is_empty()
}

/// Which published outcomes the exercises serve.
fn outcomes(settings: &Settings) -> Vec<String> {
    let mixed = [Kind::NumberSheet, Kind::FindFolds, Kind::WrongBook];
    let serves = |kind: &Kind| {
        if settings.own { settings.exercises().iter().any(|(k, _)| k == kind) } else { mixed.contains(kind) }
    };
    let all = OUTCOMES.iter().filter(|outcome| outcome.served_by.iter().any(serves));
    all.map(|outcome| format!("{} {}.", outcome.says, outcome.source)).collect()
}

fn dummy(settings: &Settings, set: &Set, faults: &[(crate::json::Json, String)]) -> Html {
    let size = set.reform(|at: usize| Change::of(move |s| s.true_size = at == 1));
    let first = set.reform(|n: u32| Change::of(move |s| s.first_page = n));
    let names: Vec<String> = std::iter::once("nothing: it folds right".to_owned())
        .chain(faults.iter().map(|(_, title)| title.clone()))
        .collect();
    let now = settings
        .fault
        .as_ref()
        .and_then(|fault| faults.iter().position(|(cause, _)| cause == fault))
        .map_or(0, |at| at + 1);
    let fault = {
        let (set, faults) = (set.clone(), faults.to_vec());
        Callback::from(move |at: usize| {
            let fault = at.checked_sub(1).and_then(|at| faults.get(at)).map(|(cause, _)| cause.clone());
            set.emit(Change::of(move |s| s.fault.clone_from(&fault)));
        })
    };
    let made =
        set.reform(|at: usize| Change::of(move |s| s.made = if at == 1 { Made::ByFolds } else { Made::ByFigures }));
    let ways = ["by its figures: fold it right", "by its folds: fold it as said"];
    html! {
        <>
            { fixed("dummy-size", "Size", &["as large as the paper allows", "true size, over several pages"], usize::from(settings.true_size), size) }
            <div class="paper-counts">{ count_field("dummy-first", "First page", settings.first_page, 9_999, first) }</div>
            { if faults.is_empty() { html! { <span hidden={true}></span> } } else {
                html! { <div>{ choice("dummy-fault", "What was done wrong", &names, now, fault) }</div> }
            } }
            { if settings.fault.is_none() { html! { <span hidden={true}></span> } } else {
                html! { <div>{ fixed("dummy-made", "It shows", &ways, usize::from(settings.made == Made::ByFolds), made) }</div> }
            } }
        </>
    }
}

fn cards(settings: &Settings, set: &Set, faults: &[(crate::json::Json, String)]) -> Html {
    let full = settings.cards.len() >= MOST_CARDS;
    let one = |id: String, cause: Option<crate::json::Json>, title: Html| {
        let on = settings.cards.contains(&cause);
        let toggle = set.reform(move |to: bool| {
            let cause = cause.clone();
            Change::of(move |s| {
                s.cards.retain(|card| *card != cause);
                if to && s.cards.len() < MOST_CARDS {
                    s.cards.push(cause.clone());
                }
            })
        });
        tick(id, title, on, toggle)
    };
    let rows = faults
        .iter()
        .enumerate()
        .map(|(i, (cause, title))| one(format!("card-{i}"), Some(cause.clone()), words(title)));
    html! {
        <fieldset class="paper-cards">
            <legend>{ "Cards" }</legend>
            { one("card-right".into(), None, html! { "A right one" }) }
            <div>{ for rows }</div>
            <p class="quiet note" role="status">{ if full { format!("A set has {MOST_CARDS} cards at the most.") } else { String::new() } }</p>
        </fieldset>
    }
}
