// The program in a worker. The first message brings it; each later one is a text, answered with a text by the
// program's `worker_call`. Texts that come before the program is ready wait.
"use strict";
const waiting = [];
self.onmessage = async ({ data }) => {
  if (!data.module) {
    waiting.push(data);
    return;
  }
  importScripts(data.js);
  await wasm_bindgen({ module_or_path: data.module });
  self.onmessage = (message) => self.postMessage(wasm_bindgen.worker_call(message.data));
  for (const text of waiting) self.postMessage(wasm_bindgen.worker_call(text));
};
