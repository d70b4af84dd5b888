//! One line for each fault of an explanation: what it is, what it shows itself by, where it lies.

use super::fault::Fault;
use super::places::{self, Gave};
use super::say;
use super::verdict::Line;
use crate::marks::{BackMarks, Found, Lies, SeenBack};
use crate::units::mm;

/// An explanation beside the book it explains.
pub(super) struct Tell<'a> {
    marks: Option<(&'a BackMarks, &'a [SeenBack])>,
    found: &'a [Found],
    faults: &'a [Fault],
    gave: Vec<Gave>,
}

impl<'a> Tell<'a> {
    /// Lays the faults beside what was found.
    pub(super) fn new(
        sections: u32,
        marks: Option<(&'a BackMarks, &'a [SeenBack])>,
        found: &'a [Found],
        faults: &'a [Fault],
    ) -> Self {
        Self { marks, found, faults, gave: places::gave(sections, faults) }
    }

    /// A line for each fault; sections missing at one place share a line.
    pub(super) fn lines(&self) -> Vec<Line> {
        // Sections that lie wrong are found one after the other.
        let mut told = Vec::new();
        let mut lines = Vec::with_capacity(self.faults.len());
        for (index, fault) in self.faults.iter().enumerate() {
            lines.push(match *fault {
                Fault::Missing { section } => {
                    let together = self.missing_together(section);
                    let told_before = self.faults[..index].iter().any(|before| match *before {
                        Fault::Missing { section } => together.contains(&section),
                        _ => false,
                    });
                    if told_before {
                        continue;
                    }
                    self.missing(&together)
                }
                Fault::Double { section } => self.double(section),
                Fault::WrongSection { at, section } => self.wrong(at, section),
                Fault::Exchanged { sections } => self.exchanged(sections),
                Fault::Lies { section, lies } => self.lies(section, lies, &mut told),
                Fault::Foreign { at } => self.foreign(at),
                Fault::NoMark { at } => self.no_mark(at),
                Fault::Moved { sections, after } => self.moved(sections, after),
                Fault::Reversed => self.reversed(),
                Fault::DividedWrong { after } => self.divided(after),
            });
        }
        lines
    }

    /// What a station gave; nothing for one that is not in the book.
    fn of(&self, station: u32) -> Gave {
        let gave = self.gave.iter().find(|gave| gave.station == station);
        gave.copied().unwrap_or(Gave { station, place: 1, backs: 0 })
    }

    /// The places of what a station gave.
    fn places(&self, station: u32) -> Vec<u32> {
        let Gave { place, backs, .. } = self.of(station);
        (place..place + backs).collect()
    }

    /// The section found at a place, from 1.
    fn section_at(&self, place: u32) -> Option<u32> {
        match self.found.get((place as usize).checked_sub(1)?) {
            Some(Found::Section { section, .. }) => Some(*section),
            _ => None,
        }
    }

    /// All sections missing at the place where this one is missing, ascending.
    fn missing_together(&self, section: u32) -> Vec<u32> {
        let place = self.of(section).place;
        let mut together = self
            .faults
            .iter()
            .filter_map(|fault| match *fault {
                Fault::Missing { section } if self.of(section).place == place => Some(section),
                _ => None,
            })
            .collect::<Vec<_>>();
        together.sort_unstable();
        together
    }

    /// Sections missing at one place, ascending.
    fn missing(&self, sections: &[u32]) -> Line {
        let behind = sections.first().map_or(1, |&section| self.of(section).place);
        let before = behind - 1;
        let last = self.found.len() as u32;
        let (detail, places) = match (self.section_at(before), self.section_at(behind)) {
            _ if last == 0 => (String::new(), vec![]),
            (_, Some(first)) if before == 0 => {
                (format!("The book begins with section {first}. No gap shows; count the sections."), vec![1])
            }
            (Some(end), _) if behind > last => {
                (format!("The book ends with section {end}. No gap shows; count the sections."), vec![before])
            }
            _ if before == 0 || behind > last => (
                "It stood at the end of the row, so no gap shows. Count the sections.".to_owned(),
                vec![behind.min(last)],
            ),
            (Some(one), Some(next)) => {
                let steps = match self.steps(one, next) {
                    Some(2) if sections.len() == 1 => Some("two"),
                    Some(3) if sections.len() == 2 => Some("three"),
                    Some(4) if sections.len() == 3 => Some("four"),
                    _ => None,
                };
                let detail = match steps {
                    Some(steps) => format!("Between places {before} and {behind} the marks jump {steps} steps."),
                    None => format!("Place {before} holds section {one}, and place {behind} section {next}."),
                };
                (detail, vec![before, behind])
            }
            _ => (format!("The gap lies between places {before} and {behind}."), vec![before, behind]),
        };
        let are = if sections.len() == 1 { "is" } else { "are" };
        let title = format!("{} {are} missing.", say::capital(&say::sections(sections)));
        let one = match sections {
            [one] => Some(*one),
            _ => None,
        };
        line(title, detail, places, one)
    }

    /// How many steps down the staircase goes from one section to the next, where the marks were seen.
    fn steps(&self, one: u32, next: u32) -> Option<u32> {
        let (design, _) = self.marks?;
        design.level(next).checked_sub(design.level(one))
    }

