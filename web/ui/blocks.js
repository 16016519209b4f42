// The few kinds of blocks that sheets are made of.

import { h } from "./dom.js";
import { icon } from "./icons.js";
import { say } from "./words.js";

// A number for what a sheet says: it stays while that stays, and costs little to compare.
const marks = new WeakMap();
const latest = new Map();
let marked = 0;
function mark(item) {
  if (!marks.has(item)) {
    const text = JSON.stringify(item);
    const before = latest.get(item.id);
    if (before?.text !== text) latest.set(item.id, { text, mark: (marked += 1) });
    marks.set(item, latest.get(item.id).mark);
  }
  return marks.get(item);
}

// A sheet folds away under its title where room is short.
export function sheet(item, around) {
  const { reading, head, open } = around;
  const title = `sheet-${item.id}-title`;
  return h(
    "article",
    {
      key: item.id,
      id: `sheet-${item.id}`,
      class: open ? "sheet" : "sheet folded",
      "data-sheet": item.id,
      "aria-labelledby": title,
      same: JSON.stringify([mark(item), reading, head, open, around.words]),
    },
    () => [
      printHead(head),
      h(
        "header",
        { class: "sheet-head" },
        h("h3", { id: title, tabindex: "-1" }, h("button", { type: "button", class: "fold", "data-do": "fold", "data-sheet": item.id, "aria-expanded": String(open), "aria-controls": `sheet-${item.id}-body` }, icon("fold"), h("span", {}, item.title))),
        printButton(item),
      ),
      h("div", { class: "sheet-body", id: `sheet-${item.id}-body` }, item.lead && h("p", { class: "text lead" }, item.lead), blocks(item.blocks, { ...around, sheet: item.id })),
    ],
  );
}

// The first sheet leads the page: its drawing and its large figures always, the rest where there is room.
export function leadSheet(item, around) {
  const { reading, head, open } = around;
  const here = { ...around, sheet: item.id };
  const isLead = (one) => one.kind === "drawing" || (one.kind === "figures" && one.items.some(({ big }) => big));
  const title = `sheet-${item.id}-title`;
  const more = `sheet-${item.id}-more`;
  const part = (name, some, ...first) => h("div", { key: name, id: `sheet-${item.id}-${name}`, class: `lead-${name}`, same: JSON.stringify([some, reading, around.words]) }, () => [first, blocks(some, here)]);
  return h(
    "article",
    { key: item.id, id: `sheet-${item.id}`, class: open ? "sheet leading" : "sheet leading folded", "data-sheet": item.id, "aria-labelledby": title },
    printHead(head),
    h("header", { class: "sheet-head", key: "head" }, h("h2", { id: title, tabindex: "-1" }, item.title), printButton(item)),
    part("main", item.blocks.filter(isLead)),
    h("p", { class: "text small hint", key: "hint" }, say("why_hint")),
    part("more", item.blocks.filter((one) => !isLead(one))),
    h("button", { type: "button", key: "fold", class: "fold", "data-do": "fold", "data-sheet": item.id, "aria-expanded": String(open), "aria-controls": more }, icon("fold"), h("span", {}, say(open ? "less" : "more"))),
  );
}

const printHead = (head) => h("p", { class: "print-head", "aria-hidden": "true" }, head.map((part) => h("span", {}, part)));

const printButton = (item) =>
  h("button", { type: "button", class: "quiet print-one", "data-do": "print", "data-sheet": item.id, "aria-label": say("print_sheet", { sheet: item.title }), title: say("print") }, icon("print"));

const blocks = (some, around) => some.map((each, index) => block(each, { ...around, key: `${index}-${each.kind}` }));

export function block(item, around) {
  const draw = KINDS[item.kind];
  return draw ? draw(item, around) : null;
}

function figureProps(figure) {
  return figure ? { type: "button", "data-figure": figure, "aria-haspopup": "dialog" } : {};
}

