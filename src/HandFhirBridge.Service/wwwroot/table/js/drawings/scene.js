// A table top seen from above, drawn to scale. Lengths are inches; x counts from the patient's middle to the patient's right,
// y from the table's front edge away from the patient.
import { svg } from '../dom.js';
import { handShape } from '../marks.js';
import { t } from '../text.js';

const perInch = 10;
const beyond = 40;

export class Scene {
  /** `view` is whose eyes: patient or therapist (opposite). Bounds are [left, right, near, far]. */
  constructor({ view, bounds, title, description }) {
    this.turned = view === 'therapist';
    [this.left, this.right, this.near, this.far] = bounds;
    this.nodes = [];
    this.texts = [];
    this.title = title;
    this.description = description;
    this.table();
  }

  point(x, y) {
    const [across, up] = this.turned ? [this.right - x, y - this.near] : [x - this.left, this.far - y];
    return [across * perInch, up * perInch];
  }

  add(node) {
    this.nodes.push(node);
  }

  rect(x, y, width, height, kind, rounding = 0) {
    const [ax, ay] = this.point(x, y);
    const [bx, by] = this.point(x + width, y + height);
    this.add(svg('rect', {
      x: Math.min(ax, bx), y: Math.min(ay, by), width: width * perInch, height: height * perInch, rx: rounding * perInch, class: kind,
    }));
  }

  circle(x, y, radius, kind) {
    const [cx, cy] = this.point(x, y);
    this.add(svg('circle', { cx, cy, r: radius * perInch, class: kind }));
  }

  ellipse(x, y, rx, ry, kind) {
    const [cx, cy] = this.point(x, y);
    this.add(svg('ellipse', { cx, cy, rx: rx * perInch, ry: ry * perInch, class: kind }));
  }

  line(x1, y1, x2, y2, kind) {
    const [ax, ay] = this.point(x1, y1);
    const [bx, by] = this.point(x2, y2);
    this.add(svg('line', { x1: ax, y1: ay, x2: bx, y2: by, class: kind }));
  }

  /** Text centred on a point; `lines` below one another. Always upright and above everything else. */
  words(x, y, lines, kind = 'name', anchor = 'middle') {
    const [px, py] = this.point(x, y);
    // Seen from the other side, what began at a point ends there.
    const side = this.turned && anchor !== 'middle' ? { start: 'end', end: 'start' }[anchor] : anchor;
    const height = 11;
    const first = py - ((lines.length - 1) * height) / 2;
    this.texts.push(svg('text', { class: kind, 'text-anchor': side },
      lines.map((line, index) => svg('tspan', { x: px, y: first + index * height, dy: '0.35em' }, line))));
  }

  /** A measured distance between two points. */
  measure(x1, y1, x2, y2, lines, at, anchor) {
    this.line(x1, y1, x2, y2, 'measure');
    const across = y1 === y2;
    for (const [x, y] of [[x1, y1], [x2, y2]]) {
      this.line(x - (across ? 0 : 0.4), y - (across ? 0.4 : 0), x + (across ? 0 : 0.4), y + (across ? 0.4 : 0), 'measure');
    }
    this.words(at[0], at[1], lines, 'size', anchor);
  }

  /** The board across the table, from `front` away from the patient. */
  board(front, depth) {
    this.rect(this.left - beyond, front, this.right - this.left + 2 * beyond, depth, 'board');
  }

  /** The hand being tested, resting before the start. */
  hand(hand, x) {
    const [cx, cy] = this.point(x, 2.1);
    const scale = 0.36;
    const turn = this.turned ? 'rotate(180)' : '';
    this.add(svg('g', { transform: `translate(${cx} ${cy}) ${turn} scale(${scale}) translate(-50 -56)` }, handShape(hand, { class: `hand-shape ${hand}` })));
    this.words(x, -1.4, [t(`hand.${hand}.loud`)], `hand-word ${hand}`);
  }

  table() {
    // Wider than what is looked at: where the picture is not as wide as its frame, the table goes on.
    this.rect(this.left - beyond, 0, this.right - this.left + 2 * beyond, this.far, 'table-top');
    this.line(this.left - beyond, 0, this.right + beyond, 0, 'table-edge');
    this.line(0, this.near + 1, 0, this.far, 'middle-line');
  }

  toSvg() {
    const width = (this.right - this.left) * perInch;
    const height = (this.far - this.near) * perInch;
    return svg('svg', { viewBox: `0 0 ${width} ${height}`, class: 'scene', role: 'img', focusable: 'false', 'aria-label': `${this.title}. ${this.description}` },
      svg('title', {}, this.title),
      svg('desc', {}, this.description),
      this.nodes, this.texts);
  }
}