    fn double(&self, section: u32) -> Line {
        let places = self.places(section);
        let detail = match places.as_slice() {
            [one, other] if self.marks.is_some() => {
                format!("Places {one} and {other} show marks at one height.")
            }
            [one, other] => format!("It lies at places {one} and {other}."),
            _ => String::new(),
        };
        line(format!("Section {section} is there twice."), detail, places, Some(section))
    }

    fn wrong(&self, at: u32, section: u32) -> Line {
        let places = self.places(at);
        let place = places.first().copied().unwrap_or(0);
        let also = (1..)
            .zip(self.found)
            .filter(|(other, found)| {
                *other != place && matches!(found, Found::Section { section: also, .. } if *also == section)
            })
            .map(|(other, _)| other)
            .collect::<Vec<_>>();
        let detail = match also.as_slice() {
            [] => format!("It lies at place {place}, where section {at} should be."),
            also => format!(
                "It lies at place {place}, where section {at} should be, and at place {} too.",
                say::numbers(also)
            ),
        };
        line(format!("Station {at} held section {section}."), detail, places, Some(section))
    }

    fn exchanged(&self, sections: [u32; 2]) -> Line {
        let [a, b] = sections;
        let mut places = [self.places(a), self.places(b)].concat();
        places.sort_unstable();
        let detail = match (self.places(b).first(), self.places(a).first()) {
            (Some(first), Some(second)) => {
                format!("Section {b} lies at place {first}, section {a} at place {second}.")
            }
            _ => String::new(),
        };
        line(format!("Sections {a} and {b} have changed places."), detail, places, None)
    }

    fn lies(&self, section: u32, how: Lies, told: &mut Vec<u32>) -> Line {
        let place = (1..)
            .zip(self.found)
            .find(|(place, found)| !told.contains(place) && **found == Found::Section { section, lies: how });
        let place = place.map(|(place, _)| place);
        told.extend(place);
        let detail = match how {
            Lies::HeadToTail => self.begins(section, place).unwrap_or_else(|| "Its heads lie at the tail.".to_owned()),
            Lies::TurnedInPlane => "Its fold lies at the fore-edge and its heads at the tail.".to_owned(),
            _ => "Its fold lies at the fore-edge.".to_owned(),
        };
        let title = format!("Section {section} lies {}.", say::lies(how));
        line(title, detail, place.into_iter().collect(), Some(section))
    }

    /// Where the mark of a section that lies head to tail begins, and where it should.
    fn begins(&self, section: u32, place: Option<u32>) -> Option<String> {
        let (design, seen) = self.marks?;
        let back = seen.get(place? as usize - 1)?;
        let marks = back.marks_mm.as_ref()?;
        let half = back.length_mm.unwrap_or(design.stairs.length_mm) / 2.0;
        let begins = marks.first()? - half;
        let due = design.middle_mm(section) - half;
        Some(format!(
            "Its mark begins {} mm from the head, where {} was due; from the tail it is right.",
            mm(begins),
            mm(due)
        ))
    }

    fn foreign(&self, at: u32) -> Line {
        let places = self.places(at);
        let place = places.first().copied().unwrap_or(0);
        let back = self.marks.and_then(|(_, seen)| seen.get((place as usize).checked_sub(1)?));
        let detail = match back.and_then(|back| back.marks_mm.as_ref()).map(Vec::len) {
            _ if back.is_some_and(|back| back.title_ours == Some(false)) => {
                format!("The title on its back is not ours. Section {at} should be there.")
            }
            Some(1) => {
                format!("Its mark stands where none of ours does. Section {at} should be there.")
            }
            Some(bars @ 2..) => {
                format!("Its back shows {bars} bars, ours have one. Section {at} should be there.")
            }
            _ => format!("Section {at} should be there."),
        };
        line(format!("A section of another job lies at place {place}."), detail, places, None)
    }

    fn no_mark(&self, at: u32) -> Line {
        let places = self.places(at);
        let place = places.first().copied().unwrap_or(0);
        let detail = format!("Section {at} is folded wrongly or turned away. Open it.");
        line(format!("The back at place {place} is blank."), detail, places, Some(at))
    }

    fn moved(&self, [first, last]: [u32; 2], after: u32) -> Line {
        let [start, end] = [self.of(first).place, self.of(last).place];
        let block = say::block([first, last]);
        let block = say::capital(&block);
        let one = first == last;
        let stand = if one { "stands" } else { "stand" };
        let title = match after {
            0 => format!("{block} {stand} at the front."),
            after => format!("{block} {stand} behind section {after}."),
        };
        let (detail, places) = if one {
            (format!("It lies at place {start}."), vec![start])
        } else if start < end {
            (format!("They lie at places {start} to {end}."), (start..=end).collect())
        } else {
            (format!("They lie at places {end} to {start}."), (end..=start).collect())
        };
        line(title, detail, places, one.then_some(first))
    }

    fn reversed(&self) -> Line {
        let last = self.found.len() as u32;
        let detail = match (self.section_at(1), self.section_at(last)) {
            (Some(first), Some(end)) => {
                format!("It begins with section {first} and ends with section {end}.")
            }
            _ => String::new(),
        };
        line("The whole book runs backwards.".to_owned(), detail, vec![1, last], None)
    }

    fn divided(&self, after: u32) -> Line {
        let last = self.found.len() as u32;
        let title = format!("The book was divided wrong, behind section {after}.");
        line(title, String::new(), vec![1, last], None)
    }
}

/// A line that points only at places there are.
fn line(title: String, detail: String, places: Vec<u32>, section: Option<u32>) -> Line {
    Line { title, detail, places, section }
}
