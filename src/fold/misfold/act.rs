//! A cause acted out: the sheet as it was really printed, laid and folded, read as a section.

use super::cause::{Cause, Lies, Mark};
use crate::fold::{BackMark, Crease, Direction, Face, FoundFace, Landing, Lands, Scheme, Section, Showing, Side};

/// Which of two sheets folded as one has a fault of a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Copies {
    /// Every sheet.
    All,
    /// The one nearer to side A.
    Upper,
    /// The one nearer to side B.
    Lower,
    /// They stuck together in both passes: the sides that touch have it, one of each sheet.
    Touching,
    /// The same, but they came to lie the other way round: the sides turned away from each other have it.
    Outward,
}

impl Copies {
    /// The sheets that may have a fault of one side that the other sheet has not.
    pub(super) const ONE: [Self; 3] = [Self::All, Self::Upper, Self::Lower];
    /// The same for a side that was not printed, which may be a side of each.
    pub(super) const BLANK: [Self; 5] = [Self::All, Self::Upper, Self::Lower, Self::Touching, Self::Outward];

    /// Whether side `own` of a sheet has a fault of side `side`; `upper` says which of two sheets it is.
    fn have(self, side: Side, own: Side, upper: Option<bool>) -> bool {
        match (self, upper) {
            (Self::All, _) => side == own,
            (Self::Upper, Some(upper)) => side == own && upper,
            (Self::Lower, Some(upper)) => side == own && !upper,
            (Self::Touching, Some(upper)) => (own == Side::A) != upper,
            (Self::Outward, Some(upper)) => (own == Side::A) == upper,
            (_, None) => false,
        }
    }
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
    Turned(Side, Copies),
    /// This side not printed.
    Blank(Side, Copies),
    /// This side printed from another section.
    Alien(Side, Copies),
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
            acts.extend(Copies::ONE.into_iter().flat_map(|c| [Self::Turned(side, c), Self::Alien(side, c)]));
            acts.extend(Copies::BLANK.map(|c| Self::Blank(side, c)));
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
        match self {
            Self::Turned(_, copies) | Self::Blank(_, copies) | Self::Alien(_, copies) => copies == Copies::All,
            _ => true,
        }
    }

    /// Whether two are worth acting out together: two of one family are one of it again, or cancel.
    pub(super) fn goes_with(self, other: Self) -> bool {
        match (self, other) {
            (Self::Laid { .. }, Self::Laid { .. })
            | (Self::Turned(..), Self::Turned(..))
            | (Self::Alien(..), Self::Alien(..))
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
            Self::Turned(..) => Cause::SecondSideTurnedRound,
            Self::Blank(side, _) => Cause::SecondSideBlank { side },
            Self::Alien(..) => Cause::WrongSecondSide,
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
        let printed = |upper| move |f: &FoundFace| self.printed_at(*f, acts, upper);
        let mut cells = Vec::with_capacity(2 * folded.faces.len());
        let double = acts.contains(&Act::Double);
        if double {
            for leaf in folded.faces.chunks(2) {
                // The sheet on side A comes first where side A faces the front. The print tells sides as it was laid.
                let a_first = leaf.first().map(printed(None)).is_some_and(|f| f.face.side == Side::A);
                for upper in [Some(a_first), Some(!a_first)] {
                    cells.extend(leaf.iter().map(printed(upper)).map(|f| self.cell(&f, acts, upper)));
                }
            }
        } else {
            cells.extend(folded.faces.iter().map(printed(None)).map(|f| self.cell(&f, acts, None)));
        }
        let showing = match self.mark {
            // The outermost of two sheets is the one on the side of the mark.
            Some(mark) if ![cells.first(), cells.last()].contains(&Some(&Cell::Blank)) => {
                let outermost = double.then_some(mark.first_page.side == Side::A);
                let faces = folded.faces.iter().map(printed(outermost)).collect();
                mark.showing(&Section { faces, ..folded.clone() })
            }
            _ => Showing::Inside,
        };
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
    fn printed_at(&self, found: FoundFace, acts: &[Act], upper: Option<bool>) -> FoundFace {
        let mut at = found;
        for act in acts {
            if let Act::Laid { x, y } = *act {
                at = self.mirrored(at, x, y);
            }
        }
        for act in acts {
            if matches!(act, Act::Turned(side, copies) if copies.have(*side, at.face.side, upper)) {
                at = self.mirrored(at, true, true);
            }
        }
        at
    }

    /// What is printed on a face of the sheet as it lies, and the way its head points there; `None` where nothing is.
    pub(super) fn face(&self, face: Face, acts: &[Act], upper: Option<bool>) -> Option<(Cell, Direction)> {
        const DIRECTIONS: [Direction; 4] = [Direction::Up, Direction::Right, Direction::Down, Direction::Left];
        DIRECTIONS.into_iter().find_map(|head| {
            let at = self.printed_at(FoundFace { face, head, spine: head }, acts, upper);
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
        let has = |fault: fn(Act) -> Option<(Side, Copies)>| {
            acts.iter().filter_map(|act| fault(*act)).any(|(of, copies)| copies.have(of, side, upper))
        };
        let unprinted = has(|act| if let Act::Blank(side, copies) = act { Some((side, copies)) } else { None });
        let alien = has(|act| if let Act::Alien(side, copies) = act { Some((side, copies)) } else { None });
        match self.landing.page_on(&at.face).and_then(|page| self.landing.page(page)) {
            Some(page) if !unprinted => Cell::Page { page: page.page, up: page.head == at.head, alien },
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
