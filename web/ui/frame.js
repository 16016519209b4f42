// The page around the sheets: head, strip of answers, tools, sections, foot. One function, from state to tree.

import { leadSheet, sheet } from "./blocks.js";
import { h } from "./dom.js";
import { drawer } from "./drawers.js";
import { eachField, entry } from "./fields.js";
import { icon } from "./icons.js";
import { say } from "./words.js";

export const NAME = "Foamwright";

export function page(state) {
  const { furniture, view, mode } = state;
  if (!furniture) return [];
  const reading = mode === "read";
  return [
    h("a", { key: "skip", class: "skip", href: "#main", "data-do": "skip" }, say("skip")),
    top(state, reading),
    bar(state, reading),
    notices(state),
    h("main", { key: "main", id: "main", tabindex: "-1" }, view || state.sheets.length ? body(state, reading) : waiting(state)),
    foot(state),
    drawer(state),
    h("p", { key: "live", class: "unseen", role: "status", "aria-live": "polite", id: "live" }, state.spoken),
  ];
}

function picker(id, title, choices, value) {
  return h(
    "div",
    { class: "picker", key: id },
    h("label", { for: id, class: "unseen" }, title),
    h("select", { id, "data-reader": id, value }, choices.map((one) => h("option", { key: one.value, value: one.value, lang: one.lang ?? null }, one.label))),
  );
}

// The languages on offer, and the one in use where it is a translator's own.
export function languages(furniture, inUse) {
  const offered = furniture.languages.map((one) => ({ ...one, lang: one.value }));
  const near = inUse && nearest(offered, inUse);
  return near && !offered.some(({ value }) => value === near) ? [...offered, { value: near, label: near, lang: near }] : offered;
}

function top(state, reading) {
  const { furniture, reader } = state;
  return h(
    "header",
    { key: "top", class: "top" },
    h(
      "div",
      { class: "top-name" },
      h("p", { class: "wordmark" }, h("span", { translate: "no" }, NAME), " ", h("span", { class: `kept ${state.kept}` }, say(reading && state.kept === "none" ? "reading" : KEPT[state.kept]))),
      h("h1", { class: (state.view?.title ?? "").length > 40 ? "long" : null }, h("bdi", {}, state.view?.title ?? state.name ?? NAME)),
      state.view?.subtitle && h("p", { class: "subtitle" }, h("bdi", {}, state.view.subtitle)),
    ),
    h("div", { class: "top-choices" }, picker("language", say("language"), languages(furniture, reader.language), nearest(furniture.languages, reader.language)), picker("units", say("units"), furniture.units, reader.units)),
  );
}

// "es-MX" is read in "es" where no catalog is nearer.
export function nearest(choices, tag) {
  for (let at = tag; at; at = at.includes("-") ? at.slice(0, at.lastIndexOf("-")) : "") if (choices.some(({ value }) => value === at)) return at;
  return tag;
}

const KEPT = { none: "kept_none", saving: "kept_saving", saved: "kept_saved", not: "kept_not" };

function bar(state, reading) {
  const { view } = state;
  const stale = state.figuresBefore;
  return h(
    "div",
    { key: "bar", class: "bar" },
    h(
      "nav",
      { class: stale ? "strip stale" : "strip", "aria-label": say("answers"), key: "strip" },
      h(
        "ul",
        {},
        state.strip.map((one) =>
          h("li", { key: one.figure }, h("button", { type: "button", "data-do": "sheet", "data-sheet": one.sheet, class: "answer" }, h("span", { class: "answer-label" }, one.label), " ", h("span", { class: "answer-text" }, one.text))),
        ),
      ),
    ),
    h(
      "nav",
      { class: "tools", "aria-label": say("tools"), key: "tools" },
      reading
        ? h("button", { type: "button", key: "edit", class: "tool", "data-do": "edit" }, say("back_to_editing"))
        : [
            h("button", { type: "button", key: "undo", class: "tool", "data-do": "undo", "aria-disabled": String(!state.canUndo), "aria-label": say("undo"), title: say("undo") }, icon("undo")),
            h("button", { type: "button", key: "redo", class: "tool", "data-do": "redo", "aria-disabled": String(!state.canRedo), "aria-label": say("redo"), title: say("redo") }, icon("redo")),
            h("button", { type: "button", key: "send", class: "tool", "data-do": "open", "data-drawer": "send", "aria-expanded": String(state.drawer?.name === "send") }, icon("send"), h("span", {}, say("send"))),
          ],
      h("button", { type: "button", key: "menu", class: "tool", "data-do": "open", "data-drawer": "menu", "aria-expanded": String(state.drawer?.name === "menu") }, icon("menu"), h("span", {}, say("menu"))),
    ),
    troubles(state),
  );
}

// What stands in the way of an estimate, each with the way to its field.
function troubles(state) {
  if (!state.troubles.length) return null;
  return h(
    "section",
    { key: "troubles", class: "troubles", "aria-label": say("needs_a_look") },
    h(
      "details",
      { first: { open: state.wide } },
      h("summary", {}, icon("warning"), h("span", {}, say("needs_a_look"))),
      h("ul", {}, state.troubles.map((one) => h("li", { key: one.path }, h("a", { href: "#main", "data-goto": one.path }, one.text)))),
      h("p", { class: "before" }, state.figuresBefore ? say("figures_before") : state.view?.without),
    ),
  );
}

