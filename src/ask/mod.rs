//! ask
