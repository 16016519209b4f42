// From the text of a data block back to the bytes that were packed.

import { decompress as unzstd } from "fzstd";

export class Damaged extends Error {
  constructor(part, what) {
    super(`part ${part}: ${what}`);
    this.part = part;
  }
}

function bytesOfBase64(texts, length) {
  const bytes = new Uint8Array(length);
  let at = 0;
  if (bytes.setFromBase64) {
    for (const text of texts) at += bytes.subarray(at).setFromBase64(text).written;
  } else {
    for (const text of texts) {
      const raw = atob(text);
      for (let i = 0; i < raw.length; i++) bytes[at++] = raw.charCodeAt(i);
    }
  }
  if (at !== length) throw new Error(`${at} bytes where ${length} were packed`);
  return bytes;
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

// `about` is what the page says of the part: {codec, packed, length, check}.
export function unpack(part, about, texts) {
  let bytes;
  try {
    bytes = bytesOfBase64(texts, about.packed);
  } catch (error) {
    throw new Damaged(part, String(error));
  }
  if (checkOf(bytes) !== about.check) throw new Damaged(part, "checksum");
  return about.codec === "zstd" ? unzstd(bytes, new Uint8Array(about.length)) : bytes;
}
