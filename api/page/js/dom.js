/** Build elements without markup strings, so that no text can become markup. */

const SVG = "http://www.w3.org/2000/svg";

/** Return an HTML element: h("button.primary", {onclick}, "Save"). */
export function h(tag, ...rest) {
  return build(
    splitTag(tag, (name) => document.createElement(name)),
    rest,
  );
}

/** Return an SVG element. */
export function svg(tag, ...rest) {
  return build(
    splitTag(tag, (name) => document.createElementNS(SVG, name)),
    rest,
  );
}

function splitTag(tag, create) {
  const [name, ...classes] = tag.split(".");
  const element = create(name || "div");
  if (classes.length) element.setAttribute("class", classes.join(" "));
  return element;
}

function build(element, rest) {
  for (const part of rest) {
    if (isAttributes(part)) setAttributes(element, part);
    else append(element, part);
  }
  return element;
}

function isAttributes(part) {
  return part !== null && typeof part === "object" && part.constructor === Object;
}

function setAttributes(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "value" || name === "checked") element[name] = value;
    else element.setAttribute(name, value === true ? "" : String(value));
  }
}

function append(element, part) {
  if (part === null || part === undefined || part === false) return;
  if (Array.isArray(part)) for (const item of part) append(element, item);
  else element.append(part);
}

/** Replace what an element holds. */
export function fill(element, ...children) {
  element.replaceChildren();
  append(element, children);
  return element;
}

/** Set style properties; the content security policy allows this, not markup. */
export function style(element, properties) {
  Object.assign(element.style, properties);
  return element;
}
