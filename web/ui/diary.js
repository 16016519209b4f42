// The diary of the site: entries that are only ever added, each on the disk before anybody is told that it is.

import { line } from "./change.js";
import { carry, save } from "./keep.js";
import { state } from "./state.js";
import { device, newId, tally } from "./store.js";

// The entries of the project at hand, as the store has them.
export async function loadDiary() {
  const { id } = state;
  if (!id || !state.store) {
    if (state.diary.of !== id) state.diary = { of: id, entries: [] };
    return false;
  }
  const entries = await state.store.diary(id);
  if (state.id !== id) return false;
  const grown = state.diary.of !== id || entries.length !== state.diary.entries.length;
  state.diary = { of: id, entries };
  if (grown) carry();
  return grown;
}

// Resolves once the browser says that the entries are on the disk.
export async function keepEntries(fresh) {
  if (!state.store) throw new Error("no IndexedDB");
  if (!state.id) state.id = newId();
  const { id } = state;
  // an entry without its project would not be found again
  if (!state.revision) await save();
  if (!state.revision) throw new Error("project");
  await state.store.addEntries(id, fresh);
  if (state.id !== id) return;
  if (state.diary.of !== id) state.diary = { of: id, entries: [] };
  state.diary.entries = [...state.diary.entries, ...fresh];
  carry();
}

// What one entry is known by: the tag of this device and a number that it gives once.
export async function stamp() {
  return { device: device(), counter: state.store ? await state.store.count(tally()) : tally({ on: true }) };
}

// Local time with its distance from UTC, as ISO 8601 writes it.
export function now(date = new Date()) {
  const two = (value) => String(Math.trunc(value)).padStart(2, "0");
  const away = -date.getTimezoneOffset();
  const day = [date.getFullYear(), two(date.getMonth() + 1), two(date.getDate())].join("-");
  const clock = [two(date.getHours()), two(date.getMinutes()), two(date.getSeconds())].join(":");
  return `${day}T${clock}${away < 0 ? "-" : "+"}${two(Math.abs(away) / 60)}:${two(Math.abs(away) % 60)}`;
}

// Every question about the diary brings all of it: the engine keeps nothing.
export function ask(op, args = {}) {
  const entries = state.diary.of === state.id ? state.diary.entries : [];
  return line.call(op, { project: state.text, reader: state.reader, entries, now: now(), ...args });
}
