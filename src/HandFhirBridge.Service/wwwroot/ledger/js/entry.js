// One session: where it stands, what to do, every attempt, every decision.
import { el } from '../../table/js/dom.js';
import { t } from '../../table/js/text.js';
import { button } from '../../table/js/forms.js';
import { ago, due, moment, stateTag } from './words.js';
import { entryHash } from './route.js';
import { decideAsked } from './actions.js';

export function entryScreen(app, history) {
  const { entry } = history;
  const isLatest = history.revisions.at(-1).revision === entry.revision;
  return [
    el('a', { class: 'back', href: app.listAddress, 'data-key': 'back' }, t('entry.back')),
    el('h1', {}, el('span', { class: 'session' }, `${entry.site}/${entry.sessionId}`)),
    el('p', {}, stateTag(entry.state), ' ', entry.code && [el('span', { class: 'code' }, entry.code), ' '], entry.reason),
    entry.withdrawal && el('p', { class: 'notice' }, t('entry.isWithdrawal')),
    history.remedy && el('div', { class: 'notice warn' }, el('h2', {}, t('entry.whatToDo')), el('p', {}, history.remedy)),
    history.actions.length > 0 && el('section', {},
      el('h2', {}, t('entry.actions')),
      el('div', { class: 'buttons' }, history.actions.map((action) => button(
        t(`act.${action}`), () => decideAsked(app, entry, action), { key: `act-${action}`, kind: action === 'withdraw' ? 'danger' : 'plain' })))),
    !isLatest && el('p', { class: 'notice' }, t('entry.older')),
    facts(history),
    el('section', {},
      el('h2', {}, t('entry.attempts')),
      history.attempts.length === 0
        ? el('p', {}, t('entry.noAttempts'))
        : el('ol', { class: 'history attempts' }, history.attempts.toReversed().map(attemptItem))),
    el('section', {},
      el('h2', {}, t('entry.decisions')),
      history.decisions.length === 0
        ? el('p', {}, t('entry.noDecisions'))
        : el('ol', { class: 'history decisions' }, history.decisions.toReversed().map(decisionItem))),
    history.revisions.length > 1 && el('section', {},
      el('h2', {}, t('entry.revisions')),
      el('ul', { class: 'plain-list' }, history.revisions.map((one) => el('li', {},
        el('a', { href: entryHash(one, one.revision), 'data-key': `revision-${one.revision}` }, t('list.revision', { revision: one.revision })), ' ', stateTag(one.state))))),
  ];
}

function facts({ entry, chartId }) {
  const pairs = [
    ['entry.target', entry.target], ['entry.revision', String(entry.revision)], ['entry.accepted', ago(entry.acceptedAt)],
    ['entry.next', entry.state === 'accepted' && entry.nextAttemptAt && due(entry.nextAttemptAt)],
    ['entry.delivered', entry.deliveredAt && moment(entry.deliveredAt)],
    ['entry.chart', chartId && `Patient/${chartId}`],
  ].filter(([, value]) => value);
  return el('dl', { class: 'facts-list' }, pairs.map(([key, value]) => [el('dt', {}, t(key)), el('dd', {}, value)]));
}

const attemptItem = (attempt) => el('li', {},
  el('p', {}, el('strong', {}, t('entry.attempt', { number: attempt.number })), ', ', moment(attempt.startedAt), ': ', t(`status.${attempt.status}`),
    attempt.problemCode && [' ', el('span', { class: 'code' }, attempt.problemCode)]),
  el('p', { class: 'small' }, [
    attempt.rung && t('entry.rung', { rung: attempt.rung }), attempt.httpStatus && t('entry.http', { status: attempt.httpStatus }),
    t('entry.took', { seconds: seconds(attempt.duration) })].filter(Boolean).join(', ')),
  attempt.answer && el('p', { class: 'said' }, attempt.answer));

// The service writes a duration as [days.]hours:minutes:seconds[.fraction].
function seconds(duration) {
  const [, days = '0', hours, minutes, rest] = /^(?:(\d+)\.)?(\d+):(\d+):([\d.]+)$/.exec(duration);
  return (((Number(days) * 24 + Number(hours)) * 60 + Number(minutes)) * 60 + Number(rest)).toFixed(1);
}

const decisionItem = (decision) => el('li', {},
  el('p', {}, el('strong', {}, t(`decision.${decision.action}`)), ', ', moment(decision.at), ', ', decision.by, ', ',
    decision.caller ? t('entry.signedIn', { caller: decision.caller }) : t('entry.commandLine')),
  decision.patientId && el('p', {}, `Patient/${decision.patientId}`),
  el('p', { class: 'said' }, decision.reason));
