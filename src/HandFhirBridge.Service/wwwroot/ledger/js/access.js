// Signing in: a key or token, kept in this tab.
import { el } from '../../table/js/dom.js';
import { t } from '../../table/js/text.js';
import { textField } from '../../table/js/forms.js';
import { getKey, setKey } from './api.js';

export function accessScreen(app) {
  let key = '';
  return [
    el('h1', {}, t('access.title')),
    el('p', {}, t('access.text')),
    getKey() && el('p', { class: 'notice danger' }, t('access.refused')),
    el('form', {
      onsubmit: (event) => {
        event.preventDefault();
        setKey(key.trim());
        app.refresh(true);
      },
    },
    textField({ label: t('access.key'), key: 'key', type: 'password', value: '', change: (value) => { key = value; } }),
    el('div', { class: 'buttons' }, el('button', { class: 'primary', 'data-key': 'sign-in' }, t('access.go')))),
  ];
}
