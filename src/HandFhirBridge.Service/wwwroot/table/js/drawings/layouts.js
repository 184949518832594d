// How the table is laid for each task and hand. Distances come from the instrument's definition; sizes with a source are said below,
// all others are the usual size of such a thing (common practice, no source).
import { Scene } from './scene.js';
import { t } from '../text.js';

const card = { width: 3, height: 5 }; // index card 3 x 5 in: summaries of the published test
const checker = 1.25; // across, in: summaries of the published test
const coin = 0.75;
const cap = 1.1;
const clip = { length: 1.3, width: 0.35 };
const bean = { length: 0.65, width: 0.4 };
const can = 3.1;
const board = 3.5;

/** The drawing of `task` for `hand` as `view` (patient, therapist) sees it. */
export function layoutDrawing(task, hand, view, instrument) {
  const definition = instrument.tasks.find(({ id }) => id === task);
  const inches = (measure) => Number(definition.measures.find(({ id }) => id === measure)?.inches);
  const context = {
    hand, view, side: hand === 'left' ? -1 : 1, edge: inches('edge-to-items'), gap: inches('between-items'),
    make: (bounds) => new Scene({ view, bounds, title: t('drawing.title', { task: t(`task.${task}`), hand: t(`hand.${hand}`) }), description: t(`drawing.${task}.desc`, { side: t(`side.${hand}`) }) }),
  };
  const scene = layouts[task](context);
  return scene.toSvg();
}

const lengthLines = (inches) => [t('length.in', { value: inches }), t('length.cm', { value: (inches * 2.54).toFixed(1) })];

/** Bounds that reach from a little beyond the middle to `reach` on the side of the hand being tested. */
const oneSided = (side, back, reach, far) => [...(side < 0 ? [-reach, back] : [-back, reach]), -2.8, far];

const edgeMeasure = (scene, x, edge, anchorSide) =>
  scene.measure(x, 0, x, edge, lengthLines(edge), [x + anchorSide * 0.7, edge / 2], anchorSide < 0 ? 'end' : 'start');

/** Middles of `count` things of `size` in a row around the middle, `gap` apart. */
const row = (count, size, gap) => Array.from({ length: count }, (_, index) => (index - (count - 1) / 2) * (size + gap));

