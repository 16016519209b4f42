// How the site view looks: large pictures of the tools, then one tool with a number to aim at and a place to type.

import { block } from "./blocks.js";
import { h } from "./dom.js";
import { entry } from "./fields.js";
import { icon } from "./icons.js";
import { isStale } from "./site.js";
import { PAUSE, state } from "./state.js";
import { say } from "./words.js";

const NEWEST = 30;

export function sitePage({ notices, progress }) {
  const { site } = state;
  const tool = site.view?.tools.find((one) => one.id === site.tool) ?? null;
  return [
    h(
      "header",
      { key: "site-head", class: "site-head" },
      h("button", { type: "button", class: "quiet", "data-do": "site-back" }, icon("back"), h("span", {}, say(site.tool ? "site_tools" : "site_leave"))),
      h("h1", { id: "site-title", tabindex: "-1" }, tool?.title ?? site.view?.title ?? say("site")),
    ),
    notices,
    h(
      "main",
      { key: "on-site", class: "on-site" },
      !site.view && h("p", { key: "wait", class: "computing", role: "status" }, progress || say("site_opening")),
      site.view && (tool ? one(site, tool) : all(site)),
      site.view && log(site),
      site.view && !tool && learn(site),
      site.view && !tool && files(),
    ),
  ];
}

function all({ view }) {
  return h(
    "ul",
    { key: "tools", class: "site-tools" },
    view.tools.map((tool) => h("li", { key: tool.id }, h("button", { type: "button", class: "site-tool", "data-do": "site-tool", "data-tool": tool.id }, icon(tool.picture, 44), h("span", {}, tool.title)))),
  );
}

const around = () => ({ reading: false, labels: () => null, words: "", source: "en", sheet: "site" });
const blocks = (some) => (some ?? []).map((each, index) => block(each, { ...around(), key: `${index}-${each.kind}` }));
const part = (key, some) => some?.length > 0 && h("div", { key, class: "site-part" }, blocks(some));

function one(site, tool) {
  const { judged, saved } = site;
  const stale = isStale() && !saved;
  const resting = site.pressed || performance.now() - state.lastInput >= PAUSE.flag;
  const problems = resting && judged && !stale && !saved ? judged.problems ?? [] : [];
  const fields = {
    prefix: "d",
    typed: new Map([...site.typed].map(([path, text]) => [path, { text }])),
    problems: new Map(problems.map(({ path, text }) => [path, text])),
    currencies: state.furniture.currencies,
    bags: state.furniture.bags,
    force: state.force,
    words: state.reader.language,
  };
  const known = new Set(tool.fields.map(({ path }) => path));
  const others = problems.filter(({ path }) => !known.has(path));
  return h(
    "div",
    { key: `tool-${tool.id}`, class: "site-one" },
    tool.lead && h("p", { key: "lead", class: "text" }, tool.lead),
    tool.aim &&
      h(
        "p",
        { key: "aim", class: "aim" },
        h("span", { class: "aim-label" }, tool.aim.label),
        " ",
        h("span", { class: "aim-text", "aria-hidden": tool.aim.say ? "true" : null }, tool.aim.text),
        tool.aim.say && h("span", { class: "unseen" }, tool.aim.say),
      ),
    tool.fields.length > 0 && h("div", { key: "fields", class: "fields" }, tool.fields.map((each) => entry(each, fields))),
    others.map(({ text }) => h("p", { key: `other-${text}`, class: "error" }, icon("warning"), h("span", {}, text))),
    h("div", { key: "verdict", class: "verdict-place", role: "status" }, judged?.verdict && verdict(judged.verdict, stale)),
    judged && !stale && !saved && question(judged),
    tool.fields.length > 0 &&
      h(
        "div",
        { key: "save", class: "site-save" },
        saved && done(site, saved),
        h("button", { type: "button", key: "button", class: "first big", "data-do": "site-save", "aria-disabled": site.busy ? "true" : null }, say("site_save")),
      ),
    judged && !saved && part("judged", judged.blocks),
    part("blocks", tool.blocks),
  );
}

// A shape, a word and a colour, each enough by itself.
function verdict({ tone, word, text }, stale) {
  return h("div", { class: `verdict ${tone}${stale ? " stale" : ""}` }, icon(`verdict_${tone}`, 48), h("p", {}, h("strong", {}, word), " ", text));
}

