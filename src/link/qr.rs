//! A link as a QR code (ISO/IEC 18004), to be pointed at with a phone.

use qrcodegen::{QrCode, QrCodeEcc, QrSegment, Version};
use thiserror::Error;

/// A QR code: its modules, without the quiet zone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Qr {
    /// Its version, 1 to 40.
    pub version: u8,
    /// Its rows from the top, each from the left; true is dark.
    pub rows: Vec<Vec<bool>>,
}

/// Why there is no QR code.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum NoQr {
    /// Longer than the largest code holds.
    #[error("This link has {signs} signs, more than a QR code holds. Hand it on as a link or as a file.")]
    TooLong {
        /// Its length in bytes.
        signs: usize,
    },
}

/// Modules of clear ground on every side: ISO/IEC 18004 asks for 4.
pub const QUIET_ZONE: u32 = 4;

impl Qr {
    /// The smallest code of error correction level M (it stays readable with about 15 % of it spoiled) that holds a text.
    ///
    /// # Errors
    /// If none holds it.
    pub fn of(text: &str) -> Result<Self, NoQr> {
        let too_long = NoQr::TooLong { signs: text.len() };
        // The crate goes through the text first, so what no code can hold is not shown to it.
        if text.len() > 7_089 {
            return Err(too_long);
        }
        let segments = QrSegment::make_segments(text);
        // Level M as it is: a raised level would make the code no smaller, and the sentence beside it wrong.
        let encoded =
            QrCode::encode_segments_advanced(&segments, QrCodeEcc::Medium, Version::MIN, Version::MAX, None, false);
        let code = encoded.map_err(|_| too_long)?;
        let rows = (0..code.size()).map(|y| (0..code.size()).map(|x| code.get_module(x, y)).collect()).collect();
        Ok(Self { version: code.version().value(), rows })
    }

    /// Modules along a side, without the quiet zone.
    #[must_use]
    pub fn modules(&self) -> u32 {
        self.rows.len() as u32
    }

    /// Modules along a side, with the quiet zone.
    #[must_use]
    pub fn side(&self) -> u32 {
        self.modules() + 2 * QUIET_ZONE
    }
}
