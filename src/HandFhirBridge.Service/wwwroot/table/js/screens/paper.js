// Types in a paper record sheet: everything on one page, in the order of the sheet.
import { announce, el } from '../dom.js';
import { dateText, t } from '../text.js';
import { button, foot, selectField, textField } from '../forms.js';
import { handName } from '../marks.js';
import { dominantHand, hands, outcomesWithReason, outcomesWithTime, plan } from '../session.js';
import { hundredths, parseSeconds } from '../seconds.js';
import { instantText } from '../clock.js';
import { answer, lookUp } from './patient.js';
import { performerFields } from './performer.js';
import { dominanceFields } from './dominance.js';
import { precautionFields } from './precautions.js';
import { problems as setupProblems, setupFields } from './setup.js';
import { departuresField } from './trial-end.js';

export function paperScreen(app) {
  const { session, instrument } = app;
  session.sheet ??= { date: instantText(Date.now()).slice(0, 10), from: '', to: '', cells: {} };
  const set = (name) => (value) => app.change(() => { session.sheet[name] = value; }, { redraw: false });
  return [
    el('h1', {}, t('paper.title')),
    el('p', {}, t('paper.text')),
    part('patient', patientPart(app)),
    part('performer', performerFields(app)),
    part('when', el('div', { class: 'pairs' },
      textField({ label: t('paper.date'), type: 'date', value: session.sheet.date, key: 'date', change: set('date') }),
      textField({ label: t('paper.from'), type: 'time', value: session.sheet.from, key: 'from', change: set('from') }),
      textField({ label: t('paper.to'), type: 'time', value: session.sheet.to, key: 'to', change: set('to') }))),
    part('dominance', dominanceFields(app)),
    part('precautions', precautionsPart(app)),
    part('setup', setupFields(app)),
    part('times', dominantHand(session) ? timesTable(app) : el('p', { class: 'notice' }, t('paper.dominanceFirst'))),
    el('div', { id: 'paper-problems', role: 'alert' }),
    foot(button(t('paper.review'), () => finish(app), { kind: 'primary tall', key: 'review' })),
  ];
}

const part = (name, ...content) => el('section', { class: `part ${name}`, 'aria-labelledby': `part-${name}` }, el('h2', { id: `part-${name}` }, t(`paper.part.${name}`)), content);

function patientPart(app) {
  const { patient } = app.session;
  return [
    el('form', { class: 'lookup', onsubmit: (event) => { event.preventDefault(); lookUp(app); } },
      textField({ label: t('patient.number'), value: patient.value, key: 'number', change: (value) => app.change(() => { Object.assign(patient, { value, record: 'not-asked', confirmed: false }); }, { redraw: patient.record !== 'not-asked' }) }),
      el('button', { class: 'plain', 'data-key': 'look-up' }, t('patient.lookUp'))),
    answer(app),
  ];
}

function precautionsPart(app) {
  const { session, instrument } = app;
  const allNo = () => app.change(() => {
    for (const { id } of instrument.precautions) session.precautions[id] = { answer: 'no', rulesOut: [], hands: [], note: '' };
  });
  return [
    el('p', {}, t('paper.allNoHint')), button(t('paper.allNo'), allNo, { key: 'all-no' }),
    instrument.precautions.map((asked) => precautionFields(app, asked)),
  ];
}

const cellOf = (session, task, hand) => (session.sheet.cells[`${task}/${hand}`] ??= { outcome: 'completed', typed: '', reason: '', departures: [], note: '' });

function timesTable(app) {
  const { session, instrument } = app;
  return el('table', { class: 'comparison times' },
    el('thead', {}, el('tr', {}, el('th', { scope: 'col' }, t('review.task')), hands.map((hand) => el('th', { scope: 'col', class: hand }, handName(hand))))),
    el('tbody', {}, instrument.tasks.map((task) => el('tr', {},
      el('th', { scope: 'row' }, t(`task.${task.id}`)),
      hands.map((hand) => el('td', { class: hand }, timesCell(app, task, hand, cellOf(session, task.id, hand))))))));
}

