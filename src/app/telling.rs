//! What the Fold room says: the sentence for a moment, and the table behind the picture.

use super::look::Task;
use super::state::State;
use crate::fold::{Crease, Direction, Face, Folding, Lay, Scheme, Side, says_after, says_landing, says_while};
use crate::gather::stack::What;
use crate::marks::Lies;
use crate::scene::{Bench, Figure, Printing, Stage};

impl State {
    /// The scheme by which the section on the bench is folded: the job's, with the fold made the other way if one is.
    #[must_use]
    pub fn folded_scheme(&self) -> Scheme {
        match self.placed().misfold {
            _ if self.look.task == Task::Make => self.scheme(),
            Some(fold) => self.scheme().fold_other_way(fold),
            None => self.tried_scheme().unwrap_or_else(|| self.scheme()),
        }
    }

    /// The sentence for what is happening on the bench.
    #[must_use]
    pub fn fold_sentence(&self, bench: &Bench) -> String {
        self.about_the_section() + &self.moment_sentence(bench)
    }

    /// The same of any sheet, whatever the job says of the section.
    #[must_use]
    pub fn moment_sentence(&self, bench: &Bench) -> String {
        let number = |f: &Face| bench.printing.figure(f).map(|f| f.page);
        let stage = bench.rule.stage(self.look.at);
        let act = match stage {
            Stage::Fold { made: 0, turn: 0.0 } if self.look.task == Task::Make && bench.folding.steps.is_empty() => {
                "Point at a crease, then choose the part that moves.".into()
            }
            Stage::Fold { .. } if bench.is_parted(self.look.at) => self.parted_sentence(bench),
            Stage::Fold { made: 0, turn: 0.0 } if bench.folding.steps.is_empty() && bench.rule.folds > 0 => {
                "Slit the sheet: one step on.".into()
            }
            Stage::Fold { made: 0, turn: 0.0 } if bench.folding.steps.is_empty() => "A blank sheet.".into(),
            Stage::Fold { made: 0, turn: 0.0 } => "Take the corner and fold.".into(),
            Stage::Fold { made, turn: 0.0 } => {
                let step = bench.folding.steps.get(made - 1);
                let says = step.map_or_else(String::new, |s| says_after(s, &number, self.look.lay));
                says + self.by_hand(bench, made) + &self.leads_on(bench, made)
            }
            Stage::Fold { made, .. } => {
                let step = bench.folding.steps.get(made);
                let says = step.map_or_else(String::new, |s| says_while(s, &number, self.look.lay));
                says + self.by_hand(bench, made + 1)
            }
            Stage::Slit { .. } => slit(bench),
            Stage::Offer { .. } => "The section is turned to its front.".into(),
            Stage::Leaf { turned, turn } => self.opened(bench, turned, turn > 0.0),
        };
        let mut says = act;
        if let Some(why) = &bench.folding.stopped {
            says += &format!(" It can't be folded on: {why}.");
        }
        says
    }

    /// The sentence for a moment after the sheet was slit.
    fn parted_sentence(&self, bench: &Bench) -> String {
        let at = self.look.at;
        let moving = at.fract() > 0.0;
        let step = if moving { at as usize } else { (at as usize).saturating_sub(1) };
        let says = bench.says_step(step, self.look.lay, moving);
        if moving || at < bench.rule.folds as f64 {
            return says;
        }
        says + &self.leads_on(bench, at as usize)
    }

