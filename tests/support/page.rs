//! The page in a browser, with the gestures of a reader.

use super::chrome::{Chrome, Setup};
use super::server::Site;
use super::{axe, until};
use fantoccini::actions::{
    Actions, InputSource, KeyAction, KeyActions, MOUSE_BUTTON_LEFT, MouseActions, PointerAction, TouchActions,
};
use fantoccini::elements::Element;
use fantoccini::key::Key;
use fantoccini::{Client, Locator};
use serde_json::{Value, json};
use std::path::Path;
use std::time::Duration;

/// What points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Pointer {
    /// A mouse with its left button.
    Mouse,
    /// One finger.
    Touch,
}

/// The page, its browser and its server.
pub struct Page {
    /// The browser.
    pub chrome: Chrome,
    /// The server.
    pub site: Site,
    setup: Setup,
}

impl Page {
    /// Starts a server and a browser, and opens the page in it.
    pub async fn open(setup: Setup) -> Page {
        Page::open_at(Site::start(), setup).await
    }

    /// The same at a server that is there already, so that storage is shared if the profile is.
    pub async fn open_at(site: Site, setup: Setup) -> Page {
        let chrome = Chrome::start(&setup).await;
        let page = Page { chrome, site, setup };
        page.visit(&page.setup.path).await;
        page
    }

    /// Opens a path below the site's address and waits for the program.
    pub async fn visit(&self, path: &str) {
        self.client().goto(&format!("{}{path}", self.site.address())).await.unwrap();
        self.started().await;
    }

    /// Loads the page again, as the reader's key would.
    pub async fn reload(&self) {
        self.client().refresh().await.unwrap();
        self.started().await;
    }

    /// Kills the browser, starts it with the same memory and opens the page again, at the same address.
    pub async fn after_a_crash(self) -> Page {
        let Page { chrome, site, setup } = self;
        let chrome = chrome.restart(&setup).await;
        let page = Page { chrome, site, setup };
        page.visit(&page.setup.path).await;
        page
    }

    async fn started(&self) {
        self.wait_until("!document.querySelector('#loading') || !document.querySelector('#notice').hidden").await;
        assert!(self.eval("return document.querySelector('#notice').hidden").await == json!(true), "the page gave up");
    }

    /// The session, for whatever has no helper here.
    pub fn client(&self) -> &Client {
        &self.chrome.client
    }

    /// The value a function body returns: `return document.title`.
    pub async fn eval(&self, body: &str) -> Value {
        self.client().execute(body, Vec::new()).await.unwrap_or_else(|error| panic!("{body}: {error}"))
    }

    /// Waits for an expression to be true.
    pub async fn wait_until(&self, condition: &str) {
        let body = format!("return !!({condition})");
        until(condition, async || (self.eval(&body).await == json!(true)).then_some(())).await;
    }

    /// Waits for an element to contain a text.
    pub async fn wait_for_text(&self, css: &str, text: &str) {
        let condition =
            format!("(document.querySelector({})?.textContent ?? '').includes({})", json!(css), json!(text));
        self.wait_until(&condition).await;
    }

    /// Waits until nothing has been asked of the server for half a second.
    pub async fn wait_for_requests_to_settle(&self) {
        let mut before = 0;
        until("an idle server", async || {
            tokio::time::sleep(Duration::from_millis(500)).await;
            let now = self.site.asked().len();
            (std::mem::replace(&mut before, now) == now).then_some(())
        })
        .await;
    }

    /// The element, once it is there.
    pub async fn find(&self, css: &str) -> Element {
        until(css, async || self.client().find(Locator::Css(css)).await.ok()).await
    }

    /// How many elements fit now.
    pub async fn count(&self, css: &str) -> usize {
        self.client().find_all(Locator::Css(css)).await.unwrap().len()
    }

    /// The text of an element as it is shown.
    pub async fn text(&self, css: &str) -> String {
        self.find(css).await.text().await.unwrap()
    }

