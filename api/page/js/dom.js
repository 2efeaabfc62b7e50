/** Build elements without markup strings, so that no text can become markup. */

/** @import { Attributes, Child, HtmlOf, SvgOf } from "./types.js" */

const SVG = "http://www.w3.org/2000/svg";

/**
 * Return an HTML element: h("button.primary", {onclick}, "Save").
 * @template {string} T
 * @param {T} tag
 * @param {...(Attributes<HtmlOf<T>> | Child)} rest
 * @returns {HtmlOf<T>}
 */
export function h(tag, ...rest) {
  return build(
    /** @type {any} */ (splitTag(tag, (name) => document.createElement(name))),
    rest,
  );
}

/**
 * Return an SVG element.
 * @template {string} T
 * @param {T} tag
 * @param {...(Attributes<SvgOf<T>> | Child)} rest
 * @returns {SvgOf<T>}
 */
export function svg(tag, ...rest) {
  return build(
    /** @type {any} */ (splitTag(tag, (name) => document.createElementNS(SVG, name))),
    rest,
  );
}

/**
 * @param {string} tag
 * @param {(name: string) => Element} create
 */
function splitTag(tag, create) {
  const [name, ...classes] = tag.split(".");
  const element = create(name || "div");
  if (classes.length) element.setAttribute("class", classes.join(" "));
  return element;
}

/**
 * @template {Element} E
 * @param {E} element
 * @param {any[]} rest
 */
function build(element, rest) {
  for (const part of rest) {
    if (isAttributes(part)) setAttributes(element, part);
    else append(element, part);
  }
  return element;
}

/** @param {any} part */
function isAttributes(part) {
  return part !== null && typeof part === "object" && part.constructor === Object;
}

/**
 * @param {any} element
 * @param {Record<string, any>} attributes
 */
function setAttributes(element, attributes) {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "value" || name === "checked") element[name] = value;
    else element.setAttribute(name, value === true ? "" : String(value));
  }
}

/**
 * @param {Element} element
 * @param {Child} part
 */
function append(element, part) {
  if (part === null || part === undefined || part === false) return;
  if (Array.isArray(part)) for (const item of part) append(element, item);
  else element.append(typeof part === "number" ? String(part) : part);
}

/**
 * Return an element of the page's shell, which is always there.
 * @param {string} id
 */
export const shell = (id) => /** @type {HTMLElement} */ (document.getElementById(id));

/**
 * Replace what an element holds.
 * @template {Element} E
 * @param {E} element
 * @param {...Child} children
 * @returns {E}
 */
export function fill(element, ...children) {
  element.replaceChildren();
  append(element, children);
  return element;
}

/**
 * Set style properties; the content security policy allows this, not markup.
 * @template {HTMLElement} E
 * @param {E} element
 * @param {Partial<CSSStyleDeclaration>} properties
 * @returns {E}
 */
export function style(element, properties) {
  Object.assign(element.style, properties);
  return element;
}
