import { el } from '../dom.js';
import { dateText, momentText, t } from '../text.js';
import { ask, button, foot, textArea, textField } from '../forms.js';
import { missing } from '../document.js';
import { localInputText } from '../clock.js';
import { allGiven, askAgain, scores } from '../scores.js';
import { dominantHand, isDone, nextPair, plan } from '../session.js';
import { isHandedOver } from '../store.js';
import { putInLine } from '../outbox.js';
import { comparison } from './comparison.js';
import { conclusionForm } from './conclusion.js';
import { sources, totals } from './results.js';

export function reviewScreen(app) {
  const { session, instrument } = app;
  if (!dominantHand(session)) return [el('h1', {}, t('review.title')), gapList(app, missing(session, instrument))];
  const closed = isHandedOver(session) || session.delivery?.state === 'waiting';
  const gaps = missing(session, instrument);
  const whole = allGiven(session, instrument);
  const scored = scores(app);
  return [
    el('h1', {}, t(whole ? 'review.title' : 'review.titleOpen')),
    who(session),
    scored.report?.demonstration && el('p', { class: 'demonstration large' }, t('review.demonstration')),
    !whole && openTrials(app),
    state(app, scored),
    comparison(app, scored.report, closed),
    totals(app, scored.report),
    sources(scored.report),
    !closed && whole && conclusionForm(app, scored.draft),
    !closed && gapList(app, gaps),
    findings(scored.problems),
    !closed && details(app),
    closed
      ? foot(el('a', { class: 'button primary', href: `#/session/${session.id}/sent` }, t('review.toDelivery')))
      : whole && foot(button(t('review.send', { name: session.patient.familyName || session.patient.value }), () => send(app, scored), { kind: 'primary tall', key: 'send', disabled: gaps.length > 0 })),
  ];
}

const who = ({ patient, performer, startedAt, setup }) => el('p', { class: 'review-who' },
  el('strong', {}, patient.familyName), ` · ${patient.value}${patient.birthDate ? ` · ${t('review.born', { date: dateText(patient.birthDate) })}` : ''}`,
  el('br'), t('review.given', { when: startedAt ? momentText(startedAt) : t('note.nothing'), by: performer.name }), ' ', setup.capInForce ? t('run.cap', { cap: setup.capSeconds }) : t('review.noCap'));

function openTrials(app) {
  const { session, instrument } = app;
  const left = plan(session, instrument).filter((pair) => !isDone(session, pair)).length;
  const next = session.current ?? nextPair(session, instrument);
  return el('p', { class: 'notice' }, t('review.open', { count: left }), ' ',
    button(t('review.resume', { task: t(`task.${next.task}`), hand: t(`hand.${next.hand}`) }), () => app.goStep('trials'), { kind: 'primary', key: 'resume' }));
}

function state(app, scored) {
  if (scored.state === 'unreachable') return el('p', { class: 'notice warn' }, t('review.noScores'), ' ', button(t('review.askAgain'), () => askAgain(app)));
  if (scored.state === 'asking') return el('p', { class: 'notice', role: 'status' }, t('review.asking'));
  return null;
}

const gapList = (app, gaps) => (gaps.length === 0 ? null : el('section', { class: 'notice danger' },
  el('h2', {}, t('review.missing')),
  el('ul', {}, gaps.map(({ step, key }) => el('li', {}, step === 'review' ? t(key) : el('a', { href: `#/session/${app.session.id}/${step}` }, t(key)))))));

const findings = (problems) => {
  const shown = problems.filter(({ severity }) => severity !== 'information');
  return shown.length === 0 ? null : el('section', { class: 'notice warn' },
    el('h2', {}, t('review.findings')),
    el('ul', {}, shown.map(({ severity, message, remedy }) => el('li', {}, el('b', {}, t(`severity.${severity}`)), ' ', message, ' ', remedy))));
};

function details(app) {
  const { session } = app;
  const set = (name) => (value) => { if (value) app.change(() => { session[name] = new Date(value).getTime(); }, { redraw: false }); };
  const moved = session.trials.some(({ timing }) => timing?.doubts.includes('clocks-disagree'));
  return [
    textArea({ label: t('review.comment'), value: session.comment, key: 'comment', change: (value) => app.change(() => { session.comment = value; }, { redraw: false }) }),
    moved && el('p', { class: 'notice warn' }, t('review.clockMoved')),
    el('details', {}, el('summary', {}, t('review.times')),
      el('div', { class: 'pairs' },
        session.startedAt && textField({ label: t('review.startedAt'), type: 'datetime-local', value: localInputText(session.startedAt), key: 'started', change: set('startedAt') }),
        session.endedAt && textField({ label: t('review.endedAt'), type: 'datetime-local', value: localInputText(session.endedAt), key: 'ended', change: set('endedAt') }))),
    el('nav', { class: 'links', 'aria-label': t('review.change') }, ['patient', 'performer', 'dominance', 'precautions', 'setup'].map((step) =>
      el('a', { href: `#/session/${session.id}/${step}` }, t(`step.${step}`)))),
  ];
}

async function send(app, scored) {
  const { session, instrument } = app;
  const wrong = scored.problems.filter(({ severity }) => severity === 'error');
  const sure = await ask({
    title: t('review.sendTitle', { name: session.patient.familyName, number: session.patient.value }),
    text: t(wrong.length > 0 ? 'review.sendWrong' : 'review.sendText', { date: dateText(session.patient.birthDate) }), yes: t('review.sendYes'),
  });
  if (!sure) return;
  await putInLine(session, instrument);
  app.go(`#/session/${session.id}/sent`);
}
