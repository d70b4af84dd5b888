//! marks
