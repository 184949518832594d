import { el } from '../dom.js';
import { dateText, t } from '../text.js';
import { button, choice, selectField, textField } from '../forms.js';
import { openNext } from '../session.js';
import { parseSeconds } from '../seconds.js';
import { stepFoot, stepHead } from './steps.js';

export function setupScreen(app) {
  const { session } = app;
  return [
    stepHead('setup'),
    el('p', { class: 'notice' }, t('setup.norm', { date: dateText(session.patient.birthDate) })),
    setupFields(app),
    stepFoot(app, 'setup', {
      label: t('setup.begin'),
      problems: () => problems(app),
      next: () => {
        session.startedAt ??= Date.now();
        if (!session.current) openNext(session, app.instrument);
        app.goStep(session.current ? 'trials' : 'review');
      },
    }),
  ];
}

export function setupFields(app, { cap = true } = {}) {
  const { session, instrument } = app;
  const given = session.setup;
  const set = (name, redraw = true) => (value) => app.change(() => { given[name] = value; }, { redraw });
  const recorded = session.recordSex && !session.sexForNorm ? t('setup.sexRecorded', { sex: t(`sex.${session.recordSex}`) }) : null;
  return [
    choice({ legend: t('setup.sex'), hint: recorded ?? t('setup.sexHint'), value: session.sexForNorm, key: 'sex', change: (value) => app.change(() => { session.sexForNorm = value; }), options: ['female', 'male', 'unknown'].map((value) => ({ value, label: t(`sex.${value}`) })) }),
    choice({ legend: t('setup.glasses'), value: given.glasses, key: 'glasses', change: set('glasses'), options: ['not-needed', 'worn', 'needed-not-worn'].map((value) => ({ value, label: t(`glasses.${value}`) })) }),
    choice({ legend: t('setup.template'), hint: t('setup.templateHint'), value: given.templateBoard, key: 'template', change: set('templateBoard'), options: [false, true].map((value) => ({ value, label: t(value ? 'yes' : 'no') })) }),
    cap && choice({ legend: t('setup.cap'), hint: t('setup.capHint'), value: given.capInForce, key: 'cap-in-force', change: set('capInForce'), options: [true, false].map((value) => ({ value, label: t(value ? 'setup.capYes' : 'setup.capNo') })) }),
    cap && given.capInForce && textField({ label: t('setup.capSeconds'), value: given.capSeconds, key: 'cap-seconds', inputmode: 'decimal', change: set('capSeconds', false) }),
    el('details', { open: session.setupOpen, ontoggle: (event) => { session.setupOpen = event.target.open; } },
      el('summary', { 'data-key': 'measures' }, t('setup.measures')),
      el('p', { class: 'hint' }, t('setup.measuresHint')),
      choice({ legend: t('device.unit'), value: given.unit, key: 'unit', change: set('unit'), options: ['in', 'cm'].map((value) => ({ value, label: t(`unit.${value}`) })) }),
      el('div', { class: 'pairs' }, instrument.room.map(({ id, inches }) => textField({
        label: t(`measure.${id}`), hint: t('setup.standard', { value: t('length.both', { in: inches, cm: (Number(inches) * 2.54).toFixed(1) }) }),
        value: given[camel(id)], key: id, inputmode: 'decimal', change: set(camel(id), false),
      }))),
      replaced(app),
      textField({ label: t('device.kitName'), value: given.kitName, key: 'kit-name', change: set('kitName', false) }),
      textField({ label: t('device.kitSerial'), value: given.kitSerial, key: 'kit-serial', change: set('kitSerial', false) })),
  ];
}

const camel = (id) => id.replace(/-(\w)/g, (whole, letter) => letter.toUpperCase());

function replaced(app) {
  const { itemsReplaced } = app.session.setup;
  const materials = new Map(app.instrument.tasks.flatMap((task) => task.materials.map(({ id }) => [id, t(`material.${id}`)])));
  return el('section', { class: 'replaced' },
    el('h2', {}, t('setup.replaced')),
    itemsReplaced.map((entry, index) => el('div', { class: 'pairs' },
      selectField({ label: t('setup.item'), value: entry.item, key: `item-${index}`, options: [...materials].map(([value, label]) => ({ value, label })), change: (value) => app.change(() => { entry.item = value; }, { redraw: false }) }),
      textField({ label: t('setup.replacedBy'), value: entry.replacedBy, key: `by-${index}`, change: (value) => app.change(() => { entry.replacedBy = value; }, { redraw: false }) }),
      button(t('remove'), () => app.change(() => { itemsReplaced.splice(index, 1); }), { key: `remove-${index}` }))),
    button(t('setup.addReplaced'), () => app.change(() => { itemsReplaced.push({ item: '', replacedBy: '' }); }), { key: 'add-replaced' }));
}

export function problems({ session, instrument }) {
  const { setup } = session;
  const found = [];
  if (!session.sexForNorm) found.push(t('missing.sex'));
  if (!setup.glasses || setup.templateBoard === null || setup.capInForce === null) found.push(t('missing.setup'));
  if (setup.capInForce) {
    const cap = parseSeconds(setup.capSeconds, instrument);
    if (cap.problem) found.push(t('setup.capWrong'));
    else setup.capSeconds = cap.text;
  }
  for (const name of ['tableHeight', 'chairHeight', 'edgeToItems', 'betweenItems']) {
    const length = setup[name].trim().replace(',', '.');
    if (length !== '' && (!/^\d{1,3}(\.\d{1,2})?$/.test(length) || Number(length) <= 0)) found.push(t('setup.lengthWrong', { value: setup[name] }));
    else setup[name] = length;
  }
  if (setup.itemsReplaced.some(({ item, replacedBy }) => !item || !replacedBy.trim())) found.push(t('setup.replacedWrong'));
  return found;
}
