// Every message between the page and the worker, in one place.
//
// Page to worker, once:      {start: {snapshot, probe, parts}}       parts: what the page says of its data blocks
// Page to worker, per part:  {part, texts}                           the part's blocks, as they stand in the document
// Page to worker, once:      {compiled: {module, wasm}}              Python's machine code, from pack/unpacker.js
// Page to worker, per call:  {id, op, args}
// Worker to page, booting:   {progress: {stage, of}}                 a stage begins; of: names of all stages
//                            {ready: {snapshot, marks}} or {failed: problem}
// Worker to page, per call:  {id, ok: true, value} or {id, ok: false, problem: {code, path, params}}
//
// The engine's own ops and what they take and give are written down in DEVELOPERS.md;
// engine/foamwright/page.py answers them.

export const OPS = Object.freeze([
  "hello",
  "furniture",
  "view",
  "edit",
  "act",
  "why",
  "share",
  "open_code",
  "open_file",
  "try_catalog",
  "site",
  "judge",
  "enter",
  "strike",
  "diary_out",
  "diary_in",
  "take",
]);

// Answered by the worker itself, in an engine that was booted with {probe: true} alone: tests look inside with it.
export const PROBE_OPS = Object.freeze(["probe_python", "probe_worker"]);

export const STAGES = Object.freeze(["unpack", "compile", "restore", "ready"]);

// What can go wrong outside the engine. Each needs its sentence.
export const CODES = Object.freeze({
  fault: "engine_fault", // an exception that nobody caught; params.detail is the trace
  dead: "engine_dead", // Python itself came down: restart
  timeout: "boot_timeout", // no progress for too long; params.stage
  damaged: "page_damaged", // a data block is not what was packed; params.part
  failed: "boot_failed", // anything else while starting; params.detail
  unable: "browser_unable", // the browser lacks what Python needs; params.lacks
  restarted: "engine_restarted", // the call was under way when the engine was ended
});

export function problem(code, params = {}, path = "") {
  return { code, path, params };
}
