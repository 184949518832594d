// The signs of the two hands. Left and right differ in word, shape (circle, square), position and picture; colour comes on top.
import { el, svg } from './dom.js';
import { t } from './text.js';

/** The letter of the hand in its shape. */
export const handLetter = (hand) => el('span', { class: `letter ${hand}`, 'aria-hidden': 'true' }, t(`hand.${hand}.letter`));

/** Word and sign of a hand. */
export const handName = (hand) => el('span', { class: `hand-name ${hand}` }, handLetter(hand), t(`hand.${hand}`));

/** Outline of a hand lying palm down, as its owner sees it; about 4 in wide and 6 in long. Groups can be placed in other drawings. */
export function handShape(hand, attributes = {}) {
  const finger = (x, y, length, turn = 0) => svg('rect', { x, y, width: 15, height: length, rx: 7.5, transform: `rotate(${turn} ${x + 7.5} ${y + length})` });
  const parts = [
    finger(6, 22, 52, -8), finger(24, 6, 64, -2), finger(42, 2, 68, 2), finger(60, 12, 58, 7),
    svg('rect', { x: 8, y: 54, width: 66, height: 56, rx: 20 }),
    finger(68, 52, 46, 42),
  ];
  return svg('g', { class: 'hand-shape', ...attributes },
    svg('g', hand === 'right' ? { transform: 'translate(100 0) scale(-1 1)' } : {}, parts));
}

export const handPicture = (hand) => svg('svg', { viewBox: '-4 -2 116 116', class: `hand-picture ${hand}`, 'aria-hidden': 'true', focusable: 'false' }, handShape(hand));

/** The two hands side by side, left on the left; the one being tested filled and named large. */
export function handStrip(hand, role) {
  const half = (side) => (side === hand
    ? el('p', { class: `half now ${side}` }, handPicture(side),
      el('span', { class: 'words' }, el('strong', {}, t(`hand.${side}.loud`)), el('span', {}, t(`role.${role}`))))
    : el('p', { class: `half rests ${side}`, 'aria-hidden': 'true' }, handPicture(side), el('span', { class: 'words' }, t('hand.rests', { hand: t(`hand.${side}.short`) }))));
  return el('div', { class: 'hand-strip' }, half('left'), half('right'));
}
