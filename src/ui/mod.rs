//! The page.

use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;
use yew::prelude::*;

/// What a worker answers to a text.
#[wasm_bindgen]
pub fn worker_call(text: String) -> String {
    format!("The worker answers: {text}")
}

/// The page's one component.
#[component]
pub fn App() -> Html {
    let count = use_state(|| 0);
    let answer = use_state(String::new);
    let heard = answer.clone();
    use_effect_with((), move |()| {
        ask_worker("ready", move |text| heard.set(text))
    });
    let onclick = {
        let count = count.clone();
        Callback::from(move |_: MouseEvent| count.set(*count + 1))
    };
    html! {
        <main>
            <h1>{ "Backmark" }</h1>
            <button {onclick}>{ format!("Sheets: {}", *count) }</button>
            <p id="answer">{ (*answer).clone() }</p>
        </main>
    }
}

fn ask_worker(text: &str, hear: impl Fn(String) + 'static) {
    let global = js_sys::global();
    let get =
        |object: &JsValue, name: &str| js_sys::Reflect::get(object, &JsValue::from_str(name)).ok();
    let start =
        get(&global, "backmarkWorker").and_then(|start| start.dyn_into::<js_sys::Function>().ok());
    let Some(worker) = start.and_then(|start| start.call0(&global).ok()) else {
        return;
    };
    let hear = Closure::<dyn Fn(JsValue)>::new(move |event: JsValue| {
        let data = js_sys::Reflect::get(&event, &JsValue::from_str("data")).unwrap_or_default();
        hear(data.as_string().unwrap_or_default());
    });
    let _ = js_sys::Reflect::set(
        &worker,
        &JsValue::from_str("onmessage"),
        &hear.into_js_value(),
    );
    if let Some(post) =
        get(&worker, "postMessage").and_then(|post| post.dyn_into::<js_sys::Function>().ok())
    {
        let _ = post.call1(&worker, &JsValue::from_str(text));
    }
}

/// Mounts the page; in a worker there is none, and the program waits for [`worker_call`].
pub fn run() {
    let Some(document) = web_sys::window().and_then(|window| window.document()) else {
        return;
    };
    std::panic::set_hook(Box::new(|_| {
        let notice = web_sys::window()
            .and_then(|w| w.document())
            .and_then(|d| d.get_element_by_id("notice"));
        if let Some(notice) = notice {
            let _ = notice.remove_attribute("hidden");
        }
    }));
    if let Some(root) = document.get_element_by_id("app") {
        yew::Renderer::<App>::with_root(root).render();
    }
}
