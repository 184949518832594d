import { el } from '../dom.js';
import { ageText, momentText, t } from '../text.js';
import { ask, button } from '../forms.js';
import { allSessions, discard, getDevice, isHandedOver, save } from '../store.js';
import { newSession, plan, isDone, dominantHand } from '../session.js';
import { release, take } from '../locks.js';
import { mayUpdate } from '../installing.js';
import { sendNow } from '../outbox.js';
import { isRefused } from '../api.js';

export function homeScreen(app) {
  const sessions = allSessions();
  const open = sessions.filter((session) => !session.delivery);
  const handed = sessions.filter((session) => session.delivery);
  return [
    el('h1', {}, t('home.title')),
    mayUpdate(app) && el('p', { class: 'notice' }, t('home.newVersion'), ' ', button(t('home.update'), app.update)),
    Math.abs(app.clockOffBy) > 60000 && el('p', { class: 'notice warn' }, t('home.clockOff', { age: ageText(Math.abs(app.clockOffBy)) })),
    isRefused()
      ? el('p', { class: 'notice danger' }, t('home.notLetIn'), ' ', el('a', { class: 'button plain', href: '#/device' }, t('home.enterKey')))
      : !app.instrument && el('p', { class: 'notice danger' }, t('home.noInstrument')),
    app.instrument && el('div', { class: 'big-choices' },
      button([el('strong', {}, t('home.new')), el('span', {}, t('home.newHint'))], () => begin(app, false), { kind: 'primary big', key: 'new' }),
      button([el('strong', {}, t('home.paper')), el('span', {}, t('home.paperHint'))], () => begin(app, true), { kind: 'plain big', key: 'paper' })),
    open.length > 0 && el('section', {}, el('h2', {}, t('home.inProgress')), el('ul', { class: 'cards' }, open.map((session) => card(app, session)))),
    handed.length > 0 && el('section', {}, el('h2', {}, t('home.handedOver')), el('ul', { class: 'cards' }, handed.map((session) => card(app, session)))),
    el('nav', { class: 'links', 'aria-label': t('home.more') },
      el('a', { href: '#/sheet' }, t('home.sheet')), el('a', { href: '#/cards' }, t('home.cards')),
      el('a', { href: '#/device' }, t('home.device')), el('a', { href: '#/clear' }, t('home.clear'))),
  ];
}

export const takenScreen = () => [
  el('h1', {}, t('taken.title')), el('p', { class: 'notice warn' }, t('taken.text')), el('p', {}, el('a', { class: 'button plain', href: '#/' }, t('taken.back'))),
];

function card(app, session) {
  const where = session.delivery
    ? t(`delivery.${session.delivery.state}.short`)
    : session.step === 'trials' && dominantHand(session) ? t('home.trialsDone', progress(app, session)) : t(`step.${session.step}`);
  return el('li', { class: 'card' },
    el('p', { class: 'who' }, el('strong', {}, session.patient.familyName || t('home.noName')), ' ', session.patient.value),
    el('p', {}, el('span', { class: `state ${session.delivery?.state ?? 'open'}` }, where), ' ', t('home.begun', { when: momentText(session.createdAt) })),
    el('div', { class: 'buttons' },
      el('a', { class: 'button primary', href: `#/session/${session.id}`, 'aria-label': `${t(session.delivery ? 'home.show' : 'home.resume')}: ${session.patient.familyName || session.id}` }, t(session.delivery ? 'home.show' : 'home.resume')),
      session.delivery?.state === 'waiting' && button(t('home.sendNow'), sendNow),
      !isHandedOver(session) && button(t('home.discard'), () => discardAsked(app, session), { 'aria-label': `${t('home.discard')}: ${session.patient.familyName || session.id}` })));
}

function progress(app, session) {
  const pairs = app.instrument ? plan(session, app.instrument) : [];
  return { done: pairs.filter((pair) => isDone(session, pair)).length, all: pairs.length };
}

async function discardAsked(app, session) {
  const sure = await ask({
    title: t('discard.title'), text: t('discard.text', { name: session.patient.familyName || session.id, count: session.trials.length }), yes: t('discard.yes'), danger: true,
  });
  if (!sure) return;
  if (await take(session.id)) {
    await discard(session.id);
    release(session.id);
    app.draw();
  } else app.go(`#/session/${session.id}`);
}

async function begin(app, paper) {
  const device = getDevice();
  if (!device.site || !device.patientSystem || !device.staffSystem) {
    app.go('#/device');
    return;
  }
  const random = [...crypto.getRandomValues(new Uint8Array(5))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  const session = newSession({ device, now: Date.now(), random, paper });
  if (paper) session.step = 'paper';
  await save(session);
  app.go(`#/session/${session.id}/${session.step}`);
}
