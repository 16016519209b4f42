// node check.mjs PAGE [plainly]: start Python from what stands in the packed page, and if asked without its snapshot too.

import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { startPython } from "./python.mjs";
import { ready, unpack } from "./runtime/codec.js";
import { openHeap } from "./runtime/heap.js";

const page = readFileSync(process.argv[2], "utf8");
const about = JSON.parse(/<script type="application\/json" id="parts">(.*?)<\/script>/s.exec(page)[1]);
const texts = {};
for (const [, part, text] of page.matchAll(/<script type="text\/plain" data-part="([^"]+)">([^<]*)<\/script>/g)) {
  (texts[part] ??= []).push(text);
}
await ready();
const part = (name) => unpack(name, about[name], texts[name]);
const scratch = mkdtempSync(join(tmpdir(), "foamwright-"));
const index = JSON.parse(new TextDecoder().decode(part("index")));

async function hello(more) {
  const begun = performance.now();
  const python = await startPython(scratch, [{ index, bytesOf: part }], more);
  const answer = JSON.parse(python.pyimport("foamwright.page").call("hello", '{"languages": ["en"]}'));
  if (!answer.ok || !answer.value.version) throw new Error(`hello was answered by ${JSON.stringify(answer)}`);
  return `${((performance.now() - begun) / 1000).toFixed(2)} s`;
}

try {
  const heap = openHeap(part("heap"), part("wasm"));
  const { default: create } = await import("pyodide/pyodide.asm.mjs");
  const createPyodideModule = async (settings) => {
    const module = await create(settings);
    heap.restore(module);
    return module;
  };
  const restored = await hello({ createPyodideModule, _loadSnapshot: heap.header });
  console.log(`restores and answers in ${restored}${process.argv[3] ? `; without the snapshot in ${await hello({})}` : ""}`);
} finally {
  rmSync(scratch, { recursive: true });
}
