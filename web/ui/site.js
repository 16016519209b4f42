// The site view: what is done there, one tool at a time. It sends what is typed, shows the verdict and keeps the entries.

import { download } from "./arrive.js";
import { change, line } from "./change.js";
import { ask, keepEntries, loadDiary, now, stamp } from "./diary.js";
import { eachField, fieldId } from "./fields.js";
import { drop, faultNotice, tell } from "./notices.js";
import { closeDrawer, copyFrom, land } from "./places.js";
import { announce, render, told } from "./show.js";
import { later, PAUSE, state } from "./state.js";
import { say } from "./words.js";

let scrolled = 0;

// What is half typed stays with its tool, until it is put down or another project comes.
const drafts = { of: null, tools: new Map() };

function draft(tool) {
  if (drafts.of !== null && drafts.of !== state.id) drafts.tools.clear();
  drafts.of = state.id;
  if (!drafts.tools.has(tool)) drafts.tools.set(tool, new Map());
  return drafts.tools.get(tool);
}

// Where the address says that the site view is open: #site, or #site=tool.
export function siteAddress() {
  const parts = new URLSearchParams(location.hash.replace(/^#/, ""));
  return parts.has("site") ? { tool: parts.get("site") || null } : null;
}

export function openSite(tool) {
  state.site = {
    tool,
    view: null, // what the engine said of the diary
    typed: draft(tool), // path -> text, of the tool at hand
    judged: null, // what the engine said of what is typed
    judgedOf: "", // and what was typed then
    confirmed: [], // what was asked about and meant as typed
    pressed: false, // Save was pressed, and the answer was a question or a no
    saved: null, // the entry that was put down last
    left: new Set(), // ids of what is not to be taken into the estimate
    whole: false, // the log, rather than its newest part
    busy: false,
  };
  document.documentElement.dataset.place = "site";
}

const toolAt = (id) => state.site?.view?.tools.find((one) => one.id === id) ?? null;

// --- going there and back ---

export function goSite(tool = null) {
  const depth = (history.state?.site ?? 0) + 1;
  try {
    history.pushState({ site: depth }, "", `#site${tool ? `=${tool}` : ""}`);
  } catch {
    location.hash = tool ? `site=${tool}` : "site";
  }
  showSite(tool);
}

export function leaveSite() {
  if (history.state?.site > 0) {
    history.back();
    return;
  }
  const up = state.site?.tool ? "#site" : "";
  try {
    history.replaceState(null, "", location.href.split("#")[0] + up);
  } catch {
    location.hash = up;
  }
  followAddress();
}

// The address has changed, by our own hand or by the browser's way back.
export function followAddress() {
  const to = state.mode === "read" ? null : siteAddress();
  if (to) showSite(to.tool);
  else closeSite();
}

export function showSite(tool) {
  if (state.site && state.site.tool === tool) return;
  const fresh = !state.site;
  if (fresh) {
    closeDrawer({ focus: false });
    scrolled = scrollY;
    openSite(tool);
  } else Object.assign(state.site, { tool, typed: draft(tool), judged: null, confirmed: [], pressed: false, saved: null });
  render();
  scrollTo(0, 0);
  firstField();
  if (fresh) fetchSite();
  else judge();
}

export function closeSite() {
  if (!state.site) return;
  state.site = null;
  delete document.documentElement.dataset.place;
  render();
  scrollTo(0, scrolled);
  document.querySelector('.tools [data-do="site"]')?.focus({ preventScroll: true });
}

// The keyboard opens where the number goes.
function firstField() {
  const fields = [...document.querySelectorAll(".on-site [data-path]")];
  const field = fields.find((one) => one.localName !== "select" && !one.value) ?? null;
  if (field) field.focus({ preventScroll: true });
  else land(document.getElementById("site-title"));
}

// --- what the engine says ---

async function answered(op, args) {
  try {
    return await ask(op, args);
  } catch (problem) {
    if (problem?.code) tell("fault", faultNotice(op, problem));
    else throw problem;
    render();
    return null;
  }
}

export function fetchSite() {
  return line.run("site", async () => {
    const { site } = state;
    if (!site) return;
    await loadDiary().catch(() => {});
    const view = await answered("site");
    if (!view || state.site !== site) return;
    const opening = !site.view;
    site.view = view;
    if (site.tool && !toolAt(site.tool)) site.tool = null;
    render();
    if (opening && site.tool) {
      firstField();
      judge();
    }
  });
}

// What stands in the fields, as text: what is typed, else what was there.
export function written(tool, typed) {
  const texts = {};
  eachField({ fields: tool?.fields ?? [] }, (path, item) => {
    texts[path] = typed.get(path) ?? item.value ?? "";
  });
  return texts;
}

const asWritten = () => JSON.stringify(written(toolAt(state.site.tool), state.site.typed));
export const isStale = () => state.site.judgedOf !== asWritten();

// While somebody types: one question under way, the newest waits, nothing is put down.
export function judge() {
  return line.run(
    "judge",
    async () => {
      const { site } = state;
      const tool = site && toolAt(site.tool);
      if (!tool) return;
      const of = asWritten();
      const value = await answered("judge", { tool: tool.id, typed: written(tool, site.typed), confirmed: site.confirmed });
      if (!value || state.site !== site || site.tool !== tool.id || site.saved) return;
      Object.assign(site, { judged: value, judgedOf: of });
      render();
    },
    { urgent: true },
  );
}

export function typeSite(path, text) {
  const { site } = state;
  site.typed.set(path, text);
  Object.assign(site, { confirmed: [], pressed: false, saved: null });
  render();
  later("site", PAUSE.flag, render);
  judge();
}

// --- putting down ---

export async function saveSite() {
  const { site } = state;
  const tool = toolAt(site?.tool);
  if (!tool || site.busy) return;
  site.busy = true;
  render();
  await line
    .run(
      null,
      async () => {
        const of = asWritten();
        const sent = new Map(site.typed);
        const answer = await answered("enter", { tool: tool.id, typed: written(tool, site.typed), confirmed: site.confirmed, at: now(), ...(await stamp()) });
        if (!answer || state.site !== site) return;
        Object.assign(site, { judged: answer, judgedOf: of, pressed: true });
        if (answer.outcome !== "taken" || !(await put([answer.entry]))) return;
        for (const [path, text] of sent) if (site.typed.get(path) === text) site.typed.delete(path);
        Object.assign(site, { saved: answer.entry.id, confirmed: [], pressed: false });
        announce([say("site_saved"), answer.verdict?.word].filter(Boolean).join(". "));
      },
      { urgent: true },
    )
    .finally(() => {
      site.busy = false;
    });
  render({ force: true });
  if (site.saved) await fetchSite();
  else document.querySelector(".site-question button, .on-site .wrong [data-path]")?.focus();
}

// True once they are on the disk; else they are shown, so that they can be copied.
async function put(entries) {
  if (!entries.length) return true;
  try {
    await keepEntries(entries);
    return true;
  } catch (error) {
    tell("diary", {
      title: say("site_failed"),
      texts: [say("site_failed_words"), String(error?.message ?? error)],
      details: JSON.stringify(entries, null, 1),
      tone: "warning",
      focus: true,
      choices: [
        { act: "copy", label: say("site_copy"), main: true, run: () => copyFrom("notice-diary-details") },
        { act: "close", label: say("understood"), run: () => drop("diary") },
      ],
    });
    return false;
  }
}

async function strike(target) {
  await line.run(
    null,
    async () => {
      const answer = await answered("strike", { target, at: now(), ...(await stamp()) });
      if (!answer) return;
      if (answer.outcome !== "taken") {
        tell("refused", { title: say("needs_a_look"), texts: [told(answer.problem) ?? say("not_taken")], tone: "warning" });
        return;
      }
      if (!(await put([answer.entry]))) return;
      if (state.site) state.site.saved = null;
      announce(say("site_struck"));
    },
    { urgent: true },
  );
  await fetchSite();
  judge();
}

// What was asked about: the other reading goes into its field, or it was meant as typed.
function choose({ path, text }) {
  const { site } = state;
  if (path) {
    typeSite(path, text);
    const field = document.getElementById(fieldId(path, "d"));
    if (field) field.value = text;
    field?.focus();
    return;
  }
  site.confirmed = [...site.confirmed, text];
  if (site.pressed) saveSite();
  else judge();
}

// --- the estimate learns ---

async function take() {
  const { site } = state;
  const edits = (site.view?.learn?.edits ?? []).map(({ id }) => id).filter((id) => !site.left.has(id));
  if (!edits.length) return;
  const answer = await change(null, null, null, null, () => ["take", { project: state.text, entries: state.diary.entries, edits, now: now() }]);
  if (answer?.outcome === "taken") tell("taken", { title: say("site_taken"), points: answer.told, focus: true });
  await fetchSite();
}

// --- two phones ---

async function out() {
  const made = await line.run("file", () => answered("diary_out"));
  if (made) download(made.file_name, made.text, "text/csv");
}

export async function takeDiary(text) {
  await line.run(null, async () => {
    const answer = await answered("diary_in", { text });
    if (!answer) return;
    const taken = answer.outcome === "taken" && (await put(answer.entries));
    if (answer.outcome === "taken" && !taken) return;
    tell("diary-in", {
      title: say(taken ? "site_in_taken" : "not_opened"),
      points: [...(answer.told ?? []), ...(answer.problems ?? []).map((one) => one.text)],
      tone: taken ? "plain" : "warning",
      focus: true,
    });
    render();
  });
  await fetchSite();
}

// Entries of another tab.
export async function lookForEntries() {
  if (state.site && (await loadDiary().catch(() => false))) fetchSite();
}

export const siteActs = {
  site: () => goSite(null),
  "site-tool": ({ tool }) => goSite(tool),
  "site-back": leaveSite,
  "site-save": saveSite,
  "site-strike": ({ id }) => strike(id),
  "site-answer": choose,
  "site-edit": ({ id }) => {
    const { left } = state.site;
    if (!left.delete(id)) left.add(id);
    render();
  },
  "site-take": take,
  "site-out": out,
  "site-all": () => {
    state.site.whole = true;
    render();
  },
};
