// A small worker beside the engine's: it unpacks and compiles Python's machine code while the other is still being
// read and then unpacks Python's memory.

import { Damaged, ready, unpack } from "./runtime/codec.js";

self.onmessage = async ({ data: { part, about, texts } }) => {
  try {
    await ready();
    const wasm = unpack(part, about, texts);
    self.postMessage({ module: await WebAssembly.compile(wasm), wasm }, [wasm.buffer]);
  } catch (error) {
    self.postMessage({ damaged: error instanceof Damaged ? error.part : null, detail: String(error) });
  }
};
