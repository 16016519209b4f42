// node snapshot.mjs TREE BYTECODE OUT: start the page's Python, import and warm everything, and keep its memory.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { PYODIDE, readTree, startPython, withoutTrampoline } from "./python.mjs";
import { packHeap } from "./runtime/heap.js";

const [tree, bytecode, out] = process.argv.slice(2);

// Free memory still holds what was there; zeros pack to nothing.
function zeroFreeMemory(module) {
  const end = module._sbrk(0);
  const held = [];
  for (let size = 1 << 20; size >= 16; size = size > 64 ? size >> 1 : size - 8) {
    for (;;) {
      const at = module._malloc(size) >>> 0;
      if (at + size > end) {
        module._free(at);
        break;
      }
      module.HEAPU8.fill(0, at, at + size);
      held.push(at);
    }
  }
  for (const at of held) module._free(at);
}

withoutTrampoline();
const python = await startPython(join(tree, ".."), [readTree(tree), readTree(bytecode)], { _makeSnapshot: true });
python.FS.mkdirTree("/pack");
python.FS.writeFile("/pack/warm_page.py", readFileSync(new URL("warm_page.py", import.meta.url)));
const path = python.pyimport("sys").path;
path.append("/pack");
const warm = python.pyimport("warm_page");
const modules = warm.warm();
path.remove("/pack");
for (const proxy of [warm, path]) proxy.destroy();
zeroFreeMemory(python._module);

const snapshot = python.makeMemorySnapshot();
const packed = packHeap(snapshot, new Uint8Array(readFileSync(join(PYODIDE, "pyodide.asm.wasm"))));
writeFileSync(out, packed);
console.log(JSON.stringify({ modules, heap: snapshot.length, kept: packed.length }));
