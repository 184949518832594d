// For the day the tablet is broken: a blank record sheet and set-up cards, on A4 or letter.
import { el } from '../dom.js';
import { definition, t } from '../text.js';
import { button, choice } from '../forms.js';
import { handName, handPicture } from '../marks.js';
import { layoutDrawing } from '../drawings/layouts.js';
import { hands } from '../session.js';
import { changeDevice, getDevice } from '../store.js';
import { siteName } from '../top.js';

function frame(app, title, pages) {
  const { paper } = getDevice();
  return [
    el('div', { class: 'no-print' },
      el('h1', {}, title),
      choice({ legend: t('device.paper'), value: paper, key: 'paper', options: ['a4', 'letter'].map((value) => ({ value, label: t(`paper.${value}`) })), change: async (value) => { await changeDevice({ paper: value }); app.draw(); } }),
      el('div', { class: 'buttons' }, el('a', { class: 'button plain', href: '#/' }, t('back')), button(t('print.print'), () => print(), { kind: 'primary' }))),
    pages.map((page, index) => el('section', { class: `page paper-${paper}`, tabindex: '0', 'aria-label': pages.length > 1 ? `${title} ${index + 1}` : title }, page)),
  ];
}

export function cardsScreen(app) {
  if (!app.instrument) return el('h1', {}, t('home.noInstrument'));
  return frame(app, t('print.cards'), app.instrument.tasks.map((task) => [
    el('h2', {}, `${task.order}. ${t(`task.${task.id}`)}`),
    el('p', { class: 'card-materials' }, task.materials.map(({ id, count, size }) => `${count} × ${t(`material.${id}`)}${size ? ` (${definition(size)})` : ''}`).join(' · ')),
    hands.map((hand) => el('article', { class: `setup-card ${hand}` },
      el('h3', {}, handPicture(hand), t(`hand.${hand}.loud`)),
      layoutDrawing(task.id, hand, 'patient', app.instrument))),
    el('p', {}, task.layout.map(({ text }) => definition(text)).join(' ')),
    el('p', {}, el('b', {}, t('trial.say')), ' ', t(`say.${task.id}`, { hand: t('print.thisHand'), side: t('print.thisSide') })),
    el('p', {}, el('b', {}, t('trial.startsWhen')), ' ', definition(task.start.text), ' ', el('b', {}, t('trial.stopsWhen')), ' ', definition(task.stop.text)),
    el('p', { class: 'hint' }, t('print.order'), ' ', t('print.view'), ' ', t('drawing.scale')),
  ]));
}

export function sheetScreen(app) {
  if (!app.instrument) return el('h1', {}, t('home.noInstrument'));
  const { instrument } = app;
  const line = (key, size = '') => el('p', { class: `line ${size}` }, el('span', {}, t(key)));
  const box = (label) => el('span', { class: 'box' }, label);
  return frame(app, t('print.sheet'), [[
    el('h2', {}, t('print.sheetTitle'), ' ', el('small', {}, siteName(app))),
    el('div', { class: 'lines' }, line('patient.number'), line('patient.familyName'), line('patient.birthDate'), line('print.therapist'), line('performer.number'), line('performer.role'), line('print.when', 'wide')),
    el('p', { class: 'boxes' }, el('b', {}, t('print.dominance')), box(t('hand.left')), box(t('hand.right')), box(t('dominance.ambidextrous')), el('span', { class: 'fill' }, t('print.tested')),
      el('b', {}, t('print.known')), ['stated', 'observed', 'inventory'].map((name) => box(t(`dominance.${name}`)))),
    el('p', { class: 'boxes' }, el('b', {}, t('setup.sex')), ['female', 'male', 'unknown'].map((name) => box(t(`sex.${name}`))), el('b', {}, t('setup.glasses')), ['not-needed', 'worn', 'needed-not-worn'].map((name) => box(t(`glasses.${name}`)))),
    el('p', { class: 'boxes' }, el('b', {}, t('setup.template')), box(t('yes')), box(t('no')), el('b', {}, t('setup.cap')), el('span', { class: 'fill' }, t('print.capSeconds')), box(t('setup.capNo'))),
    el('table', { class: 'sheet-table' },
      el('thead', {}, el('tr', {}, el('th', {}, t('print.precaution')), ['yes', 'no', 'not-known'].map((name) => el('th', {}, t(`precautions.${name}`))), el('th', {}, t('print.leftOut')))),
      el('tbody', {}, instrument.precautions.map(({ question }) => el('tr', {}, el('td', {}, definition(question)), [0, 1, 2].map(() => el('td', {}, box(''))), el('td', { class: 'wide' }))))),
    el('p', { class: 'small' }, t('print.defer')),
    el('table', { class: 'sheet-table times' },
      el('thead', {},
        el('tr', {}, el('th', { rowspan: 2 }, t('review.task')), hands.map((hand) => el('th', { colspan: 3 }, handName(hand)))),
        el('tr', {}, hands.map(() => [el('th', {}, t('seconds')), el('th', {}, t('print.code')), el('th', {}, t('print.departures'))]))),
      el('tbody', {}, instrument.tasks.map(({ id, order }) => el('tr', {}, el('th', { scope: 'row' }, `${order}. ${t(`task.${id}`)}`), hands.map(() => [el('td'), el('td'), el('td')]))))),
    el('p', { class: 'small' }, el('b', {}, t('print.codes')), ' ', ['completed', 'stopped-at-cap', 'unable', 'declined', 'not-given', 'void'].map((name) => t(`print.code.${name}`)).join(' · ')),
    el('p', { class: 'small' }, el('b', {}, t('print.departures')), ' ', instrument.departures.map(({ title }, index) => `${String.fromCharCode(97 + index)} ${definition(title)}`).join(' · ')),
    el('p', { class: 'small' }, t('print.order'), ' ', t('print.setup', { room: instrument.room.map(({ id, inches }) => `${t(`measure.${id}`)} ${t('length.both', { in: inches, cm: (Number(inches) * 2.54).toFixed(1) })}`).join(' · ') })),
    el('div', { class: 'lines' }, line('print.remarks', 'wide'), line('print.signature', 'wide')),
  ]]);
}
