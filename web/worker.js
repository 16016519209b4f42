// The worker owns Python. It gets the page's data blocks as text, starts Python from them, and answers calls.

import "./pack/runtime/alone.js";
import { loadPyodide } from "pyodide/pyodide.mjs";
import createPyodideModule from "pyodide/pyodide.asm.mjs";
import { CODES, PROBE_OPS, STAGES, problem } from "./protocol.js";
import { Damaged, ready, unpack } from "./pack/runtime/codec.js";
import { openHeap } from "./pack/runtime/heap.js";
import { mount } from "./pack/runtime/mount.js";
import { ENVIRONMENT } from "./pack/runtime/start.js";

const NOWHERE = "https://foamwright.invalid/";

// When each step was done, in milliseconds of the worker's own life; the benchmark prints them.
const marks = {};
const mark = (name) => {
  marks[name] = Math.round(performance.now());
};

let about = null;
let python = null;
let answer = null;
let probing = false;
const trampoline = { slot: 0, fresh: 0, restored: null };

// Parts arrive in any order, and before or after they are asked for.
const texts = new Map();
const waiting = new Map();

function arrive(part, blocks) {
  texts.set(part, blocks);
  waiting.get(part)?.();
}

async function part(name) {
  if (!texts.has(name)) await new Promise((resolve) => waiting.set(name, resolve));
  return partNow(name);
}

function partNow(name) {
  const bytes = unpack(name, about[name], texts.get(name));
  texts.set(name, null);
  return bytes;
}

// Pyodide would compile its module when it comes to it; this one is under way already.
function useModule(module) {
  WebAssembly.instantiateStreaming = async (_, imports) => ({
    module: await module,
    instance: new WebAssembly.Instance(await module, imports),
  });
}

function progress(stage) {
  self.postMessage({ progress: { stage, of: STAGES } });
}

// Python's memory is laid before Pyodide looks at it; the trampoline's place is noted before that overwrites it.
function factory(heap) {
  return async (settings) => {
    const module = await createPyodideModule(settings);
    mark("instantiated");
    progress("restore");
    trampoline.slot = (module.__PyRuntime + module.HEAP32[module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET >> 2]) >> 2;
    trampoline.fresh = module.HEAP32[trampoline.slot];
    heap?.restore(module);
    mark("restored");
    return module;
  };
}

async function start({ snapshot, probe, parts }) {
  about = parts;
  probing = probe;
  mark("started");
  progress("unpack");
  await ready();
  mark("decoder");
  const wasm = await part("wasm");
  mark("wasm");
  progress("compile");
  const module = WebAssembly.compile(wasm);
  module.then(
    () => mark("compiled"),
    () => {},
  );
  useModule(module);
  const index = JSON.parse(new TextDecoder().decode(await part("index")));
  for (const name of Object.keys(index)) {
    if (!texts.has(name)) await new Promise((resolve) => waiting.set(name, resolve));
  }
  const options = {
    indexURL: NOWHERE,
    packageBaseUrl: NOWHERE,
    lockFileContents: { info: about.release, packages: {} },
    env: { ...ENVIRONMENT },
    stdout: () => {},
    stderr: (line) => console.warn(line),
    fsInit: async (FS) => {
      mark("runtime");
      mount(FS, index, (name) => {
        try {
          return partNow(name);
        } catch (error) {
          // Python is told of an I/O error; any other exception in here would be its end.
          console.warn(error);
          throw new FS.ErrnoError(29);
        }
      });
      mark("mounted");
    },
  };
  const packed = snapshot ? await part("heap") : null;
  mark("unpacked");
  // Pyodide only warns of a module that does not compile, and then never settles.
  await module;
  const heap = packed && openHeap(packed, wasm);
  if (heap) options._loadSnapshot = heap.header;
  python = await loadPyodide({ ...options, createPyodideModule: factory(heap) });
  if (heap) {
    trampoline.restored = python._module.HEAP32[trampoline.slot];
    python._module.HEAP32[trampoline.slot] = trampoline.fresh;
    python.pyimport("random").seed();
  }
  answer = python.pyimport("foamwright.page").call;
  mark("ready");
  progress("ready");
  self.postMessage({ ready: { snapshot, marks } });
}

function probe(op, args) {
  if (op === "probe_python") {
    const result = python.runPython(args.code);
    return result?.toJs ? result.toJs() : result;
  }
  return { trampoline: { ...trampoline, now: python._module.HEAP32[trampoline.slot] }, heap: python._module.HEAPU8.length };
}

function reply(id, op, args) {
  try {
    if (PROBE_OPS.includes(op) && probing) return { id, ok: true, value: probe(op, args) };
    return { id, ...JSON.parse(answer(op, JSON.stringify(args ?? {}))) };
  } catch (error) {
    const code = error?.name === "PythonError" ? CODES.fault : CODES.dead;
    return { id, ok: false, problem: problem(code, { detail: String(error?.message ?? error) }) };
  }
}

self.onmessage = ({ data }) => {
  if (data.part) arrive(data.part, data.texts);
  else if (data.start) start(data.start).catch(fail);
  else self.postMessage(reply(data.id, data.op, data.args));
};

function fail(error) {
  const given =
    error instanceof Damaged
      ? problem(CODES.damaged, { part: error.part })
      : problem(CODES.failed, { detail: `${error}\n${error?.stack ?? ""}`.trim() });
  self.postMessage({ failed: given });
}
