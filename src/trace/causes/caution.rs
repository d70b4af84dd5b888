//! What to mind while looking at a machine.
//!
//! Stop, isolate, wait for the run-down before a jam is cleared; nips at infeed and rollers, hold-to-run at the slowest
//! speed; one person inches, call before the start: Health and Safety Executive, "Safeguarding bookbinding machines", and
//! BG ETEM on accidents at printing machines. The sentences are this program's own.

use crate::trace::told::Stage;

const GUARDS: &str = "The guards stay shut, the rules of the house come first, and only trained people open a machine.";

/// What to mind at a place of the shop; nothing where no machine is looked at.
pub(in crate::trace) fn caution(stage: Stage) -> String {
    let own = match stage {
        Stage::Press => {
            "Look at printed sheets on the table, away from the running press. Stop the press and wait until it stands still \
             before you look at it."
        }
        Stage::Folder => {
            "Stop the folder, isolate it and wait until it stands still. Fingers stay away from the infeed, the rollers and \
             the knives; set it with hold-to-run at the slowest speed."
        }
        Stage::Gathering => {
            "Stop the line, isolate it and wait until it has run down before you reach into a hopper. One person alone \
             inches it, and calls out before it starts: on a long line a colleague may be out of sight."
        }
        Stage::Sewing => {
            "Stop the sewing machine, isolate it and wait until it stands still; needles and saddle move at the slightest \
             inching."
        }
        Stage::Tipping | Stage::Hand => return String::new(),
    };
    format!("{own} {GUARDS}")
}
