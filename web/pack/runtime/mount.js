// The files Python may still ask for, laid into its in-memory file system without being decoded:
// a file's bytes are cut out of its part the first time somebody reads them.

// `index` is {part: [[path, length], ...]}, each part's files in the order of their bytes;
// `bytesOf(part)` returns the part decoded, and is called once a part at most.
export function mount(FS, index, bytesOf) {
  for (const [part, files] of Object.entries(index)) {
    let whole = null;
    let offset = 0;
    for (const [path, length] of files) {
      const cut = path.lastIndexOf("/");
      FS.mkdirTree(path.slice(0, cut));
      FS.writeFile(path, "");
      const node = FS.lookupPath(path).node;
      const from = offset;
      node.usedBytes = length;
      let own = null;
      Object.defineProperty(node, "contents", {
        configurable: true,
        get() {
          own ??= (whole ??= bytesOf(part)).subarray(from, from + length);
          return own;
        },
        set(bytes) {
          own = bytes;
        },
      });
      offset += length;
    }
  }
}
