//! The finds of one book: each drawn, with a line of words and, where it is changed, its fields.

use super::fields::{Field, choice, plain, read_mm, whole};
use super::kind::Kind;
use super::slips::{Row, Slip, row, slip_of, slip_seen};
use super::{leaves, piles};
use crate::app::{Action, BookTold, CaseAct, Find};
use crate::book::Signing;
use crate::marks::BackMarks;
use crate::trace::{Case, Inside, SeenBook, Spine, Stopped, Stopper, read_run};
use crate::ui::store::Act;
use crate::ui::widgets::words;
use crate::units::short;
use crate::words::capital;
use yew::prelude::*;

/// What the finds need.
pub struct Props<'a> {
    /// The case.
    pub case: &'a Case,
    /// Which book is looked at, from 0.
    pub at: usize,
    /// What was told of it.
    pub told: Option<&'a BookTold>,
    /// The sections of the book.
    pub sections: u32,
    /// The marks of the book.
    pub design: &'a BackMarks,
    /// How its sections are signed.
    pub signing: &'a Signing,
    /// Places that stand out on its spine.
    pub out: &'a [u32],
    /// The kind that is being changed.
    pub open: Option<Kind>,
    /// What is being typed into the kind that is being changed.
    pub draft: Option<&'a str>,
    /// Opens a kind to be changed, or none.
    pub change: Callback<Option<Kind>>,
    /// What is being typed.
    pub typing: Callback<String>,
    /// How to say what happened.
    pub act: Act,
}

impl Props<'_> {
    /// The book, as far as there is one.
    pub fn book(&self) -> SeenBook {
        self.case.books.get(self.at).cloned().unwrap_or_default()
    }

    /// Notes something about the book.
    fn note<T: 'static>(&self, find: impl Fn(T) -> Find + 'static) -> Callback<T> {
        let at = self.at;
        self.act.reform(move |value: T| Action::Case(CaseAct::Note(at, find(value))))
    }

    /// Notes what could be read, and says what could not.
    fn read<T: 'static>(&self, find: impl Fn(T) -> Find + 'static) -> Callback<Result<T, String>> {
        let (at, act) = (self.at, self.act.clone());
        Callback::from(move |value: Result<T, String>| {
            act.emit(match value {
                Ok(value) => Action::Case(CaseAct::Note(at, find(value))),
                Err(why) => Action::Say(why),
            });
        })
    }

    /// The text of a kind: what is being typed, or what stands.
    fn text<'t>(&'t self, kind: Kind, stands: &'t str) -> &'t str {
        self.draft.filter(|_| self.open == Some(kind)).unwrap_or(stands)
    }

    /// A find: its picture, its words, and its fields while it is changed.
    pub fn block(&self, kind: Kind, picture: Html, says: &str, fields: Html, away: Callback<()>) -> Html {
        let (there, open) = (kind.is_there(self.case, self.case.books.get(self.at)), self.open == Some(kind));
        let toggle = self.change.reform(move |_: MouseEvent| if open { None } else { Some(kind) });
        let name = format!("{}: {}", if open { "Done" } else { "Change" }, kind.name());
        html! {
            <section class="find" data-find={kind.word()} hidden={!there && !open} aria-label={kind.name()}>
                <div class="find-picture" hidden={!there && self.draft.is_none()}>{ picture }</div>
                <div class="find-foot">
                    <p class="find-says">{ if says.is_empty() { html! { <span class="quiet">{ kind.name() }</span> } } else { words(says) } }</p>
                    <button type="button" class="plain" aria-expanded={open.to_string()} aria-label={name} onclick={toggle}>
                        { if open { "Done" } else { "Change" } }
                    </button>
                </div>
                <div class="find-fields" hidden={!open}>
                    { fields }
                    <span class="take-away" hidden={!there}>{ plain("Take it away", Some(format!("Take it away: {}", kind.name())), &away) }</span>
                </div>
            </section>
        }
    }
}

