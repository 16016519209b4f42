// One trial in a fresh worker: turn a payload's text into bytes and unpack it, and say how long each took.

import { decompress as fzstd } from "fzstd";
import { ZSTDDecoder } from "zstddec";
import { decompress as brotli, initSync as startBrotli } from "brotli-dec-wasm/web";
import brotliWasm from "brotli-dec-wasm/web/bg.wasm";
import { XzReadableStream } from "xz-decompress";
import { bytesOf } from "../runtime/text.js";

const whole = async (stream) => new Uint8Array(await new Response(stream).arrayBuffer());
const streamOf = (bytes) => new Response(bytes).body;

const DECODERS = {
  gzip: async () => (bytes) => whole(streamOf(bytes).pipeThrough(new DecompressionStream("gzip"))),
  "zstd, fzstd": async () => (bytes, length) => fzstd(bytes, new Uint8Array(length)),
  "zstd, zstddec": async () => {
    const decoder = new ZSTDDecoder();
    await decoder.init();
    return (bytes, length) => decoder.decode(bytes, length);
  },
  brotli: async () => {
    startBrotli({ module: brotliWasm });
    return (bytes) => brotli(bytes);
  },
  xz: async () => (bytes) => whole(new XzReadableStream(streamOf(bytes))),
};

self.onmessage = async ({ data: { texts, encoding, packed, length, decoder } }) => {
  const t0 = performance.now();
  const bytes = bytesOf(encoding, texts, packed);
  const t1 = performance.now();
  const result = {};
  if (decoder) {
    const decode = await DECODERS[decoder]();
    const t2 = performance.now();
    const out = await decode(bytes, length);
    if (out.length !== length) throw new Error(`${out.length} bytes where ${length} were packed`);
    Object.assign(result, { start: t2 - t1, unpack: performance.now() - t2 });
  }
  self.postMessage({ text: t1 - t0, ...result });
};
