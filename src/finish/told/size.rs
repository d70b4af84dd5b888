//! Sizes in words.

use super::text::{fine, leaf, list};
use super::{About, Finding, Severity, Work};
use crate::finish::leaves::Leaves;
use crate::finish::size::{LipFound, Size, Uneven, piece_size, sizes};
use crate::fold::{Lip, Unfinished};
use crate::paper::Length;

const SUM: &str = "The panels less the trims.";
const LIP: &str = "Aim for 3/8 in, 1/4 to 5/8 in will do: bindagraphics.com, \"Saddle stitching\".";

fn finding(severity: Severity, says: String, reckoned: String, source: &'static str) -> Finding {
    Finding { about: About::Size, severity, says, reckoned, source }
}

fn by(size: Size) -> String {
    format!("{} × {} mm", fine(size.width), fine(size.height))
}

/// Pieces that are no page yet.
pub(super) fn unfinished(work: &Work) -> Vec<Finding> {
    let own = work.worked.unfinished.iter().filter(|u| work.nest.contains(&u.piece));
    own.map(|Unfinished { piece, why, .. }| {
        let size = piece_size(work.worked, *piece, work.measure).map_or_else(String::new, |s| format!(" ({})", by(s)));
        let says = format!("Piece {} is no section yet{size}: {why}.", piece + 1);
        finding(Severity::Wrong, says, String::new(), "Follows from the folds.")
    })
    .collect()
}

/// Leaf, page, the page that was wanted, uneven leaves, and the lip.
pub(super) fn told(work: &Work, leaves: &Leaves) -> Vec<Finding> {
    let (trims, found) = (&work.trims, sizes(leaves, &work.trims));
    let (l, p) = (found.leaf, found.page);
    let reckoned = format!(
        "{} − {} = {} mm wide; {} − {} − {} = {} mm high",
        fine(l.width),
        fine(trims.fore_edge),
        fine(p.width),
        fine(l.height),
        fine(trims.head),
        fine(trims.foot),
        fine(p.height)
    );
    let mut all = Vec::new();
    if p.width <= Length::ZERO || p.height <= Length::ZERO {
        let says = format!("The knives leave nothing of a leaf of {}.", by(l));
        all.push(finding(Severity::Wrong, says, reckoned, SUM));
        return all;
    }
    let says = format!("A leaf is {}, the page after the cut {}.", by(l), by(p));
    all.push(finding(Severity::Fine, says, reckoned, SUM));
    if let Some(wanted) = work.page {
        let (wide, high) = (p.width - wanted.width, p.height - wanted.height);
        if wide != Length::ZERO || high != Length::ZERO {
            let off = |by: Length, more: &str, less: &str| match by.nm() {
                0 => None,
                nm if nm > 0 => Some(format!("{} mm {more}", fine(by))),
                _ => Some(format!("{} mm {less}", fine(-by))),
            };
            let how = [off(wide, "too wide", "too narrow"), off(high, "too high", "too low")];
            let how: Vec<String> = how.into_iter().flatten().collect();
            let says = format!("The page should be {}: it is {}.", by(wanted), list(&how));
            // What is too large can be cut; what is too small can't.
            let small = wide < Length::ZERO || high < Length::ZERO;
            let severity = if small { Severity::Wrong } else { Severity::Mind };
            all.push(finding(severity, says, String::new(), SUM));
        }
    }
    match found.lip {
        Some(lip) => all.push(lip_told(&lip, trims.fore_edge)),
        None if found.uneven.is_empty() => {}
        None => all.push(uneven_told(&found.uneven)),
    }
    all
}

fn uneven_told(uneven: &[Uneven]) -> Finding {
    let one = |u: &Uneven| {
        let how = |by: Length, more: &str, less: &str| match by.nm() {
            nm if nm.abs() <= 1_000 => None,
            nm if nm > 0 => Some(format!("{} mm {more}", fine(by))),
            _ => Some(format!("{} mm {less}", fine(-by))),
        };
        let how = [how(u.wider, "wider", "narrower"), how(u.higher, "higher", "shorter")];
        format!("{} is {}", leaf(u.leaf), list(&how.into_iter().flatten().collect::<Vec<_>>()))
    };
    let says = format!("Not all leaves are alike: {}.", list(&uneven.iter().map(one).collect::<Vec<_>>()));
    let source = "The inner panel of a letter fold is 1 to 3 mm short: from memory.";
    finding(Severity::Mind, says, String::new(), source)
}

fn lip_told(lip: &LipFound, trim: Length) -> Finding {
    let (half, folios) = match lip.lip {
        Lip::LowFolio => ("front", "low"),
        Lip::HighFolio => ("back", "high"),
    };
    let right = (LipFound::LEAST..=LipFound::MOST).contains(&lip.by);
    let grip = if right {
        "enough for a gripper"
    } else if lip.by < LipFound::LEAST {
        "less than a gripper wants"
    } else {
        "more than a gripper wants"
    };
    let cut = if trim > Length::ZERO { "The knife cuts it off." } else { "Nothing cuts it off." };
    let says = format!(
        "The {half} half stands out by {} mm at the fore-edge, a {folios}-folio lip: {grip}. {cut}",
        fine(lip.by)
    );
    let reckoned = format!(
        "1/4 in = {} mm, 3/8 in = {}, 5/8 in = {}",
        fine(LipFound::LEAST),
        fine(LipFound::AIM),
        fine(LipFound::MOST)
    );
    finding(if right && trim > Length::ZERO { Severity::Fine } else { Severity::Mind }, says, reckoned, LIP)
}
