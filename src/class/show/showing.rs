//! What the class sees, and what is done to it.

use std::collections::BTreeSet;

/// What is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum On {
    /// The sheet on the bench, with its flat sides.
    #[default]
    Bench,
    /// The spine of the gathered book.
    Spine,
}

/// Which flat sides lie beside the bench.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Sides {
    /// Both if their figures are large enough for a class, else one.
    #[default]
    AsFits,
    /// Both.
    Both,
    /// Side A.
    A,
    /// Side B.
    B,
}

/// A way on a flat side as it is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// To the left.
    Left,
    /// To the right.
    Right,
    /// Up.
    Up,
    /// Down.
    Down,
}

/// A picture before the class. Faces go by their place in the list of faces: side A row by row, then side B, columns as seen
/// from side A.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// What is shown.
    pub on: On,
    /// The section of the book on the bench, by its place from 1.
    pub place: u32,
    /// How many steps of the rule are made.
    pub at: u32,
    /// Whether the sheet was turned over on the bench.
    pub over: bool,
    /// Faces whose figures are covered.
    pub covered: BTreeSet<u32>,
    /// Slips of the answer that are filled.
    pub answered: BTreeSet<u32>,
    /// Whether the pointer is out.
    pub pointing: bool,
    /// The face whose page is followed with the thread.
    pub followed: Option<u32>,
    /// Which flat sides are shown.
    pub sides: Sides,
    /// Sections laid on the spine so far.
    pub laid: u32,
    /// The number from which the book was spoiled; 0 for the book as it lies in the stack.
    pub spoiled: u64,
    /// Whether it is said what is wrong with the book.
    pub verdict: bool,
}

/// What is known of the picture that the keys make, from the engine.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Facts {
    /// Steps of the rule.
    pub steps: u32,
    /// Steps of it that are folds.
    pub folds: u32,
    /// Slips of the answer to what is asked now.
    pub answers: u32,
    /// Whether each face bears a figure.
    pub figures: Vec<bool>,
    /// Columns of the sheet.
    pub columns: u32,
    /// Whether one flat side is shown alone because both would be too small.
    pub alone: bool,
    /// Whether the flat sides lie beside each other, and not one above the other.
    pub beside: bool,
    /// Sections in the stack.
    pub places: u32,
}

/// What is done before a class.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShowAct {
    /// The next fold, or the next section.
    On,
    /// One step back.
    Back,
    /// The answer if one is due, or the figure that is pointed at; else on.
    AnswerOrOn,
    /// All of the answer.
    Answer,
    /// One slip of it, filled or blank again.
    Slip(u32),
    /// To the flat sheet, or the first section.
    First,
    /// To the last fold, or the last section.
    Last,
    /// The bench was brought to a step by hand.
    At(u32),
    /// All figures covered, or none.
    Figures,
    /// The figure of one face covered or shown.
    Cell(u32),
    /// The figure that is pointed at covered or shown.
    Cover,
    /// The page on a face followed, or no more if it was.
    Follow(Option<u32>),
    /// The pointer out, or away.
    Pointer,
    /// From page to page with the pointer.
    Point(Way),
    /// Other flat sides.
    Sides,
    /// The sheet turned over on the bench.
    TurnOver,
    /// The section so many places on.
    Section(i32),
    /// The section at a place.
    Place(u32),
    /// From the bench to the spine, or back.
    Turn,
    /// Another spoiled book.
    Spoil,
    /// The book as it lies in the stack.
    AsItLies,
    /// Everything dark, or not.
    Blank,
    /// What the class sees is held, or let go.
    Hold,
}

/// What goes on before a class.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Showing {
    /// The picture that the keys make.
    pub picture: Picture,
    /// The picture that the class sees, while it is held.
    pub held: Option<Box<Picture>>,
    /// Whether everything is dark.
    pub blank: bool,
}

impl Showing {
    /// Begins with a picture.
    #[must_use]
    pub fn of(picture: Picture) -> Self {
        let picture = Picture { place: picture.place.max(1), laid: picture.laid.max(1), ..picture };
        Self { picture, held: None, blank: false }
    }

    /// What the class sees.
    #[must_use]
    pub fn seen(&self) -> &Picture {
        self.held.as_deref().unwrap_or(&self.picture)
    }

