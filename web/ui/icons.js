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
  site: { paths: ["M3 21h18", "M5 21V11l7-6 7 6v10", "M9 21v-6h6v6"] },
  to: { turns: true, paths: ["M3 12h17", "m14 6 6 6-6 6"] },
  verdict_good: { paths: ["m3 13 6 6L21 5"] },
  verdict_bad: { paths: ["m4 4 16 16M20 4 4 20"] },
  verdict_unsure: { paths: ["M7 8a5 5 0 1 1 7 4.6c-1.4.7-2 1.5-2 2.9", "M12 20v.5"] },
  verdict_plain: { paths: ["M12 3a9 9 0 1 0 0 18 9 9 0 0 0 0-18Z", "M12 11v6M12 7v.5"] },
  // tools of the site view
  bucket: { size: 48, paths: ["M10 16h28l-4 26H14l-4-26Z", "M10 16c0-8 6-12 14-12s14 4 14 12", "M12 26h24"] },
  foam: { size: 48, paths: ["M10 24h28l-3 19H13l-3-19Z", "M12 24a6 6 0 0 1 4-9 8 8 0 0 1 15-3 6 6 0 0 1 5 12", "M19 22a4 4 0 0 1 7-3"] },
  clock: { size: 48, paths: ["M24 7a18 18 0 1 0 0 36 18 18 0 0 0 0-36Z", "M24 14v11l8 5", "M20 3h8"] },
  drops: { size: 48, paths: ["M16 5c5 7 8 11 8 15a8 8 0 0 1-16 0c0-4 3-8 8-15Z", "M34 20c4 5 6 9 6 12a6 6 0 0 1-12 0c0-3 2-7 6-12Z", "M14 34v9M20 36v7"] },
  drum: { size: 48, paths: ["M10 9v30c0 3 6 5 14 5s14-2 14-5V9", "M24 4c-8 0-14 2-14 5s6 5 14 5 14-2 14-5-6-5-14-5Z", "M10 19c0 3 6 5 14 5s14-2 14-5M10 29c0 3 6 5 14 5s14-2 14-5"] },
  ruler: { size: 48, paths: ["M16 4h16v40H16V4Z", "M16 12h7M16 20h10M16 28h7M16 36h10"] },
  block: { size: 48, paths: ["M4 18 24 10l20 8v16L24 42 4 34V18Z", "m4 18 20 8 20-8M24 26v16"] },
  weight: { size: 48, paths: ["M12 18h24l6 25H6l6-25Z", "M24 5a6 6 0 1 0 0 12 6 6 0 0 0 0-12Z", "M18 31h12"] },
  glass: { size: 48, paths: ["M11 5h26l-4 38H15L11 5Z", "M13 22c4-3 7 3 11 0s7 3 11 0"] },
  sun: { size: 48, paths: ["M24 15a9 9 0 1 0 0 18 9 9 0 0 0 0-18Z", "M24 3v6M24 39v6M3 24h6M39 24h6M9 9l4 4M35 35l4 4M39 9l-4 4M13 35l-4 4"] },
  lorry: { size: 48, paths: ["M3 12h25v23H3V12Z", "M28 20h10l7 8v7H28V20Z", "M12 32a5 5 0 1 0 0 10 5 5 0 0 0 0-10Z", "M36 32a5 5 0 1 0 0 10 5 5 0 0 0 0-10Z"] },
  pencil: { size: 48, paths: ["M32 6l10 10-26 26-12 2 2-12L32 6Z", "M27 11l10 10"] },
  lens: { size: 48, paths: ["M20 5a15 15 0 1 0 0 30 15 15 0 0 0 0-30Z", "m31 31 13 13"] },
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
