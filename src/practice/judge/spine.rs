//! Back marks laid out.

use super::{CAUSE, CHECK, NUMBER, not_given};
use crate::marks::{BackMarks, Backs, Design, Edge, MOST_SECTIONS, Warning};
use crate::practice::marked::{Item, Marked};
use crate::units::mm;

/// Steps and places are tried by the half millimetre, as a rule is read.
const HALF: f64 = 0.5;

/// Marks that nothing speaks against, the longest steps first; `None` where there are none.
pub fn design(sections: u32, spine_mm: f64, backs: &Backs) -> Option<Design> {
    let least = backs.least_step_mm();
    for halves in (1..=20_u32).rev() {
        let step_mm = HALF * f64::from(halves);
        if step_mm < least {
            break;
        }
        for from in 0..120_u32 {
            let first_mm = HALF * f64::from(from);
            let design = Design { spine_mm, first_mm, step_mm, length_mm: step_mm, levels: sections };
            if design.check(sections).is_err() {
                break;
            }
            if warnings(&design, sections, backs).is_empty() {
                return Some(design);
            }
        }
    }
    None
}

fn warnings(design: &Design, sections: u32, backs: &Backs) -> Vec<Warning> {
    BackMarks::from(*design).warnings(sections, backs)
}

/// What a warning is marked under: told apart, large enough, on the spine.
fn family(warning: &Warning) -> usize {
    match warning {
        Warning::SharedLevel { .. } => 0,
        Warning::MirrorsItself { .. } | Warning::MirrorsAnother { .. } => 1,
        _ => 2,
    }
}

fn told(design: &Design) -> String {
    format!(
        "first at {} mm, {} mm long, steps of {} mm, {} levels",
        mm(design.first_mm),
        mm(design.length_mm),
        mm(design.step_mm),
        design.levels
    )
}

pub(super) fn mark(sections: u32, spine_mm: f64, backs: &Backs, given: Option<&Design>) -> Option<Marked> {
    let right = told(&design(sections, spine_mm, backs)?);
    // The spine is that of the book, whatever the answer says of it.
    let given = given.map(|g| Design { spine_mm, ..*g });
    let finite = |d: &Design| [d.first_mm, d.step_mm, d.length_mm].iter().all(|v| v.is_finite());
    let usable = given.filter(|d| finite(d) && d.levels <= MOST_SECTIONS);
    let refused = usable.and_then(|d| d.check(sections).err());
    let good = usable.filter(|_| refused.is_none());
    // Marks that run off the foot are taken off once: all else about them can be told.
    let off = refused.as_ref().is_some_and(|why| why.at == "levels") && usable.is_some_and(|d| d.levels > 0);
    let at_foot = |w: &Warning| matches!(w, Warning::InTrim { edge: Edge::Foot, .. });
    let told_of = |d: Design| warnings(&d, sections, backs).into_iter().filter(|w| !(off && at_foot(w))).collect();
    let found: Option<Vec<Warning>> = if off { usable } else { good }.map(told_of);
    let text = usable.map_or_else(String::new, |d| told(&d));
    let item = |what: &str, of: u32, which: usize| {
        let mine = found.as_ref().map(|all| all.iter().filter(|w| family(w) == which).map(Warning::says));
        let says: Vec<String> = mine.into_iter().flatten().collect();
        let ok = found.is_some() && says.is_empty();
        Item::new(what, text.clone(), right.clone(), of)
            .worth(if ok { of } else { 0 })
            .saying(not_given(!ok, says.into_iter().take(3).collect::<Vec<_>>().join(" ")))
    };
    let fits = Item::new("All marks stand on the spine", text.clone(), right.clone(), CAUSE)
        .worth(if good.is_some() { CAUSE } else { 0 })
        .saying(refused.map(|why| why.says).unwrap_or_default());
    Some(Marked::of_items(vec![
        fits,
        item("No two sections share a level", NUMBER, 0),
        item("A section that lies head to tail shows itself", NUMBER, 1),
        item("Steps are long enough, and marks stay clear of the trim", CHECK, 2),
    ]))
}
