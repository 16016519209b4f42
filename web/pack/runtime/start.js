// What every start of Python has in common, in the worker and in Node.

// No hash may differ from start to start: the snapshot holds them. Python's own zip of the standard library is
// left empty, its files are mounted one by one. Byte code tells lines but no columns, a tenth of the snapshot.
export const ENVIRONMENT = {
  PYTHONHASHSEED: "0",
  PYTHONNODEBUGRANGES: "1",
  PYTHONDONTWRITEBYTECODE: "1",
  PYTHONPATH: "/lib/python3.14:/app/engine",
};

export const EMPTY_ZIP = new Uint8Array([0x50, 0x4b, 5, 6, ...new Array(18).fill(0)]);
