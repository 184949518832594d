// Both hands side by side: left on the left, right on the right.
import { el } from '../dom.js';
import { dateText, t } from '../text.js';
import { button } from '../forms.js';
import { handName } from '../marks.js';
import { attempts, countedAttempt, freshTrial, hands, outcomesWithTime, roleOf } from '../session.js';
import { hundredths, signedSeconds } from '../seconds.js';

export function comparison(app, report, closed) {
  const { session, instrument } = app;
  return el('table', { class: 'comparison' },
    el('caption', { class: 'unseen' }, t('review.caption')),
    el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, t('review.task')),
      hands.map((hand) => el('th', { scope: 'col', class: hand }, handName(hand), el('small', {}, t(`role.${roleOf(session, hand)}`)))))),
    el('tbody', {}, instrument.tasks.map(({ id }) => el('tr', {},
      el('th', { scope: 'row' }, t(`task.${id}`), difference(report, id)),
      hands.map((hand) => el('td', { class: hand }, cell(app, { task: id, hand }, report, closed)))))));
}

function difference(report, subject) {
  const found = report?.differences?.find((entry) => entry.subject === subject);
  return found ? el('small', {}, t('review.difference', { seconds: signedSeconds(hundredths(found.seconds)) })) : null;
}

function cell(app, pair, report, closed) {
  const { session } = app;
  const trial = countedAttempt(session, pair);
  const named = `${t(`task.${pair.task}`)}, ${t(`hand.${pair.hand}`)}`;
  if (!trial) return [el('p', { class: 'none' }, t('review.notYet')), !closed && button(t('review.give'), () => give(app, pair), { key: `give-${pair.task}-${pair.hand}`, 'aria-label': `${t('review.give')}: ${named}` })];
  const row = report?.rows?.find((entry) => entry.task === pair.task && entry.hand === pair.hand);
  const others = attempts(session, pair).length - 1;
  return [
    el('p', { class: `result ${trial.outcome}` }, resultText(trial)),
    trial.source === 'manual' && el('p', { class: 'mark-manual' }, t('review.typed')),
    norm(row), change(session, report, pair, trial),
    trial.departures.length > 0 && el('p', { class: 'small' }, t('review.departures', { count: trial.departures.length })),
    trial.corrections.length > 0 && el('p', { class: 'small' }, t('review.corrected', { was: t('review.was', { value: resultText({ ...trial, ...trial.corrections[0].before }) }) })),
    others > 0 && el('p', { class: 'small' }, t('review.others', { count: others })),
    trial.reason && el('p', { class: 'small' }, trial.reason),
    !closed && button(t('review.correct'), () => { app.correcting = session.trials.indexOf(trial); app.go(`#/session/${session.id}/correct`); }, { key: `correct-${pair.task}-${pair.hand}`, 'aria-label': `${t('review.correct')}: ${named}` }),
  ];
}

export function resultText({ outcome, seconds }) {
  if (outcome === 'completed') return t('review.seconds', { seconds });
  if (outcome === 'stopped-at-cap') return t('review.over', { seconds });
  return t(`outcome.${outcome}`);
}

function norm(row) {
  if (!row || !outcomesWithTime.includes(row.outcome)) return null;
  const norms = (row.norms ?? []).map((entry) => el('p', { class: 'norm' }, t('review.norm', {
    mean: entry.mean, sd: entry.standardDeviation, sex: t(`sex.${entry.sex}`), from: entry.ageMin, to: entry.ageMax,
  }), ' ', el('span', { class: `evidence ${entry.evidence}` }, t(`evidence.${entry.evidence}`))));
  const verdict = row.judgement
    ? el('p', { class: `verdict ${row.judgement}` }, t(`judgement.${row.judgement}`))
    : row.whyNotJudged && row.whyNotJudged !== 'no-time' ? el('p', { class: 'verdict none' }, t(`whyNot.${row.whyNotJudged}`)) : null;
  const score = row.judgement && el('p', { class: 'score' }, t('review.z', { z: String(row.z).replace('-', '\u2212'), percent: row.percentOfMean ?? '' }));
  return [verdict, score, norms];
}

// Two plain times are subtracted; what the difference means only the service may say, where a measurement error is set.
function change(session, report, pair, trial) {
  const earlier = session.last?.rows?.find((entry) => entry.task === pair.task && entry.hand === pair.hand);
  if (!earlier || earlier.outcome !== 'completed' || trial.outcome !== 'completed') return null;
  const verdict = report?.change?.find((entry) => entry.subject === pair.task && entry.hand === pair.hand)?.verdict;
  return el('p', { class: 'change' }, t('review.change.since', {
    date: dateText(session.last.startedAt.slice(0, 10)), seconds: signedSeconds(hundredths(trial.seconds) - hundredths(earlier.seconds)), was: earlier.seconds,
  }), ' ', verdict ?? t('review.change.noVerdict'));
}

/** Opens a trial out of its turn, or once more. */
export function give(app, pair) {
  app.session.current = freshTrial(app.session, app.instrument, pair);
  app.goStep('trials');
}