function question({ readings, problems }) {
  if (!readings?.length) return null;
  return h(
    "div",
    { key: "question", class: "ask site-question", role: "group", "aria-label": say("which_one") },
    h("p", { class: "ask-words" }, problems?.length === 1 ? problems[0].text : say("which_one")),
    readings.map(({ path, text, label }) => h("button", { type: "button", key: `${path} ${text}`, class: "big", "data-do": "site-answer", "data-path": path, "data-text": text }, label)),
  );
}

function done({ view }, id) {
  const entered = view.log.find((each) => each.id === id);
  return h(
    "div",
    { key: "done", class: "site-done", "data-saved": id },
    icon("verdict_good", 32),
    h("p", {}, h("strong", {}, say("site_saved")), " ", entered?.text),
    h("button", { type: "button", class: "second", "data-do": "site-strike", "data-id": id }, say("site_strike")),
  );
}

function log({ view, whole }) {
  const shown = whole ? view.log : view.log.slice(0, NEWEST);
  return h(
    "section",
    { key: "log", class: "site-part", "aria-labelledby": "site-log" },
    h("h2", { id: "site-log" }, say("site_log")),
    view.log.length === 0 && h("p", { key: "none", class: "text" }, say("site_none")),
    h(
      "ol",
      { key: "list", class: "site-log" },
      shown.map((each) =>
        h(
          "li",
          { key: each.id, class: each.struck ? "struck" : null, "data-entry": each.id },
          h(
            "div",
            {},
            h("p", { class: "text small" }, h("time", { datetime: each.at }, each.when), each.struck && [" ", h("strong", {}, say("site_struck"))]),
            h("p", {}, h("strong", {}, each.title), " ", h("span", { class: "log-text", dir: "auto" }, each.text)),
          ),
          !each.struck && h("button", { type: "button", class: "quiet", "data-do": "site-strike", "data-id": each.id, "aria-label": say("of_item", { act: say("site_strike"), item: [each.title, each.when].join(", ") }) }, say("site_strike")),
        ),
      ),
    ),
    shown.length < view.log.length && h("button", { type: "button", key: "all", class: "second", "data-do": "site-all" }, say("site_all")),
  );
}

function learn({ view, left }) {
  const { blocks: told, edits } = view.learn ?? {};
  if (!told?.length && !edits?.length) return null;
  return h(
    "section",
    { key: "learn", class: "site-part", "aria-labelledby": "site-learn" },
    h("h2", { id: "site-learn" }, say("site_learn")),
    h("div", { key: "told", class: "site-told" }, blocks(told)),
    edits?.length > 0 &&
      h(
        "div",
        { key: "edits", class: "site-edits", role: "group", "aria-labelledby": "site-learn" },
        edits.map((each) =>
          h(
            "button",
            { type: "button", key: each.id, class: "site-edit", role: "checkbox", "aria-checked": String(!left.has(each.id)), "data-do": "site-edit", "data-id": each.id },
            h("span", { class: "tick", "aria-hidden": "true" }, !left.has(each.id) && icon("verdict_good", 28)),
            h("span", {}, h("strong", {}, each.label), " ", h("bdi", {}, each.old), " ", h("span", { class: "turns-text", "aria-hidden": "true" }, icon("to", 20)), " ", h("bdi", { class: "new" }, each.new), each.why && h("span", { class: "why" }, each.why)),
          ),
        ),
        h("button", { type: "button", key: "take", class: "first big", "data-do": "site-take", "aria-disabled": String(edits.every(({ id }) => left.has(id))) }, say("site_take")),
      ),
  );
}

function files() {
  return h(
    "section",
    { key: "files", class: "site-part", "aria-labelledby": "site-files" },
    h("h2", { id: "site-files" }, say("site_files")),
    h("p", { class: "text" }, say("site_files_words")),
    h("button", { type: "button", class: "second big", "data-do": "site-out" }, say("site_out")),
    h("label", { class: "row", for: "diary-in" }, say("site_in")),
    h("input", { id: "diary-in", type: "file", accept: ".csv,text/csv,text/plain", class: "unseen" }),
  );
}
