import { announce, el } from '../dom.js';
import { ageText, t } from '../text.js';
import { ask, button } from '../forms.js';
import { allSessions, clearAll, onlyHere } from '../store.js';
import { othersAtWork } from '../locks.js';
import { sendNow } from '../outbox.js';

/** Finish on a shared device: nothing about a patient stays readable. */
export function clearScreen(app) {
  const unsent = onlyHere();
  return [
    el('h1', {}, t('clear.title')),
    el('p', {}, t('clear.text')),
    unsent.length > 0
      ? [
        el('p', { class: 'notice danger' }, t('clear.unsent', { count: unsent.length })),
        el('ul', { class: 'plain-list' }, unsent.map((session) => el('li', {},
          el('a', { href: `#/session/${session.id}` }, session.patient.familyName || session.id), ' ', t('clear.age', { age: ageText(Date.now() - session.createdAt) }))))]
      : el('p', { class: 'notice good' }, t('clear.nothingUnsent', { count: allSessions().length })),
    el('div', { class: 'buttons' },
      unsent.some((session) => session.delivery?.state === 'waiting') && button(t('home.sendNow'), sendNow),
      button(t(unsent.length > 0 ? 'clear.discardAll' : 'clear.now'), () => clearAsked(app, unsent.length), { kind: unsent.length > 0 ? 'danger' : 'primary', key: 'clear' })),
  ];
}

async function clearAsked(app, unsent) {
  if (await othersAtWork()) {
    announce(t('clear.otherTab'), true);
    await ask({ title: t('clear.title'), text: t('clear.otherTab'), yes: t('understood') });
    return;
  }
  if (unsent > 0 && !(await ask({ title: t('clear.sureTitle'), text: t('clear.sure', { count: unsent }), yes: t('clear.sureYes'), danger: true }))) return;
  await clearAll();
  app.loadFacts().then(() => app.draw());
  app.go('#/');
  announce(t('clear.done'));
}
