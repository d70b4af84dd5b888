//! A cause acted out: the sheet as it was really printed, laid and folded, read as a section.

use super::cause::{Cause, Lies, Mark};
use crate::fold::{BackMark, Crease, Direction, Face, FoundFace, Landing, Lands, Scheme, Section, Showing, Side};

/// Which of two sheets folded as one lacks the print of a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Copies {
    /// Every sheet.
    All,
    /// The one nearer to side A.
    Upper,
    /// The one nearer to side B.
    Lower,
    /// They stuck together in both passes: the sides that touch are blank.
    Touching,
}

/// One way to act out a single cause.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Act {
    /// Fold (from 0) the other way.
    Way(usize),
    /// Fold (from 0) from the other edge.
    Edge(usize),
    /// The sheet laid mirrored left to right and top to bottom; mirrored once it lies with the other side up.
    Laid { x: bool, y: bool },
    /// This side printed half turned round.
    Turned(Side),
    /// This side not printed.
    Blank(Side, Copies),
    /// This side printed from another section.
    Alien(Side),
    /// The section lies so.
    Lies(Lies),
    /// Two sheets folded as one.
    Double,
}

impl Act {
    /// Every act for a scheme of so many folds.
    pub(super) fn all(folds: usize) -> Vec<Self> {
        let mut acts: Vec<Self> = (0..folds).flat_map(|f| [Self::Way(f), Self::Edge(f)]).collect();
        acts.extend([(true, true), (true, false), (false, true)].map(|(x, y)| Self::Laid { x, y }));
        for side in [Side::A, Side::B] {
            acts.extend([Self::Turned(side), Self::Alien(side)]);
            acts.extend([Copies::All, Copies::Upper, Copies::Lower, Copies::Touching].map(|c| Self::Blank(side, c)));
        }
        acts.extend([Lies::HeadToTail, Lies::TurnedInPlane, Lies::SideToSide].map(Self::Lies));
        acts.push(Self::Double);
        acts
    }

    pub(super) fn folds(self) -> bool {
        matches!(self, Self::Way(_) | Self::Edge(_))
    }

    /// Whether it can be acted out alone, without a second sheet.
    pub(super) fn alone(self) -> bool {
        !matches!(self, Self::Blank(_, Copies::Upper | Copies::Lower | Copies::Touching))
    }

    /// Whether two are worth acting out together: two of one family are one of it again, or cancel.
    pub(super) fn goes_with(self, other: Self) -> bool {
        match (self, other) {
            (Self::Laid { .. }, Self::Laid { .. })
            | (Self::Turned(_), Self::Turned(_))
            | (Self::Alien(_), Self::Alien(_))
            | (Self::Lies(_), Self::Lies(_)) => false,
            (one, Self::Double) | (Self::Double, one) => one != Self::Double,
            (one, another) => one.alone() && another.alone() && one != another,
        }
    }

    pub(super) fn cause(self) -> Cause {
        let number = |f: usize| u32::try_from(f + 1).unwrap_or(u32::MAX);
        match self {
            Self::Way(f) => Cause::FoldOtherWay { fold: number(f) },
            Self::Edge(f) => Cause::FoldFromOtherEdge { fold: number(f) },
            Self::Laid { x: true, y: true } => Cause::SheetEndForEnd,
            Self::Laid { x: true, .. } => Cause::SheetTurnedOver { about: Crease::Vertical },
            Self::Laid { .. } => Cause::SheetTurnedOver { about: Crease::Horizontal },
            Self::Turned(_) => Cause::SecondSideTurnedRound,
            Self::Blank(side, _) => Cause::SecondSideBlank { side },
            Self::Alien(_) => Cause::WrongSecondSide,
            Self::Lies(lies) => Cause::SectionLies { lies },
            Self::Double => Cause::DoubleSheet,
        }
    }

    /// The scheme as it was really folded.
    pub(super) fn refolded(self, scheme: &Scheme) -> Scheme {
        let mut other = scheme.clone();
        match self {
            Self::Way(f) => {
                if let Some(fold) = other.folds.get_mut(f) {
                    fold.lands = if fold.lands == Lands::Over { Lands::Under } else { Lands::Over };
                }
            }
            Self::Edge(f) => {
                if let Some(fold) = other.folds.get_mut(f) {
                    fold.moves = fold.moves.other();
                }
            }
            _ => {}
        }
        other
    }
}

/// A page as it is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Cell {
    /// Not printed.
    Blank,
    /// Printed: the page counted from 1 in the section that its place belongs to, whether its head points right, and
    /// whether it was printed from another section.
    Page { page: u32, up: bool, alien: bool },
}

/// What would be found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Reading {
    pub(super) cells: Vec<Cell>,
    pub(super) fore_edge: bool,
    pub(super) mark: Mark,
}

/// The printed sheet: where each page was meant to be, and the mark.
pub(super) struct Printed {
    landing: Landing,
    mark: Option<BackMark>,
}

impl Printed {
    pub(super) fn for_section(right: &Section) -> Self {
        let landing = Landing::of_section(right);
        let mark = BackMark::on_sheet(right, &landing);
        Self { landing, mark }
    }

