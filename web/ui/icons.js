// Line pictures of our own, drawn in the colour of the text around them. Each says something: a state, a way, a task.

import { h } from "./dom.js";

const PICTURES = {
  undo: { turns: true, paths: ["M9 6 4 11l5 5", "M4 11h10a5 5 0 0 1 0 10h-3"] },
  redo: { turns: true, paths: ["m15 6 5 5-5 5", "M20 11H10a5 5 0 0 0 0 10h3"] },
  send: { turns: true, paths: ["M4 12 20 4l-5 16-4-6-7-2Z", "m11 14 9-10"] },
  menu: { paths: ["M4 6h16M4 12h16M4 18h16"] },
  close: { paths: ["m5 5 14 14M19 5 5 19"] },
  info: { paths: ["M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18Z", "M12 11v6M12 7v.5"] },
  caution: { paths: ["M12 3 22 20H2L12 3Z", "M12 10v5M12 17v.5"] },
  warning: { paths: ["M8 2h8l6 6v8l-6 6H8l-6-6V8l6-6Z", "M12 7v6M12 16v.5"] },
  back: { turns: true, paths: ["M10 5 3 12l7 7", "M3 12h18"] },
  fold: { turns: true, paths: ["m9 5 7 7-7 7"] },
  print: { paths: ["M7 8V3h10v5", "M7 17H3V8h18v9h-4", "M7 14h10v7H7v-7Z"] },
  add: { paths: ["M12 5v14M5 12h14"] },
  remove: { paths: ["M5 12h14"] },
  // tasks of the cautions
  everyone: { size: 48, paths: ["M24 6c8 10 12 15 12 22a12 12 0 0 1-24 0c0-7 4-12 12-22Z", "M18 29a6 6 0 0 0 6 6", "M6 43h36"] },
  bags: { size: 48, paths: ["M12 12h24l3 28H9l3-28Z", "M12 12l3-6h18l3 6", "M16 24h16M17 30h14"] },
  mixing: { size: 48, paths: ["M10 18v20c0 3 6 5 14 5s14-2 14-5V18", "M10 18c0-3 6-5 14-5s14 2 14 5-6 5-14 5-14-2-14-5Z", "M24 4v26M18 30h12"] },
  laying: { size: 48, paths: ["M4 42h40", "M8 42V32h14v10M26 42V32h14v10", "M15 32V22h18v10", "M20 22c0-6 2-9 4-12 2 3 4 6 4 12"] },
  digging: { size: 48, paths: ["M30 6 16 28", "M27 4l6 4", "M16 28l-6 2-3 8 8-3 4-5-3-2Z", "M4 42h12l4-8h8l4 8h12"] },
  coating: { size: 48, paths: ["M6 20 26 8l10 14-20 12L6 20Z", "M31 15l6-2M37 13v7l6 3", "M8 42h32"] },
};

export function icon(name, size = 24) {
  const picture = PICTURES[name];
  if (!picture) return null;
  const box = picture.size ?? 24;
  return h(
    "svg",
    { class: picture.turns ? "icon turns" : "icon", viewBox: `0 0 ${box} ${box}`, width: size, height: size, "aria-hidden": "true", focusable: "false" },
    picture.paths.map((d) => h("path", { d })),
  );
}
