//! Something large that is the same only if it is the very same.

use std::ops::Deref;
use std::rc::Rc;

/// A shared value that compares by its address: cheap, and right for what is made anew whenever it changes.
#[derive(Debug)]
pub struct Shared<T>(Rc<T>);

impl<T> Shared<T> {
    /// Shares a value.
    pub fn new(value: T) -> Self {
        Self(Rc::new(value))
    }
}

impl<T> Clone for Shared<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> PartialEq for Shared<T> {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.0, &other.0)
    }
}

impl<T> Deref for Shared<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}
