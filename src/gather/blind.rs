//! What the marks of a design can't show in a book.

use super::say;
use crate::marks::{BackMarks, Warning};
use crate::units::mm;

/// Everything these marks can't show in a book of `sections` sections, one sentence or two each.
pub(super) fn blind_spots(sections: u32, design: &BackMarks) -> Vec<String> {
    let mut says = vec![
        "Press faults: a sheet backed up wrongly still has its mark where it should be.".to_owned(),
        "Another book marked alike: its sections look like ours.".to_owned(),
        match sections {
            1 => "Whether the one section is missing: count it.".to_owned(),
            _ => format!("A missing section 1 or {sections} leaves no gap: count {sections} sections."),
        },
    ];
    let mut groups = Vec::new();
    let mut itself = Vec::new();
    let mut another = Vec::new();
    for warning in design.stairs.warnings(sections) {
        match warning {
            Warning::SharedLevel { sections } => groups.push(say::numbers(&sections)),
            Warning::MirrorsItself { section } => itself.push(section),
            Warning::MirrorsAnother { section, .. } => another.push(section),
            Warning::SmallStep { step_mm, .. } => says
                .push(format!("A step of {} mm is small: a fold a little out looks like the next level.", mm(step_mm))),
            _ => {}
        }
    }
    if !groups.is_empty() {
        let groups = groups.iter().map(|group| format!("({group})")).collect::<Vec<_>>();
        says.push(format!("Sections that share a level, one for the other: {}.", say::list(&groups)));
    }
    if !itself.is_empty() {
        says.push(format!(
            "{} head to tail: the mark stands at mid-height either way.",
            say::capital(&say::sections(&itself))
        ));
    }
    if !another.is_empty() {
        says.push(format!(
            "{} head to tail: the mark falls on the level of another section, so only the order tells.",
            say::capital(&say::sections(&another))
        ));
    }
    says
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::Design;

    #[test]
    fn the_default_has_only_what_every_design_has() {
        assert_eq!(blind_spots(20, &BackMarks::default()).len(), 3);
    }

    #[test]
    fn levels_shared_and_mirrored() {
        let design = Design { spine_mm: 100.0, first_mm: 25.0, step_mm: 10.0, length_mm: 10.0, levels: 5 };
        let says = blind_spots(6, &design.into());
        assert!(says.contains(&"Sections that share a level, one for the other: (1 and 6).".to_owned()));
        assert!(says.contains(&"Section 3 head to tail: the mark stands at mid-height either way.".to_owned()));
        assert!(says[5].starts_with("Sections 1, 2 and 4 to 6 head to tail"), "{says:?}");
    }
}
