// The page's own Python, started in Node from the same files: for compiling and for taking the snapshot.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { ENVIRONMENT, EMPTY_ZIP } from "./runtime/start.js";
import { mount } from "./runtime/mount.js";

export const PYODIDE = fileURLToPath(new URL("../node_modules/pyodide/", import.meta.url));

// Node would print the whole of a minified line before the reason.
process.on("uncaughtException", (error) => {
  console.error(error?.message ?? error);
  process.exit(1);
});

// A snapshot must not hold an index into the function table of the engine that made it. Pyodide leaves its call
// trampoline out where it sees this user agent, and the worker writes its own index in after the restore.
export function withoutTrampoline() {
  Object.defineProperty(globalThis, "navigator", { value: { userAgent: "iPhone" }, configurable: true });
}

export function readTree(folder) {
  const index = JSON.parse(readFileSync(join(folder, "index.json"), "utf8"));
  return { index, bytesOf: (part) => new Uint8Array(readFileSync(join(folder, `${part}.bin`))) };
}

export async function startPython(scratch, trees, more = {}) {
  const { loadPyodide } = await import("pyodide/pyodide.mjs");
  const { default: createPyodideModule } = await import("pyodide/pyodide.asm.mjs");
  const stdLibURL = join(scratch, "empty.zip");
  writeFileSync(stdLibURL, EMPTY_ZIP);
  return loadPyodide({
    indexURL: PYODIDE,
    stdLibURL,
    createPyodideModule,
    env: { ...ENVIRONMENT },
    fsInit: async (FS) => {
      for (const { index, bytesOf } of trees) mount(FS, index, bytesOf);
    },
    ...more,
  });
}
