// The page to compare with: the same Python and packages, started in the plain way, from the same kind of file.

import "./classic.js";
import { loadPyodide } from "pyodide/pyodide.mjs";
import createPyodideModule from "pyodide/pyodide.asm.mjs";

const NOWHERE = "https://foamwright.invalid/";

self.onmessage = async ({ data: { wasm, stdlib, packages, release, calls } }) => {
  self.fetch = async (address) => {
    if (String(address).endsWith(".wasm")) return new Response(wasm, { headers: { "content-type": "application/wasm" } });
    return new Response(stdlib);
  };
  const python = await loadPyodide({
    indexURL: NOWHERE,
    packageBaseUrl: NOWHERE,
    lockFileContents: { info: release, packages: {} },
    createPyodideModule,
  });
  python.unpackArchive(packages, "zip", { extractDir: "/app" });
  const path = python.pyimport("sys").path;
  path.append("/app/site-packages");
  path.append("/app/engine");
  const { call } = python.pyimport("foamwright.page");
  const answers = calls.map(([op, args]) => JSON.parse(call(op, JSON.stringify(args))).ok);
  self.postMessage(answers);
};
