// What a person decides: always with reason and name, never by a single press.
import { announce, el, freshId } from '../../table/js/dom.js';
import { t } from '../../table/js/text.js';
import { button, selectField, textArea, textField } from '../../table/js/forms.js';
import * as api from './api.js';

const spans = ['0s', '10m', '30m', '2h', '8h'];
const namePlace = 'ledger.name';

/** Asks about one session and does it. */
export const decideAsked = (app, entry, action) => ask(app, {
  title: t(`ask.${action}.title`), text: t(`ask.${action}.text`), yes: t(`ask.${action}.yes`), danger: action === 'withdraw', chart: action === 'resolve',
  send: ({ reason, by, patientId }) => action === 'withdraw'
    ? api.withdraw(entry.site, entry.sessionId, { reason, by })
    : api.decide(entry.site, entry.sessionId, action, { reason, by, revision: entry.revision, ...(action === 'resolve' && { patientId }) }),
  done: () => t(`done.${action}`),
});

/** Asks about every held or failed session that matches and does it. */
export function retryAllAsked(app, filter) {
  const named = Object.entries(filter).filter(([, value]) => value).map(([name, value]) => `${t(`filter.${name}`)} ${name === 'state' ? t(`state.${value}`) : value}`);
  const what = named.length > 0 ? t('ask.all.matching', { filter: named.join(', ') }) : t('ask.all.everything');
  return ask(app, {
    title: t('ask.all.title'), text: t('ask.all.text', { what }), yes: t('ask.all.yes'), over: true,
    send: ({ reason, by, over }) => api.retryAll({ reason, by, over, filter }),
    done: (body) => t('done.all', { count: body.entries }),
  });
}

function ask(app, { title, text, yes, danger, chart, over, send, done }) {
  const given = { reason: '', by: sessionStorage.getItem(namePlace) ?? '', patientId: '', over: '30m' };
  const set = (name) => (value) => { given[name] = value; };
  const id = freshId('decide');
  const problem = el('p', { class: 'problem', role: 'alert' });
  const go = el('button', { class: danger ? 'danger' : 'primary', 'data-key': 'decide' }, yes);
  const dialog = el('dialog', { 'aria-labelledby': id },
    el('h2', { id }, title),
    el('p', {}, text),
    el('form', { onsubmit: (event) => { event.preventDefault(); submit(); } },
      chart && textField({ label: t('ask.chart'), hint: t('ask.chartHint'), key: 'decide-chart', value: '', change: set('patientId') }),
      over && selectField({
        label: t('ask.over'), key: 'decide-over', value: given.over, empty: null, change: set('over'),
        options: spans.map((span) => ({ value: span, label: t(`over.${span}`) })),
      }),
      textArea({ label: t('ask.reason'), hint: t('ask.reasonHint'), key: 'decide-reason', value: '', change: set('reason') }),
      textField({ label: t('ask.by'), hint: t('ask.byHint'), key: 'decide-by', value: given.by, change: set('by') }),
      problem,
      el('div', { class: 'buttons' }, button(t('cancel'), () => dialog.close(), { key: 'cancel' }), go)));

  async function submit() {
    if (!given.reason.trim() || !given.by.trim() || (chart && !given.patientId.trim())) {
      problem.textContent = t(chart ? 'ask.missingChart' : 'ask.missing');
      return;
    }
    go.disabled = true;
    problem.textContent = '';
    const said = { reason: given.reason.trim(), by: given.by.trim(), patientId: given.patientId.trim(), over: given.over };
    try {
      const answer = await send(said);
      if (answer.ok) {
        sessionStorage.setItem(namePlace, said.by);
        dialog.close();
        announce(done(answer.body));
        return;
      }
      problem.textContent = answer.status === 401 || answer.status === 403 ? t('ask.notLetIn') : api.sentences(answer.body) || String(answer.status);
    } catch (error) {
      if (!(error instanceof api.Unreachable)) throw error;
      problem.textContent = t('ask.unreachable');
    }
    go.disabled = false;
  }

  dialog.addEventListener('close', () => {
    dialog.remove();
    app.refresh();
  });
  document.body.append(dialog);
  dialog.showModal();
}