function notices(state) {
  return h(
    "div",
    { key: "notices", class: "notices" },
    state.notices.map((one) =>
      h(
        "section",
        { key: one.id, id: `notice-${one.id}`, class: `notice ${one.tone ?? "plain"}`, tabindex: "-1", "aria-labelledby": `notice-${one.id}-title` },
        h("h2", { id: `notice-${one.id}-title` }, one.tone === "warning" ? icon("warning") : null, h("span", {}, one.title)),
        (one.texts ?? []).map((text) => h("p", { dir: "auto" }, text)),
        one.points?.length && h("ul", {}, one.points.map((text) => h("li", { dir: "auto" }, text))),
        one.details && h("textarea", { readonly: true, rows: 4, id: `notice-${one.id}-details`, value: one.details, force: true, "aria-label": say("details"), dir: "ltr" }),
        h("div", { class: "choices" }, one.choices.map((choice) => h("button", { type: "button", key: choice.act, class: choice.main ? "first" : "second", "data-do": "answer", "data-notice": one.id, "data-act": choice.act }, choice.label))),
      ),
    ),
  );
}

function waiting(state) {
  return h("p", { class: "computing", key: "computing" }, state.bootFailed ? "" : state.progress || say("computing"));
}

function body(state, reading) {
  const { furniture, sheets } = state;
  const [hero, ...others] = sheets;
  const sections = furniture.sections
    .map(({ id, title }) => ({
      id,
      title,
      entries: reading ? [] : (state.view?.sections?.[id] ?? []),
      sheets: others.filter((one) => one.section === id),
    }))
    .filter((one) => one.entries.length || one.sheets.length);
  // what stands beside the leading sheet: all up to its own section
  const upTo = sections.findIndex(({ id }) => id === hero?.section);
  const draw = (one) => section(state, one, reading);
  return [
    state.progress && h("p", { key: "progress", class: "computing", role: "status" }, state.progress),
    h(
      "div",
      { key: "job", class: "job" },
      h("nav", { class: "rail", key: "rail", "aria-label": say("sections") }, h("ul", {}, sections.map((one) => h("li", { key: one.id }, h("a", { href: `#s-${one.id}`, "data-do": "section", "data-section": one.id, "aria-current": state.section === one.id ? "true" : null }, one.title))))),
      h(
        "div",
        { class: "sections", key: "sections" },
        h(
          "div",
          { key: "hero", class: upTo < 0 ? "hero plain" : "hero" },
          hero && leadSheet(hero, sheetAround(state, hero)),
          upTo >= 0 && h("div", { key: "beside", class: "beside" }, state.firstVisit && first(state), sections.slice(0, upTo + 1).map(draw)),
        ),
        sections.slice(upTo + 1).map(draw),
      ),
    ),
  ];
}

function section(state, { id, title, entries, sheets }, reading) {
  const around = fieldsAround(state, "f");
  const sends = id === "landowner" && !reading;
  return h(
    "section",
    { key: id, id: `s-${id}`, class: entries.length && sheets.length ? "section" : "section plain", "aria-labelledby": `s-${id}-title` },
    h("h2", { id: `s-${id}-title`, tabindex: "-1", key: "title" }, title),
    entries.length > 0 && h("div", { class: "says", key: "says" }, h("div", { class: "fields" }, entries.map((each) => entry(each, around)))),
    (sheets.length > 0 || sends) &&
      h(
        "div",
        { class: "means", key: "means" },
        sheets.map((each) => sheet(each, sheetAround(state, each))),
        sends && h("p", { key: "send" }, h("button", { type: "button", class: "first", "data-do": "open", "data-drawer": "send" }, icon("send"), h("span", {}, say("send_to_landowner")))),
      ),
  );
}

const words = ({ reader }) => reader.language + (reader.catalog ? reader.catalog.length : "");

function fieldsAround(state, prefix) {
  return { prefix, typed: state.typed, problems: state.problemAt, currencies: state.furniture.currencies, bags: state.furniture.bags, opened: state.opened, force: state.force, words: words(state) };
}

function sheetAround(state, item) {
  return {
    reading: state.mode === "read",
    labels: (path) => (state.mode === "read" ? null : (state.fields.get(path)?.label ?? null)),
    head: [state.view?.title ?? state.name ?? NAME, item.title, state.today, `${NAME} ${state.view?.engine ?? ""}`],
    open: state.folds.get(item.id) ?? (state.wide || (state.mode === "read" && item.section === "landowner")),
    words: words(state),
    source: "en",
  };
}

// The three questions that make the first estimate theirs: where, what, which bag.
function first(state) {
  const around = fieldsAround(state, "q");
  const asked = firstPaths(state).map((path) => state.fields.get(path)).filter(Boolean);
  if (!asked.length) return null;
  return h(
    "section",
    { key: "first", class: "first", "aria-labelledby": "first-title" },
    h("h2", { id: "first-title" }, say("first_title")),
    h("p", {}, say("first_words")),
    h("div", { class: "fields" }, asked.map((each) => entry(each, around))),
    h("button", { type: "button", class: "second", "data-do": "first-done" }, say("first_done")),
  );
}

function firstPaths(state) {
  const paths = [];
  const wanted = [["place", "text"], ["shape", "number"], ["money", "bag"]];
  for (const [section, kind] of wanted) {
    let found = null;
    eachField({ [section]: state.view?.sections?.[section] ?? [] }, (path, item) => {
      if (!found && item.kind === kind && path !== "name") found = path;
    });
    if (found) paths.push(found);
  }
  return paths;
}

function foot(state) {
  return h("footer", { key: "foot", class: "foot" }, h("p", {}, say("foot")), h("p", { class: "small" }, `${NAME} ${state.view?.engine ?? ""}`));
}
