import { el } from '../dom.js';
import { definition, t } from '../text.js';
import { button, choice, foot, several, textArea } from '../forms.js';
import { handLetter } from '../marks.js';
import { hands } from '../session.js';
import { stepHead } from './steps.js';

/** One question at a time. What an answer rules out is the therapist's decision. */
export function precautionsScreen(app) {
  const { session, instrument } = app;
  const at = Math.min(session.precautionAt, instrument.precautions.length - 1);
  const asked = instrument.precautions[at];
  const answer = session.precautions[asked.id];
  const last = at === instrument.precautions.length - 1;
  const warning = el('p', { class: 'problem', role: 'alert' });
  const move = (to) => {
    app.change(() => { session.precautionAt = to; }, { redraw: false });
    app.draw(true);
  };
  return [
    stepHead('precautions'),
    el('p', { class: 'count' }, t('precautions.count', { at: at + 1, all: instrument.precautions.length })),
    precautionFields(app, asked, 'large'),
    !answer && el('p', { class: 'hint' }, t('precautions.defer')),
    warning,
    foot(
      button(t('back'), () => (at > 0 ? move(at - 1) : app.goStep('dominance')), { key: 'back' }),
      button(t('next'), () => {
        if (!session.precautions[asked.id]) warning.textContent = t('missing.answer');
        else if (last) app.goStep('setup');
        else move(at + 1);
      }, { kind: 'primary', key: 'next' })),
  ];
}

export function precautionFields(app, asked, size = '') {
  const answer = app.session.precautions[asked.id];
  const set = (changes, redraw = true) => app.change((session) => {
    session.precautions[asked.id] = { answer: '', rulesOut: [], hands: [], note: '', ...session.precautions[asked.id], ...changes };
  }, { redraw });
  return el('div', { class: `precaution ${size}` },
    choice({
      legend: definition(asked.question), value: answer?.answer, key: `answer-${asked.id}`, change: (value) => set({ answer: value }),
      options: ['no', 'yes', 'not-known'].map((value) => ({ value, label: t(`precautions.${value}`) })),
    }),
    answer && answer.answer !== 'no' && el('div', { class: 'rules-out' },
      el('p', { class: 'notice warn' }, definition(asked.caution)),
      several({
        legend: t('precautions.rulesOut'), hint: t('precautions.rulesOutHint'), values: answer.rulesOut, key: `out-${asked.id}`,
        options: asked.mayRuleOut.map((task) => ({ value: task, label: t(`task.${task}`) })), change: (value) => set({ rulesOut: value }),
      }),
      several({
        legend: t('precautions.hands'), values: answer.hands, key: `hands-${asked.id}`,
        options: hands.map((hand) => ({ value: hand, label: t(`hand.${hand}`), mark: handLetter(hand) })), change: (value) => set({ hands: value }),
      }),
      el('p', { class: 'hint' }, t('precautions.handsHint')),
      textArea({ label: t('precautions.note'), value: answer.note, key: `note-${asked.id}`, change: (value) => set({ note: value }, false) }),
      el('p', { class: 'confirm', role: 'status' }, answer.rulesOut.length === 0 ? t('precautions.nothingOut') : t('precautions.out', {
        tasks: answer.rulesOut.map((task) => t(`task.${task}`)).join(', '), hands: answer.hands.length === 1 ? t(`hand.${answer.hands[0]}`) : t('precautions.bothHands'),
      }))));
}