    /// What comes of an act.
    #[must_use]
    pub fn after(&self, act: ShowAct, facts: &Facts) -> Self {
        let mut next = self.clone();
        match act {
            ShowAct::Blank => next.blank = !next.blank,
            // A remote has two keys: either brings the picture back, as it was.
            _ if next.blank => next.blank = false,
            ShowAct::Hold => {
                next.held = match next.held {
                    Some(_) => None,
                    None => Some(Box::new(next.picture.clone())),
                }
            }
            act => next.picture.act(act, facts),
        }
        next
    }

    /// What only the teacher needs to know, small in a corner.
    #[must_use]
    pub fn note(&self) -> Option<String> {
        if self.blank {
            return Some("Blank for the class. Any key shows the picture again.".into());
        }
        self.held.as_ref()?;
        let p = &self.picture;
        let mut says = String::from("Held: the class sees the picture from before. Ready: ");
        match p.on {
            On::Bench => {
                says += &format!("section {}, step {}", p.place, p.at);
                says += if p.covered.is_empty() { "" } else { ", figures covered" };
                says += if p.over { ", turned over" } else { "" };
            }
            On::Spine if p.verdict => says += "the spine, and what is wrong",
            On::Spine => says += &format!("the spine, {} laid", p.laid),
        }
        Some(says + ". F lets it go.")
    }
}

impl Picture {
    fn act(&mut self, act: ShowAct, facts: &Facts) {
        let step = (self.at, self.place, self.laid, self.spoiled, self.on);
        match act {
            ShowAct::AnswerOrOn => match self.followed.filter(|face| self.covered.contains(face)) {
                Some(face) if self.on == On::Bench => {
                    self.covered.remove(&face);
                }
                _ if self.unanswered(facts) => self.answer(facts),
                _ => self.on(facts),
            },
            ShowAct::On => self.on(facts),
            ShowAct::Back if self.on == On::Bench => self.at = self.at.saturating_sub(1),
            ShowAct::Back if self.verdict => self.verdict = false,
            ShowAct::Back => self.laid = self.laid.saturating_sub(1).max(1),
            ShowAct::Answer => self.answer(facts),
            ShowAct::Slip(slip) if slip < facts.answers => toggle(&mut self.answered, slip),
            ShowAct::First if self.on == On::Bench => self.at = 0,
            ShowAct::First => (self.laid, self.verdict) = (1, false),
            ShowAct::Last if self.on == On::Bench => self.at = facts.folds.min(facts.steps),
            ShowAct::Last => self.laid = facts.places.max(1),
            ShowAct::At(at) => self.at = at.min(facts.steps),
            ShowAct::Figures if self.covered.is_empty() => {
                self.covered =
                    (0u32..).zip(&facts.figures).filter(|(_, there)| **there).map(|(face, _)| face).collect();
            }
            ShowAct::Figures => self.covered.clear(),
            ShowAct::Cell(face) if facts.bears(face) => toggle(&mut self.covered, face),
            ShowAct::Cover => {
                if let Some(face) = self.followed {
                    toggle(&mut self.covered, face);
                }
            }
            ShowAct::Follow(face) => self.followed = face.filter(|f| self.followed != Some(*f) && facts.bears(*f)),
            ShowAct::Pointer => {
                self.pointing = !self.pointing;
                let first = facts.figures.iter().position(|there| *there).map(|face| face as u32);
                self.followed = if self.pointing { self.followed.or(first) } else { None };
            }
            ShowAct::Point(way) if self.pointing => self.followed = self.followed.map(|face| facts.beyond(face, way)),
            ShowAct::Sides => {
                self.sides = match self.sides {
                    Sides::AsFits if facts.alone => Sides::B,
                    Sides::AsFits | Sides::Both => Sides::A,
                    Sides::A => Sides::B,
                    Sides::B => Sides::Both,
                }
            }
            ShowAct::TurnOver if self.on == On::Bench => self.over = !self.over,
            ShowAct::Section(by) if self.on == On::Bench => {
                self.place = self.place.saturating_add_signed(by).clamp(1, facts.places.max(1));
            }
            ShowAct::Place(place) => self.place = place.clamp(1, facts.places.max(1)),
            ShowAct::Turn => {
                self.on = if self.on == On::Bench { On::Spine } else { On::Bench };
                self.pointing = false;
            }
            ShowAct::Spoil => (self.spoiled, self.laid, self.verdict) = (self.spoiled + 1, 1, false),
            ShowAct::AsItLies => (self.spoiled, self.laid, self.verdict) = (0, 1, false),
            _ => {}
        }
        // Another step, another question.
        if step != (self.at, self.place, self.laid, self.spoiled, self.on) {
            self.answered.clear();
        }
    }