/// All finds of the book.
pub fn of_book(props: &Props<'_>) -> Html {
    html! {
        <>
            { openings(props) }
            { spine(props) }
            { bulk(props) }
            { inside(props) }
            { stopped(props) }
            { plates(props) }
        </>
    }
}

fn openings(props: &Props<'_>) -> Html {
    let book = props.book();
    let text = props.text(Kind::Openings, &book.openings);
    let fields = Field {
        id: "openings".into(),
        label: "Page numbers as printed, opening by opening: 64 129 | 144 81",
        value: book.openings.clone(),
        short: false,
        wrong: String::new(),
        typing: props.typing.clone(),
        enter: props.note(Find::Openings),
    };
    let legend = html! {
        <p class="legend quiet">
            <span><span class="n">{ "15v" }</span>{ " head down" }</span><span><span class="n">{ "_" }</span>{ " blank" }</span>
            <span><span class="n">{ "?" }</span>{ " can’t be read" }</span>
        </p>
    };
    let away = props.note(|()| Find::Openings(String::new()));
    let jumps = leaves::jumps(text);
    let says = if jumps.is_empty() && book.spine == Spine::Unseen { says(props) } else { jumps };
    props.block(Kind::Openings, leaves::drawn(text), &says, html! { <>{ fields.view() }{ legend }</> }, away)
}

/// What is told of the book.
fn says(props: &Props<'_>) -> String {
    props.told.map(|told| told.says.clone()).unwrap_or_default()
}

/// The slips of a spine; none where it can't be read, and why.
pub fn slips(
    spine: &Spine,
    typed: &str,
    design: &BackMarks,
    signing: &Signing,
    sections: u32,
) -> Result<Vec<Slip>, String> {
    match spine {
        Spine::Marks(backs) => Ok(backs.iter().map(slip_seen).collect()),
        _ => read_run(typed, Some(signing), sections)
            .map(|found| found.iter().map(|f| slip_of(f, design, sections)).collect())
            .map_err(|why| why.says),
    }
}

fn spine(props: &Props<'_>) -> Html {
    let book = props.book();
    let stands = match &book.spine {
        Spine::Run(run) => run.as_str(),
        _ => "",
    };
    let typed = props.text(Kind::Spine, stands).to_owned();
    let marks = matches!(book.spine, Spine::Marks(_)) && typed.is_empty();
    let shown = if marks { book.spine.clone() } else { Spine::Run(typed.clone()) };
    let (slips, wrong) = match slips(&shown, &typed, props.design, props.signing, props.sections) {
        Ok(slips) => (slips, String::new()),
        Err(why) => (Vec::new(), why),
    };
    let fields = Field {
        id: "spine".into(),
        label: "Sections as they stand, front to back, or their signatures: 1-4 9 6-18",
        value: stands.to_owned(),
        short: false,
        wrong,
        typing: props.typing.clone(),
        enter: props.note(|run: String| Find::Spine(if run.is_empty() { Spine::Unseen } else { Spine::Run(run) })),
    };
    let legend = html! {
        <p class="legend quiet">
            <span><span class="n">{ "12d" }</span>{ " head down" }</span><span><span class="n">{ "_" }</span>{ " no mark" }</span>
            <span><span class="n">{ "x" }</span>{ " of another book" }</span><span><span class="n">{ "?" }</span>{ " can’t be read" }</span>
        </p>
    };
    let gathered = props.act.reform({
        let at = props.at;
        move |()| Action::Case(CaseAct::Gathered(at))
    });
    let away = props.note(|()| Find::Spine(Spine::Unseen));
    let fields = html! {
        <>
            { fields.view() }{ legend }
            <p>{ plain("Take the backs of the book gathered here", None, &gathered) }</p>
        </>
    };
    let size = Row { size: (392.0, 104.0), numbered: true };
    props.block(Kind::Spine, row(&slips, props.design, size, props.out), &says(props), fields, away)
}

