// Keeping: the project is put down as it changes, never over what somebody else put down meanwhile.

import { changed, line, show } from "./change.js";
import { History } from "./history.js";
import { drop, tell } from "./notices.js";
import { copyFrom } from "./places.js";
import { render, told, useView } from "./show.js";
import { FRESH, later, PAUSE, state, timers } from "./state.js";
import { newId } from "./store.js";
import { say } from "./words.js";

// The page itself carries the project, so that a saved copy of the page opens with it.
export function carry() {
  const holder = document.getElementById("carried");
  if (!holder || !state.id) return;
  const diary = state.diary.of === state.id && state.diary.entries.length ? state.diary.entries : undefined;
  holder.textContent = JSON.stringify({ id: state.id, text: state.text, diary }).replaceAll("<", "\\u003c");
}

export function carried() {
  try {
    const kept = JSON.parse(document.getElementById("carried").textContent);
    return typeof kept?.text === "string" && typeof kept.id === "string" ? kept : null;
  } catch {
    return null;
  }
}

export function saveSoon() {
  if (state.guest || !state.id) return;
  if (!state.store) {
    state.kept = "not";
    return;
  }
  state.kept = "saving";
  later("save", PAUSE.save, save);
}

let saving = null;

export async function save() {
  clearTimeout(timers.save);
  if (!state.store || !state.id || state.guest || state.notices.some(({ id }) => id === "conflict")) return;
  if (saving) {
    await saving;
    return save();
  }
  const { id, text, revision } = state;
  const whole = state.complete === text && state.view?.sheets && !state.reader.catalog;
  const record = {
    id,
    name: state.name,
    text,
    history: state.story.kept(),
    saved: Date.now(),
    reading: state.readFirst,
    good: whole ? { text, engine: state.view.engine, reader: state.reader, furniture: state.furniture, view: { ...state.view, sheets: state.sheets } } : null,
  };
  saving = state.store.put(record, revision, true);
  try {
    const answer = await saving;
    saving = null;
    if (state.id !== id) return;
    if (answer.theirs) {
      conflict(answer.theirs);
      return;
    }
    state.revision = answer.revision;
    state.kept = state.text === text ? "saved" : "saving";
    if (state.text !== text) saveSoon();
    if (!state.saved.some((one) => one.id === id && one.name === record.name)) await listSaved();
  } catch (error) {
    saving = null;
    state.kept = "not";
    tell("store", { title: say("store_failed"), texts: [say("store_failed_words"), String(error?.message ?? error)], tone: "warning" });
  }
  render();
}

export async function listSaved() {
  state.saved = state.store ? (await state.store.list()).sort((a, b) => (b.saved ?? 0) - (a.saved ?? 0)) : [];
}

// Somebody else, most likely this page in another tab, has saved this project since.
function conflict(theirs) {
  state.kept = "not";
  tell("conflict", {
    title: say("conflict_title"),
    texts: [say("conflict_words")],
    tone: "warning",
    focus: true,
    choices: [
      { act: "theirs", label: say("conflict_theirs"), main: true, run: () => (drop("conflict"), replace(theirs.text, { revision: theirs.revision })) },
      {
        act: "mine",
        label: say("conflict_mine"),
        run: () => {
          state.revision = theirs.revision;
          drop("conflict");
          save();
        },
      },
      {
        act: "both",
        label: say("conflict_both"),
        run: async () => {
          const { entries } = state.diary;
          state.id = newId();
          state.revision = 0;
          drop("conflict");
          await save();
          await bringDiary(entries);
        },
      },
    ],
  });
  render();
}

// Entries that come along with a project are put down beside those that are there.
export async function bringDiary(entries) {
  const { id } = state;
  if (Array.isArray(entries) && entries.length && id) {
    const sound = entries.filter((entry) => typeof entry?.id === "string");
    if (state.store) await state.store.addEntries(id, sound).catch(() => {});
    else state.diary = { of: id, entries: sound };
  }
  if (state.store) {
    const found = await state.store.diary(id).catch(() => null);
    if (found && state.id === id) state.diary = { of: id, entries: found };
  }
  carry();
}

export async function lookForOthers() {
  if (!state.store || !state.id || state.guest || saving) return;
  const there = await state.store.get(state.id).catch(() => null);
  if (there && there.revision > state.revision && there.text !== state.text) conflict(there);
}

// Another text in place of this one, as one step that can be undone.
export function replace(text, { revision } = {}) {
  return line.run(
    null,
    async () => {
      if (revision !== undefined) state.revision = revision;
      state.story.note(state.text, text, null);
      await show(text, { whole: true });
      state.guest = false;
      changed();
      render();
    },
    { urgent: true },
  );
}

// Another project beside this one, which is saved already. What cannot be read is not gone to.
export function beside(record, { guest = false } = {}) {
  return line.run(
    null,
    async () => {
      if (state.kept === "saving") await save();
      clearTimeout(timers.save);
      const { reader } = state;
      let view = null;
      try {
        view = await line.call("view", { project: record.text, reader, want: null });
      } catch (problem) {
        damaged(record, problem);
        return false;
      }
      if (!view) return false;
      state.text = record.text;
      state.id = record.id ?? null;
      state.revision = record.revision ?? 0;
      state.guest = guest;
      state.kept = !state.store ? "not" : record.revision ? "saved" : "none";
      state.sheets = [];
      state.strip = [];
      state.typed.clear();
      state.troubles = [];
      state.figuresBefore = false;
      state.firstVisit = false;
      state.story = new History(record.history);
      useView(view, { all: true });
      if (!guest && record.id && state.store && record.revision) await state.store.makeCurrent(record.id).catch(() => {});
      else if (!guest && record.id) saveSoon();
      state.diary = { of: state.id, entries: [] };
      if (!guest) await bringDiary(record.diary);
      await listSaved().catch(() => {});
      render({ force: true });
      scrollTo(0, 0);
      return true;
    },
    { urgent: true },
  );
}

export const atHand = () => state.guest === false && (state.id !== null || state.text !== FRESH);

// What was kept and cannot be read: it stays where it is, and can be copied out.
export function damaged(record, problem) {
  tell("damaged", {
    title: say("store_damaged"),
    texts: [told(problem), say("store_damaged_words")].filter(Boolean),
    details: (() => {
      try {
        return JSON.stringify(record, null, 1).slice(0, 20_000);
      } catch {
        return String(record);
      }
    })(),
    tone: "warning",
    choices: [
      { act: "copy", label: say("copy_details"), main: true, run: () => copyFrom("notice-damaged-details") },
      { act: "close", label: say("understood"), run: () => drop("damaged") },
    ],
  });
  render();
}
