//! The set-up sheet of the folder as data: how the sheet enters, where each fold stops, what to check.
//!
//! A buckle plate takes the leading part of the packet: one above brings it over the rest, so that upper faces meet, one
//! below brings it under. What leads afterwards is the crease. A fold of the trailing part is therefore made with the
//! leading part, and the packet then lies turned over; later folds are told for the packet as it lies in the machine.

use crate::finish::{air, folds_of};
use crate::fold::{
    Branch, BranchEnd, Course, CourseError, Crease, Face, Folding, Lands, Lay, Measure, Measured, Part, Side, Worked,
    says_while, whole_span,
};
use crate::paper::{Edge, Length, Press};
use std::collections::BTreeMap;

/// What a set-up sheet is made from.
#[derive(Clone, Copy, Debug)]
pub struct Inputs<'a> {
    /// What is done to the sheet.
    pub course: &'a Course,
    /// The sizes of its panels.
    pub measure: &'a Measure,
    /// How the sheet lay in the press. The folder takes the same two edges, one to lead and one along its side guide.
    pub press: Press,
    /// The side that lies up as it enters.
    pub side_up: Side,
    /// How many sheets, if it is known.
    pub sheets: Option<u32>,
}

/// A set-up sheet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetUp {
    /// The width and height of the sheet.
    pub sheet: (Length, Length),
    /// The sizes of the panels of the flat sheet.
    pub measure: Measure,
    /// The side that lies up.
    pub side_up: Side,
    /// The edge that leads.
    pub leading: Edge,
    /// The edge that runs along the side guide.
    pub guide: Edge,
    /// Whether the edge that leads is the one that the grippers held; otherwise it was at the side lay.
    pub gripper_leads: bool,
    /// How many sheets.
    pub sheets: Option<u32>,
    /// The folds in order, up to a slit.
    pub folds: Vec<SetUpFold>,
    /// Slits after them, in order: which way each runs, and how far from the left or top edge of what it parts.
    pub slits: Vec<(Crease, Length)>,
    /// What is folded after the slits, for pieces that are folded alike, with their numbers from 1.
    pub pieces: Vec<(Vec<usize>, Vec<SetUpFold>)>,
    /// What is to be perforated, in words.
    pub perforate: Vec<String>,
    /// Whether panels of these sizes would not fold so.
    pub misfits: bool,
}

/// One fold on the machine.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SetUpFold {
    /// The unit, from 1: every right-angled turn begins another.
    pub unit: u32,
    /// The fold within its unit, from 1.
    pub number: u32,
    /// The plate within its unit: odd ones lie above the rollers, even ones below (from memory). Those that are passed by are
    /// closed by a deflector.
    pub plate: u32,
    /// Whether the leading part goes over (plate above) or under (plate below), as the packet lies in the machine.
    pub lands: Lands,
    /// From the leading edge to the crease.
    pub stop: Length,
    /// Width and height of the packet before.
    pub before: (Length, Length),
    /// Width and height of the packet after.
    pub after: (Length, Length),
    /// Which pages meet, as seen from side A: "Right over left: 3 falls on 2, 6 on 7; …"
    pub check: String,
}

/// What is said before anyone goes to the machine (common practice, no source).
pub const CAUTIONS: [&str; 4] = [
    "The maker's instructions and the rules of the house come first.",
    "Only trained people set a folder. Guards stay shut; set it at the slowest speed with hold-to-run.",
    "Stop, isolate and wait until it has run down before clearing a jam.",
    "Never reach into plates, rollers, knives, slitters or perforators.",
];

/// The edges as the folder takes them: the leading edge is whichever of the two that were laid at press lies along the
/// first creases, so that folding begins in the first unit; the other runs along the side guide.
fn laid(inputs: &Inputs<'_>, worked: &Worked) -> Press {
    let press = inputs.press;
    let own = || worked.own_sheet(0).and_then(|own| own.scheme.folds.first().copied());
    let first = worked.trunk.folding.steps.first().map(|s| s.turn.fold).or_else(own);
    match first {
        Some(fold) if (fold.crease == Crease::Vertical) != press.gripper.is_upright() => {
            Press { gripper: press.side_lay, side_lay: press.gripper, ..press }
        }
        _ => press,
    }
}

