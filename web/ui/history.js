// Undo and redo as patches of the project text: where two texts differ, what stood there, what stands there now.
// Typing in one field is one step. The whole is kept under a limit; what falls off the far end is remembered as lost.

const MOST = 1_000_000;

export class History {
  constructor(kept) {
    this.done = kept?.done ?? [];
    this.undone = kept?.undone ?? [];
    this.trimmed = kept?.trimmed ?? false;
    this.open = null;
  }

  // Note a change; `slot` names the field that was typed into, `visit` the stay in it that makes one step.
  note(before, after, slot = null, visit = null) {
    if (before === after) return;
    this.undone = [];
    const last = this.done.at(-1);
    if (visit !== null && this.open === visit && last) {
      const patch = difference(backward(before, last), after, slot);
      if (patch) this.done[this.done.length - 1] = patch;
      else {
        this.done.pop();
        this.open = null;
      }
    } else {
      this.done.push(difference(before, after, slot));
      this.open = visit;
    }
    this.trim();
  }

  undo(text) {
    this.open = null;
    const patch = this.done.pop();
    if (!patch) return null;
    this.undone.push(patch);
    return { text: backward(text, patch), slot: patch.slot };
  }

  redo(text) {
    this.open = null;
    const patch = this.undone.pop();
    if (!patch) return null;
    this.done.push(patch);
    return { text: forward(text, patch), slot: patch.slot };
  }

  trim() {
    let size = 0;
    for (let at = this.done.length - 1; at >= 0; at -= 1) {
      size += this.done[at].was.length + this.done[at].is.length + 40;
      if (size > MOST / 2) {
        // characters are stored as two bytes each
        this.done.splice(0, at + 1);
        this.trimmed = true;
        return;
      }
    }
  }

  kept() {
    return { done: this.done, undone: this.undone, trimmed: this.trimmed };
  }
}

function difference(before, after, slot) {
  if (before === after) return null;
  const most = Math.min(before.length, after.length);
  let head = 0;
  while (head < most && before[head] === after[head]) head += 1;
  let tail = 0;
  while (tail < most - head && before[before.length - 1 - tail] === after[after.length - 1 - tail]) tail += 1;
  return { at: head, was: before.slice(head, before.length - tail), is: after.slice(head, after.length - tail), slot };
}

function forward(text, { at, was, is }) {
  return text.slice(0, at) + is + text.slice(at + was.length);
}

function backward(text, { at, was, is }) {
  return text.slice(0, at) + was + text.slice(at + is.length);
}
