//! Both flat sides, or one, as large as a class needs them.

use super::pictures::Seen;
use crate::app::page_name;
use crate::class::show::{Arrangement, Sides};
use crate::fold::{Landing, Side};
use crate::scene::svg::{Picked, paint};
use crate::scene::{Bench, Tag, flat_side};
use crate::ui::shared::Shared;
use crate::units::short as number;
use web_sys::HtmlElement;
use yew::prelude::*;

/// The flat sides of the sheet on the bench.
#[hook]
pub fn use_flats(seen: &Seen) -> Html {
    let node = use_node_ref();
    let bench = seen.bench.clone();
    let painted =
        use_memo(bench.clone(), |bench| bench.as_ref().map(|bench| [Side::A, Side::B].map(|s| side(bench, s))));
    {
        // Not in the markup: the content security policy forbids it there.
        let node = node.clone();
        let sheet = bench.as_ref().map_or((1.0, 1.0), |b| b.printing.sheet());
        let size = (sheet.0 * seen.flats.scale, sheet.1 * seen.flats.scale);
        use_effect_with(size, move |(w, h)| {
            if let Some(element) = node.cast::<HtmlElement>() {
                for (name, px) in [("--flat-width", w), ("--flat-height", h)] {
                    let _ = element.style().set_property(name, &format!("{}px", number(*px)));
                }
            }
        });
    }
    let (Some(bench), Some([a, b])) = (bench, (*painted).clone()) else { return Html::default() };
    let arrangement = seen.flats.arrangement;
    let alone = seen.picture.sides == Sides::AsFits && matches!(arrangement, Arrangement::OnlyA | Arrangement::OnlyB);
    let outer = bench.printing.landing.as_ref().map(Landing::outer_forme);
    let forme = |side: Side| match outer {
        Some(o) if o == side => "outer forme",
        Some(_) => "inner forme",
        None => "",
    };
    let one = |side: Side, picture: AttrValue| {
        let (class, letter, name) = match side {
            Side::A => ("flat side-a", "A", "Side A"),
            Side::B => ("flat side-b", "B", "Side B, turned left to right"),
        };
        html! {
            <div class="flat-box" key={letter}>
                <p class="flat-head">
                    <span class="quiet alone" hidden={!alone}>{ "S: the other side" }</span>
                    <span class="letter">{ letter }</span><span>{ forme(side) }</span>
                </p>
                <div {class} role="group" aria-label={name}>{ Html::from_html_unchecked(picture) }</div>
            </div>
        }
    };
    let shown: Vec<Html> = match arrangement {
        Arrangement::OnlyA => vec![one(Side::A, a)],
        Arrangement::OnlyB => vec![one(Side::B, b)],
        Arrangement::Stacked | Arrangement::Beside => vec![one(Side::A, a), one(Side::B, b)],
    };
    html! {
        <section ref={node} class={classes!("flats", (arrangement == Arrangement::Beside).then_some("beside"))}
            aria-label="The flat sheet">{ for shown }</section>
    }
}

/// One side. Each page on it can be picked; a covered one keeps its secret.
fn side(bench: &Shared<Bench>, side: Side) -> AttrValue {
    let printing = &bench.printing;
    let picked = |tag: Tag| {
        let Tag::Face(face) = tag else { return None };
        let figure = printing.figure(&face)?;
        let covered = printing.is_covered(&face);
        let name = if covered { "covered".into() } else { page_name(figure) };
        let (index, page) = (printing.index(&face), figure.page);
        let hidden = if covered { " data-covered" } else { "" };
        Some(Picked {
            attributes: format!(
                r#" data-page="{page}" data-face="{index}"{hidden} role="button" tabindex="-1" aria-label="{name}""#
            ),
        })
    };
    AttrValue::from(paint(&flat_side(printing, side, false), "sheet", &picked))
}