const layouts = {
  writing({ hand, side, make }) {
    const scene = make([-15, 15, -2.8, 17.3]);
    scene.rect(-4.25, 1, 8.5, 11, 'paper');
    scene.line(-4.25 + 1, 9.5, 3.25, 9.5, 'rule');
    scene.rect(side * 5.4 - 0.18, 5, 0.36, 5.6, 'thing', 0.15);
    scene.rect(-2.5, 14, 5, 0.6, 'card');
    scene.rect(-3, 13.7, 6, 0.3, 'stand');
    scene.words(0, 15.7, [t('drawing.cardOnStand')]);
    scene.words(0, 6.5, [t('drawing.paper')]);
    scene.words(side * 7.8, 11.3, [t('drawing.pen')]);
    scene.hand(hand, side * 7.2);
    return scene;
  },

  'card-turning'({ hand, side, edge, gap, make }) {
    const scene = make([-14, 14, -2.8, 13]);
    const middles = row(5, card.width, gap);
    middles.forEach((x) => scene.rect(x - card.width / 2, edge, card.width, card.height, 'card', 0.1));
    const first = side * middles[4];
    scene.words(first, edge + 2.5, [t('drawing.first')], 'first');
    const inner = -side * middles[4];
    edgeMeasure(scene, inner, edge, side);
    const [a, b] = side < 0 ? [middles[3], middles[4]] : [middles[0], middles[1]];
    scene.measure(a + card.width / 2, edge + 5.6, b - card.width / 2, edge + 5.6, [lengthLines(gap).join(' · ')], [(a + b) / 2, edge + 6.6]);
    scene.words(0, edge + 6.6, [t('drawing.cards')]);
    scene.hand(hand, side * 6.5);
    return scene;
  },

  'small-common-objects'({ hand, side, edge, gap, make }) {
    const scene = make(oneSided(side, 4.6, 21.6, 11.5));
    scene.circle(0, edge + can / 2, can / 2, 'can');
    scene.words(0, edge + can + 1, [t('drawing.emptyCan')]);
    const sizes = [coin, coin, cap, cap, clip.width, clip.width];
    let x = can / 2;
    const middles = sizes.map((size) => {
      const middle = x + gap + size / 2;
      x = middle + size / 2;
      return middle;
    });
    const y = edge + 0.6;
    middles.forEach((middle, index) => {
      if (index < 2) scene.circle(side * middle, y, coin / 2, 'coin');
      else if (index < 4) { scene.circle(side * middle, y, cap / 2, 'cap'); scene.circle(side * middle, y, cap / 2 - 0.18, 'cap-in'); }
      else scene.rect(side * middle - clip.width / 2, y - clip.length / 2, clip.width, clip.length, 'clip', 0.17);
    });
    scene.words(side * (middles[0] + middles[1]) / 2, y + 2.6, [t('drawing.coins')]);
    scene.words(side * (middles[2] + middles[3]) / 2, y + 2.6, [t('drawing.caps')]);
    scene.words(side * (middles[4] + middles[5]) / 2, y + 2.6, [t('drawing.clips')]);
    scene.words(side * (middles[5] + 2), y, [t('drawing.first')], 'first');
    scene.measure(side * (middles[1] + coin / 2), y + 1.1, side * (middles[2] - cap / 2), y + 1.1, [lengthLines(gap).join(' · ')], [side * (middles[1] + middles[2]) / 2, y + 4.4]);
    edgeMeasure(scene, side * (middles[5]), edge, -side);
    scene.hand(hand, side * 5.2);
    return scene;
  },

  'simulated-feeding'({ hand, side, edge, gap, make }) {
    const scene = make(oneSided(side, 4.6, 19.6, 13));
    const front = edge + bean.width;
    scene.board(front, board);
    scene.words(side * 8, front + board / 2, [t('drawing.board')]);
    scene.circle(0, front - can / 2, can / 2, 'can');
    scene.words(side * -0.2, front - can - 0.9, [t('drawing.emptyCan')]);
    const middles = Array.from({ length: 5 }, (_, index) => can / 2 + 1.5 + bean.length / 2 + index * (bean.length + gap));
    middles.forEach((middle) => scene.ellipse(side * middle, edge + bean.width / 2, bean.length / 2, bean.width / 2, 'bean'));
    scene.words(side * middles[1], front + board + 1.9, [t('drawing.beans')]);
    scene.measure(side * (middles[3] + bean.length / 2), front + board + 0.7, side * (middles[4] - bean.length / 2), front + board + 0.7, [lengthLines(gap).join(' · ')], [side * middles[3], front + board + 3]);
    edgeMeasure(scene, side * (middles[4]), edge, side);
    scene.hand(hand, side * 5.6);
    scene.ellipse(side * 9.2, 4, 0.55, 0.8, 'thing');
    scene.rect(side * 9.2 - 0.13, 0.4, 0.26, 3.2, 'thing', 0.12);
    scene.words(side * 11.4, 2.2, [t('drawing.spoon')]);
    return scene;
  },

  'stacking-checkers'({ hand, side, edge, make }) {
    const scene = make([-12, 12, -2.8, 13]);
    const front = edge + checker;
    scene.board(front, board);
    scene.circle(0, front + board / 2, checker / 2, 'goal');
    scene.words(0, front + board + 1, [t('drawing.stackHere')]);
    scene.words(side * -6, front + board / 2, [t('drawing.board')]);
    for (const middle of [-2.1, -0.75, 0.75, 2.1]) scene.circle(middle, edge + checker / 2, checker / 2, 'checker');
    scene.words(0, edge - 1, [t('drawing.checkers')]);
    edgeMeasure(scene, side * -4.2, edge, -side);
    scene.hand(hand, side * 4.6);
    return scene;
  },

  'large-light-objects': (context) => cans(context, 'can', 'drawing.emptyCans'),
  'large-heavy-objects': (context) => cans(context, 'can filled', 'drawing.filledCans'),
};

function cans({ hand, side, edge, gap, make }, kind, name) {
  const scene = make([-14, 14, -2.8, 16.5]);
  const front = edge + can;
  scene.board(front, board);
  scene.words(0, front + board / 2, [t('drawing.board')]);
  const middles = row(5, can, gap);
  middles.forEach((x) => scene.circle(x, edge + can / 2, can / 2, kind));
  scene.words(0, front + board + 1.2, [t(name)]);
  scene.words(side * middles[4], edge + can / 2, [t('drawing.first')], 'first');
  // Not the outermost gap: the distance from the edge is written there.
  const [a, b] = side < 0 ? [middles[2], middles[3]] : [middles[1], middles[2]];
  scene.measure(a + can / 2, edge - 0.7, b - can / 2, edge - 0.7, [lengthLines(gap).join(' · ')], [(a + b) / 2, edge - 1.8]);
  edgeMeasure(scene, -side * (middles[4] + can / 2 + 0.4), edge, side);
  scene.hand(hand, side * 6.5);
  return scene;
}