/// Makes a set-up sheet.
///
/// # Errors
/// When the course can't be carried out.
pub fn set_up(inputs: &Inputs<'_>) -> Result<SetUp, CourseError> {
    let Inputs { course, measure, .. } = *inputs;
    let worked = Worked::in_the_making(course)?;
    let measured = Measured::of(&worked.trunk, measure);
    let (given, press) = (inputs.press, laid(inputs, &worked));
    let inputs = &Inputs { press, ..*inputs };
    let figures = figures(&worked);
    let folds = folds_of_branch(inputs, &worked.trunk.folding, &measured, &|f| figures.get(f).copied());
    let mut slits = Vec::new();
    slits_of(&worked.trunk, &measured, measure, &mut slits);
    let mut pieces: Vec<(Vec<usize>, Vec<SetUpFold>)> = Vec::new();
    let mut perforate: Vec<String> = Vec::new();
    for piece in 0..worked.pieces.len() {
        if !slits.is_empty() {
            let own = piece_folds(inputs, &worked, piece, &figures);
            // Pieces that are folded alike stand once; only what they should look like differs.
            let alike = |all: &[SetUpFold]| {
                all.len() == own.len()
                    && all.iter().zip(&own).all(|(a, b)| SetUpFold { check: b.check.clone(), ..a.clone() } == *b)
            };
            match pieces.iter_mut().find(|(_, folds)| alike(folds)) {
                Some((numbers, _)) => numbers.push(piece + 1),
                None => pieces.push((vec![piece + 1], own)),
            }
        }
        let leaves = worked.pieces.get(piece).map_or(0, |p| p.section.held.len() as u32);
        let air = air(&folds_of(&worked, piece), leaves);
        for at in &air.perforate {
            let says = format!(
                "Perforate the crease of fold {} before fold {} is made across it, so that air gets out.",
                at.fold, at.before
            );
            if !perforate.contains(&says) {
                perforate.push(says);
            }
        }
        // sgmbindery.com, folding: for 32 pages with the last fold parallel.
        let says =
            "Parallel 32 pages: a 12-tooth perforating knife, 10 mm blade and 6 mm gap (sgmbindery.com).".to_owned();
        if air.parallel_32 && !perforate.contains(&says) {
            perforate.push(says);
        }
    }
    Ok(SetUp {
        sheet: (measure.width(), measure.height()),
        measure: measure.clone(),
        side_up: inputs.side_up,
        leading: press.gripper,
        guide: press.side_lay,
        gripper_leads: press == given,
        sheets: inputs.sheets,
        folds,
        slits,
        pieces,
        perforate,
        misfits: !measured.all_misfits().is_empty(),
    })
}

/// The page of its section on every face.
fn figures(worked: &Worked) -> BTreeMap<Face, u32> {
    let mut found = BTreeMap::new();
    for nest in worked.course.copies.iter().flatten() {
        let faces = worked.nested(nest).map_or_else(Vec::new, |s| s.faces);
        found.extend(faces.iter().zip(1u32..).map(|(f, page)| (f.face, page)));
    }
    found
}

/// Every slit, the first one first.
fn slits_of(branch: &Branch, measured: &Measured, measure: &Measure, slits: &mut Vec<(Crease, Length)>) {
    let made = branch.folding.steps.len();
    let all = whole_span(&branch.folding.last().layers, measured.places(made), measure);
    let mut add = |crease: Crease| {
        let Some((line, all)) = measured.slit.zip(all) else { return };
        let slit = (crease, line - if crease == Crease::Vertical { all.x0 } else { all.y0 });
        // Parts that lie side by side are slit by one knife.
        if slits.last() != Some(&slit) {
            slits.push(slit);
        }
    };
    match &branch.end {
        BranchEnd::Piece(_) => {}
        BranchEnd::Apart { crease, parts, .. } => {
            add(*crease);
            for (part, measured) in parts.iter().zip(&measured.parts) {
                slits_of(part, measured, measure, slits);
            }
        }
        BranchEnd::Laid { crease, then, .. } => {
            add(*crease);
            if let Some(measured) = measured.parts.first() {
                slits_of(then, measured, measure, slits);
            }
        }
    }
}

