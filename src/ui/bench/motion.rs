//! Gliding from one value to another in a given time.

/// A glide in progress. Times in milliseconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Glide {
    from: f64,
    to: f64,
    began: Option<f64>,
    lasts: f64,
}

impl Glide {
    /// A glide that begins with the next frame.
    pub const fn new(from: f64, to: f64, lasts: f64) -> Self {
        Self { from, to, began: None, lasts }
    }

    /// Where it ends.
    pub const fn end(&self) -> f64 {
        self.to
    }

    /// The value at a time, and whether it has arrived.
    pub fn at(&mut self, now: f64) -> (f64, bool) {
        let began = *self.began.get_or_insert(now);
        let t = if self.lasts > 0.0 { crate::units::between((now - began) / self.lasts, 0.0, 1.0) } else { 1.0 };
        if t >= 1.0 {
            return (self.to, true);
        }
        // Ease in and out.
        let eased = t * t * (3.0 - 2.0 * t);
        (self.from + (self.to - self.from) * eased, false)
    }
}

#[cfg(test)]
mod tests {
    use super::Glide;

    #[test]
    fn a_glide_begins_and_ends_where_it_should() {
        let mut glide = Glide::new(1.0, 2.0, 400.0);
        assert_eq!(glide.at(1000.0), (1.0, false));
        assert_eq!(glide.at(1200.0), (1.5, false));
        assert_eq!(glide.at(1400.0), (2.0, true));
        assert_eq!(Glide::new(3.0, 4.0, 0.0).at(5.0), (4.0, true));
    }
}
