// Compiles the program and starts it.
"use strict";
(async () => {
  const here = document.currentScript.dataset;
  const address = (path) => new URL(path, document.baseURI).href;
  if (top !== self) document.documentElement.dataset.framed = "";
  try {
    const module = await WebAssembly.compileStreaming(fetch(address(here.wasm)));
    await wasm_bindgen({ module_or_path: module });
  } catch (error) {
    console.error(error);
    backmarkStore.panic();
  }
})();
