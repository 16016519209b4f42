// The worker owns Python. It gets the page's data blocks as text, starts Python from them, and answers calls.

import "./pack/runtime/classic.js";
import { loadPyodide } from "pyodide/pyodide.mjs";
import createPyodideModule from "pyodide/pyodide.asm.mjs";
import { CODES, PROBE_OPS, STAGES, problem } from "./protocol.js";
import { Damaged, ready, unpack } from "./pack/runtime/codec.js";
import { xorData } from "./pack/runtime/heap.js";
import { mount } from "./pack/runtime/mount.js";
import { EMPTY_ZIP, ENVIRONMENT } from "./pack/runtime/start.js";

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
  const blocks = texts.get(name);
  texts.set(name, null);
  return unpack(name, about[name], blocks);
}

// Pyodide asks for two files by address. The module it gets is being compiled already, while the heap is unpacked.
function answerFetches(module) {
  self.fetch = async (address) => {
    if (/\.wasm$|python_stdlib\.zip$/.test(address)) return new Response(EMPTY_ZIP);
    throw new Error(`nothing is fetched: ${address}`);
  };
  WebAssembly.instantiateStreaming = async (_, imports) => ({
    module: await module,
    instance: await WebAssembly.instantiate(await module, imports),
  });
}

function progress(stage) {
  self.postMessage({ progress: { stage, of: STAGES } });
}

// The heap of the module may be smaller than the snapshot, and its trampoline's place is noted before the restore
// overwrites it.
function factory(room) {
  return async (settings) => {
    const module = await createPyodideModule(settings);
    if (room > module.HEAPU8.length) module._emscripten_resize_heap(room);
    trampoline.slot = (module.__PyRuntime + module.HEAP32[module.__PyEM_EMSCRIPTEN_TRAMPOLINE_OFFSET >> 2]) >> 2;
    trampoline.fresh = module.HEAP32[trampoline.slot];
    mark("instantiated");
    progress("restore");
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
  // Awaited inside Pyodide, which only warns of a failure there and then never settles.
  const uncompiled = new Promise((_, reject) => module.catch(reject));
  uncompiled.catch(() => {});
  module.then(() => mark("compiled"), () => {});
  answerFetches(module);
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
      mount(FS, index, partNow);
      mark("mounted");
    },
  };
  if (snapshot) {
    const heap = await part("heap");
    const heapAt = new Uint32Array(heap.buffer, heap.byteOffset, 2)[1];
    mark("heap");
    xorData(heap, wasm, heapAt);
    mark("xor");
    options._loadSnapshot = heap;
    python = await Promise.race([uncompiled, loadPyodide({ ...options, createPyodideModule: factory(heap.length - heapAt) })]);
    mark("restored");
    trampoline.restored = python._module.HEAP32[trampoline.slot];
    python._module.HEAP32[trampoline.slot] = trampoline.fresh;
    python.pyimport("random").seed();
  } else {
    python = await Promise.race([uncompiled, loadPyodide({ ...options, createPyodideModule: factory(0) })]);
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
