// Starts the page, asks the service every few seconds, and draws anew only what has changed.
import { announce, el } from '../../table/js/dom.js';
import { loadText, momentText, t } from '../../table/js/text.js';
import { button } from '../../table/js/forms.js';
import * as api from './api.js';
import { accessScreen } from './access.js';
import { entryScreen } from './entry.js';
import { listScreen } from './list.js';
import { questionOf, route } from './route.js';

const betweenQuestions = 5000;

const app = {
  about: null,
  listAddress: '#/',
  shown: '',
  waiting: null,
  state: { refused: false, unreachable: false, at: null },

  go(hash) {
    if (location.hash === hash) app.refresh(true);
    else location.hash = hash;
  },

  /** Asks the service and draws; `fresh` for another screen. */
  async refresh(fresh = false) {
    const asked = route();
    const turn = (app.turn = Symbol('turn'));
    let answer = null;
    try {
      app.about ??= (await api.getAbout()).body;
      answer = asked.name === 'entry' ? await api.getEntry(asked.site, asked.session, asked.revision) : await api.getEntries(questionOf(asked.filter));
    } catch (error) {
      if (!(error instanceof api.Unreachable)) throw error;
    }
    // Somebody went elsewhere while the service was thinking.
    if (turn !== app.turn) return;
    app.state = {
      refused: answer?.status === 401 || answer?.status === 403, unreachable: answer === null || answer.status >= 500,
      at: answer?.ok ? Date.now() : app.state.at,
    };
    if (asked.name === 'list') app.listAddress = location.hash || '#/';
    draw(asked, answer, fresh);
  },
};

function screenFor(asked, answer) {
  if (app.state.refused) return accessScreen(app);
  if (app.state.unreachable) return [el('h1', {}, t('home.title')), el('p', { class: 'notice danger' }, t('home.unreachable'))];
  if (asked.name === 'entry') {
    return answer.ok ? entryScreen(app, answer.body) : [
      el('a', { class: 'back', href: app.listAddress, 'data-key': 'back' }, t('entry.back')), el('h1', {}, asked.session), el('p', {}, t('entry.none'))];
  }
  return answer.ok ? listScreen(app, answer.body, asked.filter) : [el('h1', {}, t('home.title')), el('p', { class: 'notice danger' }, api.sentences(answer.body))];
}

function draw(asked, answer, fresh) {
  drawTop();
  // What is on the screen stays there while the service cannot be reached.
  if (app.state.unreachable && !fresh && app.shown) return;
  const main = document.getElementById('screen');
  const { at, ...body } = answer?.body ?? {};
  const now = JSON.stringify([location.hash, app.state.refused, app.state.unreachable, answer?.status, body, Math.floor(Date.now() / 60000)]);
  // Half-typed words are not to be lost.
  const busy = document.querySelector('dialog[open]') || (main.contains(document.activeElement) && document.activeElement.matches('input, select, textarea'));
  if (!fresh && (now === app.shown || busy)) return;
  app.shown = now;
  const kept = fresh ? null : document.activeElement?.dataset?.key;
  const open = fresh ? null : main.querySelector('details')?.open;
  const scroll = fresh ? 0 : scrollY;
  main.replaceChildren(...[screenFor(asked, answer)].flat(Infinity).filter(Boolean));
  if (open) main.querySelector('details')?.setAttribute('open', '');
  scrollTo(0, scroll);
  if (kept) main.querySelector(`[data-key="${CSS.escape(kept)}"]`)?.focus({ preventScroll: true });
  const heading = main.querySelector('h1');
  document.title = `${heading?.textContent ?? ''} · ${t('app.title')}`;
  if (fresh && heading) {
    heading.setAttribute('tabindex', '-1');
    heading.focus({ preventScroll: true });
  }
  tellWaiting(answer?.body?.counts);
}

function tellWaiting(counts) {
  if (!counts) return;
  const waiting = counts.held + counts.failed;
  if (app.waiting !== null && app.waiting !== waiting) announce(t('said.changed', { count: waiting }));
  app.waiting = waiting;
}

function drawTop() {
  const top = document.getElementById('top');
  const focused = top.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  const { refused, unreachable, at } = app.state;
  top.replaceChildren(...[
    el('a', { href: '#/', class: 'home-link', 'data-key': 'top-home' }, el('span', { class: 'mark', 'aria-hidden': 'true' }), t('app.title')),
    el('span', { class: 'chips' },
      unreachable && el('span', { class: 'chip offline' }, t('top.unreachable')),
      refused && el('span', { class: 'chip offline' }, t('top.notLetIn')),
      at && !refused && el('span', { class: 'chip' }, t('top.fresh', { time: momentText(at) })),
      api.getKey() && !refused && button(t('top.signOut'), () => { api.setKey(''); app.refresh(true); }, { key: 'sign-out' })),
    app.about?.demonstration && el('p', { class: 'demonstration' }, t('top.demonstration'))].filter(Boolean));
  if (focused) top.querySelector(`[data-key="${focused}"]`)?.focus();
}

async function start() {
  await loadText();
  addEventListener('hashchange', () => app.refresh(true));
  addEventListener('visibilitychange', () => !document.hidden && app.refresh());
  setInterval(() => !document.hidden && app.refresh(), betweenQuestions);
  await app.refresh(true);
  performance.mark('ledger-ready');
}

start();