    fn on(&mut self, facts: &Facts) {
        match self.on {
            On::Bench => self.at = (self.at + 1).min(facts.steps),
            On::Spine if self.laid < facts.places => self.laid += 1,
            On::Spine => self.verdict = true,
        }
    }

    /// Whether there is an answer that the class has not seen.
    fn unanswered(&self, facts: &Facts) -> bool {
        match self.on {
            On::Spine if self.laid >= facts.places => !self.verdict,
            _ => (0..facts.answers).any(|slip| !self.answered.contains(&slip)),
        }
    }

    fn answer(&mut self, facts: &Facts) {
        match self.on {
            On::Spine if self.laid >= facts.places => self.verdict = true,
            _ => self.answered = (0..facts.answers).collect(),
        }
    }
}

impl Facts {
    fn bears(&self, face: u32) -> bool {
        self.figures.get(face as usize).is_some_and(|there| *there)
    }

    /// The next face with a figure that way, as the flat sides are seen: A above B, or at its left. Where there is none, the same.
    fn beyond(&self, face: u32, way: Way) -> u32 {
        let columns = self.columns.max(1);
        let rows = (self.figures.len() as u32 / 2 / columns).max(1);
        let per_side = rows * columns;
        // Where a face is seen: side B is turned left to right.
        let (side, row, column) = (face / per_side, face % per_side / columns, face % columns);
        let seen = if side == 0 { column } else { columns - 1 - column };
        let (wide, high) = if self.beside { (2 * columns, rows) } else { (columns, 2 * rows) };
        let mut at = if self.beside { (seen + side * columns, row) } else { (seen, row + side * rows) };
        loop {
            let (x, y) = match way {
                Way::Left => (at.0.checked_sub(1), Some(at.1)),
                Way::Right => (Some(at.0 + 1).filter(|x| *x < wide), Some(at.1)),
                Way::Up => (Some(at.0), at.1.checked_sub(1)),
                Way::Down => (Some(at.0), Some(at.1 + 1).filter(|y| *y < high)),
            };
            let (Some(x), Some(y)) = (x, y) else { return face };
            at = (x, y);
            let (side, seen, row) = if self.beside { (x / columns, x % columns, y) } else { (y / rows, x, y % rows) };
            let column = if side == 0 { seen } else { columns - 1 - seen };
            let there = side * per_side + row * columns + column;
            if self.bears(there) {
                return there;
            }
        }
    }
}