    /// Reads a section folded from this sheet under the given acts; those about folds have been carried out in it.
    pub(super) fn read(&self, folded: &Section, acts: &[Act]) -> Reading {
        let section =
            Section { faces: folded.faces.iter().map(|f| self.printed_at(*f, acts)).collect(), ..folded.clone() };
        let mut cells = Vec::with_capacity(2 * section.faces.len());
        if acts.contains(&Act::Double) {
            for leaf in section.faces.chunks(2) {
                // The sheet on side A comes first where side A faces the front. The print tells sides as it was laid.
                let a_first = leaf.first().is_some_and(|f| f.face.side == Side::A);
                for upper in [a_first, !a_first] {
                    cells.extend(leaf.iter().map(|f| self.cell(f, acts, Some(upper))));
                }
            }
        } else {
            cells.extend(section.faces.iter().map(|f| self.cell(f, acts, None)));
        }
        let mut showing = self.mark.map_or(Showing::Inside, |mark| mark.showing(&section));
        if [cells.first(), cells.last()].contains(&Some(&Cell::Blank)) {
            showing = Showing::Inside;
        }
        let mut reading = Reading {
            cells,
            fore_edge: false,
            mark: match showing {
                Showing::OnSpine => Mark::Shows,
                Showing::OnSpineFromTail => Mark::Mirrored,
                Showing::OnEdge(_) | Showing::Inside => Mark::Blank,
            },
        };
        for act in acts {
            if let Act::Lies(lies) = act {
                reading.lie(*lies);
            }
        }
        reading
    }

    /// The place on the printed sheet that lies at a place of the sheet on the bench.
    fn printed_at(&self, found: FoundFace, acts: &[Act]) -> FoundFace {
        let mut at = found;
        for act in acts {
            if let Act::Laid { x, y } = *act {
                at = self.mirrored(at, x, y);
            }
        }
        for act in acts {
            if *act == Act::Turned(at.face.side) {
                at = self.mirrored(at, true, true);
            }
        }
        at
    }

    /// What is printed on a face of the sheet as it lies, and the way its head points there; `None` where nothing is.
    pub(super) fn face(&self, face: Face, acts: &[Act], upper: Option<bool>) -> Option<(Cell, Direction)> {
        const DIRECTIONS: [Direction; 4] = [Direction::Up, Direction::Right, Direction::Down, Direction::Left];
        DIRECTIONS.into_iter().find_map(|head| {
            let at = self.printed_at(FoundFace { face, head, spine: head }, acts);
            let cell = self.cell(&at, acts, upper);
            matches!(cell, Cell::Page { up: true, .. }).then_some((cell, head))
        })
    }

    /// Where the back mark is printed on the sheet as it lies.
    pub(super) fn mark_as_it_lies(&self, acts: &[Act], upper: Option<bool>) -> Option<BackMark> {
        let mark = self.mark?;
        let faces = [Side::A, Side::B].into_iter().flat_map(|side| {
            (0..self.landing.rows)
                .flat_map(move |row| (0..self.landing.columns).map(move |column| Face { side, row, column }))
        });
        let (mut first_page, mut last_page) = (None, None);
        for face in faces {
            let Some((Cell::Page { page, .. }, head)) = self.face(face, acts, upper) else { continue };
            if page == 1 {
                first_page = Some((face, head));
            } else if page as usize == self.landing.pages.len() {
                last_page = Some(face);
            }
        }
        let ((first_page, head), last_page) = first_page.zip(last_page)?;
        let spine = if mark.spine == mark.head.clockwise() { head.clockwise() } else { head.clockwise().opposite() };
        Some(BackMark { first_page, last_page, spine, head })
    }

    fn mirrored(&self, at: FoundFace, x: bool, y: bool) -> FoundFace {
        let (rows, columns) = (self.landing.rows, self.landing.columns);
        let from = at.face.side;
        let side = if x == y { from } else { from.other() };
        let row = if y { rows - 1 - at.face.row } else { at.face.row };
        let column = if x { columns - 1 - at.face.column } else { at.face.column };
        let over = |d: Direction, s: Side| if s == Side::A { d } else { d.turned_over() };
        let turn = |d: Direction| over(over(d, from).mirrored(x, y), side);
        FoundFace { face: Face { side, row, column }, head: turn(at.head), spine: turn(at.spine) }
    }

    fn cell(&self, at: &FoundFace, acts: &[Act], upper: Option<bool>) -> Cell {
        let side = at.face.side;
        let unprinted = acts.iter().any(|act| match (*act, upper) {
            (Act::Blank(s, Copies::All), _) => s == side,
            (Act::Blank(s, Copies::Upper), Some(upper)) => s == side && upper,
            (Act::Blank(s, Copies::Lower), Some(upper)) => s == side && !upper,
            (Act::Blank(_, Copies::Touching), Some(upper)) => (side == Side::A) != upper,
            _ => false,
        });
        match self.landing.page_on(&at.face).and_then(|page| self.landing.page(page)) {
            Some(page) if !unprinted => {
                Cell::Page { page: page.page, up: page.head == at.head, alien: acts.contains(&Act::Alien(side)) }
            }
            _ => Cell::Blank,
        }
    }
}

impl Reading {
    fn lie(&mut self, lies: Lies) {
        if lies != Lies::TurnedInPlane {
            self.cells.reverse();
        }
        if lies != Lies::SideToSide {
            for cell in &mut self.cells {
                if let Cell::Page { up, .. } = cell {
                    *up = !*up;
                }
            }
        }
        self.fore_edge = lies != Lies::HeadToTail;
        self.mark = match (self.mark, lies) {
            (Mark::Shows, Lies::HeadToTail) => Mark::Mirrored,
            (Mark::Mirrored, Lies::HeadToTail) => Mark::Shows,
            _ => Mark::Blank,
        };
    }
}
