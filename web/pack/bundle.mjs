// node bundle.mjs OUT: the worker, the boot script and the page's own script, each as one classic script.

import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const out = process.argv[2];
const web = fileURLToPath(new URL("..", import.meta.url));

async function bundle(entry, more = {}) {
  await build({
    absWorkingDir: web,
    entryPoints: [entry],
    outfile: join(out, entry),
    bundle: true,
    format: "iife",
    platform: "browser",
    target: "es2022",
    charset: "utf8",
    legalComments: "inline",
    logLevel: "warning",
    ...more,
  });
}

await bundle("worker.js", {
  minifyWhitespace: true,
  external: ["node:*", "ws"],
  define: { "import.meta.url": '"https://foamwright.invalid/worker.js"' },
});
// Left readable: whoever opens the file may read what it does.
await bundle("boot.js");
for (const entry of ["app.js", "style.css"]) {
  if (existsSync(join(web, entry))) await bundle(entry);
  else writeFileSync(join(out, entry), "");
}

// Pyodide checks the release's own block; its list of packages is of no use here.
const lock = JSON.parse(readFileSync(join(web, "node_modules/pyodide/pyodide-lock.json"), "utf8"));
writeFileSync(join(out, "release.json"), JSON.stringify(lock.info));
