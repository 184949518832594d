// How a trial ended: the time taken or typed, or why there is none; what differed from the standard.
import { announce, el } from '../dom.js';
import { definition, t } from '../text.js';
import { button, choice, foot, several, textArea, textField } from '../forms.js';
import { attempts, outcomesWithReason, outcomesWithTime, record, remember, undo } from '../session.js';
import { parseSeconds } from '../seconds.js';
import { beyondCap } from '../timing.js';

/** Goes to the end of the trial without the timer. */
export function openEnd(app, phase, end) {
  app.change((session) => {
    remember(session);
    session.current.phase = phase;
    Object.assign(session.current.end, end);
  }, { redraw: false });
  app.draw(true);
}

export function endView(app) {
  const { current } = app.session;
  const { end } = current;
  const doubtful = current.phase === 'stopped' && current.read.doubts.length > 0 && end.doubt === null;
  const set = (name, redraw = true) => (value) => app.change(() => { end[name] = value; }, { redraw });
  if (doubtful) return [timeTaken(app), doubtView(app)];
  const outcomes = possibleOutcomes(app);
  return [
    current.phase === 'stopped' && end.doubt !== 'typed' ? timeTaken(app) : null,
    typing(current) && outcomesWithTime.includes(end.outcome) && end.outcome !== 'stopped-at-cap' && textField({
      label: t('end.typeSeconds'), hint: t('end.typeHint'), value: end.typed, key: 'typed', inputmode: 'decimal', class: 'seconds',
      change: (value) => { end.typed = value; app.change(() => {}, { redraw: false }); },
    }),
    choice({ legend: t('end.what'), value: end.outcome, key: 'outcome', options: outcomes.map((value) => ({ value, label: t(`outcome.${value}`), detail: t(`outcome.${value}.hint`) })), change: set('outcome') }),
    !outcomesWithTime.includes(end.outcome) && reasonField(app, end, set('reason', false)),
    departuresField(app.instrument, current.departures, (values) => app.change(() => { current.departures = values; })),
    textArea({ label: t('end.note'), value: current.note, key: 'note', change: (value) => app.change(() => { current.note = value; }, { redraw: false }) }),
    el('div', { class: 'dock' }, el('p', { class: 'problem', id: 'end-problem', role: 'alert' }), foot(
      button(t(current.phase === 'stopped' ? 'end.undoStop' : 'back'), () => { app.change((session) => undo(session)); app.draw(true); }, { key: 'undo' }),
      end.outcome === 'void'
        ? [button(t('end.voidOnly'), () => keep(app, false), { kind: 'plain tall', key: 'void-only' }), button(t('end.voidRepeat'), () => keep(app, true), { kind: 'primary tall', key: 'keep' })]
        : button(t('end.keep'), () => keep(app, false), { kind: 'primary tall', key: 'keep' }))),
  ];
}

const typing = (current) => current.phase === 'typed' || current.end.doubt === 'typed';

function timeTaken(app) {
  const { current, setup } = app.session;
  return el('p', { class: 'time-taken' },
    current.end.outcome === 'stopped-at-cap' ? el('strong', {}, t('end.overCap', { cap: setup.capSeconds })) : [el('strong', {}, current.read.seconds), ' ', t('seconds.unit')]);
}

function possibleOutcomes(app) {
  const { session, instrument } = app;
  const { current } = session;
  const all = instrument.tasks.find(({ id }) => id === current.task).outcomes;
  const over = current.phase === 'stopped' && beyondCap(session, current.read.seconds) && !typing(current);
  return all.filter((outcome) => {
    if (outcome === 'completed') return !over && current.phase !== 'other';
    if (outcome === 'stopped-at-cap') return session.setup.capInForce && (over || typing(current));
    if (outcome === 'void') return current.phase !== 'other';
    // What was tried was given.
    if (outcome === 'not-given') return current.phase === 'other' && attempts(session, current).every((other) => other.outcome === 'not-given');
    return true;
  });
}

function reasonField(app, end, change) {
  const quick = end.outcome === 'void' ? ['stopwatch', 'interrupted', 'dropped', 'misunderstood'] : [];
  return [
    quick.length > 0 && el('div', { class: 'buttons', role: 'group', 'aria-label': t('end.quickReasons') },
      quick.map((name) => button(t(`reason.${name}`), () => app.change(() => { end.reason = t(`reason.${name}`); }), { key: `reason-${name}` }))),
    textArea({ label: t(outcomesWithReason.includes(end.outcome) ? 'end.reasonNeeded' : 'end.reason'), value: end.reason, key: 'reason', change }),
  ];
}

