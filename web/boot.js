// The page's side of the engine: hand the data blocks to a worker, watch it start, and call it.
//
//   Foamwright.boot({onProgress}) -> Promise<engine>      rejects with a problem {code, path, params} of protocol.js
//   engine.call(op, args) -> Promise<value>               rejects with a problem
//   engine.latest(channel, op, args) -> Promise<value>    one under way and one waiting a channel, the newest wins;
//                                                         an overtaken one resolves to undefined
//   engine.restart() -> Promise<engine>                   ends the worker, whatever it is doing, and boots again
//   engine.end()                                          ends it for good
//   Foamwright.part(name) -> Promise<string>              the text of a small part, such as "paint-en"

import { CODES, problem } from "./protocol.js";

// Without a sign of life for this long a start is given up: on a slow phone a stage may take many seconds.
const PATIENCE = { snapshot: 40_000, plain: 180_000 };

const about = () => JSON.parse(document.getElementById("parts").textContent);

const arrivals = new Map();

function arrival(name) {
  let entry = arrivals.get(name);
  if (!entry) {
    entry = {};
    entry.promise = new Promise((resolve) => {
      entry.resolve = resolve;
    });
    arrivals.set(name, entry);
  }
  return entry;
}

// Called by a line of script behind each part's blocks, so that work begins while the rest is still being read.
function arrived(name) {
  arrival(name).resolve();
  if (name === "worker") beginEarly();
}

const texts = (name) => Array.from(document.querySelectorAll(`script[data-part="${name}"]`), (block) => block.textContent);

async function part(name) {
  await arrival(name).promise;
  try {
    const raw = atob(texts(name).join(""));
    const bytes = Uint8Array.from(raw, (letter) => letter.charCodeAt(0));
    return await new Response(new Response(bytes).body.pipeThrough(new DecompressionStream("gzip"))).text();
  } catch {
    throw problem(CODES.damaged, { part: name });
  }
}

let workerAddress = null;

async function newWorker() {
  workerAddress ??= URL.createObjectURL(new Blob([await part("worker")], { type: "text/javascript" }));
  return new Worker(workerAddress);
}

function lacking() {
  const needs = { Worker: globalThis.Worker, WebAssembly: globalThis.WebAssembly, DecompressionStream: globalThis.DecompressionStream };
  return Object.keys(needs).filter((name) => needs[name] === undefined);
}

// One worker, started once. Resolves when Python answers, rejects with a problem.
async function startWorker({ snapshot, probe, patience, onProgress }) {
  const parts = about();
  const worker = await newWorker();
  try {
    return await new Promise((resolve, reject) => {
      let stage = "unpack";
      let timer = null;
      const giveUp = () => reject(problem(CODES.timeout, { stage }));
      const alive = () => {
        clearTimeout(timer);
        timer = setTimeout(giveUp, patience);
      };
      const fail = (given) => {
        clearTimeout(timer);
        reject(given);
      };
      alive();
      worker.onerror = (event) => fail(problem(CODES.failed, { detail: String(event.message ?? event.type) }));
      worker.onmessage = ({ data }) => {
        alive();
        if (data.progress) {
          stage = data.progress.stage;
          onProgress?.({ ...data.progress, snapshot });
        } else if (data.failed) {
          fail(data.failed);
        } else if (data.ready) {
          clearTimeout(timer);
          performance.mark("foamwright-engine", { detail: data.ready });
          resolve({ worker, snapshot, marks: data.ready.marks });
        }
      };
      worker.postMessage({ start: { snapshot, probe, parts } });
      for (const name of Object.keys(parts)) {
        if (parts[name].for !== "worker" || (name === "heap" && !snapshot)) continue;
        arrival(name).promise.then(() => worker.postMessage({ part: name, texts: texts(name) }));
      }
    });
  } catch (error) {
    worker.terminate();
    throw error;
  }
}