    /// Whether the last of so many folds leaves the scheme.
    fn by_hand(&self, bench: &Bench, made: usize) -> &'static str {
        let mut folds = bench.folding.steps.iter().take(made).map(|s| &s.turn.fold);
        let scheme = &self.scheme().folds;
        let leaves = self.folds_by_hand() && !folds.by_ref().eq(scheme.iter().take(made));
        if leaves { " Not the scheme’s fold." } else { "" }
    }

    /// Whether the sheet on the bench is folded by hand, and otherwise than its scheme says.
    #[must_use]
    pub fn folds_by_hand(&self) -> bool {
        self.tried_scheme().is_some() && self.look.task != Task::Make && self.placed().misfold.is_none()
    }

    /// After the last fold: how a sheet folded by hand reads, and what comes next.
    fn leads_on(&self, bench: &Bench, made: usize) -> String {
        if bench.rule.leaves == 0 || made < bench.rule.folds {
            return String::new();
        }
        let reads = if self.folds_by_hand() { format!(" {}", self.read_out(bench)) } else { String::new() };
        let next = if bench.slits().is_empty() { " Open it: two steps on." } else { " Slit the bolts: one step on." };
        reads + next
    }

    /// The creases at which the packet on the bench could be folded next.
    #[must_use]
    pub fn creases(bench: &Bench) -> Vec<(Crease, u32)> {
        Self::creases_after(bench, bench.folding.steps.len())
    }

    /// The creases at which the packet could be folded after so many folds: upright ones from the left, then level
    /// ones from the top.
    #[must_use]
    pub fn creases_after(bench: &Bench, made: usize) -> Vec<(Crease, u32)> {
        let r = bench.folding.packet(made).extent();
        let (w, h) = (r.width().unsigned_abs(), r.height().unsigned_abs());
        (1..w).map(|i| (Crease::Vertical, i)).chain((1..h).map(|i| (Crease::Horizontal, i))).collect()
    }

    /// The crease that is considered while one's own scheme is made: the one chosen, if it is there, else the middle
    /// one.
    #[must_use]
    pub fn considered(&self, bench: &Bench, chosen: Option<(Crease, u32)>) -> Option<(Crease, u32)> {
        let all = Self::creases(bench);
        let r = bench.folding.last().extent();
        let middle = match (r.width().unsigned_abs(), r.height().unsigned_abs()) {
            (w, _) if w > 1 => (Crease::Vertical, w / 2),
            (_, h) => (Crease::Horizontal, h / 2),
        };
        let here = |c: &(Crease, u32)| all.contains(c);
        (self.look.task == Task::Make).then(|| chosen.filter(here).or(Some(middle).filter(here))).flatten()
    }

    fn about_the_section(&self) -> String {
        if self.look.task == Task::Make {
            return String::new();
        }
        let placed = self.placed();
        let mut says = String::new();
        if placed.what == What::Foreign {
            says += "This section belongs to another book. ";
        }
        if let Some(fold) = placed.misfold {
            says += &format!("Fold {fold} is made the other way here. ");
        }
        says += match placed.lies {
            Lies::Right => "",
            Lies::HeadToTail => "In the stack it lies head to tail. ",
            Lies::TurnedInPlane => "In the stack it lies turned in its plane, its fold at the fore-edge. ",
            Lies::SideToSide => "In the stack it lies side to side, its fold at the fore-edge. ",
        };
        says
    }

    fn opened(&self, bench: &Bench, turned: usize, turning: bool) -> String {
        let Some(section) = &bench.section else { return String::new() };
        let page = |i: usize| section.faces.get(i).and_then(|f| bench.printing.figure(&f.face)).map(|f| f.page);
        let due = |i: usize| i as u32 + 1 + bench.printing.shift;
        let leaves = section.held.len();
        if turning {
            return match (page(2 * turned), page(2 * turned + 1)) {
                (Some(a), Some(b)) => format!("The leaf of {a} and {b} turns."),
                _ => String::new(),
            };
        }
        let (left, right) = (turned.checked_mul(2).and_then(|i| i.checked_sub(1)), 2 * turned);
        match (left.and_then(page), page(right).filter(|_| turned < leaves)) {
            (None, Some(b)) if b == due(right) => format!("Page {b} is in front. Turn the leaves."),
            (None, Some(b)) => format!("Page {b} is in front, where {} is due.", due(right)),
            (Some(a), Some(b)) if (a, b) == (due(right - 1), due(right)) => format!("Open at {a} and {b}."),
            (Some(a), Some(b)) => format!("Open at {a} and {b}, where {} and {} are due.", due(right - 1), due(right)),
            (Some(_), None) => self.read_out(bench),
            (None, None) => String::new(),
        }
    }

    /// How the whole section reads.
    fn read_out(&self, bench: &Bench) -> String {
        let Some(section) = &bench.section else { return String::new() };
        let pages: Vec<u32> =
            section.faces.iter().filter_map(|f| bench.printing.figure(&f.face)).map(|f| f.page).collect();
        let first = bench.printing.shift + 1;
        let last = first + pages.len() as u32 - 1;
        if pages.iter().copied().eq(first..first + pages.len() as u32) {
            let loose = bench.section.as_ref().map_or(0, |s| s.held.iter().filter(|h| !**h).count());
            let loose = if loose > 0 { " Leaves without a fold at the spine are loose." } else { "" };
            return format!("It reads {first}, {}, {} … {last}, every page in order.{loose}", first + 1, first + 2)
                .replace(", 3, 4 … 4", ", 3, 4");
        }
        let shown: Vec<String> = pages.iter().take(16).map(u32::to_string).collect();
        let more = if pages.len() > 16 { " …" } else { "" };
        format!("It reads {}{more}.", shown.join(", "))
    }

    /// The sentence about the page that is followed.
    #[must_use]
    pub fn followed_sentence(&self, bench: &Bench) -> Option<String> {
        // A piece alone is told by the place on its whole sheet, where it was printed.
        let on_sheet = self.piece().and_then(|_| self.job.section(self.section_on_bench())).map(|(_, landing)| landing);
        let landing = on_sheet.as_ref().or(bench.printing.landing.as_ref())?;
        let followed = self.look.followed?;
        let says = says_landing(landing, landing.page(followed)?, bench.printing.shift);
        let page = followed + bench.printing.shift;
        Some(match self.job.printed(page) {
            Some(folio) => format!("Page {page}, printed {folio}. {says}"),
            None => says,
        })
    }

    /// The face that is followed.
    #[must_use]
    pub fn followed_face(&self, bench: &Bench) -> Option<Face> {
        let followed = self.look.followed?;
        if self.piece().is_some() {
            let number = followed + bench.printing.shift;
            return bench.printing.faces().find(|f| bench.printing.figure(f).is_some_and(|f| f.page == number));
        }
        Some(bench.printing.landing.as_ref()?.page(followed)?.face)
    }
}

