//! A bound on the work of one explanation, counted in steps so that it is the same on every machine.

/// Steps for each thing that is kept: bounds the memory.
pub(super) const A_WAY: usize = 1000;

/// Steps left in this part of the search, and whether something was cut short.
#[derive(Debug)]
pub(super) struct Work {
    each: u64,
    in_all: u64,
    left: u64,
    /// Some part of the search did not look everywhere.
    pub cut: bool,
}

impl Work {
    /// So many steps for each part of the search, and twice as many for all parts together.
    pub(super) fn new(steps: u64) -> Self {
        Self { each: steps, in_all: 2 * steps, left: 0, cut: false }
    }

    /// A new part begins, with steps of its own.
    pub(super) fn begin(&mut self) {
        self.in_all += self.left;
        self.left = self.each.min(self.in_all);
        self.in_all -= self.left;
    }

    /// Takes `steps` off; false when none are left, and then the search is cut.
    pub(super) fn spend(&mut self, steps: usize) -> bool {
        match self.left.checked_sub(steps as u64) {
            Some(left) => {
                self.left = left;
                true
            }
            None => {
                self.left = 0;
                self.cut = true;
                false
            }
        }
    }
}
