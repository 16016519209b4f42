// From what the engine said to what is seen: a view is taken in, the page is drawn, and what is wrong is said in its time.

import { catchUp, line } from "./change.js";
import { patch } from "./dom.js";
import { eachField } from "./fields.js";
import { page } from "./frame.js";
import { later, PAUSE, root, state, timers } from "./state.js";
import { say, useWords } from "./words.js";

const LEGIBLE = 17; // pixels

export function render({ force = false } = {}) {
  state.canUndo = state.story.done.length > 0 || unsettled() !== null;
  state.canRedo = state.story.undone.length > 0;
  state.force = force;
  patch(root, page(state));
  state.force = false;
  watchSheets();
  fitStrip();
  fitDrawings();
}

// For whoever watches from outside: nothing is under way, and all that is shown belongs to the project as it stands.
export function calm() {
  const still = line.idle && (state.complete === state.text || !state.view?.sheets);
  document.documentElement.toggleAttribute("data-calm", still);
}

export function useFurniture(furniture) {
  state.furniture = furniture;
  useWords(furniture.words);
  const html = document.documentElement;
  html.lang = furniture.lang;
  html.dir = furniture.dir;
  try {
    state.today = new Intl.DateTimeFormat(furniture.lang, { dateStyle: "long" }).format(new Date());
  } catch {
    state.today = new Date().toISOString().slice(0, 10);
  }
}

// Take a view in. `all` says that it holds every sheet.
export function useView(view, { all }) {
  state.view = view;
  state.fields = new Map();
  eachField(view.sections, (path, item) => state.fields.set(path, item));
  if (view.sheets) {
    state.strip = view.strip;
    if (all) {
      state.sheets = view.sheets;
      state.complete = state.text;
    } else {
      const fresh = new Map(view.sheets.map((one) => [one.id, one]));
      state.sheets = state.sheets.map((one) => fresh.get(one.id) ?? one);
    }
  }
  state.name = view.title;
  document.title = `${view.title} – Foamwright`;
  settle();
}

// What is wrong is said after a pause, not while somebody types.
export function settle() {
  const typing = performance.now() - state.lastInput < PAUSE.flag && isField(document.activeElement);
  if (typing) {
    later("settle", PAUSE.flag, () => {
      settle();
      render();
    });
  } else for (const typed of state.typed.values()) typed.shown = Boolean(typed.problem || typed.readings);
  const whole = state.view?.problems ?? [];
  const known = new Set(state.troubles.map(({ path, text }) => `${path} ${text}`));
  const said = typing ? whole.filter(({ path, text }) => known.has(`${path} ${text}`)) : whole;
  state.problemAt = new Map(said.map(({ path, text }) => [path, text]));
  const refused = [...state.typed].filter(([, typed]) => typed.shown).map(([path, typed]) => ({ path, text: typed.problem ?? `${state.fields.get(path)?.label ?? ""}: ${say("which_one")}` }));
  const before = new Set(state.troubles.map(({ text }) => text));
  state.troubles = [...refused, ...said];
  const fresh = state.troubles.filter(({ text }) => !before.has(text)).map(({ text }) => text);
  if (fresh.length) {
    clearTimeout(timers.speak);
    state.spoken = fresh.join(" ");
  }
  if (state.view?.sheets) state.figuresBefore = false;
  else if (said.length) state.figuresBefore = true;
}

// What the engine says of a problem, in the reader's words.
export const told = (problem) => problem?.text ?? problem?.params?.text ?? null;

export const isField = (node) => Boolean(node?.dataset?.path && node.dataset.kind && node.localName !== "select");

export function unsettled() {
  let last = null;
  for (const [path, typed] of state.typed) if (typed.problem || typed.readings) last = path;
  return last;
}

export function speakStrip() {
  later("speak", PAUSE.speak, () => {
    announce(state.strip.map(({ label, text }) => `${label} ${text}`).join(", "));
  });
}

export function announce(text) {
  if (state.spoken === text) return;
  state.spoken = text;
  render();
}

export const inSight = new Set();
const watched = new WeakSet();
const sheetWatch = new IntersectionObserver(
  (entries) => {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting) inSight.add(target.dataset.sheet);
      else inSight.delete(target.dataset.sheet);
    }
    if (entries.some(({ isIntersecting }) => isIntersecting)) catchUp();
  },
  { rootMargin: "100px" },
);
const sectionWatch = new IntersectionObserver(
  (entries) => {
    for (const { target, isIntersecting } of entries) {
      if (isIntersecting && state.section !== target.id.slice(2)) {
        state.section = target.id.slice(2);
        for (const link of document.querySelectorAll(".rail a")) {
          if (link.dataset.section === state.section) link.setAttribute("aria-current", "true");
          else link.removeAttribute("aria-current");
        }
      }
    }
  },
  { rootMargin: "-25% 0px -70% 0px" },
);

function watchSheets() {
  for (const node of document.querySelectorAll(".sheet, .section")) {
    if (watched.has(node)) continue;
    watched.add(node);
    (node.classList.contains("sheet") ? sheetWatch : sectionWatch).observe(node);
  }
}

// Of the answers, as many as fit into two lines; the sheets have them all.
let fitted = "";
export function fitStrip() {
  const list = document.querySelector(".strip ul");
  if (!list) return;
  const key = `${list.clientWidth} ${list.textContent}`;
  if (key === fitted) return;
  fitted = key;
  const items = [...list.children];
  if (items.some((item) => item.hidden)) for (const item of items) item.hidden = false;
  const tops = items.map((item) => item.offsetTop);
  const rows = [...new Set(tops)];
  items.forEach((item, index) => {
    if (rows.indexOf(tops[index]) > 1) item.hidden = true;
  });
}

// The labels of a drawing that is small on the screen grow until they can be read; its lines stay where they are.
export function fitDrawings() {
  for (const drawing of document.querySelectorAll(".drawing-paper > svg")) {
    const width = drawing.clientWidth;
    const text = drawing.querySelector("text");
    const size = Number(text?.getAttribute("font-size"));
    const scale = drawing.viewBox.baseVal ? Math.min(width / drawing.viewBox.baseVal.width, drawing.clientHeight / drawing.viewBox.baseVal.height) : 0;
    if (!size || !scale) continue;
    const grow = Math.min(Math.max(LEGIBLE / (size * scale), 1), 1.7).toFixed(2);
    if (drawing.style.getPropertyValue("--grow") !== grow) drawing.style.setProperty("--grow", grow);
  }
}
