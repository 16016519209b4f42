// The page: what is stated, what comes back, what is shown. It holds the project's text, its history and the last
// good sheets; every figure and every word comes from the engine.

import { forgetAddress, fromAddress, openCode, openWith } from "./ui/arrive.js";
import { fetchView, line, rest, wanted } from "./ui/change.js";
import { listen } from "./ui/hands.js";
import { History } from "./ui/history.js";
import { bringDiary, carried, carry, damaged, listSaved, saveSoon } from "./ui/keep.js";
import { tell } from "./ui/notices.js";
import { light, setMode } from "./ui/reader.js";
import { fetchSite, openSite, siteAddress } from "./ui/site.js";
import { render, useFurniture, useView } from "./ui/show.js";
import { FRESH, later, PAUSE, root, state, timers, wishes } from "./ui/state.js";
import { keepPreferences, Store } from "./ui/store.js";
import { say } from "./ui/words.js";

let painted = false;
let live = false;

// The estimate of the default project that was made when the page was built, in the nearest language.
async function paintedPart() {
  let parts;
  try {
    parts = Object.keys(JSON.parse(document.getElementById("parts").textContent));
  } catch {
    return null;
  }
  const wish = state.reader;
  const tags = wish ? [wish.language] : [...(navigator.languages ?? [navigator.language ?? "en"])];
  tags.push("en");
  for (const tag of tags) {
    for (let at = tag.toLowerCase(); at; at = at.includes("-") ? at.slice(0, at.lastIndexOf("-")) : "") {
      const names = [wish && `paint-${at}-${wish.units}`, `paint-${at}`];
      const found = parts.find((name) => names.includes(name.toLowerCase()));
      if (found) return JSON.parse(await Foamwright.part(found));
    }
  }
  return null;
}

const sameReader = (a, b) => Boolean(a && b) && ["language", "units", "digits", "numbers", "catalog"].every((name) => (a[name] ?? "") === (b[name] ?? ""));

function mark(name) {
  performance.mark(`foamwright-${name}`);
}

function firstPaint() {
  if (painted) return;
  painted = true;
  document.getElementById("boot")?.remove();
  render();
  mark("painted");
}

function bootWords() {
  try {
    const table = JSON.parse(document.getElementById("boot-words").textContent);
    for (const tag of [state.furniture?.lang, wishes.reader?.language, ...(navigator.languages ?? [])]) {
      for (let at = (tag ?? "").toLowerCase(); at; at = at.includes("-") ? at.slice(0, at.lastIndexOf("-")) : "") if (table[at]) return table[at];
    }
    return table.en;
  } catch {
    return {};
  }
}

function bootFailed(problem) {
  state.bootFailed = true;
  state.progress = "";
  const words = bootWords();
  const lines = [words.failed, words.try].filter(Boolean);
  const node = document.getElementById("boot-failed");
  node.replaceChildren(...lines.map((text) => Object.assign(document.createElement("p"), { textContent: text })));
  const details = document.createElement("pre");
  details.textContent = JSON.stringify(problem?.code ? problem : { code: "boot_failed", detail: String(problem?.stack ?? problem) }, null, 1);
  node.append(details);
  node.lang = words.lang ?? "en";
  node.dir = words.dir ?? "ltr";
  node.hidden = false;
  document.getElementById("boot")?.remove();
  render();
}

