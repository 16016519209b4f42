// Changes of the project: each goes to the engine in its turn, and what comes back is shown and kept.

import { carry, saveSoon } from "./keep.js";
import { Line } from "./line.js";
import { drop, fault, faultNotice, tell } from "./notices.js";
import { fetchSend, fetchWhy, goTo } from "./places.js";
import { announce, calm, inSight, isField, render, settle, speakStrip, told, unsettled, useView } from "./show.js";
import { later, PAUSE, state } from "./state.js";
import { newId } from "./store.js";
import { say } from "./words.js";

export const line = new Line(fault, calm);

export function wanted() {
  const open = [...inSight].filter((id) => !document.getElementById(`sheet-${id}`)?.classList.contains("folded"));
  return open.length ? open : state.sheets.slice(0, 1).map(({ id }) => id);
}

// A sheet that comes into sight is made true soon, if the others were left for later.
export function catchUp() {
  if (state.complete !== state.text && line.engine && state.view?.sheets) later("catch", 80, () => refresh(wanted()));
}

// An edit as typed. Edits of other fields keep their turn; of one field the newest stays.
export function edit(path, text) {
  const typed = { text, problem: null, readings: null, shown: false };
  state.typed.delete(path);
  state.typed.set(path, typed);
  change(path, typed, `edit ${path}`, path, () => ["edit", { project: state.text, path, text }]);
}

export function act(action, { path = null, slot = null, from = null } = {}) {
  const typed = path === null ? null : state.typed.get(path);
  return change(path, typed, slot && `act ${slot}`, slot, () => ["act", { project: from?.text ?? state.text, action }]);
}

export async function change(path, typed, waitingSlot, historySlot, ask) {
  const begun = performance.now();
  const visit = `${path} ${state.visits}`;
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
        state.story.note(before, answer.project, historySlot, historySlot && visit);
        state.text = answer.project;
        if (current && typed) {
          // what is being typed stays as it is until the field is left
          if (document.activeElement?.dataset?.path === path && isField(document.activeElement)) Object.assign(typed, { problem: null, readings: null, shown: false, taken: true });
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
export function changed() {
  if (!state.id) state.id = newId();
  if (state.guest) state.guest = false;
  saveSoon();
  speakStrip();
  rest();
  carry();
  whyAgain();
}

export function rest() {
  later("rest", PAUSE.rest, () => {
    // an edit under way would wait for all sheets, and its own answer asks for them anew
    if (line.busy || line.waiting.some(({ urgent }) => urgent)) {
      rest();
      return;
    }
    refresh(null);
  });
}

// A view of the project as it stands; null wants all sheets. Only within a turn of the line.
export async function fetchView(want, { force = false } = {}) {
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

export function whyAgain() {
  if (state.drawer?.name === "why") later("why", PAUSE.rest, () => fetchWhy());
  if (state.drawer?.name === "send") later("send", PAUSE.rest * 2, () => fetchSend());
}

// Go to another text of the project, or to another project. Only within a turn of the line.
export async function show(text, { whole = false } = {}) {
  state.text = text;
  state.typed.clear();
  carry();
  return fetchView(whole ? null : wanted(), { force: true });
}

export function step(way) {
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
      const found = state.story[way](state.text);
      if (!found) {
        const end = way === "undo" && state.story.trimmed ? "undo_trimmed" : way === "undo" ? "undo_end" : "redo_end";
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
