//! fold
