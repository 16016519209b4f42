// What is asked or told on top of the page.

import { copyFrom } from "./places.js";
import { render, told } from "./show.js";
import { later, state } from "./state.js";
import { say } from "./words.js";

export function tell(id, { title, texts, points, details, tone, choices = [], passing = false, focus = false }) {
  const notice = { id, title, texts, points, details, tone, choices: [...choices] };
  if (!choices.length || passing) notice.choices.push({ act: "close", label: say("understood"), run: () => drop(id) });
  state.notices = [...state.notices.filter((one) => one.id !== id), notice];
  if (passing) later(`notice ${id}`, 8000, () => drop(id));
  if (focus) {
    render();
    const node = document.getElementById(`notice-${id}`);
    node?.scrollIntoView({ block: "center" });
    node?.focus({ preventScroll: true });
  }
}

export function drop(id) {
  const before = state.notices.length;
  state.notices = state.notices.filter((one) => one.id !== id);
  if (state.notices.length !== before) render();
}

export function faultNotice(op, problem) {
  return {
    title: say("fault_title"),
    texts: [told(problem) ?? say("fault_words")],
    details: JSON.stringify({ op, ...problem }, null, 1),
    tone: "warning",
    choices: [
      { act: "copy", label: say("copy_details"), main: true, run: () => copyFrom("notice-fault-details") },
      { act: "close", label: say("understood"), run: () => drop("fault") },
    ],
  };
}

export function fault(op, problem) {
  tell("fault", faultNotice(op, problem));
  render();
}
