//! What the program sets a bench to.

use super::hands::Setting;
use super::on_bench::OnBench;
use crate::app::{State, Task};
use crate::fold::Crease;
use crate::scene::Bench;
use crate::ui::shared::Shared;

/// The bench as a state has it, or with something else put on it in place of its sheet. `open` says whether its room is.
#[must_use]
pub fn setting(
    state: &State,
    bench: Option<Shared<Bench>>,
    open: bool,
    crease: Option<(Crease, u32)>,
    on_bench: Option<&OnBench>,
) -> Setting {
    let of_state = || bench.as_deref().filter(|_| on_bench.is_none());
    let followed = of_state().and_then(|b| state.followed_face(b)).map(|face| (face, state.look.place));
    let considered = bench.as_deref().and_then(|b| state.considered(b, crease));
    let free = on_bench.is_none_or(|other| other.free);
    let tried = state.job.tried.as_ref().filter(|_| free && state.folds_by_hand()).map(|tried| tried.folds.len());
    Setting {
        followed,
        crease: considered,
        open,
        lay: state.look.lay,
        free: state.look.task == Task::Fold && free && state.placed().misfold.is_none(),
        making: state.look.task == Task::Make,
        tried,
        bench,
    }
}
