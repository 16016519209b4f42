// Who reads: language, units and digits, the landowner's view, a translator's catalog; and paper.

import { forgetAddress } from "./arrive.js";
import { fetchView, line, whyAgain } from "./change.js";
import { beside, replace, saveSoon } from "./keep.js";
import { drop, faultNotice, tell } from "./notices.js";
import { closeDrawer } from "./places.js";
import { render, told, useFurniture } from "./show.js";
import { FRESH, later, state, wishes } from "./state.js";
import { keepPreferences, newId } from "./store.js";
import { say } from "./words.js";

let ownReader = null; // while somebody looks through the landowner's eyes

export function setMode(mode) {
  state.mode = mode;
  document.documentElement.dataset.mode = mode;
}

export function read(reader) {
  if (reader && JSON.stringify(reader) !== JSON.stringify(state.reader)) {
    ownReader = state.reader;
    useReader(reader, { keep: false });
  }
  setMode("read");
  closeDrawer({ focus: false });
  render();
  scrollTo(0, 0);
  document.getElementById("main")?.focus({ preventScroll: true });
}

export function backToEditing() {
  if (state.guest) {
    const text = state.text;
    const fresh = { id: newId(), text, name: state.name };
    tell("guest", {
      title: say("came_by_code"),
      texts: [state.name ?? ""],
      focus: true,
      choices: [
        { act: "keep", label: say("keep_mine"), main: true, run: () => (leaveReading(), backToMine()) },
        { act: "beside", label: say("open_beside"), run: () => (leaveReading(), (state.guestOf = null), beside(fresh)) },
        { act: "replace", label: say("replace_mine"), run: () => (leaveReading(), replaceMine(text)) },
      ],
    });
    render();
    return;
  }
  leaveReading();
  render();
}

export function leaveReading() {
  drop("guest");
  forgetAddress();
  setMode("edit");
  if (state.readFirst) {
    state.readFirst = false;
    saveSoon();
  }
  if (ownReader) useReader(ownReader, { keep: false });
  ownReader = null;
}

export async function backToMine() {
  const record = state.guestOf?.id && state.store ? await state.store.get(state.guestOf.id).catch(() => null) : null;
  state.guestOf = null;
  return beside(record ?? { text: FRESH });
}

async function replaceMine(text) {
  await backToMine();
  return replace(text);
}

// The reader's choices: each its own, and none of them belongs to the project.
export function useReader(reader, { keep = true } = {}) {
  state.reader = reader;
  if (keep) {
    const { catalog: _, ...lasting } = reader;
    wishes.reader = lasting;
    keepPreferences(wishes);
  }
  for (const typed of state.typed.values()) {
    // what was not taken was said in other words and units: it stays as typed, and is not read anew
    typed.stays = Boolean(typed.problem || typed.readings);
    typed.problem = null;
    typed.readings = null;
  }
  return line.run("reader", async () => {
    let furniture;
    try {
      furniture = await line.call("furniture", { reader });
    } catch (problem) {
      tell("fault", faultNotice("furniture", problem));
      render();
      return;
    }
    if (!furniture || reader !== state.reader) return;
    useFurniture(furniture);
    for (const typed of state.typed.values()) if (typed.stays) Object.assign(typed, { problem: say("not_taken"), stays: false });
    await fetchView(null, { force: true });
    whyAgain();
  });
}

export function light(value) {
  state.light = value;
  if (value === "auto") delete document.documentElement.dataset.light;
  else document.documentElement.dataset.light = value;
}

export async function tryCatalog(text) {
  line.run("catalog", async () => {
    let found;
    try {
      found = await line.call("try_catalog", { text, reader: state.reader });
    } catch (problem) {
      found = { outcome: "refused", problems: [problem] };
    }
    if (!found) return;
    const taken = found.outcome === "taken";
    tell("catalog", {
      title: say(taken ? "catalog_taken" : "catalog_refused"),
      texts: taken && typeof found.coverage === "number" ? [new Intl.NumberFormat(state.furniture.lang, { style: "percent" }).format(found.coverage)] : [],
      points: (found.problems ?? []).map((one) => [one.label, told(one)].filter(Boolean).join(": ")),
      tone: taken ? "plain" : "warning",
      focus: true,
    });
    render();
    if (taken) setTimeout(() => useReader({ ...state.reader, language: found.language ?? state.reader.language, catalog: text }, { keep: false }));
  });
}

export async function print(sheet) {
  await line.run(null, async () => {
    if (state.complete !== state.text) await fetchView(null);
  });
  const node = sheet && document.getElementById(`sheet-${sheet}`);
  if (node) {
    node.classList.add("printing");
    document.documentElement.dataset.print = "one";
  }
  globalThis.print();
  // browsers that print later keep the mark until they say that they are done
  addEventListener("afterprint", unmark, { once: true });
  later("print", 60_000, unmark);
}

function unmark() {
  delete document.documentElement.dataset.print;
  for (const node of document.querySelectorAll(".printing")) node.classList.remove("printing");
}
