// Projects that come from elsewhere, by link, code or file, and those that go out as a file.

import { line } from "./change.js";
import { atHand, beside, replace } from "./keep.js";
import { drop, tell } from "./notices.js";
import { share } from "./places.js";
import { backToEditing, backToMine, leaveReading, setMode } from "./reader.js";
import { render, told } from "./show.js";
import { state } from "./state.js";
import { newId } from "./store.js";
import { say } from "./words.js";

// A code or a file has been read: never over the project at hand without asking.
// `reading`: to be read, not edited; `readFirst`: the same, where nothing else is at hand.
export async function offer(found, { reading = false, readFirst = false, title }) {
  if (found.outcome !== "taken") {
    tell("offer", { title: say("not_opened"), texts: found.summary ? [found.summary] : [], points: (found.problems ?? []).map(({ text }) => text), tone: "warning", focus: true });
    render();
    return;
  }
  if (found.project === state.text && !state.guest) {
    if (reading) setMode("read");
    tell("offer", { title: say("same_project"), passing: true });
    render();
    return;
  }
  const fresh = { id: newId(), text: found.project, name: found.name };
  const problems = (found.problems ?? []).map(({ text }) => text);
  if (!atHand()) {
    state.readFirst = reading || readFirst;
    if (state.readFirst) setMode("read");
    await beside(fresh);
    forgetAddress();
    // what stands in the way of the estimate is shown above it, in whatever language it is read next
    const shown = new Set((state.view?.problems ?? []).map(({ text }) => text));
    const more = problems.filter((text) => !shown.has(text));
    if (more.length) tell("offer", { title: say("opened_with_problems"), points: more });
    render();
    return;
  }
  if (reading) {
    state.guestOf = { id: state.id };
    setMode("read");
    await beside(fresh, { guest: true });
    tell("guest", { title: say("guest"), choices: [{ act: "mine", label: say("keep_mine"), run: () => (leaveReading(), backToMine()) }, { act: "edit", label: say("back_to_editing"), run: () => backToEditing() }] });
    render();
    return;
  }
  tell("offer", {
    title,
    texts: [found.name, found.summary].filter(Boolean),
    points: problems,
    focus: true,
    choices: [
      { act: "keep", label: say("keep_mine"), main: true, run: () => drop("offer") },
      { act: "beside", label: say("open_beside"), run: () => (drop("offer"), beside(fresh)) },
      { act: "replace", label: say("replace_mine"), run: () => (drop("offer"), replace(found.project)) },
    ],
  });
  render();
}

export async function openWith(op, args, options) {
  const found = await line.run("open", async () => {
    try {
      return await line.call(op, { ...args, reader: state.reader });
    } catch (problem) {
      return { outcome: "refused", problems: [{ text: told(problem) ?? say("not_opened_words") }] };
    }
  });
  if (found) await offer(found, options);
}

export const openCode = (code, options) => openWith("open_code", { code }, { title: say("came_by_code"), ...options });
export const openFile = (text) => openWith("open_file", { text }, { title: say("came_by_file") });

// What the address brings: #p=code, with v=read where it is to be read first, in language l and units u.
export function fromAddress() {
  const parts = new URLSearchParams(location.hash.replace(/^#/, ""));
  const code = parts.get("p");
  if (!code) return null;
  const language = parts.get("l");
  const units = parts.get("u");
  const reader = language && units ? { language, units, digits: "auto", numbers: "auto" } : null;
  return { code, reading: parts.get("v") === "read", reader };
}

export function addressFor({ fragment }, to) {
  return `${fragment.startsWith("#") ? "" : "#"}${fragment}&v=read&l=${encodeURIComponent(to.language)}&u=${encodeURIComponent(to.units)}`;
}

export function forgetAddress() {
  try {
    globalThis.history.replaceState(null, "", location.href.split("#")[0]);
  } catch {
    // then it stays
  }
}

export async function saveFile() {
  let name = "foamwright.json";
  let text = state.text;
  try {
    const made = await line.run("file", () => share(state.reader));
    if (made) {
      name = made.file_name;
      text = made.file;
    }
  } catch {
    // the text as it stands is a project file
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}
