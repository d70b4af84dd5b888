//! gather
