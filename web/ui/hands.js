// What hands do: each thing that can be pressed or typed, and what follows.

import { forgetAddress, fromAddress, openCode, openFile, saveFile } from "./arrive.js";
import { act, catchUp, change, edit, step } from "./change.js";
import { fieldId } from "./fields.js";
import { beside, damaged, listSaved, lookForOthers, save } from "./keep.js";
import { drop, tell } from "./notices.js";
import { closeDrawer, copyFrom, fetchSend, goTo, goToSection, goToSheet, land, openDrawer, openSend, openWhy } from "./places.js";
import { backToEditing, light, print, read, tryCatalog, useReader } from "./reader.js";
import { followAddress, lookForEntries, siteActs, takeDiary, typeSite } from "./site.js";
import { announce, fitDrawings, fitStrip, isField, render, settle } from "./show.js";
import { FRESH, root, state, timers, wishes } from "./state.js";
import { keepPreferences } from "./store.js";
import { say } from "./words.js";

let bagBase = null;

function typeBag(path, text) {
  const typed = { text, problem: null, readings: null, shown: false };
  state.typed.set(path, typed);
  // the recipe is scaled with the bag: every half-typed mass starts from what stood there before the field was entered
  const stay = state.visits;
  change(path, typed, `edit ${path}`, path, () => {
    if (bagBase?.stay !== stay) bagBase = { stay, text: state.text };
    return ["edit", { project: bagBase.text, path, text }];
  });
}

const acts = {
  ...siteActs,
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
  "why-back": () => openWhy(state.drawer.trail.at(-1).figure, { back: true }),
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
    state.visits += 1;
    await act({ name: "bag", kg: Number(value) });
    state.visits += 1;
    render({ force: true });
  },
  add: async ({ path }) => {
    state.visits += 1;
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
    state.visits += 1;
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
    state.visits += 1;
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
    const record = await state.store?.get(id).catch(() => null);
    closeDrawer({ focus: false });
    if (typeof record?.text === "string") beside(record);
    else damaged(record);
  },
  delete: async ({ id }) => {
    const record = await state.store?.get(id).catch(() => null);
    const diary = await state.store?.remove(id);
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
            await state.store.put({ ...record }, record.revision ?? 0, false);
            await state.store.addEntries(id, diary ?? []);
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
    openCode(code.trim().replace(/^.*#(?:.*&)?p=([^&\s]*).*$/s, "$1"), { readFirst: true });
  },
  "drop-catalog": () => {
    const { catalog: _, ...reader } = state.reader;
    useReader(wishes.reader ?? reader);
  },
};

export function listen() {
  root.addEventListener("click", (event) => {
    const node = event.target.closest?.("[data-do], [data-figure], [data-goto], .drawing [data-path]");
    if (!node || !root.contains(node)) {
      nearTouch(event);
      return;
    }
    const { dataset } = node;
    // not every browser gives the focus to what is pressed, and what opens gives it back later
    if (document.activeElement !== node) node.focus({ preventScroll: true });
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
    state.lastInput = performance.now();
    if (target.closest(".on-site")) typeSite(path, target.value);
    else if (kind === "bag") typeBag(path, target.value);
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
    else if (path && target.localName === "select" && target.closest(".on-site")) typeSite(path, target.value);
    else if (path && target.localName === "select") {
      state.visits += 1;
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
    state.visits += 1;
    state.lastInput = 0;
    setTimeout(() => {
      for (const [path, typed] of [...state.typed]) if (typed.taken) state.typed.delete(path);
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
    if (state.site) return;
    const key = event.key.toLowerCase();
    const own = /^(?:INPUT|TEXTAREA)$/.test(event.target.nodeName) && !event.target.dataset.path;
    if (own || (key !== "z" && key !== "y")) return;
    event.preventDefault();
    step(key === "y" || event.shiftKey ? "redo" : "undo");
  });

  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "hidden") {
      if (state.kept === "saving") save();
    } else lookAround();
  });
  addEventListener("focus", lookAround);
  addEventListener("pagehide", () => {
    if (state.kept === "saving") save();
  });
  addEventListener("hashchange", () => {
    const found = fromAddress();
    followAddress();
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

function lookAround() {
  lookForOthers();
  lookForEntries();
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
  else if (input.id === "diary-in") takeDiary(text);
  else openFile(text);
}

function arrive({ code, reading }) {
  if (!reading) forgetAddress();
  openCode(code, { reading, title: say("came_by_link") });
}
