//! What is done at a step beyond the first slit, for whoever puts it into words.

use super::Parted;
use crate::fold::Fold;
use crate::scene::bench::Bench;

/// One act at a step.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Act {
    /// A piece, or a part that will be slit again, is folded.
    Fold(Fold),
    /// A part is slit, and its parts are led aside.
    Slit,
    /// A part is slit, and one part laid on the other.
    Laid,
    /// One section slides into the middle of another: the first and the last page printed on each.
    Inset {
        /// What slides in.
        guest: (u32, u32),
        /// What it slides into.
        host: (u32, u32),
    },
}

impl Bench {
    /// All that is done at a step (from 0) that comes after the folds of the whole sheet, part by part.
    #[must_use]
    pub fn acts(&self, step: usize) -> Vec<Act> {
        match &self.parted {
            Some(parted) => (parted.ways.acts)(self, step),
            None => self.folding.steps.get(step).map(|s| Act::Fold(s.turn.fold)).into_iter().collect(),
        }
    }

    pub(super) fn slit_acts(&self, step: usize) -> Vec<Act> {
        let inset = self.finish.as_ref().and_then(|f| f.insets.get(step.checked_sub(self.steps_to_pieces())?));
        if let Some(inset) = inset {
            let pages = |bench: &Self| {
                let all: Vec<u32> = bench
                    .folding
                    .flat
                    .layers
                    .iter()
                    .flat_map(|l| l.area.cells())
                    .flat_map(|(x, y)| {
                        let (row, column) = (y.unsigned_abs(), x.unsigned_abs());
                        [crate::fold::Side::A, crate::fold::Side::B].map(|side| crate::fold::Face { side, row, column })
                    })
                    .filter_map(|face| self.printing.figure(&face))
                    .map(|figure| figure.page)
                    .collect();
                (all.iter().min().copied().unwrap_or(0), all.iter().max().copied().unwrap_or(0))
            };
            return vec![Act::Inset { guest: pages(&inset.guest), host: pages(&inset.host_bench) }];
        }
        let mut acts = Vec::new();
        self.collect(step, &mut acts);
        acts
    }

    /// What a step (from 0) after the folds of the whole sheet is called: "slit", "inset", "fold 2 of the pieces".
    #[must_use]
    pub fn step_name(&self, step: usize) -> String {
        let acts = self.acts(step);
        match acts.first() {
            Some(Act::Inset { .. }) => "inset".into(),
            Some(Act::Slit) if !acts.iter().any(|a| matches!(a, Act::Fold(_))) => "slit".into(),
            Some(Act::Laid) if acts.len() == 1 => "slit and laid together".into(),
            _ => {
                let folds = |s: &usize| self.acts(*s).iter().any(|a| matches!(a, Act::Fold(_)));
                let made = (self.folding.steps.len()..=step).filter(folds).count();
                format!("fold {made} of the pieces")
            }
        }
    }

    /// The word for a step in a place where there is room for a short one: `None` for a fold.
    #[must_use]
    pub fn step_mark(&self, step: usize) -> Option<&'static str> {
        if step < self.folding.steps.len() {
            return None;
        }
        match self.acts(step).first()? {
            Act::Inset { .. } => Some("inset"),
            Act::Slit => Some("parts"),
            Act::Laid => Some("laid"),
            Act::Fold(_) => None,
        }
    }

    fn collect(&self, step: usize, acts: &mut Vec<Act>) {
        let own = self.folding.steps.len();
        match &self.parted {
            _ if step < own => acts.extend(self.folding.steps.get(step).map(|s| Act::Fold(s.turn.fold))),
            Some(parted) if step == own => acts.push(if parted.laid.is_some() { Act::Laid } else { Act::Slit }),
            Some(parted) => self.collect_lanes(parted, step - own - 1, acts),
            None => {}
        }
    }

    fn collect_lanes(&self, parted: &Parted, step: usize, acts: &mut Vec<Act>) {
        for lane in &parted.lanes {
            lane.bench.collect(step, acts);
        }
    }

    /// How large the packet (or each piece) is at a whole step, in panels: the largest that lies there.
    #[must_use]
    pub fn size_at(&self, step: usize) -> (u32, u32) {
        let own = self.folding.steps.len();
        let here = || {
            let r = self.folding.packet(step).extent();
            (r.width().unsigned_abs(), r.height().unsigned_abs())
        };
        match self.parted.as_ref().filter(|_| step > own) {
            None => here(),
            Some(parted) => {
                let lanes = parted.lanes.iter().map(|lane| lane.bench.size_at(step - own - 1));
                lanes.max_by_key(|(w, h)| w * h).unwrap_or_else(here)
            }
        }
    }
}
