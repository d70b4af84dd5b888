//! Trade words.