function timesCell(app, task, hand, cell) {
  const named = `${t(`task.${task.id}`)}, ${t(`hand.${hand}`)}`;
  const key = `${task.id}-${hand}`;
  const set = (name, redraw = false) => (value) => app.change(() => { cell[name] = value; }, { redraw });
  return [
    cell.outcome === 'completed' && el('input', { class: 'seconds', 'aria-label': t('paper.secondsOf', { named }), inputmode: 'decimal', value: cell.typed, 'data-key': `seconds-${key}`, autocomplete: 'off', oninput: (event) => set('typed')(event.target.value) }),
    cell.outcome === 'stopped-at-cap' && el('p', { class: 'result' }, t('review.over', { seconds: app.session.setup.capSeconds })),
    selectField({ label: el('span', { class: 'unseen' }, t('paper.outcomeOf', { named })), value: cell.outcome, key: `outcome-${key}`, empty: null, options: task.outcomes.map((value) => ({ value, label: t(`outcome.${value}`) })), change: set('outcome', true) }),
    !outcomesWithTime.includes(cell.outcome) && textField({ label: t(outcomesWithReason.includes(cell.outcome) ? 'end.reasonNeeded' : 'end.reason'), value: cell.reason, key: `reason-${key}`, change: set('reason') }),
    el('details', { class: 'cell-more', open: cell.open, ontoggle: (event) => { cell.open = event.target.open; } },
      el('summary', { 'data-key': `more-${key}` }, t('paper.more', { count: cell.departures.length }), el('span', { class: 'unseen' }, `: ${named}`)),
      departuresField(app.instrument, cell.departures, set('departures', true), `departure-${key}`),
      textField({ label: t('end.note'), value: cell.note, key: `note-${key}`, change: set('note') })),
  ];
}

function finish(app) {
  const { session, instrument } = app;
  const found = [...sessionProblems(app), ...(dominantHand(session) ? cellProblems(session, instrument) : [])];
  if (found.length > 0) {
    document.getElementById('paper-problems').replaceChildren(el('ul', { class: 'notice danger' }, found.map((text) => el('li', {}, text))));
    announce(t('paper.problems', { count: found.length }), true);
    return;
  }
  app.change(() => {
    session.startedAt = new Date(`${session.sheet.date}T${session.sheet.from}`).getTime();
    session.endedAt = new Date(`${session.sheet.date}T${session.sheet.to}`).getTime();
    session.trials = plan(session, instrument).map((pair) => trialOf(session, instrument, pair));
    session.current = null;
  }, { redraw: false });
  app.goStep('review');
}

function trialOf(session, instrument, { task, hand }) {
  const cell = cellOf(session, task, hand);
  const timed = outcomesWithTime.includes(cell.outcome);
  const seconds = cell.outcome === 'completed' ? parseSeconds(cell.typed, instrument).text : cell.outcome === 'stopped-at-cap' ? session.setup.capSeconds : null;
  return {
    task, hand, outcome: cell.outcome, repeat: false, startedAt: null, seconds, source: timed ? 'manual' : null,
    reason: timed ? '' : cell.reason, departures: cell.departures, note: cell.note, remark: '', timing: null, corrections: [],
  };
}

function sessionProblems(app) {
  const { session, instrument } = app;
  const { patient, performer, sheet, dominance } = session;
  const found = [];
  if (!patient.value.trim()) found.push(t('missing.patientNumber'));
  else if (patient.record === 'not-asked' || patient.record === 'asking') found.push(t('missing.lookUp'));
  else if (!patient.confirmed) found.push(t('missing.patientConfirmed'));
  if (!performer.name.trim() || !performer.value.trim() || !performer.role) found.push(t('missing.performer'));
  if (!sheet.date || !sheet.from || !sheet.to || sheet.to < sheet.from) found.push(t('paper.whenWrong'));
  else if (new Date(`${sheet.date}T${sheet.to}`).getTime() > Date.now()) found.push(t('paper.future', { date: dateText(sheet.date) }));
  if (!dominantHand(session) || !dominance.howKnown) found.push(t('missing.dominance'));
  if (!instrument.precautions.every(({ id }) => session.precautions[id])) found.push(t('missing.precautions'));
  return [...found, ...setupProblems(app)];
}

function cellProblems(session, instrument) {
  return plan(session, instrument).flatMap(({ task, hand }) => {
    const cell = cellOf(session, task, hand);
    const named = `${t(`task.${task}`)}, ${t(`hand.${hand}`)}: `;
    if (outcomesWithReason.includes(cell.outcome) && !cell.reason.trim()) return [named + t('missing.reason')];
    if (cell.outcome === 'stopped-at-cap' && !session.setup.capInForce) return [named + t('paper.noCap')];
    if (cell.outcome !== 'completed') return [];
    const parsed = parseSeconds(cell.typed, instrument);
    if (parsed.problem) return [named + t(parsed.problem, { max: instrument.maxSeconds, decimals: instrument.maxDecimals })];
    return session.setup.capInForce && hundredths(parsed.text) > hundredths(session.setup.capSeconds) ? [named + t('seconds.overCap', { cap: session.setup.capSeconds })] : [];
  });
}
