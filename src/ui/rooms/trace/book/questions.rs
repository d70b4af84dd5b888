//! The four questions of an experienced checker, in order, each with its working.

use crate::app::QuestionTold;
use crate::ui::widgets::{figures, words};
use yew::prelude::*;

/// The questions in two or three words, in their order.
const SHORT: [&str; 4] = ["Leaf pairs", "Inside or between", "Bulk and count", "Which books"];

/// The questions: the answer at once, the working one click away.
pub fn questions(all: &[QuestionTold]) -> Html {
    let one = |(at, q): (usize, &QuestionTold)| {
        let list = |name: &'static str, lines: &[String]| {
            html! {
                <div hidden={lines.is_empty()}>
                    <h4>{ name }</h4>
                    <ul>{ for lines.iter().map(|line| html! { <li>{ words(line) }</li> }) }</ul>
                </div>
            }
        };
        let look = q.look.clone().unwrap_or_default();
        html! {
            <li key={at} class={(!q.known).then_some("unknown")}>
                <details>
                    <summary><span class="asks">{ SHORT.get(at).copied().unwrap_or_default() }</span>{ " " }<span class="answer">{ figures(&q.answer) }</span></summary>
                    <div class="working">
                        <p>{ words(&q.asks) }</p>
                        { list("Seen", &q.evidence) }
                        { list("So", &q.reasoning) }
                        { list("That rules out", &q.rules_out) }
                        <p hidden={look.is_empty()}><b>{ "Look: " }</b>{ words(&look) }</p>
                    </div>
                </details>
            </li>
        }
    };
    html! { <ol class="questions" hidden={all.is_empty()} aria-label="Four questions">{ for all.iter().enumerate().map(one) }</ol> }
}
