// What opens beside the page and lets it be seen: why a figure is what it is, the menu, what is sent.

import { copyable } from "./blocks.js";
import { h } from "./dom.js";
import { languages, nearest } from "./frame.js";
import { icon } from "./icons.js";
import { say } from "./words.js";

export function drawer(state) {
  const open = state.drawer;
  if (!open) return null;
  const draw = { why, menu, send }[open.name];
  const { title, kids } = draw(state, open);
  return h(
    "div",
    { key: `drawer-${open.name}`, class: `drawer ${open.name}`, role: "dialog", "aria-modal": "false", "aria-labelledby": "drawer-title", id: "drawer" },
    h(
      "div",
      { class: "drawer-head" },
      h("h2", { id: "drawer-title", tabindex: "-1" }, title),
      h("button", { type: "button", class: "quiet", "data-do": "close", "aria-label": say("close") }, icon("close")),
    ),
    h("div", { class: "drawer-body" }, kids),
  );
}

// An input is a field or another figure, which answers in turn; the way back leads to the one before.
function why(state, { answer, problem, trail }) {
  const before = trail?.at(-1);
  if (problem) return { title: say("why"), kids: [h("p", {}, problem)] };
  if (!answer) return { title: say("why"), kids: [h("p", {}, say("computing"))] };
  const part = (key, text) => text && h("section", { key, class: key }, h("h3", {}, say(key)), h("p", {}, text));
  return {
    title: answer.title,
    kids: [
      before && h("button", { type: "button", key: "back", class: "quiet back", "data-do": "why-back" }, icon("back"), h("span", {}, before.title)),
      h("p", { key: "value", class: "why-value" }, answer.value),
      part("why_rule", answer.rule),
      answer.inputs?.length &&
        h(
          "section",
          { key: "inputs" },
          h("h3", {}, say("why_inputs")),
          h(
            "ul",
            { class: "why-inputs" },
            answer.inputs.map((one) => {
              const words = [h("span", {}, one.label), " ", h("span", { class: "value" }, one.value)];
              if (one.figure) return h("li", { key: one.figure }, h("button", { type: "button", class: "input", "data-figure": one.figure }, words));
              return h("li", { key: one.path }, state.mode === "read" ? h("p", { class: "input" }, words) : h("button", { type: "button", class: "input", "data-goto": one.path }, words));
            }),
          ),
        ),
      part("why_range", answer.range),
      part("why_basis", answer.basis),
      part("why_source", answer.source),
      part("why_leaves_out", answer.leaves_out),
    ],
  };
}

const group = (key, title, ...kids) => h("section", { key, class: "menu-group", "aria-labelledby": `m-${key}` }, h("h3", { id: `m-${key}` }, title), kids);

const act = (name, words, more = {}) => h("button", { type: "button", key: name + (more["data-id"] ?? ""), class: "row", "data-do": name, ...more }, words);

const chooser = (id, title, choices, value) =>
  h("div", { class: "field", key: id }, h("label", { for: id }, title), h("div", { class: "box" }, h("select", { id, "data-reader": id.replace("m-", ""), value }, choices.map((one) => h("option", { key: one.value, value: one.value }, one.label)))));