fn toggle(set: &mut BTreeSet<u32>, one: u32) {
    if !set.remove(&one) {
        set.insert(one);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A sixteen before its first fold, which asks for four pages.
    fn facts() -> Facts {
        Facts {
            steps: 13,
            folds: 3,
            answers: 4,
            figures: vec![true; 16],
            columns: 4,
            alone: false,
            beside: false,
            places: 18,
        }
    }

    fn after(acts: &[ShowAct]) -> Showing {
        acts.iter().fold(Showing::of(Picture::default()), |now, act| now.after(*act, &facts()))
    }

    #[test]
    fn one_step_a_key_and_back_as_far_as_there_are_steps() {
        assert_eq!(after(&[ShowAct::On; 2]).picture.at, 2);
        assert_eq!(after(&[ShowAct::On; 40]).picture.at, 13);
        assert_eq!(after(&[ShowAct::On, ShowAct::Back, ShowAct::Back]).picture.at, 0);
        assert_eq!(after(&[ShowAct::Last]).picture.at, 3);
        assert_eq!(after(&[ShowAct::Last, ShowAct::First]).picture.at, 0);
    }

    #[test]
    fn the_answer_comes_before_the_fold_and_is_blank_again_after_it() {
        let asked = after(&[ShowAct::AnswerOrOn]);
        assert_eq!((asked.picture.at, asked.picture.answered.len()), (0, 4));
        let on = after(&[ShowAct::AnswerOrOn, ShowAct::AnswerOrOn]);
        assert_eq!((on.picture.at, on.picture.answered.len()), (1, 0));
        let slips = after(&[ShowAct::Slip(1), ShowAct::Slip(2), ShowAct::Slip(1), ShowAct::Slip(9)]);
        assert_eq!(slips.picture.answered, BTreeSet::from([2]));
    }

    #[test]
    fn figures_are_covered_together_and_shown_one_by_one() {
        let covered = after(&[ShowAct::Figures, ShowAct::Cell(5)]);
        assert_eq!(covered.picture.covered.len(), 15);
        assert!(!covered.picture.covered.contains(&5));
        assert!(after(&[ShowAct::Figures, ShowAct::Figures]).picture.covered.is_empty());
        // With the pointer on a covered page, the answer is that page.
        let pointed = after(&[ShowAct::Figures, ShowAct::Pointer, ShowAct::AnswerOrOn]);
        assert_eq!((pointed.picture.at, pointed.picture.covered.len()), (0, 15));
        assert!(!pointed.picture.covered.contains(&0));
        assert!(pointed.after(ShowAct::Cover, &facts()).picture.covered.contains(&0));
    }

    #[test]
    fn the_pointer_goes_where_the_sides_are_seen() {
        let at = |ways: &[Way]| {
            let acts: Vec<_> = ways.iter().map(|way| ShowAct::Point(*way)).collect();
            after(&[[ShowAct::Pointer].as_slice(), acts.as_slice()].concat()).picture.followed
        };
        assert_eq!(at(&[]), Some(0));
        assert_eq!(at(&[Way::Right]), Some(1));
        assert_eq!(at(&[Way::Left]), Some(0), "there is nothing beyond");
        assert_eq!(at(&[Way::Down]), Some(4));
        // Under the left column of side A lies the left column of side B, which is the fourth from the front.
        assert_eq!(at(&[Way::Down, Way::Down]), Some(8 + 3));
        assert_eq!(at(&[Way::Down, Way::Down, Way::Right, Way::Down]), Some(12 + 2));
        let beside = Facts { beside: true, ..facts() };
        assert_eq!(beside.beyond(3, Way::Right), 8 + 3);
        assert_eq!(beside.beyond(4, Way::Down), 4);
        let gaps = Facts { figures: (0..16).map(|face| face != 1).collect(), ..facts() };
        assert_eq!(gaps.beyond(0, Way::Right), 2);
        assert_eq!(after(&[ShowAct::Pointer, ShowAct::Pointer]).picture.followed, None);
    }

    #[test]
    fn blank_is_ended_by_any_key_and_changes_nothing() {
        let blank = after(&[ShowAct::On, ShowAct::Blank]);
        assert!(blank.blank && blank.note().is_some());
        let back = blank.after(ShowAct::On, &facts());
        assert_eq!((back.blank, back.picture.at), (false, 1));
    }

    #[test]
    fn the_class_sees_what_is_held_while_the_keys_go_on() {
        let held = after(&[ShowAct::On, ShowAct::Hold, ShowAct::Back, ShowAct::Figures, ShowAct::Section(2)]);
        assert_eq!((held.seen().at, held.seen().place, held.seen().covered.len()), (1, 1, 0));
        assert_eq!((held.picture.at, held.picture.place, held.picture.covered.len()), (0, 3, 16));
        let note = held.note().unwrap();
        assert!(note.contains("section 3, step 0, figures covered"), "{note}");
        let let_go = held.after(ShowAct::Hold, &facts());
        assert_eq!((let_go.seen().place, let_go.note()), (3, None));
    }

    #[test]
    fn the_spine_is_laid_section_by_section_and_then_told() {
        let spine = |acts: &[ShowAct]| after(&[[ShowAct::Turn].as_slice(), acts].concat()).picture;
        assert_eq!(spine(&[ShowAct::On]).laid, 2);
        assert_eq!(spine(&[ShowAct::Last]).laid, 18);
        assert!(!spine(&[ShowAct::Last]).verdict);
        // A remote with one key gets there, too.
        assert!(spine(&[ShowAct::On; 18]).verdict);
        assert!(spine(&[ShowAct::Last, ShowAct::AnswerOrOn]).verdict);
        let back = spine(&[ShowAct::Last, ShowAct::Answer, ShowAct::Back]);
        assert_eq!((back.verdict, back.laid), (false, 18));
        let other = spine(&[ShowAct::Last, ShowAct::Answer, ShowAct::Spoil]);
        assert_eq!((other.spoiled, other.laid, other.verdict), (1, 1, false));
        assert_eq!(spine(&[ShowAct::Spoil, ShowAct::Spoil, ShowAct::AsItLies]).spoiled, 0);
    }

    #[test]
    fn the_sides_come_one_after_the_other_and_together() {
        let sides = |n: usize| after(&vec![ShowAct::Sides; n]).picture.sides;
        assert_eq!([0, 1, 2, 3, 4].map(sides), [Sides::AsFits, Sides::A, Sides::B, Sides::Both, Sides::A]);
        let alone = Facts { alone: true, ..facts() };
        assert_eq!(Showing::of(Picture::default()).after(ShowAct::Sides, &alone).picture.sides, Sides::B);
    }
}
