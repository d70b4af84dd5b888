//! Paper before it is folded: lengths, sheet sizes by name, stocks, lays, and what is trimmed off.

mod length;
mod press;
mod size;
mod stock;
mod trims;
mod typed;

pub use length::Length;
pub use press::{Edge, Press};
pub use size::{Family, NamedSize, SIZES, size_name};
pub use stock::{BULKS, GRAMMAGES, Grain, Stock};
pub use trims::{Margins, Trims};
pub use typed::{LONGEST, NotALength, Unit};
