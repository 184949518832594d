import { el } from '../dom.js';
import { t } from '../text.js';
import { selectField, textField } from '../forms.js';
import { changeDevice } from '../store.js';
import { stepFoot, stepHead } from './steps.js';

const roles = ['occupational-therapist', 'hand-therapist', 'physical-therapist', 'occupational-therapy-assistant', 'student-under-supervision', 'other'];

export function performerScreen(app) {
  return [
    stepHead('performer'),
    el('p', {}, t('performer.text')),
    performerFields(app),
    stepFoot(app, 'performer', {
      problems: () => (isWhole(app.session.performer) ? [] : [t('missing.performer')]),
      next: async () => {
        const { value, name, role } = app.session.performer;
        await changeDevice({ performer: { value, name, role } });
        app.goStep('dominance');
      },
    }),
  ];
}

export function performerFields(app) {
  const { performer } = app.session;
  const set = (name) => (value) => app.change((session) => { session.performer[name] = value; }, { redraw: false });
  return [
    textField({ label: t('performer.name'), value: performer.name, key: 'performer-name', change: set('name') }),
    textField({ label: t('performer.number'), value: performer.value, key: 'performer-number', change: set('value') }),
    selectField({ label: t('performer.role'), value: performer.role, key: 'performer-role', change: set('role'), options: roles.map((value) => ({ value, label: t(`performer.role.${value}`) })) }),
  ];
}

const isWhole = ({ name, value, role }) => name.trim() !== '' && value.trim() !== '' && role !== '';
