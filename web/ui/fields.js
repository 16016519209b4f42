// What the builder says: fields, groups and lists as the engine describes them.

import { h } from "./dom.js";
import { icon } from "./icons.js";
import { say } from "./words.js";

export const fieldId = (path, prefix = "f") => `${prefix}-${path}`;

// around: {prefix, typed: Map path -> {text, problem, readings, shown}, problems: Map path -> text, currencies}
export function entry(item, around) {
  if (item.kind === "group") return group(item, around);
  if (item.kind === "list") return list(item, around);
  return field(item, around);
}

function group(item, around) {
  const kids = item.entries.map((each) => entry(each, around));
  const help = item.help && h("p", { class: "help" }, item.help);
  const id = fieldId(item.id, around.prefix);
  if (!item.folded) {
    return h("fieldset", { key: item.id, class: "group", id }, h("legend", {}, item.title), help, h("div", { class: "fields", key: "fields" }, kids));
  }
  return h(
    "details",
    { key: item.id, class: "group folded", id, first: { open: holdsTrouble(item.entries, around) } },
    h("summary", { key: "summary" }, item.title),
    help,
    h("div", { class: "fields", key: "fields" }, kids),
  );
}

function holdsTrouble(entries, around) {
  return entries.some((each) => (each.entries ? holdsTrouble(each.entries, around) : around.problems.has(each.path) || around.typed.get(each.path)?.shown));
}

function list(item, around) {
  return h(
    "fieldset",
    { key: item.path, class: "list", id: fieldId(item.path, around.prefix), tabindex: "-1" },
    h("legend", {}, item.title),
    item.help && h("p", { class: "help", key: "help" }, item.help),
    trouble(item.path, around),
    item.items.map((one, index) =>
      h(
        "details",
        { key: one.path, class: "item", id: fieldId(one.path, around.prefix), same: seen(one, item, around), first: { open: item.items.length < 2 || around.opened === one.path } },
        () => [
          h("summary", { key: "summary" }, one.title),
          trouble(one.path, around),
          h("div", { class: "fields", key: "fields" }, one.entries.map((each) => entry(each, around))),
          item.remove &&
            h(
              "button",
              { type: "button", key: "remove", class: "quiet", "data-do": "remove", "data-path": one.path, "data-list": item.path, "data-index": index, "aria-label": say("of_item", { act: item.remove, item: one.title }) },
              icon("remove"),
              h("span", {}, item.remove),
            ),
        ],
      ),
    ),
    item.add &&
      (item.full
        ? h("p", { class: "help", key: "add" }, typeof item.full === "string" ? item.full : "")
        : h("button", { type: "button", key: "add", class: "second", "data-do": "add", "data-path": item.path }, icon("add"), h("span", {}, item.add))),
  );
}

// All that an item of a list shows: what the engine says of it, what is typed in it and what is wrong in it.
function seen(one, item, around) {
  const within = (found) => [...found].filter(([path]) => path.startsWith(one.path));
  return JSON.stringify([one, item.remove, within(around.typed), within(around.problems), around.force, around.words]);
}

function trouble(path, around) {
  const text = around.problems.get(path);
  return text ? h("p", { class: "error", key: "error" }, icon("warning"), h("span", {}, text)) : null;
}

function field(item, around) {
  const { path } = item;
  const id = fieldId(path, around.prefix);
  const typed = around.typed.get(path);
  const shown = typed?.shown ? typed : null;
  const problem = shown?.problem ?? around.problems.get(path) ?? null;
  const readings = shown?.readings ?? null;
  const named = [item.help && `${id}-help`, problem && `${id}-error`, readings && `${id}-ask`].filter(Boolean).join(" ");
  const control = {
    id,
    "data-path": path,
    "data-kind": item.kind,
    "aria-invalid": problem ? "true" : null,
    "aria-describedby": named || null,
  };
  return h(
    "div",
    { key: path, class: `field ${item.kind}${problem ? " wrong" : ""}` },
    h("label", { for: id, key: "label" }, item.spoken && item.spoken !== item.label ? [h("span", { "aria-hidden": "true" }, item.label), h("span", { class: "unseen" }, item.spoken)] : item.label),
    h("div", { class: "box", key: "box" }, CONTROLS[item.kind]?.(item, control, typed, around) ?? null, item.unit && h("span", { class: "unit", "aria-hidden": "true", key: "unit" }, item.unit.symbol)),
    item.kind === "bag" && around.prefix === "f" && bags(item, item.choices ?? around.bags),
    problem && h("p", { class: "error", id: `${id}-error`, key: "error" }, icon("warning"), h("span", {}, problem)),
    readings && (item.kind === "currency" ? exchange(item, readings, typed, id) : which(readings, path, id)),
    item.help && h("p", { class: "help", id: `${id}-help`, key: "help" }, item.help),
  );
}