fn bulk(props: &Props<'_>) -> Html {
    let book = props.book();
    let mm = |mm: Option<f64>| mm.map(short).unwrap_or_default();
    let field = |id: &str, label, value, enter| {
        let (id, typing) = (id.to_owned(), Callback::noop());
        Field { id, label, value, short: true, wrong: String::new(), typing, enter }.view()
    };
    let fields = html! {
        <div class="short-fields">
            { whole("count", "Sections counted", book.count, props.read(Find::Count)) }
            { field("bulk", "Bulk, mm", mm(book.bulk_mm), props.read(Find::Bulk).reform(|text: String| read_mm(&text))) }
            { field("good-bulk", "A good book, mm", mm(props.case.good_bulk_mm), {
                let act = props.act.clone();
                Callback::from(move |text: String| act.emit(match read_mm(&text) {
                    Ok(mm) => Action::Case(CaseAct::GoodBulk(mm)),
                    Err(why) => Action::Say(why),
                }))
            }) }
        </div>
    };
    let away = {
        let (count, bulk) = (props.note(|()| Find::Count(None)), props.note(|()| Find::Bulk(None)));
        Callback::from(move |()| {
            count.emit(());
            bulk.emit(());
        })
    };
    let counted = book.count.map(|n| format!("{n} section{}", if n == 1 { "" } else { "s" }));
    let measured = book.bulk_mm.map(|mm| match props.case.good_bulk_mm {
        Some(good) => format!("bulk {} mm, a good book {} mm", short(mm), short(good)),
        None => format!("bulk {} mm", short(mm)),
    });
    let said: Vec<String> = counted.into_iter().chain(measured).collect();
    let says = if said.is_empty() { String::new() } else { capital(&format!("{}.", said.join(", "))) };
    props.block(Kind::Bulk, bulks(book.bulk_mm, props.case.good_bulk_mm), &says, fields, away)
}

/// This book and a good one lying, drawn as thick as they are beside each other.
fn bulks(this: Option<f64>, good: Option<f64>) -> Html {
    let most = this.into_iter().chain(good).fold(1.0_f64, f64::max);
    let book = |x: f64, mm: Option<f64>, name: &'static str| match mm {
        None => html! { <g></g> },
        Some(mm) => {
            let high = crate::units::between(mm / most, 0.02, 1.0) * 42.0;
            html! {
                <g>
                    <rect class="slip-paper" x={short(x)} y={short(46.0 - high)} width="118" height={short(high)} />
                    <path class="bulk-end" d={format!("M{} {}h118M{} 46h118", short(x), short(46.0 - high), short(x))} />
                    <text class="bulk-name" x={short(x + 59.0)} y="63">{ name }</text>
                </g>
            }
        }
    };
    let there = this.is_some();
    html! {
        <svg class={if there { "bulks" } else { "no-bulks" }} viewBox="0 0 280 68" width="280" height="68" aria-hidden="true">
            { book(0.0, this, "this book") }{ book(150.0, good, "a good book") }
        </svg>
    }
}

