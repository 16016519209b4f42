// The memory snapshot as the page carries it: without the pages that are as a fresh heap has them.
//
// A fresh heap is zero but for the data section of the wasm module, so the snapshot is stored as its difference from
// that. Two fresh heaps are not quite alike, the section read from the module always is.
//
//   u32 length of the header, u32 length of the heap, u32 count of runs, then for each run u32 start, u32 length;
//   then the header, as Pyodide makes it; then the bytes of the runs. All lengths are multiples of 16.

const PAGE = 4096;
const aligned = (length) => Math.ceil(length / 16) * 16;

export function packHeap(snapshot, wasm) {
  const headerLength = new Uint32Array(snapshot.buffer, snapshot.byteOffset, 2)[1];
  const heap = snapshot.slice(headerLength);
  for (const [address, from, to] of dataSegments(wasm)) {
    for (let i = from; i < to; i++) heap[address + i - from] ^= wasm[i];
  }
  const runs = [];
  for (let at = 0; at < heap.length; at += PAGE) {
    if (heap.subarray(at, at + PAGE).every((byte) => byte === 0)) continue;
    const last = runs.at(-1);
    if (last && last[0] + last[1] === at) last[1] += PAGE;
    else runs.push([at, PAGE]);
  }
  const table = new Uint32Array(aligned(4 * (3 + 2 * runs.length)) / 4);
  table.set([headerLength, heap.length, runs.length, ...runs.flat()]);
  const pieces = [new Uint8Array(table.buffer), snapshot.subarray(0, headerLength)];
  for (const [at, length] of runs) pieces.push(heap.subarray(at, at + length));
  const packed = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    packed.set(piece, at);
    at += piece.length;
  }
  return packed;
}

// `header` is what Pyodide is to be given as the snapshot: it says how the heap fits, and `restore` has laid that.
export function openHeap(packed, wasm) {
  const words = new Uint32Array(packed.buffer, packed.byteOffset, packed.byteLength >> 2);
  const [headerLength, heapLength, count] = words;
  const headerAt = aligned(4 * (3 + 2 * count));
  if (headerAt + headerLength > packed.length) throw new Error("the snapshot ends early");
  return {
    heapLength,
    header: packed.slice(headerAt, headerAt + headerLength),
    restore(module) {
      if (heapLength > module.HEAPU8.length) module._emscripten_resize_heap(heapLength);
      const heap = module.HEAPU8;
      clear(heap, module._sbrk(0));
      const segments = dataSegments(wasm);
      for (const [address, from, to] of segments) heap.set(wasm.subarray(from, to), address);
      const dataEnd = Math.max(...segments.map(([address, from, to]) => address + to - from));
      let at = headerAt + headerLength;
      for (let i = 0; i < count; i++) {
        const start = words[3 + 2 * i];
        const length = words[4 + 2 * i];
        if (start < dataEnd) {
          const target = new Uint32Array(heap.buffer, start, length >> 2);
          const source = words.subarray(at >> 2, (at + length) >> 2);
          for (let j = 0; j < source.length; j++) target[j] ^= source[j];
        } else {
          heap.set(packed.subarray(at, at + length), start);
        }
        at += length;
      }
      if (at !== packed.length) throw new Error("the snapshot does not end where it should");
    },
  };
}

// Writing zeros costs a page of memory each, looking for what is not zero costs none. Nothing lies above the break.
function clear(heap, end) {
  const words = new Uint32Array(heap.buffer, 0, Math.ceil(end / PAGE) * (PAGE / 4));
  const step = PAGE / 4;
  for (let at = 0; at < words.length; at += step) {
    let found = 0;
    for (let i = at; i < at + step; i++) found |= words[i];
    if (found) words.fill(0, at, at + step);
  }
}

function dataSegments(wasm) {
  let at = 8;
  const u32 = () => {
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      if (at >= wasm.length) throw new Error("the module ends early");
      const byte = wasm[at++];
      value |= (byte & 127) << shift;
      if (byte < 128) return value >>> 0;
    }
  };
  while (at < wasm.length) {
    const section = wasm[at++];
    const end = u32() + at;
    if (section === 11) {
      const segments = [];
      for (let left = u32(); left > 0; left--) {
        const flags = u32();
        if (flags !== 0 || wasm[at++] !== 0x41) throw new Error("a data segment that is not at a constant address");
        const address = u32();
        if (wasm[at++] !== 0x0b) throw new Error("a data segment's address is more than a constant");
        const length = u32();
        segments.push([address, at, at + length]);
        at += length;
      }
      return segments;
    }
    at = end;
  }
  throw new Error("no data section");
}
