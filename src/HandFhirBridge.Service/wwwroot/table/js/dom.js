// Builds elements. Text is always set as text, never as markup.
const svgSpace = 'http://www.w3.org/2000/svg';

function fill(node, attributes, children) {
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) node.addEventListener(name.slice(2), value);
    else if (name === 'value' || name === 'checked' || name === 'disabled') node[name] = value;
    else node.setAttribute(name, value === true ? '' : value);
  }
  node.append(...children.flat(Infinity).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

/** An HTML element; `on…` attributes are listeners; null children are left out. */
export const el = (tag, attributes, ...children) => fill(document.createElement(tag), attributes, children);

/** An SVG element. */
export const svg = (tag, attributes, ...children) => fill(document.createElementNS(svgSpace, tag), attributes, children);

/** An id for labels that is unique on the screen. */
let counter = 0;
export const freshId = (prefix) => `${prefix}-${++counter}`;

/** Tells screen readers; `urgent` interrupts what they are saying. */
export function announce(text, urgent = false) {
  const region = document.getElementById(urgent ? 'warned' : 'said');
  // The same sentence twice is a change only if the region was empty in between.
  region.textContent = '';
  setTimeout(() => { region.textContent = text; }, 30);
}
