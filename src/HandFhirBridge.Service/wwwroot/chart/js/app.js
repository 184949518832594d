// Starts the page: the chart that the record opened it for, or the one whose number is typed in.
import { announce, el } from '../../table/js/dom.js';
import { loadText, t } from '../../table/js/text.js';
import { button, textField } from '../../table/js/forms.js';
import * as api from './api.js';
import { courseScreen } from './course.js';

const main = document.getElementById('screen');
let demonstration = false;

// Behind the #, which is not sent anywhere: who is looked for is not written into logs on the way.
const asked = () => new URLSearchParams(location.hash.slice(1));

function show(...content) {
  main.replaceChildren(...content.flat(Infinity).filter(Boolean));
  const heading = main.querySelector('h1');
  document.title = `${heading?.textContent ?? ''} · ${t('app.title')}`;
  if (heading) {
    heading.setAttribute('tabindex', '-1');
    heading.focus({ preventScroll: true });
  }
}

function drawTop() {
  document.getElementById('top').replaceChildren(...[
    el('a', { href: '#', class: 'home-link', 'data-key': 'top-home' }, el('span', { class: 'mark', 'aria-hidden': 'true' }), t('app.title')),
    demonstration && el('p', { class: 'demonstration' }, t('top.demonstration')),
  ].filter(Boolean));
}

function accessScreen() {
  let key = '';
  show(
    el('h1', {}, t('access.title')), el('p', {}, t('access.text')),
    api.getKey() && el('p', { class: 'notice danger' }, t('access.refused')),
    el('form', { onsubmit: (event) => { event.preventDefault(); api.setKey(key.trim()); start(); } },
      textField({ label: t('access.key'), key: 'key', type: 'password', value: '', change: (value) => { key = value; } }),
      el('div', { class: 'buttons' }, el('button', { class: 'primary', 'data-key': 'sign-in' }, t('access.go')))));
}

function askScreen(problem) {
  const given = { system: asked().get('system') ?? '', value: asked().get('value') ?? '', site: asked().get('site') ?? '' };
  const field = (name) => textField({ label: t(`ask.${name}`), hint: t(`ask.${name}Hint`), key: name, value: given[name], change: (value) => { given[name] = value; } });
  show(
    el('h1', {}, t('ask.title')), el('p', {}, t('ask.text')),
    problem && el('p', { class: 'notice danger', role: 'alert' }, problem),
    el('form', {
      onsubmit: (event) => {
        event.preventDefault();
        if (!given.system.trim() || !given.value.trim()) return askScreen(t('ask.missing'));
        const hash = new URLSearchParams(Object.entries(given).map(([name, value]) => [name, value.trim()]).filter(([, value]) => value)).toString();
        if (location.hash.slice(1) === hash) start();
        else location.hash = hash;
      },
    }, field('value'), field('system'), field('site'),
    el('div', { class: 'buttons' }, el('button', { class: 'primary', 'data-key': 'show' }, t('ask.go')))));
}

function problemScreen(body, status) {
  show(el('h1', {}, t('problem.title')), el('p', { class: 'notice danger', role: 'alert' }, api.sentences(body) || t('problem.status', { status })),
    el('div', { class: 'buttons' }, button(t('problem.again'), start, { key: 'again' })));
}

async function start() {
  const fromRecord = asked().has('opened');
  if (!fromRecord && !asked().get('value')) return askScreen();
  show(el('h1', {}, t('waiting')));
  let answer;
  try {
    answer = fromRecord ? await api.getOpened() : await api.getCourse({ system: asked().get('system') ?? '', value: asked().get('value'), site: asked().get('site') });
  } catch (error) {
    if (!(error instanceof api.Unreachable)) throw error;
    return problemScreen({ issue: [{ details: { text: t('unreachable') } }] });
  }
  if (answer.ok) {
    show(courseScreen(answer.body));
    announce(t('said.shown', { count: answer.body.course.sessions.length }));
    main.querySelector('.opened')?.scrollIntoView({ block: 'center' });
  } else if (!fromRecord && (answer.status === 401 || answer.status === 403)) accessScreen();
  else if (!fromRecord && answer.status === 404) askScreen(api.sentences(answer.body));
  else problemScreen(answer.body, answer.status);
}

await loadText();
try {
  demonstration = (await api.getAbout()).body?.demonstration ?? false;
} catch (error) {
  if (!(error instanceof api.Unreachable)) throw error;
}
drawTop();
addEventListener('hashchange', start);
// What is folded on the screen is printed all the same.
addEventListener('beforeprint', () => document.querySelectorAll('details').forEach((part) => part.setAttribute('open', '')));
start();
