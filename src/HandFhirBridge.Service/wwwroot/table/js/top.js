// The line at the top of every screen: where one is, whether everything is kept, and what has not left this device.
import { el } from './dom.js';
import { ageText, t } from './text.js';
import { getDevice, onlyHere, saveState } from './store.js';
import { isRefused } from './api.js';

export function renderTop(app) {
  const top = document.getElementById('top');
  const focused = top.contains(document.activeElement) ? document.activeElement.dataset.key : null;
  const state = saveState();
  const waiting = onlyHere();
  top.replaceChildren(...[
    el('a', { href: '#/', class: 'home-link', 'data-key': 'top-home' }, el('span', { class: 'mark', 'aria-hidden': 'true' }), t('app.title')),
    el('span', { class: 'site' }, siteName(app)),
    el('span', { class: 'chips' },
      !navigator.onLine && el('span', { class: 'chip offline' }, t('top.offline')),
      isRefused() && el('span', { class: 'chip offline' }, t('top.notLetIn')),
      waiting.length > 0 && el('span', { class: 'chip here' },
        t('top.onlyHere', { count: waiting.length }), ' ', t('top.oldest', { age: ageText(Date.now() - waiting[0].createdAt) })),
      el('span', { class: `chip ${state}` }, t(`save.${state}`))),
    app.about.demonstration && el('p', { class: 'demonstration' }, t('top.demonstration'))].filter(Boolean));
  if (focused) top.querySelector(`[data-key="${focused}"]`)?.focus();
}

export const siteName = (app) => {
  const id = getDevice().site;
  return app.sites.find((site) => site.id === id)?.name ?? id;
};