    /// The value of a field.
    pub async fn value(&self, css: &str) -> String {
        self.find(css).await.prop("value").await.unwrap().unwrap_or_default()
    }

    /// Scrolls to an element and clicks its middle; fails if something else lies on it.
    pub async fn click(&self, css: &str) {
        until(&format!("a click on {css}"), async || {
            let element = self.client().find(Locator::Css(css)).await.ok()?;
            element.click().await.ok()
        })
        .await;
    }

    /// Sets the focus without a click.
    pub async fn focus(&self, css: &str) {
        self.find(css).await;
        self.eval(&format!("document.querySelector({}).focus()", json!(css))).await;
    }

    /// Types a text at the focus.
    pub async fn type_text(&self, text: &str) {
        self.keys(text.chars()).await;
    }

    /// Replaces what a field holds, as a reader would.
    pub async fn fill(&self, css: &str, text: &str) {
        self.focus(css).await;
        self.chord(&[char::from(Key::Control), 'a']).await;
        self.press(Key::Delete).await;
        self.type_text(text).await;
    }

    /// Presses and releases one key at the focus.
    pub async fn press(&self, key: Key) {
        self.keys([char::from(key)]).await;
    }

    /// Holds all keys down in order and releases them backwards: `[Key::Shift.into(), Key::Tab.into()]`.
    pub async fn chord(&self, keys: &[char]) {
        let down = keys.iter().map(|value| KeyAction::Down { value: *value });
        let up = keys.iter().rev().map(|value| KeyAction::Up { value: *value });
        self.key_actions(down.chain(up)).await;
    }

    async fn keys(&self, keys: impl IntoIterator<Item = char>) {
        let both = |value| [KeyAction::Down { value }, KeyAction::Up { value }];
        self.key_actions(keys.into_iter().flat_map(both)).await;
    }

    async fn key_actions(&self, actions: impl IntoIterator<Item = KeyAction>) {
        let keys = actions.into_iter().fold(KeyActions::new("keys".to_owned()), KeyActions::then);
        self.client().perform_actions(keys).await.unwrap();
    }

    /// The middle of an element in the viewport, after scrolling to it.
    pub async fn middle(&self, css: &str) -> (f64, f64) {
        self.find(css).await;
        let body = format!(
            "const e = document.querySelector({}); e.scrollIntoView({{ block: 'nearest', inline: 'nearest' }});
             const r = e.getBoundingClientRect(); return [r.x + r.width / 2, r.y + r.height / 2]",
            json!(css)
        );
        let middle = self.eval(&body).await;
        (middle[0].as_f64().unwrap(), middle[1].as_f64().unwrap())
    }

    /// Presses at a point of the viewport and releases at once.
    pub async fn tap(&self, pointer: Pointer, at: (f64, f64)) {
        self.pointer_path(pointer, &[at]).await;
    }

    /// Drags from one point of the viewport to another in twenty steps.
    pub async fn drag(&self, pointer: Pointer, from: (f64, f64), to: (f64, f64)) {
        self.pointer_path(pointer, &[from, to]).await;
    }

    /// Drags the middle of one element to the middle of another. Both have to fit into the viewport at once.
    pub async fn drag_onto(&self, pointer: Pointer, from: &str, to: &str) {
        self.middle(from).await;
        let to = self.middle(to).await;
        let from = self.middle(from).await;
        self.drag(pointer, from, to).await;
    }

