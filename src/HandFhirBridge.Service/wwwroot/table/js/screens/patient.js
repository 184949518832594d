import { announce, el } from '../dom.js';
import { dateText, t } from '../text.js';
import { button, textField } from '../forms.js';
import { findPatient } from '../api.js';
import { save } from '../store.js';
import { stepFoot, stepHead } from './steps.js';

export function patientScreen(app) {
  const { patient } = app.session;
  return [
    stepHead('patient'),
    el('form', { class: 'lookup', onsubmit: (event) => { event.preventDefault(); lookUp(app); } },
      textField({
        label: t('patient.number'), hint: t('patient.numberHint'), value: patient.value, key: 'number', inputmode: 'text', autocapitalize: 'off',
        change: (value) => app.change((session) => setNumber(session, value), { redraw: patient.record !== 'not-asked' || patient.confirmed }),
      }),
      el('button', { class: 'primary', 'data-key': 'look-up' }, t('patient.lookUp'))),
    el('div', { class: 'found' }, answer(app)),
    stepFoot(app, 'patient', { problems: () => problems(app.session.patient), quiet: !patient.confirmed }),
  ];
}

/** What the record said, and the question to the patient. */
export function answer(app) {
  const { patient } = app.session;
  if (patient.record === 'not-asked') return null;
  if (patient.record === 'asking') return el('p', { class: 'notice' }, t('patient.asking'));
  if (patient.record === 'found') {
    return el('section', { class: 'identity', 'aria-labelledby': 'identity-title' },
      el('h2', { id: 'identity-title' }, t('patient.confirmTitle')),
      el('p', {}, t('patient.confirmText')),
      el('dl', {}, el('dt', {}, t('patient.familyName')), el('dd', {}, patient.familyName), el('dt', {}, t('patient.birthDate')), el('dd', {}, dateText(patient.birthDate))),
      patient.confirmed ? el('p', { class: 'notice good' }, t('patient.confirmed')) : el('div', { class: 'buttons' },
        button(t('patient.bothAgree'), () => app.change((session) => { session.patient.confirmed = true; }), { kind: 'primary', key: 'agree' }),
        button(t('patient.someoneElse'), () => app.change((session) => setNumber(session, '')), { key: 'other' })));
  }
  return el('section', { class: 'identity' },
    el('p', { class: `notice ${patient.record === 'unknown' ? 'danger' : 'warn'}` }, t(`patient.${patient.record}`)),
    typedIdentity(app),
    patient.confirmed
      ? el('p', { class: 'notice good' }, t('patient.confirmed'))
      : button(t('patient.askedAndAgrees'), () => app.change((session) => { session.patient.confirmed = isWhole(session.patient); }), { kind: 'primary', key: 'agree' }));
}

/** Family name and birth date as the patient says them. */
export function typedIdentity(app) {
  const { patient } = app.session;
  const set = (name) => (value) => app.change((session) => { session.patient[name] = value; session.patient.confirmed = session.paper && isWhole(session.patient); }, { redraw: patient.confirmed && !app.session.paper });
  return [
    textField({ label: t('patient.familyName'), value: patient.familyName, key: 'family-name', change: set('familyName') }),
    textField({ label: t('patient.birthDate'), value: patient.birthDate, key: 'birth-date', type: 'date', max: new Date().toISOString().slice(0, 10), change: set('birthDate') }),
  ];
}

const isWhole = (patient) => patient.familyName.trim() !== '' && patient.birthDate !== '';

// A scanner types like a keyboard and may give the numbering system before the number, divided by a bar.
function setNumber(session, typed) {
  const [system, value] = typed.includes('|') ? typed.split('|') : [session.patient.system, typed];
  session.patient = { system: system.trim(), value, familyName: '', birthDate: '', confirmed: false, record: 'not-asked' };
  session.sexForNorm = '';
}

export async function lookUp(app) {
  const { session } = app;
  if (session.patient.value.trim() === '') return;
  const asked = session.patient;
  asked.record = 'asking';
  app.draw();
  const found = await findPatient({ system: asked.system, value: asked.value.trim() });
  if (session.patient !== asked || app.session !== session) return;
  if (found === null) asked.record = 'unreachable';
  else if (!found.found) asked.record = 'unknown';
  else {
    Object.assign(asked, { record: 'found', familyName: found.familyName ?? '', birthDate: found.birthDate ?? '', confirmed: false });
    if (['female', 'male'].includes(found.sex)) session.recordSex = found.sex;
    session.last = found.lastSession ?? null;
  }
  await save(session);
  announce(t(`patient.said.${asked.record}`));
  app.draw();
}

function problems(patient) {
  if (patient.value.trim() === '') return [t('missing.patientNumber')];
  if (patient.record === 'not-asked' || patient.record === 'asking') return [t('missing.lookUp')];
  if (!isWhole(patient)) return [t('missing.patientName')];
  return patient.confirmed ? [] : [t('missing.patientConfirmed')];
}
