//! Keeping the job in the browser. The work is done in `www/store.js`, which also serves when the program is dead.

use js_sys::{JsString, Promise};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

#[wasm_bindgen]
extern "C" {
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = load)]
    fn store_load() -> Promise;
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = save)]
    fn store_save(text: &str) -> Promise;
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = noted)]
    fn store_noted(key: &str) -> Promise;
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = note)]
    fn store_note(key: &str, text: &str) -> Promise;
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = setAside)]
    fn store_set_aside(text: &str) -> Promise;
    /// Hands out a file.
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = handOut)]
    pub fn hand_out(name: &str, text: &str);
    /// Shows the notice that the program has stopped.
    #[wasm_bindgen(js_namespace = backmarkStore, js_name = panic)]
    pub fn panic();
}

/// The text that was kept last, if there is one.
///
/// # Errors
/// When the browser denies its store, in its own words.
pub async fn load() -> Result<Option<String>, String> {
    let kept = JsFuture::from(store_load()).await.map_err(|e| words(&e))?;
    Ok(kept.dyn_into::<JsString>().ok().map(String::from))
}

/// Keeps a text. It is on the disk when this returns.
///
/// # Errors
/// When the browser denies or breaks off, or another window has written since.
pub async fn save(text: &str) -> Result<(), String> {
    JsFuture::from(store_save(text)).await.map(|_| ()).map_err(|e| words(&e))
}

/// The text that was kept under a key beside the job, if there is one.
///
/// # Errors
/// When the browser denies its store, in its own words.
pub async fn noted(key: &str) -> Result<Option<String>, String> {
    let kept = JsFuture::from(store_noted(key)).await.map_err(|e| words(&e))?;
    Ok(kept.dyn_into::<JsString>().ok().map(String::from))
}

/// Keeps a text under a key beside the job. It is on the disk when this returns.
///
/// # Errors
/// When the browser denies or breaks off, or another window has written since it was last read here.
pub async fn note(key: &str, text: &str) -> Result<(), String> {
    JsFuture::from(store_note(key, text)).await.map(|_| ()).map_err(|e| words(&e))
}

/// Puts a text that can't be read where nothing overwrites it.
///
/// # Errors
/// When the browser denies or breaks off.
pub async fn set_aside(text: &str) -> Result<(), String> {
    JsFuture::from(store_set_aside(text)).await.map(|_| ()).map_err(|e| words(&e))
}

fn words(error: &JsValue) -> String {
    let message = js_sys::Reflect::get(error, &"message".into()).ok().and_then(|m| m.as_string());
    message.unwrap_or_else(|| "the browser gave no reason".into())
}
