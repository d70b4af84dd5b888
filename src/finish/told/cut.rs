//! What the knives do, and what creep leaves of margins and bleed.

use super::text::{count, fine, leaf, list, mm};
use super::{About, Finding, Severity, Work};
use crate::finish::bolts::{BoltCut, trim_at, trimmed};
use crate::finish::creep::{Creep, CreepModel, creep as creep_of, margins};
use crate::finish::leaves::{Edge, Leaves};
use crate::paper::{Length, Trims};

/// What is left over in dividing a sheet is a few nanometres.
const ALIKE: Length = Length::from_um(1);

const GEOMETRY: &str = "Geometry; no source.";

fn finding(severity: Severity, says: String, reckoned: String, source: &'static str) -> Finding {
    Finding { about: About::Bolts, severity, says, reckoned, source }
}

/// Which bolts are opened, which are not, and which leaves that leaves loose or joined.
pub(super) fn bolts(leaves: &Leaves, trims: &Trims, caliper: Length) -> Vec<Finding> {
    let cut = trimmed(leaves, trims, caliper);
    let mut all = Vec::new();
    for edge in Edge::ALL {
        let opened: Vec<&BoltCut> = cut.opened(edge).collect();
        let closed: Vec<&BoltCut> = cut.closed(edge).collect();
        let (word, trim) = (edge.word(), trim_at(trims, edge));
        if let Some(most) = opened.iter().max_by_key(|b| b.needs) {
            let says = format!(
                "The knife at the {word} takes {} mm and opens {}: leaves {}.",
                fine(trim),
                if closed.is_empty() {
                    format!("every bolt there ({})", opened.len())
                } else {
                    format!("{} of {} bolts there", opened.len(), opened.len() + closed.len())
                },
                pairs(&opened)
            );
            all.push(finding(Severity::Fine, says, reckoned(most, caliper), GEOMETRY));
        }
        if let Some(most) = closed.iter().max_by_key(|b| b.needs) {
            let bolts = count(closed.len(), "bolt stays", "bolts stay");
            let says = if trim > Length::ZERO {
                format!(
                    "At the {word} {bolts} closed: leaves {}. The knife takes {} mm and would have to take {} mm.",
                    pairs(&closed),
                    fine(trim),
                    mm(most.needs)
                )
            } else {
                format!("Nothing is cut at the {word}, where {bolts} closed: leaves {}.", pairs(&closed))
            };
            // An uncut edge may be meant.
            let severity = if trim > Length::ZERO { Severity::Wrong } else { Severity::Mind };
            all.push(finding(severity, says, reckoned(most, caliper), GEOMETRY));
        }
        let missed: Vec<String> = cut
            .missed
            .iter()
            .filter(|m| m.edge == edge)
            .map(|m| format!("that of {} {} mm", leaf(m.leaf), fine(m.inside)))
            .collect();
        if !missed.is_empty() {
            let says = format!("Not every {word} reaches the cut: {} inside it.", list(&missed));
            all.push(finding(Severity::Mind, says, String::new(), GEOMETRY));
        }
    }
    if leaves.bolts.is_empty() {
        let says = "No edge but the spine is closed: there is no bolt to be cut open.".into();
        all.push(finding(Severity::Fine, says, String::new(), GEOMETRY));
    }
    if !cut.loose.is_empty() {
        let of_back = |l: &u32| {
            let lies = leaves.leaves.get((*l as usize).saturating_sub(1)).map_or(Length::ZERO, |l| l.lies.spine);
            if lies > ALIKE { format!("{}, {} mm from the back", leaf(*l), fine(lies)) } else { leaf(*l) }
        };
        let loose: Vec<String> = cut.loose.iter().map(of_back).collect();
        let mut says = match loose.as_slice() {
            [one] => format!("The spine does not hold {one}: thread or staple goes past it."),
            _ => format!("The spine does not hold {}: thread or staple goes past them.", list(&loose)),
        };
        if !cut.hanging.is_empty() {
            let hanging: Vec<String> = cut.hanging.iter().map(u32::to_string).collect();
            says += &format!(" Only a closed bolt keeps {} in its place.", list(&hanging));
        }
        all.push(finding(Severity::Mind, says, String::new(), "Follows from the folds."));
    }
    all
}

fn pairs(bolts: &[&BoltCut]) -> String {
    list(&bolts.iter().map(|b| format!("{}–{}", b.bolt.leaves.0, b.bolt.leaves.1)).collect::<Vec<_>>())
}

