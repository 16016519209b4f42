// From the text of a data block back to the bytes that were packed.

import { ZSTDDecoder } from "zstddec";
import { bytesOf } from "./text.js";

const zstd = new ZSTDDecoder();

// To be awaited once before anything is unpacked: later a file is unpacked while Python waits for it. The decoder is
// compiled on the spot, since in WebKit a worker's waiting for other threads goes by way of the busy page.
export async function ready() {
  const { instantiate } = WebAssembly;
  WebAssembly.instantiate = async (bytes, imports) => {
    const module = new WebAssembly.Module(bytes);
    return { module, instance: new WebAssembly.Instance(module, imports) };
  };
  try {
    await zstd.init();
  } finally {
    WebAssembly.instantiate = instantiate;
  }
}

export class Damaged extends Error {
  constructor(part, what) {
    super(`part ${part}: ${what}`);
    this.part = part;
  }
}

// Adler-32 as zlib has it.
export function checkOf(bytes) {
  let a = 1;
  let b = 0;
  for (let at = 0; at < bytes.length; ) {
    const end = Math.min(at + 3800, bytes.length);
    for (; at < end; at++) {
      a += bytes[at];
      b += a;
    }
    a %= 65521;
    b %= 65521;
  }
  return ((b << 16) | a) >>> 0;
}

// `about` is what the page says of the part: {text, codec, packed, length, check}.
export function unpack(part, about, texts) {
  let bytes;
  try {
    bytes = bytesOf(about.text, texts, about.packed);
  } catch (error) {
    throw new Damaged(part, String(error));
  }
  if (checkOf(bytes) !== about.check) throw new Damaged(part, "checksum");
  return about.codec === "zstd" ? zstd.decode(bytes, about.length) : bytes;
}
