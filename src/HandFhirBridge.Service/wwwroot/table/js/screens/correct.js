import { el } from '../dom.js';
import { momentText, t } from '../text.js';
import { button, choice, foot, textArea, textField } from '../forms.js';
import { handStrip } from '../marks.js';
import { correct, outcomesWithReason, outcomesWithTime, roleOf } from '../session.js';
import { hundredths, parseSeconds } from '../seconds.js';
import { departuresField } from './trial-end.js';
import { give, resultText } from './comparison.js';

/** Corrects one attempt before sending; what it was is kept. */
export function correctScreen(app) {
  const { session, instrument } = app;
  const trial = session.trials[app.correcting];
  if (!trial || session.delivery) return [el('h1', {}, t('correct.title')), el('a', { class: 'button plain', href: `#/session/${session.id}/review` }, t('back'))];
  const draft = app.draft?.trial === trial ? app.draft : { trial, outcome: trial.outcome, typed: trial.seconds ?? '', reason: trial.reason ?? '', departures: trial.departures, note: trial.note };
  app.draft = draft;
  const set = (name, redraw = true) => (value) => { draft[name] = value; if (redraw) app.draw(); };
  const outcomes = instrument.tasks.find(({ id }) => id === trial.task).outcomes.filter((outcome) => outcome !== 'stopped-at-cap' || session.setup.capInForce);
  const timed = draft.outcome === 'completed';
  return [
    handStrip(trial.hand, roleOf(session, trial.hand)),
    el('h1', {}, t('correct.of', { task: t(`task.${trial.task}`) })),
    el('p', { class: 'notice' }, t('correct.now', { value: resultText(trial) })),
    trial.corrections.length > 0 && el('ul', { class: 'plain-list' }, trial.corrections.map(({ at, before }) => el('li', {}, t('correct.before', { when: momentText(at), value: resultText({ ...trial, ...before }) })))),
    choice({ legend: t('end.what'), value: draft.outcome, key: 'outcome', options: outcomes.map((value) => ({ value, label: t(`outcome.${value}`) })), change: set('outcome') }),
    timed && textField({ label: t('correct.seconds'), hint: t('end.typeHint'), value: draft.typed, key: 'typed', inputmode: 'decimal', change: set('typed', false) }),
    !outcomesWithTime.includes(draft.outcome) && textArea({ label: t(outcomesWithReason.includes(draft.outcome) ? 'end.reasonNeeded' : 'end.reason'), value: draft.reason, key: 'reason', change: set('reason', false) }),
    departuresField(instrument, draft.departures, set('departures')),
    textArea({ label: t('end.note'), value: draft.note, key: 'note', change: set('note', false) }),
    el('p', { class: 'problem', id: 'correct-problem', role: 'alert' }),
    button(t('correct.repeat'), () => give(app, { task: trial.task, hand: trial.hand }), { key: 'repeat' }),
    foot(
      button(t('back'), () => { app.draft = null; app.goStep('review'); }, { key: 'back' }),
      button(t('correct.save'), () => keep(app, draft), { kind: 'primary tall', key: 'save' })),
  ];
}

function keep(app, draft) {
  const { session, instrument } = app;
  const { trial, outcome } = draft;
  const parsed = outcome === 'completed' ? parseSeconds(draft.typed, instrument) : {};
  const cap = session.setup.capInForce ? session.setup.capSeconds : null;
  const problem = parsed.problem ? t(parsed.problem, { max: instrument.maxSeconds, decimals: instrument.maxDecimals })
    : parsed.text && cap && hundredths(parsed.text) > hundredths(cap) ? t('seconds.overCap', { cap })
      : outcomesWithReason.includes(outcome) && draft.reason.trim() === '' ? t('missing.reason') : null;
  if (problem) {
    document.getElementById('correct-problem').textContent = problem;
    return;
  }
  const seconds = outcome === 'completed' ? parsed.text : outcome === 'stopped-at-cap' ? cap : null;
  const source = seconds === null ? null : seconds === trial.seconds ? trial.source : 'manual';
  const reason = outcomesWithTime.includes(outcome) ? '' : draft.reason;
  app.change(() => correct(trial, { outcome, seconds, source, reason, departures: draft.departures, note: draft.note, repeat: false }, Date.now()), { redraw: false });
  app.draft = null;
  app.goStep('review');
}
