//! One line for each fault of an explanation: what it is, what it shows itself by, where it lies.

use super::fault::Fault;
use super::places::{self, Gave};
use super::say;
use super::verdict::Line;
use crate::marks::{Design, Found, Lies, Seen, mm};

/// An explanation beside the book it explains.
pub(super) struct Tell<'a> {
    marks: Option<(&'a Design, &'a [Seen])>,
    found: &'a [Found],
    faults: &'a [Fault],
    gave: Vec<Gave>,
}

impl<'a> Tell<'a> {
    /// Lays the faults beside what was found.
    pub(super) fn new(
        sections: u32,
        marks: Option<(&'a Design, &'a [Seen])>,
        found: &'a [Found],
        faults: &'a [Fault],
    ) -> Self {
        Self {
            marks,
            found,
            faults,
            gave: places::gave(sections, faults),
        }
    }

    /// A line for each fault.
    pub(super) fn lines(&self) -> Vec<Line> {
        // Sections that lie wrong are found one after the other.
        let mut told = Vec::new();
        let mut lines = Vec::with_capacity(self.faults.len());
        for fault in self.faults {
            lines.push(match *fault {
                Fault::Missing { section } => self.missing(section),
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
        gave.copied().unwrap_or(Gave {
            station,
            place: 1,
            backs: 0,
        })
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

    fn missing(&self, section: u32) -> Line {
        let behind = self.of(section).place;
        let before = behind - 1;
        let last = self.found.len() as u32;
        let (detail, places) = match (before, behind) {
            _ if last == 0 => (String::new(), vec![]),
            (0, _) => (
                match self.section_at(1) {
                    Some(first) => format!(
                        "The book begins with section {first}. No gap shows; count the sections."
                    ),
                    None => "It should stand at the front. Count the sections.".to_owned(),
                },
                vec![1],
            ),
            (before, behind) if behind > last => (
                match self.section_at(before) {
                    Some(end) => format!(
                        "The book ends with section {end}. No gap shows; count the sections."
                    ),
                    None => "It should stand at the end. Count the sections.".to_owned(),
                },
                vec![before],
            ),
            (before, behind) => {
                let detail = match (self.section_at(before), self.section_at(behind)) {
                    (Some(one), Some(next))
                        if one + 1 == section
                            && section + 1 == next
                            && self.two_steps(one, next) =>
                    {
                        format!("Between places {before} and {behind} the marks jump two steps.")
                    }
                    (Some(one), Some(next)) => {
                        format!(
                            "Place {before} holds section {one}, and place {behind} section {next}."
                        )
                    }
                    _ => format!("It should stand between places {before} and {behind}."),
                };
                (detail, vec![before, behind])
            }
        };
        line(
            format!("Section {section} is missing."),
            detail,
            places,
            Some(section),
        )
    }

    /// Do the marks of these two stand two steps apart, as they were seen?
    fn two_steps(&self, one: u32, next: u32) -> bool {
        self.marks
            .is_some_and(|(design, _)| design.level(one) + 2 == design.level(next))
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
        line(
            format!("Section {section} is there twice."),
            detail,
            places,
            Some(section),
        )
    }

    fn wrong(&self, at: u32, section: u32) -> Line {
        let places = self.places(at);
        let place = places.first().copied().unwrap_or(0);
        let also = (1..)
            .zip(self.found)
            .filter(|(other, found)| {
                *other != place
                    && matches!(found, Found::Section { section: also, .. } if *also == section)
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
        line(
            format!("Station {at} held section {section}."),
            detail,
            places,
            Some(section),
        )
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
        line(
            format!("Sections {a} and {b} have changed places."),
            detail,
            places,
            None,
        )
    }

    fn lies(&self, section: u32, how: Lies, told: &mut Vec<u32>) -> Line {
        let place = (1..).zip(self.found).find(|(place, found)| {
            !told.contains(place) && **found == Found::Section { section, lies: how }
        });
        let place = place.map(|(place, _)| place);
        told.extend(place);
        let detail = match how {
            Lies::HeadToTail => self
                .begins(section, place)
                .unwrap_or_else(|| "Its heads lie at the tail.".to_owned()),
            Lies::TurnedInPlane => {
                "Its fold lies at the fore-edge and its heads at the tail.".to_owned()
            }
            _ => "Its fold lies at the fore-edge.".to_owned(),
        };
        let title = format!("Section {section} lies {}.", say::lies(how));
        line(title, detail, place.into_iter().collect(), Some(section))
    }

    /// Where the mark of a section that lies head to tail begins, and where it should.
    fn begins(&self, section: u32, place: Option<u32>) -> Option<String> {
        let (design, seen) = self.marks?;
        let marks = seen.get(place? as usize - 1)?.marks_mm.as_ref()?;
        let begins = marks.first()? - design.length_mm / 2.0;
        let due = design.middle_mm(section) - design.length_mm / 2.0;
        Some(format!(
            "Its mark begins {} mm from the head, where {} was due; from the tail it is right.",
            mm(begins),
            mm(due)
        ))
    }

    fn foreign(&self, at: u32) -> Line {
        let places = self.places(at);
        let place = places.first().copied().unwrap_or(0);
        let marks = self.marks.and_then(|(_, seen)| {
            seen.get((place as usize).checked_sub(1)?)?
                .marks_mm
                .as_ref()
        });
        let detail = match marks.map(Vec::len) {
            Some(1) => {
                format!("Its mark stands where none of ours does. Section {at} should be there.")
            }
            Some(bars @ 2..) => {
                format!("Its back shows {bars} bars, ours have one. Section {at} should be there.")
            }
            _ => format!("Section {at} should be there."),
        };
        line(
            format!("A section of another job lies at place {place}."),
            detail,
            places,
            None,
        )
    }

    fn no_mark(&self, at: u32) -> Line {
        let places = self.places(at);
        let place = places.first().copied().unwrap_or(0);
        let detail = format!("Section {at} is folded wrongly or turned away. Open it.");
        line(
            format!("The back at place {place} is blank."),
            detail,
            places,
            Some(at),
        )
    }

    fn moved(&self, [first, last]: [u32; 2], after: u32) -> Line {
        let [start, end] = [self.of(first).place, self.of(last).place];
        let block = say::block([first, last]);
        let block = format!("{}{}", block[..1].to_uppercase(), &block[1..]);
        let one = first == last;
        let stand = if one { "stands" } else { "stand" };
        let title = match after {
            0 => format!("{block} {stand} at the front."),
            after => format!("{block} {stand} behind section {after}."),
        };
        let (detail, places) = if one {
            (format!("It lies at place {start}."), vec![start])
        } else if start < end {
            (
                format!("They lie at places {start} to {end}."),
                (start..=end).collect(),
            )
        } else {
            (
                format!("They lie at places {end} to {start}."),
                (end..=start).collect(),
            )
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
        line(
            "The whole book runs backwards.".to_owned(),
            detail,
            vec![1, last],
            None,
        )
    }

    fn divided(&self, after: u32) -> Line {
        let last = self.found.len() as u32;
        let title = format!("The book was divided wrong, behind section {after}.");
        line(title, String::new(), vec![1, last], None)
    }
}

/// A line that points only at places there are.
fn line(title: String, detail: String, places: Vec<u32>, section: Option<u32>) -> Line {
    Line {
        title,
        detail,
        places,
        section,
    }
}
