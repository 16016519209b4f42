// Imported first: a worker that reaches nothing outside itself.

import { EMPTY_ZIP } from "./start.js";

// Pyodide turns classic workers away by calling importScripts, and a module worker cannot be made from this page.
// Nothing here is fetched by importScripts, so it may as well refuse.
self.importScripts = () => {
  throw new Error("nothing is imported");
};

// Pyodide asks for its module, which it is handed in another way, and for its library, which stands empty. zstddec
// asks for its own module by a data address. No Response is made of the bytes: in WebKit it would be slow to read.
self.fetch = async (address) => {
  if (/\.wasm$|python_stdlib\.zip$/.test(address)) return answer(EMPTY_ZIP);
  const [, base64] = /^data:application\/wasm;base64,(.*)$/.exec(address) ?? [];
  if (base64) return answer(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)));
  throw new Error(`nothing is fetched: ${address}`);
};

const answer = (bytes) => ({ ok: true, arrayBuffer: async () => bytes.buffer });
