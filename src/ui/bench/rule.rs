//! The rule: a scale of steps with a bone folder on it, drawn once; only the bone moves.

use super::hands::Hands;
use crate::scene::Rule;
use crate::units::short as number;
use wasm_bindgen::JsCast;
use web_sys::{HtmlInputElement, KeyboardEvent, PointerEvent};
use yew::prelude::*;

/// Where the moments lie on the rule, as shares of its width.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RuleShape {
    /// The steps.
    pub rule: Rule,
    /// Width of the drawing in units, about its pixels on the page.
    pub width: f64,
}

/// All leaves together take as much of the rule as this many folds.
const OPENING: f64 = 1.6;

impl RuleShape {
    fn length(&self) -> f64 {
        let folds = self.rule.folds as f64;
        if self.rule.leaves == 0 { folds.max(1.0) } else { folds + 2.0 + OPENING }
    }

    /// The share of the width at a moment.
    #[must_use]
    pub fn share(&self, at: f64) -> f64 {
        let open = (self.rule.folds + 2) as f64;
        let x = if at <= open { at } else { open + (at - open) / self.rule.leaves.max(1) as f64 * OPENING };
        x / self.length()
    }

    /// Where a moment lies in the drawing.
    pub(super) fn x(&self, at: f64) -> f64 {
        INSET + self.share(at) * (self.width - 2.0 * INSET)
    }

    /// The moment at a share of the width.
    #[must_use]
    pub fn moment(&self, share: f64) -> f64 {
        let open = (self.rule.folds + 2) as f64;
        let x = share * self.length();
        let at = if x <= open { x } else { open + (x - open) / OPENING * self.rule.leaves as f64 };
        self.rule.clamp(at)
    }
}

/// How far the ends of the rule keep from the edges of the drawing.
const INSET: f64 = 40.0;

