// node compile.mjs TREE TODO OUT: strip and compile the sources that TODO lists, [[path, digest], ...], into OUT.

import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { readTree, startPython } from "./python.mjs";

const [tree, todo, into] = process.argv.slice(2);
const here = fileURLToPath(new URL(".", import.meta.url));

mkdirSync(into, { recursive: true });
const wanted = JSON.parse(readFileSync(todo, "utf8"));
const python = await startPython(into, [readTree(tree)]);
python.FS.mkdirTree("/pack");
python.FS.writeFile("/pack/compile_tree.py", readFileSync(join(here, "compile_tree.py")));
python.pyimport("sys").path.append("/pack");
const { write_both } = python.pyimport("compile_tree");

for (const [path, digest] of wanted) {
  write_both(path, "/out");
  for (const kind of ["py", "pyc"]) {
    const file = join(into, `${digest}.${kind}`);
    writeFileSync(`${file}.new`, python.FS.readFile(`/out.${kind}`));
    renameSync(`${file}.new`, file);
  }
}
console.log(`${wanted.length} compiled`);