fn inside(props: &Props<'_>) -> Html {
    let inside = props.book().inside.unwrap_or_default();
    let with = |change: fn(&mut Inside, String)| {
        let (base, note, act) = (inside.clone(), props.note(Find::Inside), props.act.clone());
        Callback::from(move |text: String| {
            let mut next = base.clone();
            change(&mut next, text);
            if next.section == 0 {
                act.emit(Action::Say("Say first which section it is.".into()));
                return;
            }
            note.emit(Some(next));
        })
    };
    let section = if inside.section == 0 { None } else { Some(inside.section) };
    let field = |id: &str, label, value: String, short, typing, enter| {
        Field { id: id.to_owned(), label, value, short, wrong: String::new(), typing, enter }.view()
    };
    let fore_edge = {
        let set = with(|inside, text| inside.fore_edge = text == "1");
        set.reform(|at: usize| at.to_string())
    };
    let fields = html! {
        <>
            <div class="short-fields">
                { field("inside-section", "Section", section.map(|s| s.to_string()).unwrap_or_default(), true, Callback::noop(),
                    with(|inside, text| inside.section = text.parse().unwrap_or_default())) }
                <span class="one-field">
                    <span class="label">{ "Fold found at the" }</span>
                    { choice("Fold found at the", &[("spine", !inside.fore_edge), ("fore-edge", inside.fore_edge)], &fore_edge) }
                </span>
            </div>
            { field("inside-pages", "Its pages, front to back: 35 36 33 34 …", inside.pages.clone(), false, props.typing.clone(),
                with(|inside, text| inside.pages = text)) }
        </>
    };
    let away = props.note(|()| Find::Inside(None));
    let pages = props.text(Kind::Inside, &inside.pages);
    let says = match section {
        Some(section) => format!("Inside section {section}."),
        None => String::new(),
    };
    props.block(Kind::Inside, leaves::in_pairs(pages), &says, fields, away)
}

fn stopped(props: &Props<'_>) -> Html {
    let stopped = props.book().stopped;
    let by = stopped.map_or(Stopper::Caliper, |s| s.by);
    let station = stopped.map(|s| s.station);
    let stops = props.note(move |by: Stopper| Find::Stopped(Some(Stopped { station: station.unwrap_or(1), by })));
    let pick = stops.reform(|at: usize| if at == 0 { Stopper::Caliper } else { Stopper::Camera });
    let fields = html! {
        <div class="short-fields">
            { whole("stopped-station", "Station", station,
                props.read(move |station: Option<u32>| Find::Stopped(station.map(|station| Stopped { station, by })))) }
            <span class="one-field">
                <span class="label">{ "Stopped by" }</span>
                { choice("Stopped by", &[("the caliper", stopped.is_some() && by == Stopper::Caliper), ("the camera", stopped.is_some() && by == Stopper::Camera)], &pick) }
            </span>
        </div>
    };
    let says = stopped.map_or_else(String::new, |s| {
        let by = if s.by == Stopper::Caliper { "caliper" } else { "camera" };
        format!("The {by} stopped the line at station {}.", s.station)
    });
    let pile = stopped.map(|s| piles::Pile::plain(s.station, true)).into_iter().collect::<Vec<_>>();
    props.block(Kind::Stopped, piles::row(&pile, "at-station"), &says, fields, props.note(|()| Find::Stopped(None)))
}

fn plates(props: &Props<'_>) -> Html {
    let book = props.book();
    let field = |id: &str, label, value: &Option<String>, enter| {
        let (value, typing) = (value.clone().unwrap_or_default(), Callback::noop());
        Field { id: id.to_owned(), label, value, short: false, wrong: String::new(), typing, enter }.view()
    };
    let fields = html! {
        <>
            { field("plates", "Plates were found behind pages (nothing: none was found)", &book.plates, props.note(|t: String| Find::Plates(Some(t)))) }
            { field("wraps", "Wraps were found round sections (nothing: none was found)", &book.wraps, props.note(|t: String| Find::Wraps(Some(t)))) }
        </>
    };
    let away = {
        let (plates, wraps) = (props.note(|()| Find::Plates(None)), props.note(|()| Find::Wraps(None)));
        Callback::from(move |()| {
            plates.emit(());
            wraps.emit(());
        })
    };
    let one = |what: &Option<String>, some: &str, none: &str| match what.as_deref() {
        None => String::new(),
        Some("") => format!("{none} "),
        Some(where_) => format!("{some} {where_}. "),
    };
    let says = one(&book.plates, "Plates behind", "No plate was found.")
        + &one(&book.wraps, "Wraps round", "No wrap was found.");
    props.block(Kind::Plates, Html::default(), says.trim(), fields, away)
}
