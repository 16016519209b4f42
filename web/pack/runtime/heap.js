// The heap as it stands when the wasm module has just been instantiated, read from the module's own data
// section. The snapshot is stored as its difference from this, since the two agree over most of the static data.

// A copy of `bytes` with the data segments of `wasm` laid over it by exclusive or, from `heapAt` on.
// Applying it twice gives back what was put in.
export function xorData(bytes, wasm, heapAt) {
  for (const [address, from, to] of dataSegments(wasm)) {
    const at = heapAt + address;
    for (let i = from; i < to; i++) bytes[at + i - from] ^= wasm[i];
  }
  return bytes;
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
