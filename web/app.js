// The page: what is stated, what comes back, what is shown. It holds the project's text, its history and the last
// good sheets; every figure and every word comes from the engine.

import { patch } from "./ui/dom.js";
import { eachField, fieldId } from "./ui/fields.js";
import { page } from "./ui/frame.js";
import { History } from "./ui/history.js";
import { Line } from "./ui/line.js";
import { keepPreferences, newId, preferences, Store } from "./ui/store.js";
import { say, useWords } from "./ui/words.js";

const FRESH = '{"format": 1}';
const PAUSE = { flag: 1000, rest: 220, save: 400, speak: 900, slow: 1200 };
const LEGIBLE = 17; // pixels
const root = document.getElementById("page");

const wishes = preferences();
const history = { now: new History() };

const state = {
  // what the page is about
  text: FRESH,
  id: null,
  revision: 0,
  guest: false, // a project that came by a link and is only read
  // what the engine said of it
  furniture: null,
  reader: wishes.reader ?? null,
  view: null,
  sheets: [],
  strip: [],
  fields: new Map(),
  // what is half said
  typed: new Map(),
  problemAt: new Map(),
  troubles: [],
  figuresBefore: false,
  // how it is shown
  mode: "edit",
  kept: "none",
  name: null,
  saved: [],
  notices: [],
  drawer: null,
  canUndo: false,
  canRedo: false,
  firstVisit: false,
  light: wishes.light ?? "auto",
  section: null,
  opened: null,
  folds: new Map(),
  wide: true,
  spoken: "",
  today: "",
  progress: "",
  bootFailed: false,
  force: false,
};

const line = new Line(fault, calm);
let store = null;
let painted = false;
let live = false;
let lastInput = 0;
let complete = ""; // the project text that all sheets on the page belong to
const timers = {};
const later = (name, wait, work) => {
  clearTimeout(timers[name]);
  timers[name] = setTimeout(work, wait);
};

/* ---------------------------------------------------------------- drawing */

function render({ force = false } = {}) {
  state.canUndo = history.now.done.length > 0 || unsettled() !== null;
  state.canRedo = history.now.undone.length > 0;
  state.force = force;
  patch(root, page(state));
  state.force = false;
  watchSheets();
  fitStrip();
  fitDrawings();
}

// For whoever watches from outside: nothing is under way, and all that is shown belongs to the project as it stands.
function calm() {
  const still = line.idle && (complete === state.text || !state.view?.sheets);
  document.documentElement.toggleAttribute("data-calm", still);
}

