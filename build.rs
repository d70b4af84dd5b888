//! Lets the linker keep, in the page's program, the places that name functions and data. `cargo xtask finish` needs
//! them to take later parts out of it.

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    if std::env::var("CARGO_CFG_TARGET_FAMILY").is_ok_and(|family| family == "wasm") {
        println!("cargo::rustc-link-arg-bin=backmark=--emit-relocs");
    }
}
