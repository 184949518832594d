// The therapist's own conclusion: drafted by the service on request, reworded and signed here.
import { el } from '../dom.js';
import { momentText, t } from '../text.js';
import { button, several, textArea } from '../forms.js';
import { conclusionOf, isOutdated, isSigned, reword, sign, unsign } from '../conclusion.js';

export function conclusionForm(app, draft) {
  const { session } = app;
  const { text, signedAt } = conclusionOf(session);
  const { name } = session.performer;
  const signed = isSigned(session);
  return el('section', { class: 'conclusion' },
    el('h2', {}, t('conclusion.title')),
    textArea({
      label: t('conclusion.words'), hint: t('conclusion.hint'), value: text, key: 'conclusion',
      change: (words) => {
        const before = conclusionOf(session).text;
        app.change(() => reword(session, words), { redraw: signed || !words.trim() !== !before.trim() });
      },
    }),
    isOutdated(session) && el('p', { class: 'notice warn' }, t('conclusion.outdated')),
    draft && (!text.trim() || isOutdated(session)) && button(t('conclusion.draft'), () => app.change(() => reword(session, draft)), { key: 'conclusion-draft' }),
    text.trim() !== '' && several({
      legend: t('conclusion.signature'), hidden: true, values: signed ? ['signed'] : [], key: 'conclusion',
      options: [{ value: 'signed', label: signed ? t('conclusion.signed', { name, when: momentText(signedAt) }) : t('conclusion.sign', { name }) }],
      change: (values) => app.change(() => (values.length > 0 ? sign(session, Date.now()) : unsign(session))),
    }));
}
