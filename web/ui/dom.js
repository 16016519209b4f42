// A small tree of what should be on the page, laid over what is there: only what differs is touched,
// so that focus, scroll and half-typed text outlive every redraw.

const SVG = "http://www.w3.org/2000/svg";

// h("p", {class: "x", key: "k"}, child, [children], "text")
//   key    tells siblings apart when their order changes
//   same   while this string stays, the whole element is left alone
//   first  attributes and properties given only when the element is made (a details that starts open)
//   value  the text of a field; never written while somebody is typing in it, unless force is set
//   svg    the text of a drawing, laid in part by part
// A function in place of the kids makes them, and is asked only where they are laid: beside "same", only when that changes.
export function h(tag, props, ...kids) {
  return { tag, props: props ?? {}, kids: typeof kids[0] === "function" ? kids[0] : present(kids) };
}

const present = (kids) => kids.flat(Infinity).filter((kid) => kid !== null && kid !== undefined && kid !== false && kid !== 0 && kid !== "");

export function patch(parent, kids) {
  const wanted = present(kids);
  const keyed = new Map();
  for (const node of parent.childNodes) if (node.ownKey !== undefined) keyed.set(node.ownKey, node);
  const needed = new Set();
  for (const kid of wanted) if (kid.props?.key !== undefined) needed.add(kid.props.key);
  let at = parent.firstChild;
  for (const kid of wanted) {
    if (typeof kid !== "object") {
      at = layText(parent, at, String(kid));
      continue;
    }
    const key = kid.props.key;
    let node = key === undefined ? null : (keyed.get(key) ?? null);
    if (node && !fits(node, kid)) node = null;
    // what nobody asks for any more goes, rather than moving what stays: moving takes the focus away
    if (key === undefined) {
      while (at && (at.ownKey === undefined ? !fits(at, kid) : !needed.has(at.ownKey))) at = drop(at);
      if (at && at.ownKey === undefined) node = at;
    } else if (node) {
      while (at && at !== node && (at.ownKey === undefined || !needed.has(at.ownKey))) at = drop(at);
    }
    if (!node) node = parent.insertBefore(make(kid, parent), at);
    else if (node === at) at = at.nextSibling;
    else parent.insertBefore(node, at);
    lay(node, kid);
  }
  while (at) at = drop(at);
}

function drop(node) {
  const next = node.nextSibling;
  node.remove();
  return next;
}

function fits(node, kid) {
  return node.nodeType === 1 && node.localName === kid.tag;
}

function layText(parent, at, text) {
  while (at && at.nodeType !== 3 && at.ownKey === undefined) at = drop(at);
  if (at && at.nodeType === 3) {
    if (at.data !== text) at.data = text;
    return at.nextSibling;
  }
  parent.insertBefore(document.createTextNode(text), at);
  return at;
}

function make(kid, parent) {
  const inSvg = kid.tag === "svg" || (parent.namespaceURI === SVG && parent.localName !== "foreignObject");
  const node = inSvg ? document.createElementNS(SVG, kid.tag) : document.createElement(kid.tag);
  if (kid.props.key !== undefined) node.ownKey = kid.props.key;
  for (const [name, value] of Object.entries(kid.props.first ?? {})) set(node, name, value);
  return node;
}

function lay(node, kid) {
  const props = kid.props;
  if (props.same !== undefined) {
    if (node.ownSame === props.same) return;
    node.ownSame = props.same;
  }
  const before = node.ownProps ?? {};
  for (const name of Object.keys(before)) if (!(name in props)) set(node, name, null);
  for (const [name, value] of Object.entries(props)) {
    if (ASIDE.has(name) || before[name] === value) continue;
    set(node, name, value);
  }
  node.ownProps = props;
  if (props.svg !== undefined) {
    if (node.ownSvg !== props.svg) layDrawing(node, (node.ownSvg = props.svg));
  } else if (node.localName !== "textarea") patch(node, typeof kid.kids === "function" ? kid.kids() : kid.kids);
  if ("value" in props) layValue(node, props);
}

const ASIDE = new Set(["key", "same", "first", "value", "force", "svg"]);

function set(node, name, value) {
  if (ASIDE.has(name)) return;
  if (name === "checked" || name === "open") node[name] = Boolean(value);
  else if (value === null || value === undefined || value === false) node.removeAttribute(name);
  else node.setAttribute(name, value === true ? "" : String(value));
}

function layValue(node, props) {
  const value = props.value ?? "";
  const typing = document.activeElement === node && node.localName !== "select";
  if (node.value === value || (typing && !props.force)) return;
  node.value = value;
}

// A drawing comes as text. Whatever could run is left out, and the rest is laid over the drawing that is
// there, so that the part that has the focus keeps it.
export function layDrawing(holder, text) {
  const read = new DOMParser().parseFromString(text, "text/html");
  const fresh = read.body.firstElementChild;
  if (fresh?.localName !== "svg") {
    holder.replaceChildren();
    return;
  }
  clean(fresh);
  const old = holder.firstElementChild;
  if (old && holder.childElementCount === 1) morph(old, fresh);
  else holder.replaceChildren(document.importNode(fresh, true));
}

const HARMLESS = new Set(["svg", "g", "path", "line", "polyline", "polygon", "rect", "circle", "ellipse", "text", "tspan", "title", "desc", "defs", "marker", "pattern", "clipPath", "mask", "use"]);

function clean(node) {
  for (const { name, value } of [...node.attributes]) {
    if (/^on/i.test(name) || (/href$/i.test(name) && !value.startsWith("#"))) node.removeAttribute(name);
  }
  for (const kid of [...node.children]) {
    if (kid.namespaceURI !== SVG || !HARMLESS.has(kid.localName)) kid.remove();
    else clean(kid);
  }
}

function morph(old, fresh) {
  if (old.nodeType !== fresh.nodeType || old.nodeName !== fresh.nodeName) {
    old.replaceWith(document.importNode(fresh, true));
    return;
  }
  if (old.nodeType !== 1) {
    if (old.nodeType === 3 && old.data !== fresh.data) old.data = fresh.data;
    return;
  }
  for (const { name } of [...old.attributes]) if (!fresh.hasAttribute(name)) old.removeAttribute(name);
  for (const { name, value } of fresh.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value);
  const kids = [...fresh.childNodes];
  const stale = [...old.childNodes];
  kids.forEach((kid, index) => {
    if (stale[index]) morph(stale[index], kid);
    else old.append(document.importNode(kid, true));
  });
  for (const kid of stale.slice(kids.length)) kid.remove();
}