function menu(state) {
  const { furniture, reader, mode } = state;
  return {
    title: say("menu"),
    kids: [
      group("go", say("sections"), h("ul", { class: "go-list" }, furniture.sections.map(({ id, title }) => h("li", { key: id }, h("a", { href: `#s-${id}`, class: "row", "data-do": "section", "data-section": id }, title))))),
      group(
        "project",
        say("project"),
        act("new", say("new_project")),
        act("save-file", say("save_file")),
        h("label", { class: "row", key: "file", for: "open-file" }, say("open_file")),
        h("input", { id: "open-file", key: "open-file", type: "file", accept: ".json,application/json,text/plain", class: "unseen" }),
        h(
          "details",
          { key: "code" },
          h("summary", { class: "row" }, say("open_code")),
          h("label", { for: "paste-code" }, say("paste_code")),
          h("textarea", { id: "paste-code", rows: 4, dir: "ltr", spellcheck: "false", autocomplete: "off", first: {} }),
          h("button", { type: "button", class: "second", "data-do": "paste-code" }, say("open")),
        ),
        act("read", say("landowner_view")),
        act("print-all", say("print_all")),
      ),
      state.saved.length > 0 &&
        group(
          "saved",
          say("saved_projects"),
          h(
            "ul",
            { class: "saved-list" },
            state.saved.map((one) =>
              h(
                "li",
                { key: one.id },
                h("button", { type: "button", class: "row", "data-do": "switch", "data-id": one.id, "aria-current": one.id === state.id ? "true" : null, dir: "auto" }, one.name || say("nameless"), !one.sound && ` – ${say("damaged")}`),
                h("button", { type: "button", class: "quiet", "data-do": "delete", "data-id": one.id, "aria-label": say("of_item", { act: say("delete"), item: one.name || say("nameless") }) }, say("delete")),
              ),
            ),
          ),
        ),
      group(
        "look",
        say("numbers_and_look"),
        h("div", { class: "fields" }, chooser("m-digits", say("digits"), furniture.digits, reader.digits), chooser("m-numbers", say("number_style"), furniture.numbers, reader.numbers), chooser("m-light", say("light"), ["auto", "light", "dark"].map((value) => ({ value, label: say(`light_${value}`) })), state.light)),
      ),
      mode !== "read" &&
        group(
          "translators",
          say("for_translators"),
          h("p", {}, say("try_catalog_words")),
          h("label", { class: "row", for: "open-catalog" }, say("try_catalog")),
          h("input", { id: "open-catalog", type: "file", accept: ".po,text/plain", class: "unseen" }),
          reader.catalog && act("drop-catalog", say("drop_catalog")),
        ),
    ],
  };
}

function send(state, { to, answer, problem, copied }) {
  const { furniture } = state;
  return {
    title: say("send"),
    kids: [
      h(
        "div",
        { class: "fields", key: "to" },
        h("div", { class: "field" }, h("label", { for: "to-language" }, say("to_language")), h("div", { class: "box" }, h("select", { id: "to-language", "data-to": "language", value: nearest(furniture.languages, to.language) }, languages(furniture).map((one) => h("option", { key: one.value, value: one.value, lang: one.lang }, one.label))))),
        h("div", { class: "field" }, h("label", { for: "to-units" }, say("to_units")), h("div", { class: "box" }, h("select", { id: "to-units", "data-to": "units", value: to.units }, furniture.units.map((one) => h("option", { key: one.value, value: one.value }, one.label))))),
      ),
      problem && h("p", { key: "problem", class: "error" }, icon("warning"), h("span", {}, problem)),
      !answer && !problem && h("p", { key: "wait" }, say("computing")),
      answer && [
        h("p", { key: "how", class: "text" }, say(answer.link ? "send_how_link" : "send_how_code")),
        copyable("send-message", say("message"), answer.message, { key: "message", lines: 9, lang: to.language }),
        answer.mayShare && h("button", { type: "button", key: "share", class: "first", "data-do": "share" }, say("share")),
        answer.link && copyable("send-link", say("link"), answer.link, { key: "link", lines: 3, dir: "ltr" }),
        copyable("send-code", say("code"), answer.code, { key: "code", lines: 4, dir: "ltr" }),
        answer.qr && h("figure", { key: "qr", class: "qr" }, h("figcaption", {}, answer.qr_title), h("div", { class: "qr-paper", svg: answer.qr })),
        h("div", { key: "more", class: "choices" }, h("button", { type: "button", class: "second", "data-do": "save-file" }, say("save_file")), h("button", { type: "button", class: "second", "data-do": "read-as" }, say("see_as_landowner"))),
      ],
      copied && h("p", { key: "copied", class: "unseen", role: "status" }, copied),
    ],
  };
}
