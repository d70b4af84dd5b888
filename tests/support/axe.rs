//! The accessibility checker.

use fantoccini::Client;
use serde_json::Value;

/// Each violation as its rule, its help text and the elements it was found on.
pub async fn violations(client: &Client) -> Vec<String> {
    let file = xtask::tools::axe().expect("axe-core is missing: `cargo xtask test` installs it");
    let source = std::fs::read_to_string(file).unwrap();
    client.execute(&source, Vec::new()).await.unwrap();
    let run = "const done = arguments[arguments.length - 1];
        axe.run().then((found) => done(found.violations), (error) => done([{ id: 'axe failed', help: String(error), nodes: [] }]))";
    let found = client.execute_async(run, Vec::new()).await.unwrap();
    found.as_array().unwrap().iter().map(readable).collect()
}

fn readable(violation: &Value) -> String {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let nodes = violation["nodes"].as_array().into_iter().flatten();
    let places: Vec<String> =
        nodes.map(|node| format!("{} {}", node["target"], text(&node["failureSummary"]).replace('\n', " "))).collect();
    format!("{}: {} [{}]", text(&violation["id"]), text(&violation["help"]), places.join("; "))
}
