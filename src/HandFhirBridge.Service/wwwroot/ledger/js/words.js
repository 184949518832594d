// Times and states in words.
import { el } from '../../table/js/dom.js';
import { ageText, momentText, t } from '../../table/js/text.js';

/** How long ago, with the moment itself where a pointer rests. */
export const ago = (time) => el('time', { datetime: time, title: momentText(Date.parse(time)) }, t('list.ago', { age: ageText(Date.now() - Date.parse(time)) }));

export const age = (time) => ageText(Date.now() - Date.parse(time));

export const moment = (time) => el('time', { datetime: time }, momentText(Date.parse(time)));

export function due(time) {
  const left = Date.parse(time) - Date.now();
  return left <= 0 ? t('list.due') : t('list.in', { age: ageText(left) });
}

export const stateTag = (state) => el('span', { class: `state ${state}` }, t(`state.${state}`));