/// The folds of a piece after its last slit, as a sheet of its own.
fn piece_folds(inputs: &Inputs<'_>, worked: &Worked, piece: usize, figures: &BTreeMap<Face, u32>) -> Vec<SetUpFold> {
    let Some(own) = worked.own_sheet(piece) else { return Vec::new() };
    let Ok(folding) = Folding::of(&own.scheme) else { return Vec::new() };
    let measure = inputs.measure.part(&own.area);
    let measured = Measured::of_folding(&folding, &measure);
    let inputs = Inputs { measure: &measure, ..*inputs };
    let (left, top) = (own.area.x0.unsigned_abs(), own.area.y0.unsigned_abs());
    let figure = |f: &Face| figures.get(&Face { row: f.row + top, column: f.column + left, ..*f }).copied();
    let mut folds = folds_of_branch(&inputs, &folding, &measured, &figure);
    folds.drain(..own.before.min(folds.len()));
    folds
}

/// The folds that are made between two slits.
fn folds_of_branch(
    inputs: &Inputs<'_>,
    folding: &Folding,
    measured: &Measured,
    figure: &dyn Fn(&Face) -> Option<u32>,
) -> Vec<SetUpFold> {
    let Inputs { measure, press, side_up, .. } = *inputs;
    let packet = |made: usize| whole_span(&folding.packet(made).layers, measured.places(made), measure);
    // As side A is seen; the packet in the machine may lie mirrored, and with its other side up.
    let low = |edge: Edge| matches!(edge, Edge::Left | Edge::Top);
    let (gripper, side) = (press.gripper, press.side_lay);
    // In the first unit the leading edge leads; after a right-angled turn, the guide edge (common practice, no source).
    let lead_low =
        |crease: Crease| low(if gripper.is_upright() == (crease == Crease::Vertical) { gripper } else { side });
    let (mut mirror_x, mut mirror_y) = (false, false);
    let (mut unit, mut number, mut plate, mut last) = (1, 0, 0, None);
    let mut folds = Vec::new();
    for (i, (step, measured)) in folding.steps.iter().zip(&measured.steps).enumerate() {
        let (Some(before), Some(after)) = (packet(i), packet(i + 1)) else { continue };
        let fold = step.turn.fold;
        let upright = fold.crease == Crease::Vertical;
        let turned = (mirror_x != mirror_y) != (side_up == Side::B);
        let mirrored = if upright { mirror_x } else { mirror_y };
        let leads_low = lead_low(fold.crease) != mirrored;
        let (from, to) = if upright { (before.x0, before.x1) } else { (before.y0, before.y1) };
        let stop = if leads_low { measured.at - from } else { to - measured.at };
        if matches!(fold.moves, Part::Left | Part::Top) != leads_low {
            if upright { mirror_x = !mirror_x } else { mirror_y = !mirror_y }
        }
        // The first unit takes the creases that lie along the leading edge; after a slit it may have none to make.
        let along = upright == gripper.is_upright();
        match last {
            None => unit = if along { 1 } else { 2 },
            Some(crease) if crease != fold.crease => (unit, number, plate) = (unit + 1, 0, 0),
            Some(_) => {}
        }
        number += 1;
        last = Some(fold.crease);
        let lands = if turned { fold.lands.other() } else { fold.lands };
        // The next plate on the side that is wanted.
        plate += if (plate % 2 == 0) == (lands == Lands::Over) { 1 } else { 2 };
        folds.push(SetUpFold {
            unit,
            number,
            plate,
            lands,
            stop,
            before: (before.width(), before.height()),
            after: (after.width(), after.height()),
            check: says_while(step, figure, Lay::default()),
        });
    }
    folds
}

impl SetUp {
    /// The sheet in lines, for a table or a screen reader.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let side = if self.side_up == Side::A { "A" } else { "B" };
        let mut lines: Vec<String> = CAUTIONS.map(String::from).to_vec();
        lines.push(format!("Sheet {}, side {side} up.", size(self.sheet)));
        let (lead, guide) = (self.leading.word(), self.guide.word());
        let (leads, guides) =
            if self.gripper_leads { ("gripper edge", "side-lay edge") } else { ("side-lay edge", "gripper edge") };
        lines.push(format!("The {leads} of the press leads: {lead} of side A."));
        lines.push(format!("The {guides} runs along the side guide: {guide} of side A."));
        if let Some(sheets) = self.sheets {
            lines.push(format!("{sheets} sheets."));
        }
        lines.extend(fold_lines(&self.folds));
        for (crease, at) in &self.slits {
            let (edge, runs) = if *crease == Crease::Vertical {
                ("left", "from top to bottom")
            } else {
                ("top", "from left to right")
            };
            lines.push(format!(
                "Slit {runs}, {} from the {edge} edge of what lies there, as side A is seen.",
                at.text()
            ));
        }
        for (numbers, folds) in &self.pieces {
            let all: Vec<String> = numbers.iter().map(usize::to_string).collect();
            let what = if numbers.len() == 1 { "Delivery of piece" } else { "Deliveries of pieces" };
            lines.push(format!("{what} {}: keep them apart.", all.join(", ")));
            lines.extend(fold_lines(folds));
        }
        lines.extend(self.perforate.iter().cloned());
        if self.misfits {
            lines.push("Panels of these sizes would not all lie flat: check the creases first.".into());
        }
        lines
    }
}

