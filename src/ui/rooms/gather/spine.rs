//! Draws the parts of the stack.

use super::backs::Shows;
use crate::marks::BackMarks;
use crate::scene::StackLay;
use crate::units::short as s;
use kurbo::Rect;
use yew::prelude::*;

/// The top and the tail end of the block.
pub fn block(lay: &StackLay) -> Html {
    let (f, d) = (lay.face, lay.depth);
    let top = format!("M{} {}l{} {}H{}l{} {}z", s(f.x0), s(f.y0), s(d.x), s(d.y), s(f.x1 + d.x), s(-d.x), s(-d.y));
    let side = format!("M{} {}l{} {}V{}l{} {}z", s(f.x1), s(f.y0), s(d.x), s(d.y), s(f.y1 + d.y), s(-d.x), s(-d.y));
    let every = (4.0 / lay.pitch).ceil().max(1.0) as usize;
    let joints: String = (1..lay.count)
        .step_by(every)
        .map(|i| format!("M{} {}l{} {}", s(f.x1), s(f.y0 + f64::from(i) * lay.pitch), s(d.x), s(d.y)))
        .collect();
    html! { <><path class="block-top" d={top} /><path class="block-side" d={side} /><path class="joints" d={joints} /></> }
}

/// The back at a place: its paper, what it bears, and where a mark was due in vain.
pub fn row(
    lay: &StackLay,
    design: &BackMarks,
    (place, back, name): (u32, &Shows, &AttrValue),
    due: Option<f64>,
    (out, on): (f64, bool),
) -> Html {
    let r = lay.row(place);
    let paper = if on {
        "back-paper on"
    } else if place % 2 == 1 {
        "back-paper odd"
    } else {
        "back-paper"
    };
    let rect = |class: &'static str, r: Rect| {
        html! { <rect {class} x={s(r.x0)} y={s(r.y0)} width={s(r.width())} height={s(r.height())} /> }
    };
    let half = design.stairs.length_mm / 2.0;
    let bar = |middle: f64| {
        let (from, to) = (lay.x(middle - half), lay.x(middle + half));
        Rect::new(from, r.y0, to.max(from + 2.0), r.y1)
    };
    let size = (lay.pitch * 0.8).min(18.0 * lay.scale);
    let shown = match back {
        Shows::Bars(seen) => {
            html! { <>{ for lay.bars(place, design, seen).into_iter().map(|bar| rect("back-mark", bar)) }</> }
        }
        Shows::Foreign => rect("back-foreign", r),
        // A row that is too thin for a number bears a hollow bar where the mark would be.
        Shows::Word(_, at) if size < 13.0 => rect("back-hollow", bar(*at)),
        Shows::Word(word, at) => html! {
            <text class="figure" aria-hidden="true" x={s(lay.x(*at))} y={s(r.center().y + size * 0.36)} font-size={s(size)}>{ word.clone() }</text>
        },
    };
    let y = s(r.center().y);
    let due = due.map_or_else(|| html! { <g></g> }, |due| rect("back-hollow", bar(due)));
    // The picked back stands out at the tail; its mark stays where the rule along the foot says it is.
    let sheet = Rect::new(r.x0, r.y0, r.x1 + out, r.y1);
    html! {
        <g key={place} id={format!("row-{place}")} role="option" aria-selected={on.to_string()} aria-label={name.clone()}
            data-place={place.to_string()} class="back">
            <g class="back-group">
                { rect(paper, sheet) }
                <line class="back-line" hidden={lay.pitch < 8.0} x1={s(r.x0)} y1={y.clone()} x2={s(r.x1)} y2={y} />
                { due }
                { shown }
            </g>
        </g>
    }
}

/// The numbers of the places, at the left.
pub fn numbers(lay: &StackLay, picked: u32) -> Html {
    let number = |place: u32| {
        let y = lay.row(place).center().y + 5.0 * lay.scale;
        let class = classes!("place", (place == picked).then_some("on"));
        html! { <text {class} x={s(lay.face.x0 - 10.0 * lay.scale)} y={s(y)}>{ place }</text> }
    };
    html! { <g class="places" aria-hidden="true">{ for (1..=lay.count).filter(|p| lay.numbered(*p, picked)).map(number) }</g> }
}

/// The rule along the foot.
pub fn scale(lay: &StackLay) -> Html {
    let (f, k) = (lay.face, lay.scale);
    let y = s(f.y1 + 20.0 * k);
    let tick = |(i, mm): (usize, f64)| {
        let x = lay.x(mm);
        let unit = if i == 0 {
            html! { <tspan class="unit">{ " mm" }</tspan> }
        } else {
            html! { <tspan></tspan> }
        };
        html! {
            <>
                <line class="tick" x1={s(x)} y1={s(f.y1 + 2.0)} x2={s(x)} y2={s(f.y1 + 7.0 * k)} />
                <text class="mm" x={s(x)} y={y.clone()}>{ s(mm) }{ unit }</text>
            </>
        }
    };
    html! {
        <g class="scale" aria-hidden="true">
            <text class="end" x={s(f.x0)} y={y.clone()}>{ "head" }</text>
            { for lay.ticks().into_iter().enumerate().map(tick) }
            <text class="end tail" x={s(f.x1)} y={y.clone()}>{ "tail" }</text>
        </g>
    }
}