async function start() {
  // a saved copy of the page brings what was drawn when it was saved
  root.replaceChildren();
  const html = document.documentElement;
  for (const name of ["live", "calm", "drawer", "place", "print", "mode"]) delete html.dataset[name];
  document.getElementById("boot-failed").hidden = true;
  light(state.light);
  listen();

  const booting = Foamwright.boot({ onProgress: progress });
  booting.catch(() => {});
  const brought = carried();
  const link = fromAddress();
  let kept = null;
  try {
    state.store = await Store.open();
    kept = (await state.store.current()) ?? null;
  } catch (error) {
    state.store = null;
    state.kept = "not";
    storeTrouble = error;
  }
  let broken = null;
  if (kept && typeof kept.text !== "string") {
    broken = kept;
    kept = null;
  }
  if (!kept && brought && !broken) kept = { ...brought, revision: 0, unsaved: true };
  if (kept) {
    state.text = kept.text;
    state.id = kept.id;
    state.revision = kept.revision ?? 0;
    state.name = typeof kept.name === "string" ? kept.name : null;
    state.kept = state.store ? (kept.unsaved ? "saving" : "saved") : "not";
    state.readFirst = Boolean(kept.reading);
    state.story = new History(kept.history);
  } else state.firstVisit = !wishes.asked && !link;

  if (!state.reader && link?.reader) state.reader = link.reader;
  const paint = await paintedPart().catch(() => null);
  if (paint) {
    useFurniture(paint.furniture);
  }
  const shownReader = state.reader ?? paint?.furniture.reader ?? { language: "en", units: "metric", digits: "auto", numbers: "auto" };
  const guess = !state.reader;
  state.reader = shownReader;
  if (link?.reading || state.readFirst) setMode("read");
  if (link?.reading) state.name = null;
  const good = kept?.good;
  const version = paint?.view?.engine;
  if (link && (link.reading || !kept)) state.progress = say("computing");
  else if (!kept && paint && sameReader(paint.furniture.reader, shownReader)) useView(paint.view, { all: true });
  else if (kept && good && good.text === kept.text && good.engine === version && sameReader(good.reader, shownReader)) {
    useFurniture(good.furniture);
    useView(good.view, { all: true });
  } else if (paint) state.progress = say("computing");
  const site = link ? null : siteAddress();
  if (site && state.mode !== "read") openSite(site.tool);
  firstPaint();
  carry();

  try {
    const engine = await booting;
    mark("booted");
    line.connect(engine);
  } catch (problem) {
    bootFailed(problem);
    return;
  }
  clearTimeout(timers.slow);
  state.progress = "";
  await line.run(null, async () => {
    if (guess) {
      const hello = await line.call("hello", { languages: [...(navigator.languages ?? [])] });
      if (hello && !sameReader(hello.reader, state.reader)) state.reader = hello.reader;
    }
    if (!state.furniture || !sameReader(state.furniture.reader, state.reader)) {
      useFurniture(await line.call("furniture", { reader: state.reader }));
      state.reader = state.furniture.reader;
    }
    if (storeTrouble) tell("store", { title: say("kept_not"), texts: [say("store_missing_words")] });
    if (broken) damaged(broken);
  }, { urgent: true });
  await line.run(null, async () => {
    try {
      if (!link || kept) await firstView();
    } catch (problem) {
      // what was kept cannot be read: it stays where it is, and something sound is shown
      await spoiled(kept, problem);
    }
  }, { urgent: true });
  if (link) {
    await openCode(link.code, { reading: link.reading, title: say("came_by_link") });
    if (!link.reading) forgetAddress();
    if (!state.view) await line.run(null, () => fetchView(null));
  }
  if (kept && state.id === kept.id) await bringDiary(kept.unsaved ? kept.diary : brought?.id === kept.id ? brought.diary : null);
  if (state.site) fetchSite();
  await listSaved().catch(() => {});
  if (kept?.unsaved) saveSoon();
  else if (brought) await offerBrought(brought);
  isLive();
}

let storeTrouble = null;

// A saved copy of the page brings a project that this browser does not know: offered once.
async function offerBrought(brought) {
  const seen = wishes.seen ?? [];
  if (seen.includes(brought.id) || state.saved.some(({ id }) => id === brought.id)) return;
  wishes.seen = [...seen, brought.id].slice(-20);
  keepPreferences(wishes);
  await openWith("open_file", { text: brought.text }, { title: say("came_by_file"), diary: brought.diary });
}

// What is on the page already is confirmed where it is in sight; the rest follows.
async function firstView() {
  const want = state.sheets.length ? wanted() : null;
  const view = await line.call("view", { project: state.text, reader: state.reader, want });
  if (!view) return;
  state.complete = "";
  useView(view, { all: want === null });
  render();
  if (want) rest();
}

async function spoiled(record, problem) {
  state.text = FRESH;
  state.id = null;
  state.revision = 0;
  state.name = null;
  state.kept = "none";
  state.story = new History();
  damaged(record, problem);
  await fetchView(null);
}

function isLive() {
  requestAnimationFrame(() =>
    setTimeout(() => {
      live = true;
      document.documentElement.dataset.live = "1";
      mark("live");
    }),
  );
}

function progress({ stage }) {
  if (live) return;
  later("slow", PAUSE.slow, () => {
    state.progress = say(`boot_${stage}`) || say("computing");
    if (painted) render();
  });
}

start();