const written = (item, typed) => typed?.text ?? item.value ?? "";

const number = (item, control, typed, around) =>
  h("input", { key: "in", type: "text", inputmode: "decimal", autocomplete: "off", spellcheck: "false", dir: "ltr", ...control, value: written(item, typed), force: around.force });

const choice = (choices) => (item, control, typed, around) =>
  h(
    "select",
    { key: "in", ...control, value: written(item, typed) },
    choices(item, around).map(({ value, label }) => h("option", { key: value, value }, label)),
  );

const CONTROLS = {
  number,
  bag: number,
  text: (item, control, typed, around) => h("input", { key: "in", type: "text", autocomplete: "off", dir: "auto", ...control, value: written(item, typed), force: around.force }),
  lines: (item, control, typed, around) => h("textarea", { key: "in", rows: 3, dir: "auto", ...control, value: written(item, typed), force: around.force }),
  date: (item, control, typed, around) => h("input", { key: "in", type: "date", ...control, value: written(item, typed), force: around.force }),
  choice: choice((item) => item.choices ?? []),
  currency: choice((item, around) => item.choices ?? around.currencies),
};

// The bags that are sold here and there, one touch each.
function bags(item, choices) {
  return h(
    "div",
    { class: "bags", key: "bags", role: "group", "aria-label": say("common_bags") },
    choices.map(({ value, label, chosen }) =>
      h("button", { type: "button", key: value, class: "chip", "data-do": "bag", "data-path": item.path, "data-value": value, "aria-pressed": chosen === undefined ? null : String(chosen) }, label),
    ),
  );
}

// A number that can be read in two ways.
function which(readings, path, id) {
  return h(
    "div",
    { class: "ask", id: `${id}-ask`, key: "ask", role: "group", "aria-label": say("which_one") },
    h("p", { class: "ask-words" }, say("which_one")),
    readings.map(({ text, label }) => h("button", { type: "button", key: text, class: "big", "data-do": "reading", "data-path": path, "data-text": text }, label)),
  );
}

// Prices stand already: what is to become of them in the new currency?
function exchange(item, readings, typed, id) {
  const mayConvert = readings.find(({ how }) => how === "convert");
  return h(
    "div",
    { class: "ask", id: `${id}-ask`, key: "ask", role: "group", "aria-label": say("prices_what") },
    h("p", { class: "ask-words" }, say("prices_what")),
    readings
      .filter(({ how }) => how !== "convert")
      .map(({ how, label }) => h("button", { type: "button", key: how, class: "big", "data-do": "exchange", "data-how": how, "data-path": item.path }, label)),
    mayConvert &&
      h(
        "div",
        { class: "rate", key: "convert" },
        h("div", { class: "field" }, h("label", { for: `${id}-rate` }, say("rate")), h("div", { class: "box" }, h("input", { id: `${id}-rate`, type: "text", inputmode: "decimal", autocomplete: "off", dir: "ltr" }))),
        h("div", { class: "field" }, h("label", { for: `${id}-date` }, say("rate_date")), h("div", { class: "box" }, h("input", { id: `${id}-date`, type: "date" }))),
        h("button", { type: "button", class: "big", "data-do": "exchange", "data-how": "convert", "data-path": item.path }, mayConvert.label),
      ),
    h("button", { type: "button", key: "leave", class: "quiet", "data-do": "exchange-not", "data-path": item.path }, say("leave_currency")),
  );
}

// Every field of a view by its path, also those inside groups and lists.
export function eachField(sections, visit) {
  const walk = (items) => {
    for (const item of items) {
      if (item.kind === "group") walk(item.entries);
      else if (item.kind === "list") {
        visit(item.path, item);
        for (const one of item.items) {
          visit(one.path, { ...one, kind: "item", label: one.title });
          walk(one.entries);
        }
      } else visit(item.path, item);
    }
  };
  for (const entries of Object.values(sections ?? {})) walk(entries);
}
