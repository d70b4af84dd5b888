//! The built page in a real browser. `cargo xtask test` builds the page and runs these; with a page in dist/ they
//! also run alone: `cargo test --test browser`.
#![cfg(not(target_arch = "wasm32"))]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test ends at the first surprise")]
#![allow(clippy::disallowed_methods, reason = "waiting for a browser needs a clock")]

mod support;

use support::chrome::Setup;
use support::page::Page;

#[tokio::test]
async fn a_first_visit_is_clean_and_small() {
    let page = Page::open(Setup::default()).await;
    page.wait_for_requests_to_settle().await;

    let asked = page.site.asked();
    let counted = xtask::size::first_visit(&xtask::dist()).unwrap();
    println!("{}", xtask::size::table(&counted));
    for path in &asked {
        let name = path.trim_start_matches('/');
        let known = name.is_empty() || counted.iter().any(|file| file.name == name);
        assert!(known, "the page asked for {path}, which the size of a first visit leaves out");
    }
    xtask::size::held(&counted).unwrap();

    let strangers = page.requests_to_strangers().await;
    assert!(strangers.is_empty(), "the page asked elsewhere: {strangers:?}");
    assert_eq!(page.violations().await, Vec::<String>::new(), "axe");
    page.screenshot("first-visit").await;
    // A refusal by the content security policy is an error in this log, too.
    assert_eq!(page.console_errors().await, Vec::<String>::new(), "console");
}
