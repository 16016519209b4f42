// The files Python may still ask for, laid into its in-memory file system without being decoded:
// a file's bytes are cut out of its part the first time somebody reads them.

// `index` is {part: [[path, length], ...]}, each part's files in the order of their bytes;
// `bytesOf(part)` returns the part decoded, and is called once a part at most.
export function mount(FS, index, bytesOf) {
  const folders = new Map();
  const folder = (path) => {
    if (!folders.has(path)) {
      FS.mkdirTree(path);
      folders.set(path, FS.lookupPath(path).node);
    }
    return folders.get(path);
  };
  for (const [part, files] of Object.entries(index)) {
    let whole = null;
    let offset = 0;
    for (const [path, length] of files) {
      const cut = path.lastIndexOf("/");
      const parent = folder(path.slice(0, cut));
      const node = parent.node_ops.mknod(parent, path.slice(cut + 1), 0o100644, 0);
      const from = offset;
      let own = null;
      node.usedBytes = length;
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
