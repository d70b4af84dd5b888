//! Openings of the found book as paper: two leaves each, with the figures as printed.

use crate::units::short;
use yew::prelude::*;

/// One leaf as it was typed: what is printed on it, and whether it lies head down. `None` where nothing is printed.
pub type Leaf = Option<(String, bool)>;

/// The openings in a typed text, in order: `30 31 | 48 49`. Only for drawing; the check reads the text itself.
#[must_use]
pub fn openings(text: &str) -> Vec<Vec<Leaf>> {
    let leaf = |word: &str| -> Leaf {
        let number = word.strip_suffix('v').filter(|n| !n.is_empty() && n.chars().all(|c| c.is_ascii_digit()));
        match (word, number) {
            ("_", _) => None,
            (_, Some(number)) => Some((number.to_owned(), true)),
            (word, None) => Some((word.chars().take(8).collect(), false)),
        }
    };
    let opening = |group: &str| group.split_whitespace().take(8).map(leaf).collect::<Vec<_>>();
    text.split('|').map(opening).filter(|o| !o.is_empty()).collect()
}

/// Where the figures of typed openings jump, in a sentence: `64 runs on to 129; 144 goes back to 81.` Empty where none does.
#[must_use]
pub fn jumps(text: &str) -> String {
    let number = |leaf: &Leaf| leaf.as_ref().filter(|(_, down)| !down).and_then(|(text, _)| text.parse::<u32>().ok());
    let jump = |opening: &Vec<Leaf>| {
        let [left, right] = opening.as_slice() else { return None };
        let (left, right) = (number(left)?, number(right)?);
        match right {
            _ if right == left.saturating_add(1) => None,
            _ if right > left => Some(format!("{left} runs on to {right}")),
            _ => Some(format!("{left} goes back to {right}")),
        }
    };
    let all: Vec<String> = openings(text).iter().filter_map(jump).collect();
    if all.is_empty() { String::new() } else { format!("{}.", all.join("; ")) }
}

/// The most openings that are drawn.
const DRAWN: usize = 12;

/// The pages of a section as its openings: the first page alone, then two and two.
pub fn in_pairs(text: &str) -> Html {
    let words: Vec<&str> = text.split_whitespace().collect();
    let Some((first, rest)) = words.split_first() else { return drawn("") };
    let pairs = rest.chunks(2).map(|pair| pair.join(" "));
    drawn(&std::iter::once((*first).to_owned()).chain(pairs).collect::<Vec<_>>().join(" | "))
}

/// The openings drawn in a row. What is drawn is said by the label; the figures are in the field as well.
pub fn drawn(text: &str) -> Html {
    let all = openings(text);
    let label = format!("Openings drawn: {}", text.trim());
    let opening = |(k, leaves): (usize, &Vec<Leaf>)| {
        let width = 150.0 * leaves.len() as f64;
        let leaf = |(i, leaf): (usize, &Leaf)| {
            html! { <g transform={format!("translate({} 0)", short(150.0 * i as f64))}>{ paper(leaf.as_ref()) }</g> }
        };
        html! {
            <svg key={k} class="opened" viewBox={format!("-1 0 {} 212", short(width + 2.0))} width={short(width * 0.38)} height="80">
                { for leaves.iter().enumerate().map(leaf) }
            </svg>
        }
    };
    html! { <div class="opened-row" role="img" aria-label={label}>{ for all.iter().take(DRAWN).enumerate().map(opening) }</div> }
}

/// A page of 148 by 210 with its figure upright or head down, the head tick, and a rule under a 6 or 9.
fn paper(leaf: Option<&(String, bool)>) -> Html {
    let (text, down) = leaf.cloned().unwrap_or_default();
    let size = match text.chars().count() {
        0 | 1 => 118.0,
        2 => 106.0,
        3 => 74.0,
        4 => 54.0,
        _ => 38.0,
    };
    let rule = text.contains(['6', '9']) && text.chars().all(|c| c.is_ascii_digit());
    let half = size * 0.23 * text.chars().count() as f64;
    let turned = if down { "rotate(180 74 105)" } else { "" };
    let blank = text.is_empty();
    html! {
        <>
            <rect class="leaf-paper" width="148" height="210" />
            <g transform={turned}>
                <rect class={if blank { "no-frame" } else { "leaf-ink" }} x="71" y="0" width="6" height="22" />
                <text class="figure" x="74" y={short(109.0 + size * 0.35)} font-size={short(size)}>{ text }</text>
                <rect class={if rule { "leaf-ink" } else { "no-frame" }} x={short(74.0 - half)} y={short(109.0 + size * 0.5)}
                    width={short(2.0 * half)} height="5" />
            </g>
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn typed_openings_are_drawn_as_they_lie() {
        let leaf = |text: &str, down| Some((text.to_owned(), down));
        let all = openings("64 129 | 15v _ | xiv v | ");
        assert_eq!(all[0], [leaf("64", false), leaf("129", false)]);
        assert_eq!(all[1], [leaf("15", true), None]);
        assert_eq!(all[2], [leaf("xiv", false), leaf("v", false)]);
        assert_eq!(all.len(), 3);
        assert_eq!(jumps("64 129 | 144 81 | 30 31 | 5 _"), "64 runs on to 129; 144 goes back to 81.");
        assert_eq!(jumps("30 31"), "");
    }
}
