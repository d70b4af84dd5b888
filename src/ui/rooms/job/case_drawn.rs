//! The case laid open on its cloth, and the block in its case seen from the head.

use crate::app::{BoundTold, Casing};
use crate::book::Back;
use crate::units::{between, mm, short as s};
use yew::prelude::*;

/// Room around the drawings, mm.
const EDGE: f64 = 6.0;

/// Both drawings, and what they measure in words.
pub fn drawn(bound: &BoundTold, casing: &Casing) -> Html {
    let says = format!(
        "Cloth {} by {} mm, two boards {} by {}, strip {} by {}, joints {} mm. The block is {} mm thick, its back {} mm wide.",
        mm(bound.cloth.0),
        mm(bound.cloth.1),
        mm(bound.board.0),
        mm(bound.board.1),
        mm(bound.strip.0),
        mm(bound.strip.1),
        mm(bound.joint),
        mm(bound.block),
        mm(bound.back)
    );
    html! {
        <figure class="case-drawn">
            { laid_open(bound) }
            { from_head(bound, casing) }
            <figcaption>{ crate::ui::widgets::words(&says) }</figcaption>
        </figure>
    }
}

/// Cloth, boards, strip.
fn laid_open(bound: &BoundTold) -> Html {
    let (w, h) = bound.cloth;
    let (bw, bh) = bound.board;
    let strip = bound.strip.0;
    let left = (w - 2.0 * bw - strip - 2.0 * bound.joint) / 2.0;
    let top = (h - bh) / 2.0;
    let piece = |x: f64, width: f64, class: &'static str| {
        html! { <rect {class} x={s(EDGE + x)} y={s(EDGE + top)} width={s(width)} height={s(bh)} /> }
    };
    let at = |x: f64, y: f64, text: String| html! { <text class="n" x={s(EDGE + x)} y={s(EDGE + y)}>{ text }</text> };
    let x_strip = left + bw + bound.joint;
    html! {
        <svg class="laid-open" viewBox={format!("0 0 {} {}", s(w + 2.0 * EDGE), s(h + 2.0 * EDGE))} aria-hidden="true">
            <rect class="cloth" x={s(EDGE)} y={s(EDGE)} width={s(w)} height={s(h)} />
            { piece(left, bw, "board") }
            { piece(x_strip, strip, "strip-card") }
            { piece(x_strip + strip + bound.joint, bw, "board") }
            { at(left + bw / 2.0, h / 2.0, format!("{} × {}", mm(bw), mm(bh))) }
            { at(w - left - bw / 2.0, h / 2.0, format!("{} × {}", mm(bw), mm(bh))) }
            { at(w / 2.0, h - 4.0, format!("{} × {}", mm(w), mm(h))) }
        </svg>
    }
}

/// The block between its boards, twice as large as the case beside it.
fn from_head(bound: &BoundTold, casing: &Casing) -> Html {
    let (block, back) = (bound.block, bound.back);
    let board = casing.board.mm();
    // The block is cut short: what matters is its back.
    let long = 60.0;
    let rise = if casing.back == Back::Round { bound.rise } else { 0.0 };
    let (x0, tall) = (EDGE + rise + board + 4.0, back.max(block));
    let middle = EDGE + board + tall / 2.0;
    let outline = format!(
        "M{x1} {t1}L{x2} {t0}Q{q} {m} {x2} {b0}L{x1} {b1}Z",
        x1 = s(x0 + long),
        t1 = s(middle - block / 2.0),
        x2 = s(x0),
        t0 = s(middle - back / 2.0),
        q = s(x0 - 2.0 * rise),
        m = s(middle),
        b0 = s(middle + back / 2.0),
        b1 = s(middle + block / 2.0),
    );
    let boards = [middle - tall / 2.0 - board, middle + tall / 2.0].map(|y| {
        html! {
            <rect class="board" x={s(x0 + bound.joint)} y={s(y)} width={s(long - bound.joint + casing.square.mm())} height={s(board)} />
        }
    });
    let leaves = (1..12).map(|i| {
        let share = f64::from(i) / 12.0 - 0.5;
        let bulge = rise * (1.0 - 4.0 * share * share);
        let class = "hair";
        html! {
            <line key={i} {class} x1={s(x0 - bulge)} y1={s(middle + share * back)} x2={s(x0 + long)} y2={s(middle + share * block)} />
        }
    });
    let strip = between(board, 0.5, 2.0);
    let strip = format!(
        "M{x} {t}Q{q} {m} {x} {b}",
        x = s(x0 - 2.0 - strip / 2.0),
        t = s(middle - back / 2.0),
        q = s(x0 - 2.0 - strip / 2.0 - 2.0 * rise),
        m = s(middle),
        b = s(middle + back / 2.0)
    );
    let (w, h) = (x0 + long + casing.square.mm() + EDGE, 2.0 * (EDGE + board) + tall + 8.0);
    html! {
        <svg class="from-head" viewBox={format!("0 0 {} {}", s(w), s(h))} aria-hidden="true">
            <path class="block" d={outline} />
            <g>{ for leaves }</g>
            <path class="strip-line" d={strip} stroke-width={s(between(board, 0.5, 2.0))} />
            <g>{ for boards }</g>
            <text class="n" x={s(x0 + long / 2.0)} y={s(h - 2.0)}>{ format!("back {} mm, fore-edge {}", mm(back), mm(block)) }</text>
        </svg>
    }
}
