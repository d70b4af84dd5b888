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
    // A frame that is a stranger even to its own site is given nothing by it.
    if (top !== self && origin === "null") document.querySelector("#notice p").textContent = "This frame lets Backmark load nothing: its sandbox needs allow-same-origin.";
    backmarkStore.panic();
  }
})();
