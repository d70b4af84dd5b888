//! The documents: what they are called, what is said of them, what is minded with them.

use crate::app::Job;
use crate::words::how_many;

/// A document.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// Worksheets.
    Worksheet,
    /// Their key.
    Key,
    /// The test page of the printer.
    TestPage,
    /// A folding dummy.
    Dummy,
    /// Fault cards.
    Cards,
    /// Spine strips.
    Strips,
    /// The mark sheet.
    Marks,
    /// The set-up sheet.
    SetUp,
    /// The report.
    Report,
    /// The job ticket.
    Ticket,
    /// The logbook.
    Logbook,
}

const BY_HAND: &str = "Hand exercise: no machine. Bone folder and blunt knife.";

impl What {
    /// Those to choose from, in the order in which a class needs them. The key goes with the worksheets.
    pub const ALL: [Self; 10] = [
        Self::Worksheet,
        Self::TestPage,
        Self::Dummy,
        Self::Cards,
        Self::Strips,
        Self::Marks,
        Self::SetUp,
        Self::Report,
        Self::Ticket,
        Self::Logbook,
    ];

    /// What it is called in a word.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Worksheet => "Worksheet",
            Self::Key => "Key",
            Self::TestPage => "Test page",
            Self::Dummy => "Dummy",
            Self::Cards => "Fault cards",
            Self::Strips => "Strips",
            Self::Marks => "Mark sheet",
            Self::SetUp => "Set-up",
            Self::Report => "Report",
            Self::Ticket => "Ticket",
            Self::Logbook => "Logbook",
        }
    }

    /// What it is called.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Worksheet => "Worksheets and key",
            Self::Key => "Key",
            Self::TestPage => "Printer test page",
            Self::Dummy => "Folding dummy",
            Self::Cards => "Fault cards",
            Self::Strips => "Spine strips",
            Self::Marks => "Mark sheet",
            Self::SetUp => "Set-up sheet of the folder",
            Self::Report => "Fault report",
            Self::Ticket => "Job ticket",
            Self::Logbook => "Logbook page",
        }
    }

    /// What saving it is called.
    pub const fn save(self) -> &'static str {
        match self {
            Self::Worksheet => "Save worksheets as PDF",
            Self::Key => "Save the key as PDF",
            _ => "Save as PDF",
        }
    }

    /// What opening it is called.
    pub const fn open(self) -> &'static str {
        match self {
            Self::Worksheet => "Open worksheets",
            Self::Key => "Open the key",
            _ => "Open as PDF",
        }
    }

    /// What it is, and where it comes from.
    pub fn says(self, job: &Job, handed_in: usize) -> String {
        let book = || format!("“{}”, {}", job.title, how_many(job.sections, "section"));
        match self {
            Self::Worksheet => {
                "As many variants as there are learners, and a key that can be made again from the seed.".into()
            }
            Self::Key => String::new(),
            Self::TestPage => {
                "Print it once, on both sides, before the first dummy. It shows about which edge your printer turns \
                               the paper, how far side B lands off, and whether it prints at true size."
                    .into()
            }
            Self::Dummy => "A sheet with its figures on both sides, to be cut out and folded.".into(),
            Self::Cards => "Dummies to be folded and read, each right or with one fault, and a key.".into(),
            Self::Strips => format!("Backs to be cut out, folded and gathered: {}.", book()),
            Self::Marks => format!("The staircase at true size, and where its bars lie on the flat sheet: {}.", book()),
            Self::SetUp => "The sheet of the job on the folder: plates, stops, slits, and what to check.".into(),
            Self::Report if job.trace_question().is_none() => {
                "Nothing was noted in the room Trace: the report has lines to be filled in by hand.".into()
            }
            Self::Report => "What was found in the room Trace, and the cause that is looked at there.".into(),
            Self::Ticket => format!("What whoever makes the book has to know: {}.", book()),
            Self::Logbook => {
                let many = how_many(handed_in as u32, "exercise");
                format!("What was handed in here, to be signed: {many}.")
            }
        }
    }

    /// What is minded with it.
    pub const fn mind(self) -> &'static str {
        match self {
            Self::Worksheet | Self::Dummy | Self::Cards | Self::Strips => BY_HAND,
            Self::SetUp => {
                "Only trained people set a folder. Guards stay shut; stop, isolate and let it run down before reaching in."
            }
            Self::Ticket => {
                "Folders and guillotines are for trained people who have been told that they may. The rules of the house come first."
            }
            _ => "",
        }
    }
}
