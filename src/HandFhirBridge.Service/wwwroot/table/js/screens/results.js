// Totals of each hand, and where the norms come from.
import { el } from '../dom.js';
import { definition, t } from '../text.js';
import { handName } from '../marks.js';
import { hands } from '../session.js';

export function totals(app, report) {
  if (!report) return null;
  return el('table', { class: 'comparison totals' },
    el('caption', {}, t('review.totals')),
    el('thead', { class: 'unseen' }, el('tr', {}, el('th', { scope: 'col' }, t('review.task')), hands.map((hand) => el('th', { scope: 'col' }, t(`hand.${hand}`))))),
    el('tbody', {}, app.instrument.totals.map(({ id, title }) => el('tr', {},
      el('th', { scope: 'row' }, definition(title)),
      hands.map((hand) => el('td', { class: hand }, total(report.totals.find((entry) => entry.total === id && entry.hand === hand), hand)))))));
}

function total(entry, hand) {
  if (!entry) return t('note.nothing');
  if (entry.seconds === undefined || entry.seconds === null) {
    return [handName(hand), el('p', { class: 'none' }, t('review.noTotal', { tasks: (entry.missingTasks ?? []).map((task) => t(`task.${task}`)).join(', ') }))];
  }
  return [handName(hand), el('p', { class: 'result' }, t('review.seconds', { seconds: entry.seconds })), entry.normMean && el('p', { class: 'norm' }, t('review.totalNorm', { mean: entry.normMean }))];
}

export function sources(report) {
  if (!report) return null;
  return el('section', { class: 'norm-sources' },
    report.normSources?.length > 0 && el('h2', {}, t('review.norms')),
    el('ul', { class: 'plain-list' }, (report.normSources ?? []).map(({ id, version, evidence, source }) => el('li', {},
      el('b', {}, `${id} ${version}`), ' ', el('span', { class: `evidence ${evidence}` }, t(`evidence.${evidence}`)), ' ', source, ' ', evidence === 'recalled' && el('b', {}, t('evidence.only.recalled'))))),
    el('p', { class: 'caution' }, report.caution));
}
