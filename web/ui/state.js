// What the page holds at any moment, in one place. Whoever changes it has the page drawn anew.

import { History } from "./history.js";
import { preferences } from "./store.js";

export const FRESH = '{"format": 1}';
export const PAUSE = { flag: 1000, rest: 220, save: 400, speak: 900, slow: 1200 };
export const root = document.getElementById("page");

export const wishes = preferences();
export const state = {
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
  // what is kept and where
  store: null,
  story: new History(), // the steps that can be undone
  complete: "", // the project text that all sheets on the page belong to
  readFirst: false, // a project that came to be read, until somebody wants to change it
  diary: { of: null, entries: [] }, // entries of the project `of`
  site: null, // the site view while it is open, see site.js
  guestOf: null, // whose project stands behind one that is only read
  // hands
  lastInput: 0, // when somebody last typed
  visits: 0, // typing in one field, until it is left, is one step of the history
};

export const timers = {};
export const later = (name, wait, work) => {
  clearTimeout(timers[name]);
  timers[name] = setTimeout(work, wait);
};