const KINDS = {
  heading: ({ text }, { key }) => h("h4", { key }, text),

  text: ({ text, tone }, { key }) => h("p", { key, class: `text ${tone ?? "plain"}` }, text),

  steps: ({ items }, { key }) => h("ol", { key, class: "steps" }, items.map((text) => h("li", {}, text))),

  points: ({ items }, { key }) => h("ul", { key, class: "points" }, items.map((text) => h("li", {}, text))),

  figures: ({ items }, { key }) =>
    h(
      "ul",
      { key, class: items.some((one) => one.big) ? "figures big" : "figures" },
      items.map((one) =>
        h(
          "li",
          { class: one.big ? "big" : null },
          h(
            one.figure ? "button" : "div",
            { class: "figure", ...figureProps(one.figure) },
            h("span", { class: "figure-label" }, one.label),
            " ",
            h("span", { class: "figure-text", "aria-hidden": one.say ? "true" : null }, one.text),
            one.say && h("span", { class: "unseen" }, one.say),
          ),
          one.note && h("p", { class: "text small" }, one.note),
        ),
      ),
    ),

  table: ({ caption, head, rows, foot }, { key }) => {
    const line = (cells, part) =>
      h(
        "tr",
        { role: "row" },
        cells.map((cell, column) => {
          const title = head?.[column]?.text;
          const first = cell.head || (part === "foot" && column === 0);
          const words = cell.figure ? h("button", { class: "cell-figure", ...figureProps(cell.figure) }, cell.text) : h("span", { class: "cell-text" }, cell.text);
          return h(
            first ? "th" : "td",
            { role: first ? "rowheader" : "cell", scope: first ? "row" : null, class: [cell.number ?? head?.[column]?.number ? "number" : "", cell.text ? "" : "empty"].join(" ").trim() || null },
            !first && title && h("span", { class: "cell-title", "aria-hidden": "true" }, title),
            words,
          );
        }),
      );
    return h(
      "table",
      { key, role: "table", class: rows.every((cells) => cells.length < 3) ? "pairs" : "cards" },
      caption && h("caption", {}, caption),
      head?.length && h("thead", { role: "rowgroup" }, h("tr", { role: "row" }, head.map((cell) => h("th", { role: "columnheader", scope: "col", class: cell.number ? "number" : null }, cell.text)))),
      h("tbody", { role: "rowgroup" }, rows.map((cells) => line(cells, "body"))),
      foot?.length && h("tfoot", { role: "rowgroup" }, foot.map((cells) => line(cells, "foot"))),
    );
  },

  drawing: ({ title, words, svg, print_mm: sized }, { key, reading }) =>
    h(
      "figure",
      { key, class: sized ? "drawing true-size" : "drawing" },
      h("figcaption", {}, title),
      h("div", { class: "drawing-paper", svg: reading ? still(svg) : svg }),
      words && h("p", { class: "unseen" }, words),
    ),

  // Where sources disagree: the whole range as a line, and where the chosen value lies on it.
  band: ({ figure, title, words, low, high, chosen, marks, ends }, { key }) => {
    const at = (part) => `inset-inline-start:${(100 * part).toFixed(2)}%`;
    return h(
      "div",
      { key, class: "band" },
      h("h4", {}, figure ? h("button", { class: "cell-figure", ...figureProps(figure) }, title) : title),
      h(
        "div",
        { class: "band-line", "aria-hidden": "true" },
        h("span", { class: "band-range", style: `${at(low)};inline-size:${(100 * (high - low)).toFixed(2)}%` }),
        (marks ?? []).map((mark) => h("span", { class: "band-mark", style: at(mark.at) }, h("span", { class: "band-number" }))),
        chosen !== null && chosen !== undefined && h("span", { class: "band-chosen", style: at(chosen) }),
      ),
      ends && h("p", { class: "band-ends", "aria-hidden": "true" }, h("span", {}, ends[0]), h("span", {}, ends[1])),
      words && h("p", { class: "text" }, words),
      marks?.length && h("ol", { class: "band-legend" }, marks.map((mark) => h("li", {}, mark.text))),
    );
  },

  notes: ({ items }, { key, labels }) =>
    items.length
      ? h(
          "ul",
          { key, class: "notes" },
          items.map((note) =>
            h(
              "li",
              { class: `note ${note.severity}` },
              icon(note.severity),
              h("p", {}, h("strong", {}, note.word), " ", note.text, note.path && labels(note.path) ? [" ", goTo(note.path, labels(note.path))] : null),
            ),
          ),
        )
      : null,

  cautions: ({ items }, { key, source }) =>
    h(
      "div",
      { key, class: "cautions" },
      items.map((task) =>
        h(
          "section",
          { class: "task" },
          h("h4", {}, icon(task.picture, 40), h("span", {}, task.task)),
          h(
            "ul",
            {},
            task.lines.map((line) => h("li", {}, h("span", {}, line.text), line.source_text && h("span", { class: "source", lang: source, dir: "ltr" }, line.source_text))),
          ),
        ),
      ),
    ),

  missing: ({ text, path }, { key, labels }) => h("p", { key, class: "missing" }, text, " ", path && labels(path) && goTo(path, labels(path))),

  copy: ({ id, title, text }, { key, sheet: of }) => copyable(`copy-${of}-${id}`, title, text, { key }),
};

export function goTo(path, words) {
  return h("a", { href: "#main", class: "go", "data-goto": path }, words);
}

// A text to take along: always to be seen and marked, with a button where the browser lets us copy.
export function copyable(id, title, text, { key, lines = 4, ...more } = {}) {
  return h(
    "div",
    { key, class: "copyable" },
    h("label", { for: id }, title),
    h("textarea", { id, readonly: true, rows: lines, value: text, force: true, dir: "auto", ...more }),
    h("button", { type: "button", class: "second", "data-do": "copy", "data-from": id }, say("copy")),
  );
}

// The drawing for reading: nothing in it leads anywhere.
function still(svg) {
  return svg.replaceAll(/ (?:tabindex="0"|role="button")/g, "").replaceAll(/ data-path="[^"]*"/g, "").replaceAll(/(<g class="touch") aria-label="[^"]*"/g, "$1");
}
