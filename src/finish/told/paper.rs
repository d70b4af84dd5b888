//! Thickness, grain, air, and whether the paper takes the folds.

use super::text::{count, fine, list, mm};
use super::{About, Finding, Severity, Work};
use crate::finish::air::{Air, air};
use crate::finish::folds_suit::{SCORE_ABOVE, least_lengths, mill_folds, most_folds, unit_length};
use crate::finish::grain::{GrainRuns, grain_runs};
use crate::finish::made::{MadeFold, folds_of};
use crate::finish::thickness::{FOLDER_TAKES, FOLDER_TAKES_AT_LAST, folded, section};
use crate::fold::Crease;
use crate::paper::Length;
use crate::units::short;

/// How a piece is spoken of: not at all if it is the only one.
fn of_piece(work: &Work, piece: usize) -> String {
    if work.worked.pieces.len() > 1 { format!("Piece {}: ", piece + 1) } else { String::new() }
}

/// How thick the section is, and whether a folder takes its pieces.
pub(super) fn thickness(work: &Work, leaves: u32, caliper: Length) -> Vec<Finding> {
    let about = About::Thickness;
    let thin = fine(caliper);
    let thick = section(leaves, caliper);
    let mut all = vec![Finding {
        about,
        severity: Severity::Fine,
        says: format!("The section is {} mm thick, pressed flat.", mm(thick)),
        reckoned: format!(
            "{} g/m² × {} cm³/g = {thin} mm; {leaves} leaves × {thin} = {} mm",
            short(work.stock.grammage),
            short(work.stock.bulk),
            mm(thick)
        ),
        source: "ISO 534: bulk is thickness by grammage.",
    }];
    for piece in work.nest {
        let Some(found) = folded(work.worked, *piece, caliper).filter(|f| !f.folder_takes()) else { continue };
        all.push(Finding {
            about,
            severity: Severity::Wrong,
            says: format!(
                "{}It is thicker than a folder takes: {} mm at the last fold and {} mm after it.",
                of_piece(work, *piece),
                mm(found.before_last),
                mm(found.after_last)
            ),
            reckoned: format!(
                "{} × {thin} = {} mm (about {} mm); {} × {thin} = {} mm (about {} mm)",
                found.layers_creased,
                mm(found.before_last),
                mm(FOLDER_TAKES),
                found.layers,
                mm(found.after_last),
                mm(FOLDER_TAKES_AT_LAST)
            ),
            source: "Folding guide of printglaze.ie.",
        });
    }
    all
}

/// How the grain runs in each piece.
pub(super) fn grain(work: &Work) -> Vec<Finding> {
    let runs: Vec<(usize, GrainRuns)> =
        work.nest.iter().filter_map(|p| Some((*p, grain_runs(work.worked, *p, work.stock.grain)?))).collect();
    let across: Vec<String> =
        runs.iter().filter(|(_, r)| *r == GrainRuns::AcrossSpine).map(|(p, _)| (p + 1).to_string()).collect();
    if runs.is_empty() {
        return Vec::new();
    }
    let (severity, says) = match across.len() {
        0 => (Severity::Fine, "The grain runs along the spine, as it should.".to_owned()),
        n if n == runs.len() => {
            (Severity::Wrong, "The grain runs across the spine: the pages will not lie flat, and folds crack.".into())
        }
        _ => (Severity::Wrong, format!("In piece {} the grain runs across the spine.", list(&across))),
    };
    let source = "M. T. Roberts and D. Etherington, Bookbinding and the Conservation of Books (1982), \
                  \"against the grain\".";
    vec![Finding { about: About::Grain, severity, says, reckoned: String::new(), source }]
}

/// Whether the folds of a piece suit its paper, and where air gets out.
pub(super) fn folds(work: &Work, piece: usize, caliper: Length) -> Vec<Finding> {
    let folds = folds_of(work.worked, piece);
    let Some(found) = work.worked.pieces.get(piece).filter(|_| !folds.is_empty()) else { return Vec::new() };
    let air = air(&folds, found.packet.layers.len() as u32);
    let piece = of_piece(work, piece);
    let mut all = air_told(&air, &piece);
    all.extend(grammage_told(work.stock.grammage, &air, folds.len(), &piece));
    all.extend(length_told(work, &folds, caliper, &piece));
    all
}

