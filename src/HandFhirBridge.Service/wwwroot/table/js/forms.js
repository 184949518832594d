// Form parts: large, labelled, saved as they are filled in.
import { el, freshId } from './dom.js';
import { t } from './text.js';

/** A labelled text input. `change` gets each new value. */
export function textField({ label, value, change, hint, problem, type = 'text', key, ...rest }) {
  const id = freshId('field');
  const notes = [hint && `${id}-hint`, problem && `${id}-problem`].filter(Boolean).join(' ');
  return el('div', { class: `field${problem ? ' wrong' : ''}` },
    el('label', { for: id }, label),
    hint && el('p', { id: `${id}-hint`, class: 'hint' }, hint),
    el('input', {
      id, type, value, 'data-key': key, autocomplete: 'off', spellcheck: 'false',
      'aria-describedby': notes || null, 'aria-invalid': problem ? 'true' : null,
      oninput: (event) => change(event.target.value), ...rest,
    }),
    problem && el('p', { id: `${id}-problem`, class: 'problem' }, problem));
}

export function textArea({ label, value, change, key, hint }) {
  const id = freshId('field');
  return el('div', { class: 'field' },
    el('label', { for: id }, label),
    hint && el('p', { class: 'hint', id: `${id}-hint` }, hint),
    el('textarea', { id, 'data-key': key, rows: 2, value, 'aria-describedby': hint ? `${id}-hint` : null, oninput: (event) => change(event.target.value) }));
}

export function selectField({ label, value, options, change, key, empty = t('choose') }) {
  const id = freshId('field');
  const select = el('select', { id, 'data-key': key, onchange: (event) => change(event.target.value) },
    empty !== null && el('option', { value: '' }, empty),
    options.map((option) => el('option', { value: option.value }, option.label)));
  select.value = value;
  return el('div', { class: 'field' }, el('label', { for: id }, label), select);
}

/** One of several, as tiles in a row. */
export function choice({ legend, value, options, change, key, hint, hidden = false }) {
  const name = freshId('choice');
  return el('fieldset', { class: 'choice' },
    el('legend', { class: hidden ? 'unseen' : null }, legend),
    hint && el('p', { class: 'hint' }, hint),
    el('div', { class: 'tiles' }, options.map((option) => el('label', { class: `tile ${option.class ?? ''}` },
      el('input', {
        type: 'radio', name, value: String(option.value), checked: option.value === value,
        'data-key': `${key}-${option.value}`, onchange: () => change(option.value),
      }),
      el('span', {}, option.mark, option.label, option.detail && el('small', {}, option.detail))))));
}

/** Any of several, as tiles. */
export function several({ legend, values, options, change, key, hint, hidden = false }) {
  return el('fieldset', { class: 'choice' },
    el('legend', { class: hidden ? 'unseen' : null }, legend),
    hint && el('p', { class: 'hint' }, hint),
    el('div', { class: `tiles${options.length > 3 ? ' even' : ''}` }, options.map((option) => el('label', { class: 'tile' },
      el('input', {
        type: 'checkbox', checked: values.includes(option.value), 'data-key': `${key}-${option.value}`,
        onchange: (event) => change(event.target.checked
          ? [...values.filter((other) => other !== option.value), option.value]
          : values.filter((other) => other !== option.value)),
      }),
      el('span', {}, option.mark, option.label)))));
}

export const button = (label, press, { kind = 'plain', key, ...rest } = {}) =>
  el('button', { type: 'button', class: kind, 'data-key': key ?? label, onclick: press, ...rest }, label);

/** Asks; resolves true only if the therapist says so. */
export function ask({ title, text, yes, no = t('cancel'), danger = false }) {
  return new Promise((resolve) => {
    const id = freshId('ask');
    const dialog = el('dialog', { 'aria-labelledby': id },
      el('h2', { id }, title),
      el('p', {}, text),
      el('div', { class: 'buttons' },
        button(no, () => dialog.close(''), { kind: 'plain' }),
        button(yes, () => dialog.close('yes'), { kind: danger ? 'danger' : 'primary' })));
    dialog.addEventListener('close', () => {
      dialog.remove();
      resolve(dialog.returnValue === 'yes');
    });
    document.body.append(dialog);
    dialog.showModal();
  });
}

/** Buttons at the foot of a step: back on the left, on on the right. */
export const foot = (...children) => el('div', { class: 'foot buttons' }, ...children);
