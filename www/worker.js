// The core in a worker. Each message is [number, line]; the answer is [number, answer]. Lines that come before the
// program is ready wait.
"use strict";
importScripts("answers.js");
const ready = wasm_bindgen({ module_or_path: "answers_bg.wasm" });
self.onmessage = async ({ data: [number, line] }) => {
  await ready;
  self.postMessage([number, wasm_bindgen.answer(line)]);
};
