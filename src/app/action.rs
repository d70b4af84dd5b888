//! Everything a person or the browser can cause, and what the program asks of the outside.

use super::book_act::BookAct;
use super::case::CaseAct;
use super::job::{Cell, Evidence, Job, Paper, SectionCase};
use super::look::{Look, Pane, Room, Task, TraceLook};
use crate::fold::{Course, Crease, Direction, Fold, Lay, Measure, Nest, Reads, Side};
use crate::marks::Lies;

/// Something that happened.
#[derive(Clone, Debug, PartialEq)]
pub enum Action {
    /// Go to a room.
    Go(Room),
    /// Take the section at a place of the stack (from 1) onto the bench.
    Pick(u32),
    /// Follow a page of the section on the bench (from 1), or let go.
    Follow(Option<u32>),
    /// Follow a page of the book, which may lie in another section.
    FollowInBook(u32),
    /// Follow the page on which this folio is printed.
    FollowPrinted(String),
    /// The bench moved to this moment of the rule.
    Moved(f64),
    /// The bench is to fold so many folds from the flat sheet on.
    Play(u32),
    /// See side B through the paper, or turned over again.
    Through(bool),
    /// Work the sheet by a course at hand.
    Take(Course),
    /// The same with pages that are wider than high.
    TakeOblong(Course),
    /// Begin one's own scheme on a blank sheet.
    MakeOwn {
        /// Rows of panels.
        rows: u32,
        /// Columns of panels.
        columns: u32,
    },
    /// Add a fold to one's own scheme.
    AddFold(Fold),
    /// Take back fold number i, from 0. Later folds stay.
    RemoveFold(usize),
    /// Slit what is on the bench, after so many panels. Each part is a piece and a section of its own.
    Slit {
        /// Which way the slit runs.
        crease: Crease,
        /// Panels before it.
        after: u32,
    },
    /// Take back all slits, and what was done after them.
    JoinAgain,
    /// Put the pieces together: for each copy its sections, each a nest of pieces.
    PutTogether(Vec<Vec<Nest>>),
    /// Give the panels of the sheet these sizes.
    Measure(Measure),
    /// Print it on this paper, with these lays, and cut this off.
    Paper(Paper),
    /// Take a piece of a slit sheet onto the bench by itself, from 0, or the whole sheet again.
    Piece(Option<u32>),
    /// Choose the head end of one's own scheme.
    Head(Direction),
    /// Choose the reading direction of one's own scheme.
    Reads(Reads),
    /// Do something else at the bench.
    Task(Task),
    /// Lay the sheet another way.
    Lay(Lay),
    /// Lay the scheme's way and the way folded by hand side by side, or one of them away.
    Compare(bool),
    /// Lay something else beside the bench.
    Pane(Pane),
    /// Fold the sheet by hand: all folds as they now are, and the moment the bench is at. Folds that are the scheme's
    /// are no folds by hand.
    Try {
        /// The folds.
        folds: Vec<Fold>,
        /// The moment on the rule.
        at: f64,
    },
    /// Fold it by its scheme again.
    ByScheme,
    /// Make the folds made by hand the scheme: the sheet is printed for them.
    PrintForTried,
    /// Read the section that the folds made by hand end in as one found wrong.
    ReadTried,
    /// Begin a layout of this size; what is known of it stays where it can.
    LayoutSize {
        /// Rows.
        rows: u32,
        /// Columns.
        columns: u32,
    },
    /// Write into a cell of the layout, or clear it. Row and column as seen from that side.
    LayoutCell {
        /// The side.
        side: Side,
        /// Row.
        row: u32,
        /// Column.
        column: u32,
        /// What is seen there.
        cell: Option<Cell>,
    },
    /// Take the layout of the sheet on the bench.
    LayoutOfScheme,
    /// Forget all that is known of the layout.
    LayoutClear,
    /// Read this wrong section.
    Section(SectionCase),
    /// Change what was found of a wrong book.
    Case(CaseAct),
    /// Stand elsewhere in the Trace room.
    Trace(TraceLook),
    /// Say something of the book as a whole.
    Book(BookAct),
    /// Do something to the stack by hand.
    Spoil(Spoil),
    /// Look at the stack, at tapped marks, or at a typed run.
    Look(Evidence),
    /// Set or take away a mark on a back of the tapped spine: place from 1, mm from the head.
    Tap {
        /// The back.
        place: u32,
        /// The middle of the bar.
        mm: f64,
    },
    /// Change how many backs the tapped spine has.
    TapBacks(u32),
    /// Undo the last change of the job.
    Undo,
    /// Redo it.
    Redo,
    /// Put everything back to the beginning. It can be undone.
    StartOver,
    /// A job was read from a file or from the browser's store.
    Opened {
        /// The job.
        job: Box<Job>,
        /// Where its maker stood.
        look: Look,
        /// Whether a person opened it (so that it can be undone), or it was restored.
        by_hand: bool,
    },
    /// Say something: a refusal, a failure to save.
    Say(String),
    /// Hand out the job as a file.
    Export,
}

/// An act on the stack. Places count from 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Spoil {
    /// Leave out what lies at a place.
    LeaveOut(u32),
    /// Take what lies at a place twice.
    TakeTwo(u32),
    /// Put a section in place of what lies there: place, section.
    PutIn(u32, u32),
    /// Exchange what lies at two places.
    Exchange(u32, u32),
    /// Lay what lies at a place another way (or right again, if it lies so already).
    Lay(u32, Lies),
    /// Put a section of another book at a place.
    Foreign(u32),
    /// Make a fold of the section at a place the other way (or rightly again): place, fold.
    Misfold(u32, u32),
    /// Carry the places first to last behind another place: first, last, after.
    Carry(u32, u32, u32),
    /// Gather a right book again.
    MakeGood,
}

/// A request to the outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Effect {
    /// Keep the job in the browser, as it is now.
    Save,
    /// Hand out the job as a file of this name.
    Download(String),
    /// Bring the bench to a moment at once (in thousandths), since what lies on it changed.
    Settle(u32),
    /// Let the bench glide to a whole step.
    Glide(u32),
}