export const departuresField = (instrument, values, change, key = 'departure') => several({
  legend: t('end.departures'), values, change, key, options: instrument.departures.map(({ id, title }) => ({ value: id, label: definition(title) })),
});

function doubtView(app) {
  const { current } = app.session;
  const decide = (doubt) => () => app.change(() => { current.end.doubt = doubt; if (doubt === 'typed') current.end.outcome = 'completed'; });
  return [
    el('section', { class: 'notice warn doubt' },
      el('h2', {}, t('doubt.title')),
      el('ul', {}, current.read.doubts.map((doubt) => el('li', {}, t(`doubt.${doubt}`, doubtValues(current))))),
      el('p', {}, t('doubt.text'))),
    el('div', { class: 'buttons' },
      button(t('doubt.keep', { seconds: current.read.seconds }), decide('kept'), { kind: 'plain tall', key: 'doubt-keep' }),
      button(t('doubt.type'), decide('typed'), { kind: 'plain tall', key: 'doubt-type' }),
      button(t('doubt.repeat'), () => {
        Object.assign(current.end, { outcome: 'void', reason: `${t('reason.doubtful')} ${remark(current)}`, doubt: 'repeated' });
        keep(app, true);
      }, { kind: 'plain tall', key: 'doubt-repeat' }),
      button(t('end.undoStop'), () => { app.change((session) => undo(session)); app.draw(true); }, { key: 'undo' })),
  ];
}

const doubtValues = (current) => ({
  hidden: ((current.hiddenMilliseconds ?? 0) / 1000).toFixed(1),
  difference: (Math.abs(current.read.wallMilliseconds - current.read.milliseconds) / 1000).toFixed(1),
});

const remark = (current) => current.read.doubts.map((doubt) => t(`remark.${doubt}`, doubtValues(current))).join(' ');

/** Checks what was given, keeps the attempt and opens the next trial. */
function keep(app, repeat) {
  const { session, instrument } = app;
  const { current } = session;
  const { end } = current;
  const problem = check(app);
  if (problem) {
    document.getElementById('end-problem').textContent = problem;
    document.querySelector('[data-key=typed], [data-key=reason]')?.focus();
    return;
  }
  const timed = outcomesWithTime.includes(end.outcome);
  const trial = {
    task: current.task, hand: current.hand, outcome: end.outcome, repeat,
    startedAt: current.phase === 'stopped' ? current.start.wall : null,
    seconds: timed ? secondsOf(app) : null,
    source: timed ? (typing(current) ? 'manual' : 'timer') : null,
    reason: timed ? '' : end.reason, departures: current.departures, note: current.note,
    remark: remarkOf(session), timing: current.read ?? null,
  };
  app.change(() => {
    remember(session);
    record(session, instrument, trial, Date.now());
  }, { redraw: false }).then((written) => written && announce(spoken(session, trial)));
  if (session.step === 'review') app.goStep('review');
  else app.draw(true);
}

function check({ session, instrument }) {
  const { current } = session;
  const { end } = current;
  if (!end.outcome) return t('missing.outcome');
  if (outcomesWithReason.includes(end.outcome) && end.reason.trim() === '') return t('missing.reason');
  if (!typing(current) || end.outcome !== 'completed') return null;
  const parsed = parseSeconds(end.typed, instrument);
  if (parsed.problem) return t(parsed.problem, { max: instrument.maxSeconds, decimals: instrument.maxDecimals });
  return beyondCap(session, parsed.text) ? t('seconds.overCap', { cap: session.setup.capSeconds }) : null;
}

function secondsOf({ session, instrument }) {
  const { current } = session;
  if (current.end.outcome === 'stopped-at-cap') return session.setup.capSeconds;
  return typing(current) ? parseSeconds(current.end.typed, instrument).text : current.read.seconds;
}

function remarkOf(session) {
  const { current } = session;
  const leftOut = attempts(session, current).find(({ outcome }) => outcome === 'not-given');
  if (leftOut && current.end.outcome !== 'not-given') return t('remark.firstNotGiven', { reason: leftOut.reason });
  if (current.end.doubt === 'kept') return `${t('remark.kept')} ${remark(current)}`;
  if (current.end.doubt === 'typed') return `${t('remark.typed', { seconds: current.read.seconds })} ${remark(current)}`;
  return '';
}

function spoken(session, trial) {
  const next = session.current;
  const what = trial.seconds ? t('run.savedTime', { seconds: trial.seconds }) : t(`outcome.${trial.outcome}`);
  return t(next ? 'run.savedNext' : 'run.savedLast', { what, hand: t(`hand.${trial.hand}`), next: next && t(`task.${next.task}`), nextHand: next && t(`hand.${next.hand}`) });
}
