//! Choosing how a sheet is worked by a drawn dummy and its trade name, family by family, or beginning one's own.

use crate::app::{Action, State, Task};
use crate::fold::{Family, NamedCourse, Worked, courses};
use crate::scene::{Act, Bench, Printing, Shown, View, svg};
use crate::ui::later::{Later, Missing, wasm_split};
use crate::ui::store::Act as Tell;
use std::rc::Rc;
use yew::prelude::*;

/// What the picker needs.
#[derive(Clone, PartialEq, Properties)]
pub struct Props {
    /// The state.
    pub state: Rc<State>,
    /// How to say what happened.
    pub act: Tell,
    /// Closes the dialog it is in.
    pub close: Callback<()>,
}

/// The way to the picker, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn way() -> Result<Later<Props>, Missing> {
    Ok(|props| html! { <Picker ..props /> })
}

/// The families, and a drawn dummy for each course of one, inside a dialog.
#[component]
fn Picker(props: &Props) -> Html {
    let choose = {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |NamedCourse { course, oblong, .. }: NamedCourse| {
            act.emit(if oblong { Action::TakeOblong(course) } else { Action::Take(course) });
            close.emit(());
        })
    };
    let name = props.state.sheet().trade_name();
    let then = |actions: &'static [fn() -> Action]| {
        let (act, close) = (props.act.clone(), props.close.clone());
        Callback::from(move |_: MouseEvent| {
            actions.iter().for_each(|action| act.emit(action()));
            close.emit(());
        })
    };
    let own = then(&[|| Action::MakeOwn { rows: 2, columns: 4 }]);
    let go_on = then(&[|| Action::Task(Task::Make)]);
    let back = then(&[|| Action::Task(Task::WorkBack)]);
    let two = then(&[|| Action::Task(Task::Fold), || Action::Compare(true)]);
    let shut = props.close.reform(|_: MouseEvent| ());
    html! {
        <>
            <Courses {name} {choose} />
            <div class="dialog-foot">
                <button type="button" class="button slip" onclick={own}>{ "Make your own" }</button>
                <button type="button" class="button" onclick={go_on}>{ "Change this one" }</button>
                <button type="button" class="button layout-way" onclick={back}>{ "Find the folds of a layout" }</button>
                <button type="button" class="button two-ways" onclick={two}>{ "Two ways side by side" }</button>
                <button type="button" class="button" onclick={shut}>{ "Close" }</button>
            </div>
        </>
    }
}

/// What a choice among the courses at hand needs.
#[derive(Clone, PartialEq, Properties)]
pub struct CoursesProps {
    /// The name of the one that is chosen.
    pub name: Option<&'static str>,
    /// Called with another one.
    pub choose: Callback<NamedCourse>,
}

/// The way to that choice, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn courses_way() -> Result<Later<CoursesProps>, Missing> {
    Ok(|props| html! { <Courses ..props /> })
}

/// The families, and a drawn dummy for each course of one.
#[component]
fn Courses(props: &CoursesProps) -> Html {
    let name = props.name;
    let all = use_memo((), |()| courses());
    let here = all.iter().find(|n| Some(n.name) == name);
    let family = use_state_eq(|| here.map_or(Family::Whole, |n| n.family));
    let dummies = use_memo((*family, all.clone()), |(family, all)| {
        let own = all.iter().filter(|n| n.family == *family);
        own.map(|n| (AttrValue::from(dummy(n).unwrap_or_default()), note(n), n.clone())).collect::<Vec<_>>()
    });
    let choose = |(picture, note, named): &(AttrValue, String, NamedCourse)| {
        let pressed = name == Some(named.name);
        let (choose, chosen) = (props.choose.clone(), named.clone());
        let onclick = Callback::from(move |_: MouseEvent| choose.emit(chosen.clone()));
        html! {
            <button key={named.name} type="button" class="dummy" aria-pressed={pressed.to_string()} {onclick}>
                { Html::from_html_unchecked(picture.clone()) }
                <span>{ named.name }</span>
                <span class="quiet note">{ note.clone() }</span>
            </button>
        }
    };
    let of_family = |of: Family| {
        let pressed = *family == of;
        let family = family.clone();
        let onclick = Callback::from(move |_: MouseEvent| family.set(of));
        html! { <button type="button" class="button" aria-pressed={pressed.to_string()} {onclick}>{ of.name() }</button> }
    };
    html! {
        <>
            <div class="families" role="group" aria-label="Kinds of sheets">{ for Family::ALL.map(of_family) }</div>
            <div class="dummies">{ for dummies.iter().map(choose) }</div>
        </>
    }
}

/// The way to the name of the job's course, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn name_way() -> Result<Later<Rc<State>>, Missing> {
    Ok(|state| {
        let sheet = state.sheet();
        let own = || format!("Your own, {} pages", 2 * sheet.course.rows * sheet.course.columns);
        html! { sheet.trade_name().map_or_else(own, str::to_owned) }
    })
}

/// What a sheet gives: "24 pages", "8 sections of 16 pages", "8 pages, twice".
pub fn note(named: &NamedCourse) -> String {
    let Ok(worked) = Worked::of(&named.course) else { return String::new() };
    let pages: Vec<u32> = named.course.copies.iter().take(1).flatten().map(|nest| worked.pages_of(nest)).collect();
    let says = match pages.as_slice() {
        [] => String::new(),
        [one] => format!("{one} pages"),
        [first, rest @ ..] if rest.iter().all(|p| p == first) => format!("{} sections of {first} pages", pages.len()),
        all => format!("sections of {} pages", all.iter().map(u32::to_string).collect::<Vec<_>>().join(", ")),
    };
    if named.course.copies.len() > 1 { says + ", twice" } else { says }
}

/// The blank sheet with its first fold on the way, as the engine folds it; slit first where it is.
pub fn dummy(named: &NamedCourse) -> Option<String> {
    let course = &named.course;
    let blank = Printing::blank(course.rows, course.columns);
    let printing = Printing { coarse: true, reads: course.reads, ..blank };
    let bench = Bench::of_course(printing, course, 0).ok()?;
    let shown = Shown { leaf: 3.2, crease: None };
    let slits = (0..bench.rule.folds).take_while(|k| bench.acts(*k).iter().all(|a| *a == Act::Slit)).count();
    let at = slits as f64 + if slits < bench.rule.folds { 0.32 } else { 0.0 };
    let r = bench.extent(slits as f64, &View::OPENING, &shown);
    let view = View { origin: kurbo::Point::ORIGIN - r.origin().to_vec2(), ..View::OPENING };
    let mut scene = bench.scene(at, &view, &shown).scene;
    scene.size = (r.width(), r.height());
    Some(svg::paint(&scene, "dummy-picture", &|_| None))
}