/// "1.57 × 0.1 × 1 + 0.1 = 0.26 mm".
fn reckoned(cut: &BoltCut, caliper: Length) -> String {
    let (thin, k) = (fine(caliper), crate::units::short(CreepModel::Round.factor()));
    let out = cut.bolt.stands_out;
    let lies = match out.nm() {
        0 => String::new(),
        nm if nm > 0 => format!(" − {} that it stands out", fine(out)),
        _ => format!(" + {} that it lies within", fine(-out)),
    };
    format!("The deepest bolt wants {k} × {thin} × {} + {thin}{lies} = {} mm", cut.bolt.around, mm(cut.needs))
}

const CREEP: &str = "One thickness for each folded sheet: \"What is Creep?\", colorvisionprinting.com. \
                     Round folds, π/2 thicknesses: geometry, no source.";

/// From so much creep on, pages are moved towards the back in the layout, or the cut shows it. From memory.
const SHOWS_FROM: Length = Length::from_um(500);

/// How far the innermost leaf stands out, and what remains of its margin.
pub(super) fn creep(work: &Work, leaves: &Leaves, caliper: Length) -> Vec<Finding> {
    let Some(most) = creep_of(leaves, caliper).into_iter().max_by_key(|c| c.around) else { return Vec::new() };
    let Creep { around, flat, round, .. } = most;
    let about = About::Creep;
    if around == 0 {
        let says = "No leaf lies within another folded one, so that none creeps.".into();
        return vec![Finding { about, severity: Severity::Fine, says, reckoned: String::new(), source: CREEP }];
    }
    let (thin, k) = (fine(caliper), crate::units::short(CreepModel::Round.factor()));
    let reckoned = format!(
        "{} pages at {thin} mm: 1 × {thin} × {around} = {} mm; {k} × {thin} × {around} = {} mm",
        2 * leaves.leaves.len(),
        mm(flat),
        mm(round)
    );
    let says = format!(
        "The innermost leaves stand out by {} mm if folds are sharp, {} mm if they are round.",
        mm(flat),
        mm(round)
    );
    let severity = if round >= SHOWS_FROM { Severity::Mind } else { Severity::Fine };
    let mut all = vec![Finding { about, severity, says, reckoned, source: CREEP }];
    if let Some(margin) = work.margins.map(|m| m.fore_edge) {
        let least = margins(leaves, &work.trims, caliper, margin).into_iter().min_by_key(|m| m.outer_round);
        if let Some(least) = least {
            let says = format!(
                "The smallest outer margin after the cut is that of {}: {} mm, {} mm with round folds.",
                leaf(least.leaf),
                mm(least.outer_flat),
                mm(least.outer_round)
            );
            let severity = match least.outer_round {
                cut if cut <= Length::ZERO => Severity::Wrong,
                _ => severity,
            };
            let reckoned = format!(
                "{} − {} = {} mm; {0} − {} = {} mm",
                fine(margin),
                mm(flat),
                mm(least.outer_flat),
                mm(round),
                mm(least.outer_round)
            );
            all.push(Finding { about, severity, says, reckoned, source: CREEP });
        }
    }
    all
}

/// Whether pictures that run off the page do so.
pub(super) fn bleed(leaves: &Leaves, trims: &Trims, caliper: Length) -> Vec<Finding> {
    let mut all = Vec::new();
    if trims.bleed <= Length::ZERO {
        return all;
    }
    let (about, source) = (About::Creep, GEOMETRY);
    let reaches = |m: &crate::finish::creep::PageMargins| m.bleed_head.min(m.bleed_tail);
    if let Some(least) = margins(leaves, trims, caliper, Length::ZERO).into_iter().min_by_key(reaches) {
        let (left, pressed) = (reaches(&least), least.pressed_down.abs());
        let reckoned = format!("{} − {} = {} mm", fine(trims.bleed), mm(pressed), mm(left));
        all.push(if left < Length::ZERO {
            let says = format!(
                "The bleed is too little: {} is pressed {} mm inwards by the bolts around its own, and white shows.",
                leaf(least.leaf),
                mm(pressed)
            );
            Finding { about, severity: Severity::Wrong, says, reckoned, source }
        } else {
            let says = format!(
                "The bleed is enough for what the bolts press leaves inwards: {} mm remain at the least.",
                mm(left)
            );
            Finding { about, severity: Severity::Fine, says, reckoned, source }
        });
    }
    let short: Vec<Edge> = Edge::ALL.into_iter().filter(|e| trim_at(trims, *e) < trims.bleed).collect();
    if !short.is_empty() {
        let words: Vec<String> = short.iter().map(|e| e.word().to_owned()).collect();
        let says = format!(
            "The bleed of {} mm is more than the knife takes at the {}: beyond a fold there it stands on the next page, \
             beyond an edge it is not printed.",
            fine(trims.bleed),
            list(&words)
        );
        all.push(Finding { about, severity: Severity::Mind, says, reckoned: String::new(), source });
    }
    all
}