fn size((w, h): (Length, Length)) -> String {
    format!("{} × {}", w.short_mm(), h.text())
}

/// Folds in words, with the turns between the units.
fn fold_lines(folds: &[SetUpFold]) -> Vec<String> {
    let mut lines = Vec::new();
    let (mut unit, mut passed) = (folds.first().map_or(1, |f| f.unit), 0);
    for fold in folds {
        if fold.unit != unit {
            (unit, passed) = (fold.unit, 0);
            lines.push("Right-angled turn: the packet goes on into the next unit.".into());
        }
        let side = if fold.lands == Lands::Over { "above" } else { "below" };
        // Plates between the last one and this are closed.
        let closed =
            if fold.plate > passed + 1 { format!(", plate {} deflected", fold.plate - 1) } else { String::new() };
        passed = fold.plate;
        lines.push(format!(
            "Unit {}, fold {}: plate {} {side}{closed}, stop {}; {} becomes {}. {}",
            fold.unit,
            fold.number,
            fold.plate,
            fold.stop.text(),
            size(fold.before),
            size(fold.after),
            fold.check
        ));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fold::{Fold, Reads, Scheme};

    fn made(folds: Vec<Fold>, rows: u32, columns: u32, head: crate::fold::Direction) -> SetUp {
        let course = Course::of_scheme(&Scheme { rows, columns, folds, head, reads: Reads::LeftToRight });
        let measure = Measure::equal(rows, columns, Length::from_whole_mm(600), Length::from_whole_mm(400));
        let press = Press { gripper: Edge::Left, side_lay: Edge::Bottom, ..Press::default() };
        set_up(&Inputs { course: &course, measure: &measure, press, side_up: Side::A, sheets: Some(5) }).unwrap()
    }

    #[test]
    fn a_cross_fold_turns_once() {
        let folds = vec![Fold::new(1, Part::Right, Lands::Over), Fold::new(1, Part::Bottom, Lands::Over)];
        let sheet = made(folds, 2, 2, crate::fold::Direction::Left);
        let told: Vec<_> = sheet.folds.iter().map(|f| (f.unit, f.number, f.stop.mm(), f.lands)).collect();
        // The left leads over the right instead, so the packet is turned over, and the next fold goes under.
        assert_eq!(told, [(1, 1, 300.0, Lands::Over), (2, 1, 200.0, Lands::Under)]);
        assert_eq!(sheet.lines().iter().filter(|l| l.starts_with("Right-angled")).count(), 1);
    }

    #[test]
    fn folding_begins_in_the_first_unit_whichever_edge_the_grippers_held() {
        let fold = Fold::new(1, Part::Bottom, Lands::Over);
        let sheet = made(vec![fold], 2, 1, crate::fold::Direction::Left);
        assert_eq!((sheet.leading, sheet.guide, sheet.gripper_leads), (Edge::Bottom, Edge::Left, false));
        assert_eq!(sheet.folds.iter().map(|f| f.unit).collect::<Vec<_>>(), [1]);
        assert!(sheet.lines().contains(&"The side-lay edge of the press leads: bottom of side A.".to_owned()));
    }

    #[test]
    fn the_stop_is_measured_from_the_leading_edge() {
        let folds = vec![Fold::new(1, Part::Right, Lands::Over), Fold::new(1, Part::Left, Lands::Over)];
        let sheet = made(folds, 1, 3, crate::fold::Direction::Up);
        assert_eq!(sheet.folds[0].stop.mm(), 200.0);
    }
}