/// What the rule shows.
pub struct Props {
    /// Who holds the sheet.
    pub hands: Hands,
    /// The steps.
    pub shape: RuleShape,
    /// The size of the packet at each whole step, in panels (width, height), for the little pictures.
    pub packets: std::rc::Rc<[(u32, u32)]>,
    /// The word for each step that is no fold.
    pub marks: std::rc::Rc<[Option<&'static str>]>,
    /// The moment last heard of.
    pub at: f64,
    /// What the moment is called, for those who hear it.
    pub says: AttrValue,
}

/// The rule.
#[hook]
pub fn use_rule(props: &Props) -> Html {
    let svg = use_node_ref();
    let (bone, input) = (use_node_ref(), use_node_ref());
    {
        let (hands, bone, input) = (props.hands.clone(), bone.clone(), input.clone());
        use_effect_with(props.shape, move |shape| {
            hands.take_rule(bone, input, *shape);
        });
    }
    let moment = {
        let (svg, shape) = (svg.clone(), props.shape);
        move |e: &PointerEvent| {
            let rect = svg.cast::<web_sys::Element>().map(|s| s.get_bounding_client_rect());
            let (left, width) = rect.map_or((0.0, 1.0), |r| (r.left(), r.width()));
            let drawn = (f64::from(e.client_x()) - left) / width.max(1.0) * shape.width;
            shape.moment((drawn - INSET) / (shape.width - 2.0 * INSET))
        }
    };
    let hold = {
        let (hands, moment, svg) = (props.hands.clone(), moment.clone(), svg.clone());
        Callback::from(move |e: PointerEvent| {
            // Not the event's current target, which is the root of the page here: Yew listens there alone.
            if let Some(svg) = svg.cast::<web_sys::Element>() {
                let _ = svg.set_pointer_capture(e.pointer_id());
            }
            hands.hold(moment(&e));
        })
    };
    let drag = {
        let hands = props.hands.clone();
        Callback::from(move |e: PointerEvent| {
            if e.buttons() & 1 == 1 && hands.is_holding() {
                hands.hold(moment(&e));
            }
        })
    };
    let release = {
        let hands = props.hands.clone();
        Callback::from(move |_: PointerEvent| {
            hands.release();
        })
    };
    let keys = {
        let hands = props.hands.clone();
        Callback::from(move |e: KeyboardEvent| {
            match e.key().as_str() {
                "ArrowRight" | "ArrowUp" => hands.step(1),
                "ArrowLeft" | "ArrowDown" => hands.step(-1),
                "Home" => hands.glide_to(0.0),
                "End" => hands.glide_to(f64::INFINITY),
                _ => return,
            }
            e.prevent_default();
            e.stop_propagation();
        })
    };
    let slide = {
        let hands = props.hands.clone();
        Callback::from(move |e: InputEvent| {
            if let Some(input) = e.target().and_then(|t| t.dyn_into::<HtmlInputElement>().ok()) {
                hands.set(input.value_as_number() / 100.0);
            }
        })
    };
    let end = props.shape.rule.end();
    html! {
        <div class="rule">
            <svg ref={svg} viewBox={format!("0 0 {} 96", number(props.shape.width))} preserveAspectRatio="none" aria-hidden="true"
                onpointerdown={hold} onpointermove={drag} onpointerup={release.clone()} onpointercancel={release}>
                <rect width="100%" height="100%" class="hit" />
                <line x1={number(props.shape.x(0.0))} x2={number(props.shape.x(end))} y1="62" y2="62" class="track" />
                { ticks(props) }
                <g ref={bone}>
                    <rect class="bone-box" x="-42" y="47" width="84" height="30" />
                    <path class="bone" d="M-36 62 Q-36 55 -28 56 L10 55 Q30 56 36 62 Q30 68 10 69 L-28 68 Q-36 69 -36 62Z" />
                </g>
            </svg>
            <input ref={input} type="range" min="0" max={number(end * 100.0)} step="1"
                aria-label="Fold" aria-valuetext={props.says.clone()} onkeydown={keys} oninput={slide} />
        </div>
    }
}

/// The room that the longest word under a step takes.
const WORD: f64 = 56.0;

fn ticks(props: &Props) -> Html {
    let rule = props.shape.rule;
    let named = if rule.leaves == 0 { rule.folds } else { rule.folds + 2 };
    // On a short rule words would run into each other.
    let room = props.shape.x(1.0) - props.shape.x(0.0) >= WORD;
    let mark = |k: usize| props.marks.get(k.checked_sub(1)?).copied().flatten().filter(|_| room);
    let tick = |k: usize| {
        let at = k as f64;
        let here = props.shape.x(at);
        let label = match k {
            0 => "flat".to_string(),
            k if k <= rule.folds => mark(k).map_or_else(|| k.to_string(), str::to_string),
            k if k == rule.folds + 1 => "slit".to_string(),
            _ => "open".to_string(),
        };
        let figure = (1..=rule.folds).contains(&k) && mark(k).is_none();
        let now = (props.at - at).abs() < 0.5 || (k == rule.folds + 2 && props.at >= at);
        let class = classes!(figure.then_some("n"), if now { "now" } else { "other" });
        html! {
            <g key={k} class={class.clone()}>
                <line x1={number(here)} x2={number(here)} y1="55" y2="69" class="track" />
                { picture(props, k, here) }
                <text x={number(here)} y="90" class={class}>{ label }</text>
            </g>
        }
    };
    let leaves = (1..=rule.leaves).map(|i| {
        let here = number(props.shape.x((rule.folds + 2 + i) as f64));
        html! { <line x1={here.clone()} x2={here} y1="59" y2="65" class="track" /> }
    });
    html! { <>{ for (0..=named).map(tick) }{ for leaves }</> }
}

/// The outline of the packet at a step, with its creases; a cut for slit, an opened section for open.
fn picture(props: &Props, k: usize, here: f64) -> Html {
    let folds = props.shape.rule.folds;
    if k > folds + 1 {
        let d = format!("M{} 26 q-9 -6 -18 -1 v17 q9 -5 18 1 q9 -6 18 -1 v-17 q-9 -5 -18 1 v17", number(here));
        return html! { <path class="shape" d={d} /> };
    }
    let Some((w, h)) = props.packets.get(k.min(folds)).copied() else { return Html::default() };
    // Pictures keep clear of each other on a short rule.
    let widest = (0.8 * (props.shape.x(1.0) - props.shape.x(0.0))).min(48.0);
    let unit = (widest / f64::from(w)).min(30.0 / f64::from(h)).min(13.0);
    let (pw, ph) = (f64::from(w) * unit, f64::from(h) * unit);
    let (left, top) = (here - pw / 2.0, 46.0 - ph);
    let mut inner = String::new();
    if w * h <= 64 {
        for i in 1..w {
            inner += &format!("M{} {}v{}", number(left + f64::from(i) * unit), number(top), number(ph));
        }
        for i in 1..h {
            inner += &format!("M{} {}h{}", number(left), number(top + f64::from(i) * unit), number(pw));
        }
    }
    if k == folds + 1 {
        inner += &format!("M{} {}h{}", number(left - 8.0), number(top - 7.0), number(pw + 16.0));
    }
    html! {
        <>
            <rect class="shape" x={number(left)} y={number(top)} width={number(pw)} height={number(ph)} />
            <path class="shape dots" d={inner} />
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn share_and_moment_undo_each_other() {
        let shape = RuleShape { rule: Rule { folds: 3, leaves: 8 }, width: 800.0 };
        for at in [0.0, 0.3, 2.0, 3.7, 5.0, 8.5, 13.0] {
            assert!((shape.moment(shape.share(at)) - at).abs() < 1e-9, "{at}");
        }
        assert_eq!(shape.share(13.0), 1.0);
    }
}
