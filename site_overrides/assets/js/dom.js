/** Elements from names, attributes and children. Texts become text nodes, so no text can become markup. */

const SVG = "http://www.w3.org/2000/svg";

/**
 * `el("p", {class: "note"}, "Text", otherElement)`; attributes and children that are null or false are left out.
 * @template {keyof HTMLElementTagNameMap} K @param {K} name @param {Attributes} attributes
 * @param {...(Child | Child[])} children
 */
export function el(name, attributes = {}, ...children) {
  return filled(document.createElement(name), attributes, children);
}

/** @template {Element} E @param {E} element @param {Attributes} attributes @param {(Child | Child[])[]} children */
function filled(element, attributes, children) {
  for (const [key, value] of Object.entries(attributes)) {
    if (key.startsWith("on")) {
      element.addEventListener(key.slice(2), /** @type {EventListener} */ (value));
    } else if (value !== null && value !== false && value !== undefined) {
      element.setAttribute(key, value === true ? "" : String(value));
    }
  }
  element.append(...children.flat().filter((child) => child !== null && child !== false && child !== undefined));
  return element;
}

/**
 * A text that may go on in the next line behind a stroke between two words ("Regulator/rectifier"), as no browser does
 * by itself.
 * @param {string} text
 * @returns {(string | HTMLElement)[]}
 */
export function withBreaks(text) {
  return text.split(/(?<=\p{L}\/)(?=\p{L})/u).flatMap((part, place) => (place ? [el("wbr"), part] : [part]));
}

/**
 * A bar from 0 to `part` of its width, 0 to 1; what it says stands beside it in words.
 * @param {number} part @param {string} look
 */
export function bar(part, look) {
  const svg = document.createElementNS(SVG, "svg");
  const rect = document.createElementNS(SVG, "rect");
  const drawing = {
    class: `gauge gauge--${look}`,
    viewBox: "0 0 100 10",
    preserveAspectRatio: "none",
    width: "100%",
    height: 10,
  };
  const length = Math.round(1000 * Math.min(1, Math.max(0, part))) / 10;
  filled(rect, { class: "gauge__bar", width: length, height: 10 }, []);
  return filled(svg, { ...drawing, "aria-hidden": "true", focusable: "false" }, [rect]);
}

/**
 * A button that does something on this page.
 * @param {string} look @param {() => void} press @param {...Child} children
 */
export function button(look, press, ...children) {
  return el("button", { type: "button", class: look, onclick: press }, ...children);
}
