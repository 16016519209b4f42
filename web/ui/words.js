// Words come from the engine's catalogs by key; here they are only looked up and filled.

let table = {};

export function useWords(words) {
  table = words ?? {};
}

// say("undone", {what: "Thickness"}) -> the catalog's sentence with its named places filled
export function say(key, values) {
  const text = table[key] ?? "";
  return values ? text.replace(/%\((\w+)\)s/g, (whole, name) => values[name] ?? whole) : text;
}
