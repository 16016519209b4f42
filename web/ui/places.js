// Going to fields, sheets and sections, and what opens beside the page.

import { addressFor } from "./arrive.js";
import { catchUp, line } from "./change.js";
import { fieldId } from "./fields.js";
import { tell } from "./notices.js";
import { announce, render, told } from "./show.js";
import { state, wishes } from "./state.js";
import { say } from "./words.js";

export function goTo(path, { focus = true } = {}) {
  const from = document.activeElement?.closest?.("#drawer");
  if (from && matchMedia("(max-width: 70rem)").matches) closeDrawer({ focus: false });
  let node = null;
  for (let at = path; at && !node; at = at.replace(/(\.[^.[]*|\[\d+\]|^[^.[]+)$/, "")) node = document.getElementById(fieldId(at));
  if (!node) return;
  for (let at = node; at; at = at.parentElement) if (at.localName === "details") at.open = true;
  if (focus) (node.localName === "details" ? node.querySelector("summary") : node).focus({ preventScroll: true });
  bring(node, "center");
}

export function goToSheet(id) {
  state.folds.set(id, true);
  render();
  catchUp();
  land(document.getElementById(`sheet-${id}-title`));
}

export function goToSection(id) {
  if (matchMedia("(max-width: 70rem)").matches) closeDrawer({ focus: false });
  land(document.getElementById(`s-${id}-title`));
}

export function land(node) {
  if (!node) return;
  node.focus({ preventScroll: true });
  bring(node, "start");
}

// What lies between is laid out only as it comes into sight, and may turn out longer: look again.
function bring(node, block) {
  node.scrollIntoView({ block });
  requestAnimationFrame(() => requestAnimationFrame(() => node.scrollIntoView({ block })));
}

let opener = null;

export function openDrawer(name, more = {}) {
  const from = document.activeElement;
  if (!from?.closest?.("#drawer")) opener = from;
  state.drawer = { name, ...more };
  document.documentElement.dataset.drawer = name;
  render();
  document.getElementById("drawer-title")?.focus({ preventScroll: true });
}

export function closeDrawer({ focus = true } = {}) {
  if (!state.drawer) return;
  const figure = state.drawer.figure;
  state.drawer = null;
  delete document.documentElement.dataset.drawer;
  render();
  if (!focus) return;
  const back = opener?.isConnected ? opener : figure ? document.querySelector(`[data-figure="${CSS.escape(figure)}"]`) : document.querySelector(".tools button");
  back?.focus({ preventScroll: true });
}

// Asked from within an answer, the one before is remembered.
export function openWhy(figure, { back = false } = {}) {
  const now = state.drawer?.name === "why" && document.activeElement?.closest("#drawer") ? state.drawer : null;
  const trail = now ? (back ? now.trail.slice(0, -1) : [...now.trail, { figure: now.figure, title: now.answer?.title ?? "" }]) : [];
  openDrawer("why", { figure, answer: null, trail });
  document.querySelector(".drawer-body")?.scrollTo(0, 0);
  fetchWhy();
}

export function fetchWhy() {
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

export function openSend() {
  openDrawer("send", { to: { ...state.reader, ...wishes.to }, answer: null });
  fetchSend();
}

const address = () => (/^https?:$/.test(location.protocol) ? location.href.split("#")[0] : "");

export async function share(to) {
  return line.call("share", { project: state.text, reader: state.reader, to, address: address() });
}

export function fetchSend() {
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
    if (answer) answer = { ...answer, link: address() && address() + addressFor(answer, to), mayShare: Boolean(navigator.share) };
    state.drawer = { ...state.drawer, answer, problem };
    render();
  });
}

export async function copyFrom(id) {
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