    /// Presses at the first point, goes through the others and releases at the last.
    pub async fn pointer_path(&self, pointer: Pointer, points: &[(f64, f64)]) {
        const STEPS: u32 = 20;
        let to = |(x, y), millis| PointerAction::MoveTo { duration: Some(Duration::from_millis(millis)), x, y };
        let mut steps = vec![to(points[0], 0), PointerAction::Down { button: MOUSE_BUTTON_LEFT }];
        // The driver makes one event of a move, however long it takes.
        for leg in points.windows(2) {
            for step in 1..=STEPS {
                let share = f64::from(step) / f64::from(STEPS);
                let between = |from: f64, to: f64| (from + (to - from) * share).round();
                let at = (between(leg[0].0, leg[1].0), between(leg[0].1, leg[1].1));
                steps.push(to(at, 8));
            }
        }
        steps.push(PointerAction::Up { button: MOUSE_BUTTON_LEFT });
        self.pointer_actions(pointer, steps).await;
    }

    /// Any steps of a pointer, for what the helpers above do not do.
    pub async fn pointer_actions(&self, pointer: Pointer, steps: Vec<PointerAction>) {
        let actions: Actions = match pointer {
            Pointer::Mouse => steps.into_iter().fold(MouseActions::new("mouse".to_owned()), MouseActions::then).into(),
            Pointer::Touch => steps.into_iter().fold(TouchActions::new("touch".to_owned()), TouchActions::then).into(),
        };
        self.client().perform_actions(actions).await.unwrap();
    }

    /// What axe finds wrong with the page as it is now.
    pub async fn violations(&self) -> Vec<String> {
        axe::violations(self.client()).await
    }

    /// Errors in the console since the last call; a refusal by the content security policy is among them.
    pub async fn console_errors(&self) -> Vec<String> {
        let entries = self.chrome.console().await;
        entries.into_iter().filter(|(level, _)| level == "SEVERE").map(|(_, message)| message).collect()
    }

    /// Requests since the last call that went to another origin than the page's.
    pub async fn requests_to_strangers(&self) -> Vec<String> {
        let address = self.site.address();
        let ours = |url: &String| url.starts_with(&address) || url.starts_with("data:") || url.starts_with("blob:");
        let browsers_own = |url: &String| url.starts_with("chrome:") || url == "about:blank";
        let requests = self.chrome.requests().await;
        requests.into_iter().filter(|url| !ours(url) && !browsers_own(url)).collect()
    }

    /// Whether the focus is on the element.
    pub async fn has_focus(&self, css: &str) -> bool {
        let body = format!("return document.activeElement?.matches({}) ?? false", json!(css));
        self.eval(&body).await == json!(true)
    }

    /// How far the page reaches beyond the viewport's right edge, in CSS pixels.
    pub async fn overflow(&self) -> i64 {
        let body = "const root = document.documentElement; return root.scrollWidth - root.clientWidth";
        self.eval(body).await.as_i64().unwrap()
    }

    /// Gives a file input a file.
    pub async fn upload(&self, css: &str, file: &Path) {
        let file = file.canonicalize().unwrap();
        self.find(css).await.send_keys(&file.to_string_lossy()).await.unwrap();
    }

    /// Saves downloads in a folder from now on.
    pub async fn downloads_to(&self, folder: &Path) {
        std::fs::create_dir_all(folder).unwrap();
        let folder = folder.canonicalize().unwrap();
        let params = json!({ "behavior": "allow", "downloadPath": folder });
        self.chrome.cdp("Browser.setDownloadBehavior", params).await;
    }

    /// What the reader has asked for: `[("prefers-color-scheme", "dark"), ("prefers-reduced-motion", "reduce")]`.
    pub async fn preferences(&self, features: &[(&str, &str)]) {
        let features: Vec<Value> =
            features.iter().map(|(name, value)| json!({ "name": name, "value": value })).collect();
        self.chrome.cdp("Emulation.setEmulatedMedia", json!({ "features": features })).await;
    }

    /// Saves what the viewport shows as shots/NAME.png.
    pub async fn screenshot(&self, name: &str) {
        let folder = xtask::root().join("shots");
        std::fs::create_dir_all(&folder).unwrap();
        let png = self.client().screenshot().await.unwrap();
        std::fs::write(folder.join(format!("{name}.png")), png).unwrap();
    }
}
