// From the text of data blocks back to bytes.
//
// "base64" is the browser's own. "base91" puts 13 bits into two of the 91 printable characters that mean nothing to
// HTML, 16 characters for 13 bytes; every block is a whole number of such groups, but for the last.

function fromBase64(texts, bytes) {
  let at = 0;
  for (const text of texts) {
    if (bytes.setFromBase64) {
      at += bytes.subarray(at).setFromBase64(text).written;
    } else {
      const raw = atob(text);
      for (let i = 0; i < raw.length; i++) bytes[at++] = raw.charCodeAt(i);
    }
  }
  return at;
}

// "!" to "~" without "&", "<" and ">".
const DIGIT = (() => {
  const digits = new Uint16Array(128).fill(0xffff);
  let next = 0;
  for (let code = 0x21; code < 0x7f; code++) {
    if (code !== 0x26 && code !== 0x3c && code !== 0x3e) digits[code] = next++;
  }
  return digits;
})();

function fromBase91(texts, bytes) {
  let at = 0;
  let held = 0;
  let bits = 0;
  let wrong = 0;
  for (const text of texts) {
    for (let i = 0; i < text.length; i += 2) {
      const value = DIGIT[text.charCodeAt(i) & 127] + 91 * DIGIT[text.charCodeAt(i + 1) & 127];
      wrong |= value;
      held |= value << bits;
      bits += 13;
      bytes[at++] = held;
      held >>>= 8;
      bits -= 8;
      if (bits >= 8) {
        bytes[at++] = held;
        held >>>= 8;
        bits -= 8;
      }
    }
  }
  if (wrong > 0x1fff) throw new Error("a character that was not packed");
  return at;
}

const READ = { base64: fromBase64, base91: fromBase91 };

export function bytesOf(encoding, texts, length) {
  // One group may run over the end by the bits that fill it up.
  const bytes = new Uint8Array(length + 2);
  const at = READ[encoding](texts, encoding === "base64" ? bytes.subarray(0, length) : bytes);
  if (at < length || at > length + 2) throw new Error(`${at} bytes where ${length} were packed`);
  return bytes.subarray(0, length);
}
