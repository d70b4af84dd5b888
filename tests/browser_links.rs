//! Links in a browser.
