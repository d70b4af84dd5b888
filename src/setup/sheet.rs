//! The set-up sheet of the folder as data: how the sheet enters, where each fold stops, what to check.
//!
//! A buckle plate takes the leading part of the packet: one above brings it over the rest, so that upper faces meet, one
//! below brings it under. What leads afterwards is the crease. A fold of the trailing part is therefore made with the
//! leading part, and the packet then lies turned over; later folds are told for the packet as it lies in the machine.

use crate::fold::{
    BranchEnd, Course, CourseError, Crease, Lands, Lay, Measure, Measured, Part, Side, Span, Worked, says_while, span,
};
use crate::paper::{Edge, Length, Press};

/// What a set-up sheet is made from.
#[derive(Clone, Copy, Debug)]
pub struct Inputs<'a> {
    /// What is done to the sheet.
    pub course: &'a Course,
    /// The sizes of its panels.
    pub measure: &'a Measure,
    /// How the sheet lay in the press. The folder takes the same two edges.
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
    /// How many sheets.
    pub sheets: Option<u32>,
    /// The folds in order, up to a slit.
    pub folds: Vec<SetUpFold>,
    /// A slit after them: whether it runs from top to bottom, and how far from the left or top edge of the packet.
    pub slit: Option<(Crease, Length)>,
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

/// Makes a set-up sheet.
///
/// # Errors
/// When the course can't be carried out.
pub fn set_up(inputs: &Inputs<'_>) -> Result<SetUp, CourseError> {
    let Inputs { course, measure, press, side_up, sheets } = *inputs;
    let worked = Worked::in_the_making(course)?;
    let measured = Measured::of(&worked.trunk, measure);
    let landing = worked.landing(0, 0);
    let folding = &worked.trunk.folding;
    let packet = |made: usize| -> Option<Span> {
        let all = folding.packet(made).layers.iter().zip(measured.places(made)).map(|(l, p)| span(l, p, measure));
        all.reduce(|a, b| a.union(&b))
    };
    // As side A is seen; the packet in the machine may lie mirrored, and with its other side up.
    let low = |edge: Edge| matches!(edge, Edge::Left | Edge::Top);
    let (gripper, side) = (press.gripper, press.side_lay);
    // In the first direction the gripper edge leads; after a right-angled turn, the guide edge (common practice).
    let lead_low =
        |crease: Crease| low(if gripper.is_upright() == (crease == Crease::Vertical) { gripper } else { side });
    let (mut mirror_x, mut mirror_y) = (false, false);
    let (mut unit, mut number, mut last) = (1, 0, None);
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
        // The first unit takes the creases that lie along the leading edge.
        let along = upright == gripper.is_upright();
        match last {
            None => unit = if along { 1 } else { 2 },
            Some(crease) if crease != fold.crease => (unit, number) = (unit + 1, 0),
            Some(_) => {}
        }
        number += 1;
        last = Some(fold.crease);
        let figure = |face: &crate::fold::Face| landing.as_ref()?.page_on(face);
        folds.push(SetUpFold {
            unit,
            number,
            lands: if turned { fold.lands.other() } else { fold.lands },
            stop,
            before: (before.width(), before.height()),
            after: (after.width(), after.height()),
            check: says_while(step, &figure, Lay::default()),
        });
    }
    let slit = match &worked.trunk.end {
        BranchEnd::Piece(_) => None,
        BranchEnd::Apart { crease, .. } | BranchEnd::Laid { crease, .. } => measured
            .slit
            .zip(packet(folding.steps.len()))
            .map(|(line, all)| (*crease, line - if *crease == Crease::Vertical { all.x0 } else { all.y0 })),
    };
    Ok(SetUp {
        sheet: (measure.width(), measure.height()),
        measure: measure.clone(),
        side_up,
        leading: gripper,
        guide: side,
        sheets,
        folds,
        slit,
        misfits: !measured.all_misfits().is_empty(),
    })
}

impl SetUp {
    /// The sheet in lines, for a table or a screen reader.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        let size = |(w, h): (Length, Length)| format!("{} × {}", w.short_mm(), h.text());
        let side = if self.side_up == Side::A { "A" } else { "B" };
        let mut lines: Vec<String> = CAUTIONS.map(String::from).to_vec();
        lines.push(format!("Sheet {}, side {side} up.", size(self.sheet)));
        let (lead, guide) = (self.leading.word(), self.guide.word());
        lines.push(format!("The gripper edge leads: {lead} of side A. Side guide: {guide} of side A, as at press."));
        if let Some(sheets) = self.sheets {
            lines.push(format!("{sheets} sheets."));
        }
        let mut unit = 1;
        for fold in &self.folds {
            if fold.unit != unit {
                unit = fold.unit;
                lines.push("Right-angled turn: the packet goes on into the next unit.".into());
            }
            let plate = if fold.lands == Lands::Over { "plate above" } else { "plate below" };
            lines.push(format!(
                "Unit {}, fold {}: {plate}, stop {}; {} becomes {}. {}",
                fold.unit,
                fold.number,
                fold.stop.text(),
                size(fold.before),
                size(fold.after),
                fold.check
            ));
        }
        if let Some((crease, at)) = self.slit {
            let edge = if crease == Crease::Vertical { "left" } else { "top" };
            lines.push(format!("Slit {} from the {edge} edge of the packet, as side A is seen.", at.text()));
        }
        if self.misfits {
            lines.push("Panels of these sizes would not all lie flat: check the creases first.".into());
        }
        lines
    }
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
    fn the_stop_is_measured_from_the_leading_edge() {
        let folds = vec![Fold::new(1, Part::Right, Lands::Over), Fold::new(1, Part::Left, Lands::Over)];
        let sheet = made(folds, 1, 3, crate::fold::Direction::Up);
        assert_eq!(sheet.folds[0].stop.mm(), 200.0);
    }
}
