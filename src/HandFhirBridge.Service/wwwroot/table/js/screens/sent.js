import { el } from '../dom.js';
import { ageText, momentText, t } from '../text.js';
import { button, foot } from '../forms.js';
import { discard, save } from '../store.js';
import { sendNow } from '../outbox.js';

const path = ['waiting', 'accepted', 'delivered'];

/** Where the session is on its way into the record, live. */
export function sentScreen(app) {
  const { session } = app;
  const { delivery, patient } = session;
  if (!delivery) return [el('h1', {}, t('sent.title')), el('a', { class: 'button primary', href: `#/session/${session.id}/review` }, t('sent.toReview'))];
  const { state } = delivery;
  const reached = state === 'delivered' ? 2 : ['accepted', 'sending', 'held', 'failed'].includes(state) ? 1 : 0;
  return [
    el('h1', {}, t(`delivery.${state}`)),
    el('p', { class: 'review-who' }, el('strong', {}, patient.familyName), ` · ${patient.value}`),
    el('ol', { class: 'way' }, path.map((name, index) => el('li', {
      class: index < reached || state === 'delivered' ? 'done' : index === reached ? 'now' : null, 'aria-current': index === reached ? 'step' : null,
    }, t(`sent.${name}`)))),
    el('p', { class: `notice ${tone[state] ?? ''}` }, t(`delivery.${state}.text`, { since: ageText(Date.now() - delivery.since) })),
    delivery.reason && el('p', { class: 'reason' }, el('strong', {}, t('sent.reason')), ' ', delivery.reason),
    delivery.problems?.length > 0 && el('ul', { class: 'problems' }, delivery.problems.map(({ message, location }) => el('li', {}, message, ' ', el('code', {}, location)))),
    delivery.lastTry && el('p', { class: 'hint' }, t('sent.lastTry', { when: momentText(delivery.lastTry), count: delivery.attempts })),
    foot(actions(app, state)),
  ];
}

const tone = { delivered: 'good', held: 'warn', failed: 'danger', refused: 'danger', waiting: 'warn' };

function actions(app, state) {
  const { session } = app;
  const back = async () => {
    session.delivery = null;
    session.outgoing = null;
    await save(session);
    app.goStep('review');
  };
  if (state === 'waiting') return [button(t('sent.takeBack'), back), button(t('home.sendNow'), sendNow, { kind: 'primary' })];
  if (state === 'refused') return button(t('sent.correct'), back, { kind: 'primary' });
  const results = el('a', { class: 'button plain', href: `#/session/${session.id}/review` }, t('sent.results'));
  if (state !== 'delivered') return [results, el('a', { class: 'button primary', href: '#/' }, t('sent.home'))];
  return [results, button(t('sent.remove'), async () => { await discard(session.id); app.go('#/'); }, { kind: 'primary', key: 'remove' })];
}
