// Compiles the program once and starts it, on the page and, when it asks, in workers.
"use strict";
(async () => {
  const here = document.currentScript.dataset;
  const address = (path) => new URL(path, document.baseURI).href;
  try {
    const module = await WebAssembly.compileStreaming(fetch(address(here.wasm)));
    // A new worker with the same program in it. See worker.js for what it does with messages.
    globalThis.backmarkWorker = () => {
      const worker = new Worker(address("worker.js"));
      worker.postMessage({ js: address(here.js), module });
      return worker;
    };
    await wasm_bindgen({ module_or_path: module });
  } catch (error) {
    console.error(error);
    backmarkStore.panic();
  }
})();
