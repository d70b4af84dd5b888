// Fetches the later parts of the program. Not a file of the page: the build puts it in front of the script that
// wasm-bindgen writes, with the files of each part in place of PARTS; see xtask/src/split.rs.
const backmarkLater = ((parts) => {
  // "backmark-0123_bg.wasm" and its later parts, "backmark-0123_gather.wasm", lie beside "backmark-0123.js".
  const stem = document.currentScript.src.replace(/\.js$/, "_");
  const once = (make) => {
    let got = null;
    // What failed is tried again the next time.
    return () => (got ??= make().catch((error) => { got = null; throw error; }));
  };
  // What the first file exports. In a debug build the parts ask for one more number, which may be any.
  const shared = () => new Proxy(wasm_bindgen.initSync(), { get: (exports, name) => exports[name] ?? 0 });
  // Parts that bring style sheets, and which. Each sheet is fetched once, whoever brings it first.
  const styled = {
    class: ["gather", "cells", "class", "answers", "practise", "paper"], dialogs: ["dialogs"], gather: ["gather"], job: ["job"],
    links: ["links"], more: ["cells", "more"], trace: ["trace"], words: ["words"],
  };
  const sheets = {};
  const style = (name) => (sheets[name] ??= once(() => new Promise((done, fail) => {
    const link = document.createElement("link");
    link.rel = "stylesheet";
    link.href = new URL(`${name}.css`, document.baseURI).href;
    link.onload = done;
    link.onerror = () => { link.remove(); fail(new Error(`${name}.css could not be fetched`)); };
    document.head.append(link);
  })))();
  // Rooms are fetched together with the words of their sentences, which start before them.
  const rooms = ["class", "gather", "job", "trace"];
  const all = (name, names) => rooms.includes(name) ? [...parts.words, ...names] : names;
  const files = {};
  const load = (names) => async () => {
    for (const name of names) {
      files[name] ??= {
        dressed: once(() => Promise.all((styled[name] ?? []).map(style))),
        compiled: once(() => WebAssembly.compileStreaming(fetch(`${stem}${name}.wasm`))),
        started: once(async () =>
          WebAssembly.instantiate(await files[name].compiled(), { __wasm_split: shared() })),
      };
    }
    // Fetched together; then the last one starts, which may refer to all others.
    await Promise.all(names.flatMap((name) => [files[name].compiled(), files[name].dressed()]));
    for (const name of names) await files[name].started();
  };
  const loader = (load) => async (callback, data) => {
    const done = await load().then(() => true, (error) => { console.error(error); return false; });
    wasm_bindgen.initSync().__indirect_function_table.get(callback)(data, done);
  };
  return Object.fromEntries(
    Object.entries(parts).map(([name, names]) => [`__wasm_split_load_${name}`, loader(load(all(name, names)))]));
})(PARTS);