function useFurniture(furniture) {
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
function useView(view, { all }) {
  state.view = view;
  state.fields = new Map();
  eachField(view.sections, (path, item) => state.fields.set(path, item));
  if (view.sheets) {
    state.strip = view.strip;
    if (all) {
      state.sheets = view.sheets;
      complete = state.text;
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
function settle() {
  const typing = performance.now() - lastInput < PAUSE.flag && isField(document.activeElement);
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
  state.troubles = [...refused, ...said];
  if (state.view?.sheets) state.figuresBefore = false;
  else if (said.length) state.figuresBefore = true;
}

// What the engine says of a problem, in the reader's words.
const told = (problem) => problem?.text ?? problem?.params?.text ?? null;

const isField = (node) => Boolean(node?.dataset?.path && node.dataset.kind && node.localName !== "select");

function unsettled() {
  let last = null;
  for (const [path, typed] of state.typed) if (typed.problem || typed.readings) last = path;
  return last;
}

function speakStrip() {
  later("speak", PAUSE.speak, () => {
    announce(state.strip.map(({ label, text }) => `${label} ${text}`).join(", "));
  });
}

function announce(text) {
  if (state.spoken === text) return;
  state.spoken = text;
  render();
}

/* ---------------------------------------------------------------- which sheets are in sight */

const inSight = new Set();
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
let stripWidth = 0;
function fitStrip() {
  const list = document.querySelector(".strip ul");
  if (!list) return;
  const key = `${list.clientWidth} ${list.textContent}`;
  if (key === stripWidth) return;
  stripWidth = key;
  const items = [...list.children];
  for (const item of items) item.hidden = false;
  const rows = () => new Set(items.filter((item) => !item.hidden).map((item) => item.offsetTop)).size;
  for (let last = items.length - 1; last > 0 && rows() > 2; last -= 1) items[last].hidden = true;
}

// The labels of a drawing that is small on the screen grow until they can be read; its lines stay where they are.
function fitDrawings() {
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

/* ---------------------------------------------------------------- changes */

function wanted() {
  const open = [...inSight].filter((id) => !document.getElementById(`sheet-${id}`)?.classList.contains("folded"));
  return open.length ? open : state.sheets.slice(0, 1).map(({ id }) => id);
}

// A sheet that comes into sight is made true soon, if the others were left for later.
function catchUp() {
  if (complete !== state.text && line.engine && state.view?.sheets) later("catch", 80, () => refresh(wanted()));
}

// An edit as typed. Edits of other fields keep their turn; of one field the newest stays.
function edit(path, text) {
  const typed = { text, problem: null, readings: null, shown: false };
  state.typed.delete(path);
  state.typed.set(path, typed);
  change(path, typed, `edit ${path}`, path, () => ["edit", { project: state.text, path, text }]);
}

function act(action, { path = null, slot = null, from = null } = {}) {
  const typed = path === null ? null : state.typed.get(path);
  return change(path, typed, slot && `act ${slot}`, slot, () => ["act", { project: from?.text ?? state.text, action }]);
}

let visits = 0; // typing in one field, until it is left, is one step of the history

async function change(path, typed, waitingSlot, historySlot, ask) {
  const begun = performance.now();
  const visit = `${path} ${visits}`;
  return line.run(
    waitingSlot,
    async () => {
      const want = wanted();
      const { reader, text: before } = state;
      const [op, args] = ask();
      let answer;
      try {
        answer = await line.call(op, { ...args, reader, want });
      } catch (problem) {
        answer = { outcome: "refused", problem };
      }
      if (!answer) return null;
      const current = typed === null || state.typed.get(path) === typed;
      if (answer.outcome === "taken") {
        history.now.note(before, answer.project, historySlot, historySlot && visit);
        state.text = answer.project;
        if (current && typed) {
          // what is being typed stays as it is until the field is left
          if (document.activeElement?.dataset?.path === path && isField(document.activeElement)) Object.assign(typed, { problem: null, readings: null, shown: false });
          else state.typed.delete(path);
        }
        if (reader === state.reader) useView(answer.view, { all: false });
        changed();
      } else if (current && typed) {
        typed.problem = answer.outcome === "refused" ? (told(answer.problem) ?? say("not_taken")) : null;
        typed.readings = answer.outcome === "ask" ? answer.readings : null;
        settle();
      } else if (answer.outcome === "refused") tell("refused", { title: say("needs_a_look"), texts: [told(answer.problem) ?? say("not_taken")], tone: "warning" });
      render();
      performance.clearMeasures("foamwright-edit");
      performance.measure("foamwright-edit", { start: begun, end: performance.now() });
      return answer;
    },
    { urgent: true },
  );
}

// The project has changed: save it, compute what is out of sight, say the new answers.
function changed() {
  if (!state.id) state.id = newId();
  if (state.guest) state.guest = false;
  saveSoon();
  speakStrip();
  rest();
  carry();
  whyAgain();
}

function rest() {
  later("rest", PAUSE.rest, () => {
    if (line.waiting.some(({ urgent }) => urgent)) {
      rest();
      return;
    }
    refresh(null);
  });
}

// A view of the project as it stands; null wants all sheets. Only within a turn of the line.
async function fetchView(want, { force = false } = {}) {
  const { text, reader } = state;
  let view;
  try {
    view = await line.call("view", { project: text, reader, want });
  } catch (problem) {
    tell("fault", faultNotice("view", problem));
    render();
    return false;
  }
  if (!view || text !== state.text || reader !== state.reader) return false;
  useView(view, { all: want === null });
  if (want === null && state.kept !== "none") saveSoon();
  render({ force });
  return true;
}

function refresh(want, options) {
  return line.run(want ? "view" : "rest", () => fetchView(want, options));
}

function whyAgain() {
  if (state.drawer?.name === "why") later("why", PAUSE.rest, () => fetchWhy());
  if (state.drawer?.name === "send") later("send", PAUSE.rest * 2, () => fetchSend());
}

// Go to another text of the project, or to another project. Only within a turn of the line.
async function show(text, { whole = false } = {}) {
  state.text = text;
  state.typed.clear();
  carry();
  return fetchView(whole ? null : wanted(), { force: true });
}

function step(way) {
  const half = way === "undo" ? unsettled() : null;
  if (half !== null) {
    state.typed.delete(half);
    settle();
    render({ force: true });
    goTo(half, { focus: false });
    return;
  }
  line.run(
    null,
    async () => {
      const found = history.now[way](state.text);
      if (!found) {
        const end = way === "undo" && history.now.trimmed ? "undo_trimmed" : way === "undo" ? "undo_end" : "redo_end";
        tell("end", { title: say(end), passing: true });
        render();
        return;
      }
      drop("end");
      await show(found.text);
      changed();
      const label = found.slot && state.fields.get(found.slot)?.label;
      announce(label ? say(way === "undo" ? "undone" : "redone", { what: label }) : say(way === "undo" ? "undone_one" : "redone_one"));
    },
    { urgent: true },
  );
}

/* ---------------------------------------------------------------- going places */

function goTo(path, { focus = true } = {}) {
  const from = document.activeElement?.closest?.("#drawer");
  if (from && matchMedia("(max-width: 70rem)").matches) closeDrawer({ focus: false });
  let node = null;
  for (let at = path; at && !node; at = at.replace(/(\.[^.[]*|\[\d+\]|^[^.[]+)$/, "")) node = document.getElementById(fieldId(at));
  if (!node) return;
  for (let at = node; at; at = at.parentElement) if (at.localName === "details") at.open = true;
  node.scrollIntoView({ block: "center" });
  if (focus) (node.localName === "details" ? node.querySelector("summary") : node).focus({ preventScroll: true });
}

function goToSheet(id) {
  state.folds.set(id, true);
  render();
  catchUp();
  land(document.getElementById(`sheet-${id}-title`));
}

function goToSection(id) {
  if (matchMedia("(max-width: 70rem)").matches) closeDrawer({ focus: false });
  land(document.getElementById(`s-${id}-title`));
}

function land(node) {
  if (!node) return;
  node.scrollIntoView({ block: "start" });
  node.focus({ preventScroll: true });
}

/* ---------------------------------------------------------------- drawers */

let opener = null;

function openDrawer(name, more = {}) {
  const from = document.activeElement;
  if (!from?.closest?.("#drawer")) opener = from;
  state.drawer = { name, ...more };
  document.documentElement.dataset.drawer = name;
  render();
  document.getElementById("drawer-title")?.focus({ preventScroll: true });
}

function closeDrawer({ focus = true } = {}) {
  if (!state.drawer) return;
  const figure = state.drawer.figure;
  state.drawer = null;
  delete document.documentElement.dataset.drawer;
  render();
  if (!focus) return;
  const back = opener?.isConnected ? opener : figure ? document.querySelector(`[data-figure="${CSS.escape(figure)}"]`) : document.querySelector(".tools button");
  back?.focus({ preventScroll: true });
}

function openWhy(figure) {
  openDrawer("why", { figure, answer: null });
  fetchWhy();
}

function fetchWhy() {
  return line.run("why", async () => {
    const figure = state.drawer?.figure;
    if (!figure) return;
    let answer = null;
    let problem = null;
    try {
      answer = await line.call("why", { project: state.text, reader: state.reader, figure });
    } catch (given) {
      problem = told(given) ?? say("why_none");
    }
    if (state.drawer?.figure !== figure) return;
    state.drawer = { ...state.drawer, answer, problem };
    render();
  });
}

function openSend() {
  openDrawer("send", { to: { ...state.reader, ...wishes.to }, answer: null });
  fetchSend();
}

const address = () => (/^https?:$/.test(location.protocol) ? location.href.split("#")[0] : "");

async function share(to) {
  return line.call("share", { project: state.text, reader: state.reader, to, address: address() });
}

function fetchSend() {
  return line.run("send", async () => {
    const to = state.drawer?.to;
    if (!to) return;
    let answer = null;
    let problem = null;
    try {
      answer = await share(to);
    } catch (given) {
      problem = told(given) ?? say("send_none");
    }
    if (state.drawer?.to !== to) return;
    if (answer) answer = { ...answer, link: address() && `${address()}#${answer.fragment.replace(/^#/, "")}`, mayShare: Boolean(navigator.share) };
    state.drawer = { ...state.drawer, answer, problem };
    render();
  });
}

async function copyFrom(id) {
  const field = document.getElementById(id);
  if (!field) return;
  let done = false;
  try {
    await navigator.clipboard.writeText(field.value);
    done = true;
  } catch {
    field.focus();
    field.select();
    done = document.execCommand?.("copy") ?? false;
  }
  announce(say(done ? "copied" : "copy_by_hand"));
  tell("copied", { title: say(done ? "copied" : "copy_by_hand"), passing: true });
  render();
}

/* ---------------------------------------------------------------- notices: what is asked or told on top */

function tell(id, { title, texts, points, details, tone, choices = [], passing = false, focus = false }) {
  const notice = { id, title, texts, points, details, tone, choices: [...choices] };
  if (!choices.length || passing) notice.choices.push({ act: "close", label: say("understood"), run: () => drop(id) });
  state.notices = [...state.notices.filter((one) => one.id !== id), notice];
  if (passing) later(`notice ${id}`, 8000, () => drop(id));
  if (focus) {
    render();
    const node = document.getElementById(`notice-${id}`);
    node?.scrollIntoView({ block: "center" });
    node?.focus({ preventScroll: true });
  }
}

function drop(id) {
  const before = state.notices.length;
  state.notices = state.notices.filter((one) => one.id !== id);
  if (state.notices.length !== before) render();
}

function faultNotice(op, problem) {
  return {
    title: say("fault_title"),
    texts: [told(problem) ?? say("fault_words")],
    details: JSON.stringify({ op, ...problem }, null, 1),
    tone: "warning",
    choices: [
      { act: "copy", label: say("copy_details"), main: true, run: () => copyFrom("notice-fault-details") },
      { act: "close", label: say("understood"), run: () => drop("fault") },
    ],
  };
}

function fault(op, problem) {
  tell("fault", faultNotice(op, problem));
  render();
}

/* ---------------------------------------------------------------- what is kept */

// The page itself carries the project, so that a saved copy of the page opens with it.
function carry() {
  const holder = document.getElementById("carried");
  if (holder && state.id) holder.textContent = JSON.stringify({ id: state.id, text: state.text }).replaceAll("<", "\\u003c");
}

function carried() {
  try {
    const kept = JSON.parse(document.getElementById("carried").textContent);
    return typeof kept?.text === "string" && typeof kept.id === "string" ? kept : null;
  } catch {
    return null;
  }
}

function saveSoon() {
  if (state.guest || !state.id) return;
  if (!store) {
    state.kept = "not";
    return;
  }
  state.kept = "saving";
  later("save", PAUSE.save, save);
}

let saving = null;

async function save() {
  clearTimeout(timers.save);
  if (!store || !state.id || state.guest || state.notices.some(({ id }) => id === "conflict")) return;
  if (saving) {
    await saving;
    return save();
  }
  const { id, text, revision } = state;
  const whole = complete === text && state.view?.sheets && !state.reader.catalog;
  const record = {
    id,
    name: state.name,
    text,
    history: history.now.kept(),
    saved: Date.now(),
    good: whole ? { text, engine: state.view.engine, reader: state.reader, furniture: state.furniture, view: { ...state.view, sheets: state.sheets } } : null,
  };
  saving = store.put(record, revision, true);
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

async function listSaved() {
  state.saved = store ? (await store.list()).sort((a, b) => (b.saved ?? 0) - (a.saved ?? 0)) : [];
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
        run: () => {
          state.id = newId();
          state.revision = 0;
          drop("conflict");
          save();
        },
      },
    ],
  });
  render();
}

async function lookForOthers() {
  if (!store || !state.id || state.guest || saving) return;
  const there = await store.get(state.id).catch(() => null);
  if (there && there.revision > state.revision && there.text !== state.text) conflict(there);
}

// Another text in place of this one, as one step that can be undone.
function replace(text, { revision } = {}) {
  return line.run(
    null,
    async () => {
      if (revision !== undefined) state.revision = revision;
      history.now.note(state.text, text, null);
      await show(text, { whole: true });
      state.guest = false;
      changed();
      render();
    },
    { urgent: true },
  );
}

// Another project beside this one, which is saved already. What cannot be read is not gone to.
function beside(record, { guest = false } = {}) {
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
      state.kept = !store ? "not" : record.revision ? "saved" : "none";
      state.sheets = [];
      state.strip = [];
      state.typed.clear();
      state.troubles = [];
      state.figuresBefore = false;
      state.firstVisit = false;
      history.now = new History(record.history);
      useView(view, { all: true });
      if (!guest && record.id && store && record.revision) await store.makeCurrent(record.id).catch(() => {});
      else if (!guest && record.id) saveSoon();
      if (!guest) carry();
      await listSaved().catch(() => {});
      render({ force: true });
      scrollTo(0, 0);
      return true;
    },
    { urgent: true },
  );
}

const atHand = () => state.guest === false && (state.id !== null || state.text !== FRESH);

/* ---------------------------------------------------------------- projects that come from elsewhere */

// A code or a file has been read: never over the project at hand without asking.
async function offer(found, { reading = false, title }) {
  if (found.outcome !== "taken") {
    tell("offer", { title: say("not_opened"), texts: found.summary ? [found.summary] : [], points: (found.problems ?? []).map(({ text }) => text), tone: "warning", focus: true });
    render();
    return;
  }
  if (found.project === state.text && !state.guest) {
    if (reading) setMode("read");
    tell("offer", { title: say("same_project"), passing: true });
    render();
    return;
  }
  const fresh = { id: newId(), text: found.project, name: found.name };
  const problems = (found.problems ?? []).map(({ text }) => text);
  if (!atHand()) {
    if (reading) setMode("read");
    await beside(fresh, { guest: reading });
    if (problems.length) tell("offer", { title: say("opened_with_problems"), points: problems });
    render();
    return;
  }
  if (reading) {
    guestOf = { id: state.id };
    setMode("read");
    await beside(fresh, { guest: true });
    tell("guest", { title: say("guest"), choices: [{ act: "mine", label: say("keep_mine"), run: () => (leaveReading(), backToMine()) }, { act: "edit", label: say("back_to_editing"), run: () => backToEditing() }] });
    render();
    return;
  }
  tell("offer", {
    title,
    texts: [found.name, found.summary].filter(Boolean),
    points: problems,
    focus: true,
    choices: [
      { act: "keep", label: say("keep_mine"), main: true, run: () => drop("offer") },
      { act: "beside", label: say("open_beside"), run: () => (drop("offer"), beside(fresh)) },
      { act: "replace", label: say("replace_mine"), run: () => (drop("offer"), replace(found.project)) },
    ],
  });
  render();
}

let guestOf = null; // whose project stands behind one that is only read

async function openWith(op, args, options) {
  const found = await line.run("open", async () => {
    try {
      return await line.call(op, { ...args, reader: state.reader });
    } catch (problem) {
      return { outcome: "refused", problems: [{ text: told(problem) ?? say("not_opened_words") }] };
    }
  });
  if (found) await offer(found, options);
}

const openCode = (code, options) => openWith("open_code", { code }, { title: say("came_by_code"), ...options });
const openFile = (text) => openWith("open_file", { text }, { title: say("came_by_file") });

function fromAddress() {
  const parts = new URLSearchParams(location.hash.replace(/^#/, ""));
  const code = parts.get("p");
  return code ? { code, reading: parts.get("v") === "read" } : null;
}

function forgetAddress() {
  try {
    globalThis.history.replaceState(null, "", location.href.split("#")[0]);
  } catch {
    // then it stays
  }
}

async function saveFile() {
  let name = "foamwright.json";
  let text = state.text;
  try {
    const made = await line.run("file", () => share(state.reader));
    if (made) {
      name = made.file_name;
      text = made.file;
    }
  } catch {
    // the text as it stands is a project file
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

/* ---------------------------------------------------------------- who reads */

let ownReader = null; // while somebody looks through the landowner's eyes

function setMode(mode) {
  state.mode = mode;
  document.documentElement.dataset.mode = mode;
}

function read(reader) {
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

function backToEditing() {
  if (state.guest) {
    const text = state.text;
    const fresh = { id: newId(), text, name: state.name };
    if (guestOf) {
      tell("guest", {
        title: say("came_by_code"),
        texts: [state.name ?? ""],
        focus: true,
        choices: [
          { act: "keep", label: say("keep_mine"), main: true, run: () => (leaveReading(), backToMine()) },
          { act: "beside", label: say("open_beside"), run: () => (leaveReading(), (guestOf = null), beside(fresh)) },
          { act: "replace", label: say("replace_mine"), run: () => (leaveReading(), replaceMine(text)) },
        ],
      });
      render();
      return;
    }
    leaveReading();
    beside(fresh);
    return;
  }
  leaveReading();
  render();
}

function leaveReading() {
  drop("guest");
  forgetAddress();
  setMode("edit");
  if (ownReader) useReader(ownReader, { keep: false });
  ownReader = null;
}

async function backToMine() {
  const record = guestOf?.id && store ? await store.get(guestOf.id).catch(() => null) : null;
  guestOf = null;
  return beside(record ?? { text: FRESH });
}

async function replaceMine(text) {
  await backToMine();
  return replace(text);
}

// The reader's choices: each its own, and none of them belongs to the project.
function useReader(reader, { keep = true } = {}) {
  state.reader = reader;
  if (keep) {
    const { catalog: _, ...lasting } = reader;
    wishes.reader = lasting;
    keepPreferences(wishes);
  }
  for (const typed of state.typed.values()) {
    // what was not taken was said in other words and units: it stays as typed, and is not read anew
    if (typed.problem) typed.problem = null;
    if (typed.readings) typed.readings = null;
    typed.stays = true;
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

function light(value) {
  state.light = value;
  if (value === "auto") delete document.documentElement.dataset.light;
  else document.documentElement.dataset.light = value;
}

async function tryCatalog(text) {
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

/* ---------------------------------------------------------------- print */

async function print(sheet) {
  await line.run(null, async () => {
    if (complete !== state.text) await fetchView(null);
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

/* ---------------------------------------------------------------- hands */

let bagBase = null;

function typeBag(path, text) {
  const typed = { text, problem: null, readings: null, shown: false };
  state.typed.set(path, typed);
  // the recipe is scaled with the bag: every half-typed mass starts from what stood there before the field was entered
  const stay = visits;
  change(path, typed, `edit ${path}`, path, () => {
    if (bagBase?.stay !== stay) bagBase = { stay, text: state.text };
    return ["edit", { project: bagBase.text, path, text }];
  });
}

const acts = {
  skip: () => land(document.getElementById("main")),
  undo: () => step("undo"),
  redo: () => step("redo"),
  open: ({ drawer }) => {
    if (state.drawer?.name === drawer) closeDrawer();
    else if (drawer === "send") openSend();
    else {
      openDrawer(drawer);
      listSaved().then(() => render(), () => {});
    }
  },
  close: () => closeDrawer(),
  sheet: ({ sheet }) => goToSheet(sheet),
  fold: ({ sheet }) => {
    state.folds.set(sheet, document.getElementById(`sheet-${sheet}`).classList.contains("folded"));
    render();
    catchUp();
  },
  section: ({ section }) => goToSection(section),
  edit: () => backToEditing(),
  read: () => read(null),
  "read-as": () => {
    const { to } = state.drawer;
    read({ ...state.reader, ...to });
  },
  answer: ({ notice, act: name }) => state.notices.find(({ id }) => id === notice)?.choices.find((choice) => choice.act === name)?.run(),
  copy: ({ from }) => copyFrom(from),
  share: async () => {
    try {
      await navigator.share({ text: state.drawer.answer.message });
    } catch (error) {
      if (error?.name !== "AbortError") copyFrom("send-message");
    }
  },
  print: ({ sheet }) => print(sheet),
  "print-all": () => print(null),
  "first-done": () => {
    state.firstVisit = false;
    wishes.asked = true;
    keepPreferences(wishes);
    render();
    land(document.querySelector(".section h2"));
  },
  reading: ({ path, text }) => {
    const field = document.getElementById(fieldId(path));
    if (field) field.value = text;
    field?.focus();
    edit(path, text);
  },
  bag: async ({ path, value }) => {
    state.typed.delete(path);
    visits += 1;
    await act({ name: "bag", kg: Number(value) });
    visits += 1;
    render({ force: true });
  },
  add: async ({ path }) => {
    visits += 1;
    const count = state.fields.get(path)?.items.length ?? 0;
    state.opened = `${path}[${count}]`;
    const answer = await act({ name: "add", path });
    if (answer?.outcome === "taken") {
      const item = document.getElementById(fieldId(`${path}[${count}]`));
      if (item) item.open = true;
      const target = item?.querySelector("input, select, textarea");
      target?.scrollIntoView({ block: "center" });
      target?.focus({ preventScroll: true });
    }
  },
  remove: async ({ path, list }) => {
    visits += 1;
    for (const key of [...state.typed.keys()]) if (key.startsWith(`${list}[`)) state.typed.delete(key);
    const title = state.fields.get(path)?.label ?? "";
    const answer = await act({ name: "remove", path });
    if (answer?.outcome === "taken") {
      document.getElementById(fieldId(list))?.focus({ preventScroll: true });
      announce(say("removed", { what: title }));
    }
  },
  exchange: async ({ path, how }) => {
    const typed = state.typed.get(path);
    if (!typed) return;
    const id = fieldId(path);
    const more = how === "convert" ? { rate: document.getElementById(`${id}-rate`)?.value ?? "", date: document.getElementById(`${id}-date`)?.value ?? "" } : {};
    visits += 1;
    await act({ name: "currency", currency: typed.text, how, ...more }, { path });
    document.getElementById(id)?.focus();
  },
  "exchange-not": ({ path }) => {
    state.typed.delete(path);
    settle();
    render({ force: true });
    document.getElementById(fieldId(path))?.focus();
  },
  new: () => {
    closeDrawer({ focus: false });
    state.kept = "none";
    beside({ text: FRESH });
  },
  "save-file": () => saveFile(),
  switch: async ({ id }) => {
    if (id === state.id) {
      closeDrawer();
      return;
    }
    const record = await store?.get(id).catch(() => null);
    closeDrawer({ focus: false });
    if (typeof record?.text === "string") beside(record);
    else damaged(record);
  },
  delete: async ({ id }) => {
    const record = await store?.get(id).catch(() => null);
    await store?.remove(id);
    await listSaved();
    if (id === state.id) {
      clearTimeout(timers.save);
      await beside({ text: FRESH });
    }
    tell("deleted", {
      title: say("deleted", { what: record?.name ?? say("nameless") }),
      choices: [
        {
          act: "undo",
          label: say("undo"),
          main: true,
          run: async () => {
            drop("deleted");
            if (!record) return;
            await store.put({ ...record }, record.revision ?? 0, false);
            await listSaved();
            render();
          },
        },
        { act: "close", label: say("understood"), run: () => drop("deleted") },
      ],
    });
    render();
  },
  "paste-code": () => {
    const code = document.getElementById("paste-code")?.value ?? "";
    closeDrawer({ focus: false });
    openCode(code.trim().replace(/^.*#(?:.*&)?p=([^&\s]*).*$/s, "$1"), {});
  },
  "drop-catalog": () => {
    const { catalog: _, ...reader } = state.reader;
    useReader(wishes.reader ?? reader);
  },
};

function damaged(record, problem) {
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

function listen() {
  root.addEventListener("click", (event) => {
    const node = event.target.closest?.("[data-do], [data-figure], [data-goto], .drawing [data-path]");
    if (!node || !root.contains(node)) {
      nearTouch(event);
      return;
    }
    const { dataset } = node;
    if (node.localName === "a") event.preventDefault();
    if (dataset.figure) openWhy(dataset.figure);
    else if (dataset.goto) goTo(dataset.goto);
    else if (dataset.do) acts[dataset.do]?.(dataset);
    else if (dataset.path) goTo(dataset.path);
  });

  root.addEventListener("input", (event) => {
    const { target } = event;
    const { path, kind } = target.dataset;
    if (!path || target.localName === "select") return;
    lastInput = performance.now();
    if (kind === "bag") typeBag(path, target.value);
    else edit(path, target.value);
  });

  root.addEventListener("change", (event) => {
    const { target } = event;
    const { path, kind, reader, to } = target.dataset;
    if (reader === "light") {
      light(target.value);
      wishes.light = target.value;
      keepPreferences(wishes);
    } else if (reader) useReader({ ...state.reader, [reader]: target.value });
    else if (to) {
      state.drawer = { ...state.drawer, to: { ...state.drawer.to, [to]: target.value }, answer: null };
      wishes.to = { language: state.drawer.to.language, units: state.drawer.to.units };
      keepPreferences(wishes);
      fetchSend();
    } else if (target.type === "file") takeFile(target);
    else if (path && target.localName === "select") {
      visits += 1;
      const typed = { text: target.value, problem: null, readings: null, shown: false };
      if (kind === "currency") {
        state.typed.set(path, typed);
        change(path, typed, `edit ${path}`, null, () => ["act", { project: state.text, action: { name: "currency", currency: typed.text } }]);
      } else edit(path, target.value);
    }
  });

  // A field is left: what it holds is said, and what is wrong with it, too.
  root.addEventListener("focusout", ({ target }) => {
    if (!isField(target)) return;
    visits += 1;
    lastInput = 0;
    setTimeout(() => {
      for (const [path, typed] of [...state.typed]) if (!typed.problem && !typed.readings && !line.busy) state.typed.delete(path);
      settle();
      render();
    });
  });

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && state.drawer) {
      event.preventDefault();
      closeDrawer();
      return;
    }
    const touch = event.target.closest?.(".drawing [data-path]");
    if (touch && (event.key === "Enter" || event.key === " ")) {
      event.preventDefault();
      goTo(touch.dataset.path);
      return;
    }
    if (!(event.ctrlKey || event.metaKey) || event.altKey || state.mode === "read") return;
    const key = event.key.toLowerCase();
    const own = /^(?:INPUT|TEXTAREA)$/.test(event.target.nodeName) && !event.target.dataset.path;
    if (own || (key !== "z" && key !== "y")) return;
    event.preventDefault();
    step(key === "y" || event.shiftKey ? "redo" : "undo");
  });

  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") {
      if (state.kept === "saving") save();
    } else lookForOthers();
  });
  addEventListener("focus", () => lookForOthers());
  addEventListener("pagehide", () => {
    if (state.kept === "saving") save();
  });
  addEventListener("hashchange", () => {
    const found = fromAddress();
    if (found) arrive(found);
  });
  addEventListener("resize", () => {
    fitStrip();
    fitDrawings();
  });
  const wide = matchMedia("(min-width: 56rem)");
  state.wide = wide.matches;
  wide.addEventListener("change", () => {
    state.wide = wide.matches;
    render();
  });
}

// A gloved finger beside a dimension means that dimension.
function nearTouch(event) {
  const paper = event.target.closest?.(".drawing-paper");
  if (!paper) return;
  let best = null;
  let least = 30;
  for (const part of paper.querySelectorAll("[data-path]")) {
    const box = (part.querySelector(".plate") ?? part).getBoundingClientRect();
    const away = Math.hypot(Math.max(box.left - event.clientX, 0, event.clientX - box.right), Math.max(box.top - event.clientY, 0, event.clientY - box.bottom));
    if (away < least) {
      best = part;
      least = away;
    }
  }
  if (best) goTo(best.dataset.path);
}

async function takeFile(input) {
  const [file] = input.files;
  if (!file) return;
  const text = await file.text().catch(() => "");
  input.value = "";
  closeDrawer({ focus: false });
  if (input.id === "open-catalog") tryCatalog(text);
  else openFile(text);
}

function arrive({ code, reading }) {
  if (!reading) forgetAddress();
  openCode(code, { reading, title: say("came_by_link") });
}

/* ---------------------------------------------------------------- start */

// The estimate of the default project that was made when the page was built, in the nearest language.
async function paintedPart() {
  let parts;
  try {
    parts = Object.keys(JSON.parse(document.getElementById("parts").textContent));
  } catch {
    return null;
  }
  const wish = wishes.reader;
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
  for (const name of ["live", "calm", "drawer", "print", "mode"]) delete html.dataset[name];
  document.getElementById("boot-failed").hidden = true;
  light(state.light);
  listen();

  const booting = Foamwright.boot({ onProgress: progress });
  booting.catch(() => {});
  const brought = carried();
  const link = fromAddress();
  let kept = null;
  try {
    store = await Store.open();
    kept = (await store.current()) ?? null;
  } catch (error) {
    store = null;
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
    state.kept = store ? (kept.unsaved ? "saving" : "saved") : "not";
    history.now = new History(kept.history);
  } else state.firstVisit = !wishes.asked && !link;

  const paint = await paintedPart().catch(() => null);
  if (paint) {
    state.reader ??= null;
    useFurniture(paint.furniture);
  }
  const shownReader = state.reader ?? paint?.furniture.reader ?? { language: "en", units: "metric", digits: "auto", numbers: "auto" };
  const guess = !state.reader;
  state.reader = shownReader;
  if (link?.reading) setMode("read");
  const good = kept?.good;
  const version = paint?.view?.engine;
  if (link) state.progress = say("computing");
  else if (!kept && paint && sameReader(paint.furniture.reader, shownReader)) useView(paint.view, { all: true });
  else if (kept && good && good.text === kept.text && good.engine === version && sameReader(good.reader, shownReader)) {
    useFurniture(good.furniture);
    useView(good.view, { all: true });
  } else if (paint) state.progress = say("computing");
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
    if (!state.furniture || !sameReader(state.furniture.reader, state.reader)) useFurniture(await line.call("furniture", { reader: state.reader }));
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
  await listSaved().catch(() => {});
  if (kept?.unsaved) saveSoon();
  isLive();
}

let storeTrouble = null;

// What is on the page already is confirmed where it is in sight; the rest follows.
async function firstView() {
  const want = state.sheets.length ? wanted() : null;
  const view = await line.call("view", { project: state.text, reader: state.reader, want });
  if (!view) return;
  complete = "";
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
  history.now = new History();
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
