import { el } from '../dom.js';
import { t } from '../text.js';
import { button, choice, foot, selectField, textField } from '../forms.js';
import { changeAccess, changeDevice, getAccess, getDevice } from '../store.js';
import { sendNow } from '../outbox.js';

export function deviceScreen(app) {
  const device = getDevice();
  const set = (name) => (value) => changeDevice({ [name]: value });
  const ready = () => ['site', 'patientSystem', 'staffSystem'].every((name) => getDevice()[name]);
  return [
    el('h1', {}, t('device.title')),
    el('p', {}, t('device.text')),
    el('form', { onsubmit: (event) => event.preventDefault() },
      app.sites.length > 0
        ? selectField({
          label: t('device.site'), value: device.site, key: 'site', options: app.sites.map(({ id, name }) => ({ value: id, label: name })),
          change: async (value) => {
            const site = app.sites.find(({ id }) => id === value) ?? {};
            const now = getDevice();
            await changeDevice({ site: value, patientSystem: site.patientSystem ?? now.patientSystem, staffSystem: site.staffSystem ?? now.staffSystem });
            app.draw();
          },
        })
        : textField({ label: t('device.siteId'), value: device.site, key: 'site', change: set('site') }),
      textField({ label: t('device.patientSystem'), hint: t('device.systemHint'), value: device.patientSystem, key: 'patient-system', type: 'url', change: set('patientSystem') }),
      textField({ label: t('device.staffSystem'), hint: t('device.systemHint'), value: device.staffSystem, key: 'staff-system', type: 'url', change: set('staffSystem') }),
      !app.about.demonstration && textField({
        label: t('device.key'), hint: t('device.keyHint'), value: getAccess(), key: 'access', type: 'password', change: (value) => changeAccess(value.trim()),
      }),
      textField({ label: t('device.cap'), hint: t('device.capHint'), value: device.capSeconds, key: 'cap', inputmode: 'decimal', change: set('capSeconds') }),
      choice({ legend: t('device.unit'), value: device.unit, key: 'unit', change: set('unit'), options: ['in', 'cm'].map((value) => ({ value, label: t(`unit.${value}`) })) }),
      choice({ legend: t('device.view'), hint: t('device.viewHint'), value: device.view, key: 'view', change: set('view'), options: ['patient', 'therapist'].map((value) => ({ value, label: t(`view.${value}`) })) }),
      choice({ legend: t('device.tone'), value: device.tone, key: 'tone', change: set('tone'), options: [true, false].map((value) => ({ value, label: t(value ? 'yes' : 'no') })) }),
      choice({ legend: t('device.paper'), value: device.paper, key: 'paper', change: set('paper'), options: ['a4', 'letter'].map((value) => ({ value, label: t(`paper.${value}`) })) }),
      textField({ label: t('device.kitName'), hint: t('device.kitHint'), value: device.kitName ?? '', key: 'kit-name', change: set('kitName') }),
      textField({ label: t('device.kitSerial'), value: device.kitSerial ?? '', key: 'kit-serial', change: set('kitSerial') })),
    el('p', { class: 'problem', id: 'device-problem', role: 'alert' }),
    foot(button(t('device.done'), async () => {
      // What only a device that is let in may know.
      if (!app.instrument || app.sites.length === 0) await app.loadFacts();
      sendNow();
      if (ready()) app.go('#/');
      else {
        app.draw();
        document.getElementById('device-problem').textContent = t('missing.device');
      }
    }, { kind: 'primary' })),
  ];
}