fn slit(bench: &Bench) -> String {
    let Some(section) = &bench.section else { return String::new() };
    let names: Vec<&str> = bench
        .slits()
        .iter()
        .map(|edge| match *edge {
            e if e == section.head => "head",
            e if e == section.head.opposite() => "tail",
            _ => "fore-edge",
        })
        .collect();
    match names.as_slice() {
        [] => "No bolt is closed: nothing to slit.".into(),
        [one] => format!("The {one} bolts are slit."),
        [rest @ .., last] => format!("The {} and {last} bolts are slit.", rest.join(", ")),
    }
}

/// The pages that lie uppermost (or undermost) at a whole step, row by row, as a table says them and as the sheet lies.
#[must_use]
pub fn outside_pages(folding: &Folding, printing: &Printing, made: usize, beneath: bool, lay: Lay) -> Vec<Vec<String>> {
    let packet = folding.packet(made);
    let grid = lay.grid(if beneath == lay.over { packet.uppermost() } else { packet.undermost() });
    let cell = |f: &Face| match printing.figure(f) {
        Some(figure) => figure.page.to_string(),
        None => format!(
            "blank, side {}, row {}, column {}",
            if f.side == Side::A { "A" } else { "B" },
            f.row + 1,
            f.column_seen(printing.columns) + 1
        ),
    };
    grid.iter().map(|row| row.iter().flatten().map(cell).collect()).collect()
}

/// What a page on a flat side is called: "page 11, head down".
#[must_use]
pub fn page_name(figure: Figure) -> String {
    let head = match figure.head {
        Some(Direction::Up) => ", head up",
        Some(Direction::Right) => ", head right",
        Some(Direction::Down) => ", head down",
        Some(Direction::Left) => ", head left",
        None => "",
    };
    format!("page {}{head}", figure.page)
}

#[cfg(test)]
mod tests {
    use crate::app::{Action, Spoil, State, update};

    fn say(state: &State, at: f64) -> String {
        let state = update(state, Action::Moved(at)).0;
        state.fold_sentence(&state.bench().unwrap())
    }

    #[test]
    fn a_sixteen_is_told_from_flat_to_last_page() {
        let state = State::default();
        assert_eq!(say(&state, 0.0), "Take the corner and fold.");
        assert!(say(&state, 0.5).ends_with("come on top."));
        assert!(say(&state, 1.0).ends_with("are now on top."));
        assert_eq!(say(&state, 4.0), "The head and fore-edge bolts are slit.");
        assert_eq!(say(&state, 5.0), "Page 1 is in front. Turn the leaves.");
        assert_eq!(say(&state, 6.0), "Open at 2 and 3.");
        assert_eq!(say(&state, 13.0), "It reads 1, 2, 3 … 16, every page in order.");
    }

    /// The order is the misfold law's, worked out independently of this engine: leaf i stands where i XOR 1 is due.
    #[test]
    fn a_misfolded_section_is_told_as_it_reads() {
        let state = update(&State::default(), Action::Spoil(Spoil::Misfold(1, 1))).0;
        assert_eq!(
            say(&state, 13.0),
            "Fold 1 is made the other way here. It reads 3, 4, 1, 2, 7, 8, 5, 6, 11, 12, 9, 10, 15, 16, 13, 14."
        );
        assert!(say(&state, 6.0).ends_with("Open at 4 and 1, where 2 and 3 are due."));
    }
}