fn air_told(air: &Air, piece: &str) -> Vec<Finding> {
    let about = About::Air;
    let rule = "Slit or perforate from the third right-angle fold on: M. T. Roberts and D. Etherington, Bookbinding and \
                the Conservation of Books (1982), \"folding\".";
    let mut all = Vec::new();
    let right_angles = count(air.right_angles as usize, "right-angle fold", "right-angle folds");
    if air.perforate.is_empty() {
        let says = format!("{piece}{right_angles}: air gets out without a perforation.");
        all.push(Finding { about, severity: Severity::Fine, says, reckoned: String::new(), source: rule });
    } else {
        let creases = air.perforate.iter().map(|p| {
            format!(
                "the crease of fold {} ({}) before fold {}",
                p.fold,
                count(p.layers as usize, "layer", "layers"),
                p.before
            )
        });
        let says =
            format!("{piece}{right_angles}: air is shut in. Slit or perforate {}.", list(&creases.collect::<Vec<_>>()));
        let reckoned = format!("{} > 2", air.right_angles);
        all.push(Finding { about, severity: Severity::Mind, says, reckoned, source: rule });
    }
    if air.parallel_32 {
        let says = format!(
            "{piece}The last two folds of 32 pages are parallel: perforate with a knife of 12 teeth, 10 mm blade and \
             6 mm gap."
        );
        let source = "sgmbindery.com, \"Folding\".";
        all.push(Finding { about, severity: Severity::Mind, says, reckoned: String::new(), source });
    }
    all
}

fn grammage_told(grammage: f64, air: &Air, folds: usize, piece: &str) -> Vec<Finding> {
    let about = About::Folds;
    let (sure, at_most) = most_folds(grammage);
    let made = air.right_angles;
    let g = short(grammage);
    let right_angles = count(made as usize, "right-angle fold", "right-angle folds");
    let (severity, says) = if made <= sure {
        (Severity::Fine, format!("{piece}{right_angles} suit paper of {g} g/m²."))
    } else if made <= at_most {
        (Severity::Mind, format!("{piece}{right_angles} are as many as paper of {g} g/m² may just take."))
    } else {
        (Severity::Wrong, format!("{piece}{right_angles} are too many for paper of {g} g/m²: {at_most} at the most."))
    };
    let says = if made == 1 { says.replace("fold suit ", "fold suits ") } else { says };
    let source = "Rule of thumb, from memory: 4 up to about 60 to 70 g/m², 3 up to about 120 to 135, 2 up to about 170 \
                  to 200, 1 above.";
    let mut all = vec![Finding { about, severity, says, reckoned: String::new(), source }];
    if let Some(most) = mill_folds(grammage).filter(|most| folds > *most as usize) {
        let disagree = if made <= at_most { " Here the two rules disagree; try it on the stock." } else { "" };
        let says = format!(
            "{piece}A mill's note allows uncoated paper of {g} g/m² only {most} folds, and there are {folds}.{disagree}"
        );
        let source = "Paper mill note on offset paper, fuyinpaper.com: three folds for 60 to 90 g/m², two above 80.";
        all.push(Finding { about, severity: Severity::Mind, says, reckoned: format!("{folds} > {most}"), source });
    }
    if grammage > SCORE_ABOVE {
        let says = format!("{piece}Paper of {g} g/m² is scored before it is folded.");
        let reckoned = format!("{g} > {}", short(SCORE_ABOVE));
        let source = "Folding guide of printglaze.ie.";
        all.push(Finding { about, severity: Severity::Mind, says, reckoned, source });
    }
    all
}

/// What the folds take up of the sheet. It is never much; a sheet that is too small for it is a toy.
fn length_told(work: &Work, folds: &[MadeFold], caliper: Length, piece: &str) -> Option<Finding> {
    let (wide, high) = least_lengths(folds, caliper);
    let fits = wide <= work.measure.width() && high <= work.measure.height();
    let one =
        |crease, least: Length| format!("π × {} × {} = {} mm", fine(caliper), unit_length(folds, crease), mm(least));
    let says = if fits {
        format!(
            "{piece}The sheet is large enough to be folded so often: its thickness asks for {} × {} mm.",
            mm(wide),
            mm(high)
        )
    } else {
        format!("{piece}Paper so thick can't be folded so often unless the sheet is {} × {} mm.", mm(wide), mm(high))
    };
    (caliper > Length::ZERO).then(|| Finding {
        about: About::Folds,
        severity: if fits { Severity::Fine } else { Severity::Wrong },
        says,
        reckoned: format!("{}; {}", one(Crease::Vertical, wide), one(Crease::Horizontal, high)),
        source: "B. Gallivan, How to Fold Paper in Half Twelve Times (2002): (π t / 6) (2ⁿ + 4) (2ⁿ − 1) for n folds in one \
                 direction.",
    })
}
