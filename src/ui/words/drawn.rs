//! The picture of an entry, painted. It is another later part: words are read oftener than looked at.

use crate::app::{WordDrawing, word_drawings};
use crate::glossary::Picture;
use crate::scene::Tag;
use crate::scene::svg::{Picked, paint};
use crate::ui::later::{Later, Missing, wasm_split};
use yew::prelude::*;

/// The way to the pictures, which is a later part.
#[wasm_split(dialogs, fallible)]
pub fn way() -> Result<Later<&'static Picture>, Missing> {
    Ok(picture)
}

/// A picture of one drawing or two, and what it shows in words.
fn picture(of: &'static Picture) -> Html {
    let drawn = word_drawings(of);
    let says = AttrValue::from(of.says());
    html! {
        <figure class="word-picture">
            <div class="word-drawings" role="img" aria-label={says.clone()}>{ for drawn.iter().map(drawing) }</div>
            <figcaption>{ says }</figcaption>
        </figure>
    }
}

fn drawing(one: &WordDrawing) -> Html {
    let picked = |tag: Tag| {
        let Tag::Face(face) = tag else { return None };
        let class = match one.followed.iter().position(|f| *f == face)? {
            0 => "followed",
            _ => "followed conjugate",
        };
        Some(Picked { attributes: format!(" class=\"{class}\"") })
    };
    let svg = AttrValue::from(paint(&one.scene, "word-drawing", &picked));
    html! {
        <div class={classes!("drawing", one.on_paper.then_some("on-paper"), one.numbered.then_some("numbered"))}>
            { Html::from_html_unchecked(svg) }
            <p class="quiet" hidden={one.name.is_empty()}>{ one.name }</p>
        </div>
    }
}
