//! Fields and choices in which a find is entered. What is typed counts when the field is left or Enter is pressed.

use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// A field.
pub struct Field<'a> {
    /// Its id.
    pub id: String,
    /// Its label.
    pub label: &'a str,
    /// What stands in it.
    pub value: String,
    /// Whether it is for a few figures and not for a line.
    pub short: bool,
    /// What is wrong with it; empty if nothing is.
    pub wrong: String,
    /// Called with each letter, so that a picture can follow.
    pub typing: Callback<String>,
    /// Called with what was entered.
    pub enter: Callback<String>,
}

impl Field<'_> {
    /// The field with its label.
    pub fn view(self) -> Html {
        let (id, label, value, wrong) = (self.id, self.label.to_owned(), self.value, self.wrong);
        html! { <OneField {id} {label} {value} {wrong} short={self.short} typing={self.typing} enter={self.enter} /> }
    }
}

#[derive(Clone, PartialEq, Properties)]
struct Props {
    id: AttrValue,
    label: AttrValue,
    value: AttrValue,
    wrong: AttrValue,
    short: bool,
    typing: Callback<String>,
    enter: Callback<String>,
}

/// The field keeps what is being typed, since each render puts its value back.
#[component]
fn OneField(props: &Props) -> Html {
    let typed = use_state_eq(|| None::<String>);
    {
        let typed = typed.setter();
        use_effect_with(props.value.clone(), move |_| typed.set(None));
    }
    let input = |e: &Event| e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok());
    let oninput = {
        let (typed, typing) = (typed.setter(), props.typing.clone());
        Callback::from(move |e: InputEvent| {
            if let Some(input) = input(&e) {
                typed.set(Some(input.value()));
                typing.emit(input.value());
            }
        })
    };
    let onchange = {
        let enter = props.enter.clone();
        Callback::from(move |e: Event| {
            if let Some(input) = input(&e) {
                enter.emit(input.value().trim().to_owned());
            }
        })
    };
    let says = format!("{}-wrong", props.id);
    let bad = !props.wrong.is_empty();
    let value = typed.as_ref().map_or_else(|| props.value.clone(), |typed| typed.clone().into());
    html! {
        <span class={if props.short { "one-field short" } else { "one-field" }}>
            <label for={props.id.clone()}>{ props.label.clone() }</label>
            <input id={props.id.clone()} class="field" inputmode={props.short.then_some("decimal")} autocomplete="off" autocapitalize="off"
                spellcheck="false" {value} aria-invalid={bad.to_string()} aria-describedby={bad.then(|| says.clone())} {oninput} {onchange} />
            <span id={says} class="wrong" role="status">{ props.wrong.clone() }</span>
        </span>
    }
}

/// A field for a whole number, or nothing. What is no number is said and leaves things as they are.
pub fn whole(id: &str, label: &str, value: Option<u32>, enter: Callback<Result<Option<u32>, String>>) -> Html {
    let enter = Callback::from(move |text: String| enter.emit(read_whole(&text)));
    let value = value.map(|v| v.to_string()).unwrap_or_default();
    let field =
        Field { id: id.into(), label, value, short: true, wrong: String::new(), typing: Callback::noop(), enter };
    field.view()
}

/// A whole number as it is typed, with or without a comma between thousands; nothing typed is nothing.
pub fn read_whole(text: &str) -> Result<Option<u32>, String> {
    let plain: String = text.chars().filter(|c| !c.is_whitespace() && *c != ',').collect();
    match (plain.is_empty(), plain.parse()) {
        (true, _) => Ok(None),
        (false, Ok(number)) => Ok(Some(number)),
        (false, Err(_)) => Err(format!("“{}” is no whole number.", text.trim())),
    }
}

/// A length as it is typed, in mm, with a point or a comma; nothing typed is nothing.
pub fn read_mm(text: &str) -> Result<Option<f64>, String> {
    let plain = text.trim().trim_end_matches("mm").trim().replace(',', ".");
    match (plain.is_empty(), crate::units::parse_decimal(&plain)) {
        (true, _) => Ok(None),
        (false, Some(mm)) => Ok(Some(mm)),
        (false, None) => Err(format!("“{}” is no length in millimetres.", text.trim())),
    }
}

/// A choice: buttons of which one or none is pressed.
pub fn choice(label: &str, options: &[(&'static str, bool)], pick: &Callback<usize>) -> Html {
    let option = |(at, (name, on)): (usize, &(&'static str, bool))| {
        let onclick = pick.reform(move |_: MouseEvent| at);
        html! { <button key={at} type="button" class="button" aria-pressed={on.to_string()} {onclick}>{ *name }</button> }
    };
    html! { <span class="choice" role="group" aria-label={label.to_owned()}>{ for options.iter().enumerate().map(option) }</span> }
}

/// A plain button.
pub fn plain(name: &str, label: Option<String>, does: &Callback<()>) -> Html {
    let onclick = does.reform(|_: MouseEvent| ());
    html! { <button type="button" class="plain" aria-label={label} {onclick}>{ name.to_owned() }</button> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_they_are_written_on_a_ticket() {
        assert_eq!(read_whole(" 1,421 "), Ok(Some(1421)));
        assert_eq!(read_whole(""), Ok(None));
        assert!(read_whole("12a").unwrap_err().contains("12a"));
        assert_eq!(read_mm("18,5 mm"), Ok(Some(18.5)));
        assert_eq!(read_mm(" "), Ok(None));
        assert!(read_mm("thick").is_err());
    }
}