// Whatever goes wrong comes out as a problem.
async function start(options) {
  try {
    return await startSomehow(options);
  } catch (error) {
    throw error?.code && error.params ? error : problem(CODES.failed, { detail: String(error?.stack ?? error) });
  }
}

// From the snapshot, or without it where it is damaged or will not restore.
async function startSomehow(options) {
  const lacks = lacking();
  if (lacks.length) throw problem(CODES.unable, { lacks: lacks.join(", ") });
  const patience = { ...PATIENCE, ...options.patience };
  const plainly = () => startWorker({ ...options, snapshot: false, patience: patience.plain });
  if (options.snapshot === false) return plainly();
  try {
    return await startWorker({ ...options, snapshot: true, patience: patience.snapshot });
  } catch (why) {
    console.warn("the snapshot was not used", why);
    return { ...(await plainly()), why };
  }
}

// The page's engine begins to start as soon as its script is there; the first plain boot() takes it over.
let early = null;

function beginEarly() {
  if (early) return;
  early = { last: null, tell: null };
  early.started = start({
    onProgress(progress) {
      early.last = progress;
      early.tell?.(progress);
    },
  });
  early.started.catch(() => {});
}

function takeEarly({ onProgress, ...others }) {
  if (!early?.started || Object.keys(others).length) return null;
  const { started } = early;
  early.started = null;
  early.tell = onProgress;
  if (early.last) onProgress?.(early.last);
  return started;
}

class Engine {
  #options;
  #worker = null;
  #calls = new Map();
  #channels = new Map();
  #next = 1;

  constructor(options) {
    this.#options = options;
  }

  // Whether Python came from the snapshot; if not, the problem that the snapshot had; and when what was done.
  snapshot = null;
  why = null;
  marks = null;

  async restart(starting = null) {
    this.end();
    const { worker, snapshot, why, marks } = await (starting ?? start(this.#options));
    Object.assign(this, { snapshot, why: why ?? null, marks });
    this.#worker = worker;
    worker.onmessage = ({ data }) => this.#settle(data);
    worker.onerror = (event) => this.#abandon(problem(CODES.dead, { detail: String(event.message ?? event.type) }));
    return this;
  }

  end() {
    this.#worker?.terminate();
    this.#worker = null;
    this.#abandon(problem(CODES.restarted));
  }

  call(op, args = {}) {
    if (!this.#worker) return Promise.reject(problem(CODES.dead));
    const id = this.#next++;
    return new Promise((resolve, reject) => {
      this.#calls.set(id, { resolve, reject });
      this.#worker.postMessage({ id, op, args });
    });
  }

  latest(channel, op, args = {}) {
    const state = this.#channels.get(channel) ?? { busy: false, newest: 0, waiting: null };
    this.#channels.set(channel, state);
    const mine = ++state.newest;
    return new Promise((resolve, reject) => {
      const go = () => {
        state.busy = true;
        this.call(op, args)
          .then(
            (value) => resolve(mine === state.newest ? value : undefined),
            (given) => (mine === state.newest ? reject(given) : resolve(undefined)),
          )
          .finally(() => {
            state.busy = false;
            const next = state.waiting;
            state.waiting = null;
            next?.go();
          });
      };
      state.waiting?.overtaken();
      if (state.busy) state.waiting = { go, overtaken: () => resolve(undefined) };
      else go();
    });
  }

  #settle({ id, ok, value, problem: given }) {
    const call = this.#calls.get(id);
    this.#calls.delete(id);
    if (!call) return;
    if (ok) call.resolve(value);
    else call.reject(given);
  }

  #abandon(given) {
    for (const { reject } of this.#calls.values()) reject(given);
    this.#calls.clear();
  }
}

// options: onProgress({stage, of, snapshot}), snapshot (false boots without it), probe (tests), patience (tests).
const boot = (options = {}) => new Engine(options).restart(takeEarly(options));

document.addEventListener("DOMContentLoaded", () => {
  for (const name of Object.keys(about())) arrived(name);
});

globalThis.Foamwright = { boot, part, arrived, CODES };
