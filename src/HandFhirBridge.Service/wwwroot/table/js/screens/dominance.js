import { el } from '../dom.js';
import { t } from '../text.js';
import { choice } from '../forms.js';
import { handLetter } from '../marks.js';
import { dominantHand } from '../session.js';
import { lateralityQuotient } from '../laterality.js';
import { stepFoot, stepHead } from './steps.js';

export function dominanceScreen(app) {
  const given = app.session.dominance;
  return [
    stepHead('dominance'),
    dominanceFields(app),
    el('section', { class: 'aside' },
      el('h2', {}, t('inventory.title')),
      el('p', {}, given.lateralityQuotient === null ? t('inventory.offer') : t('inventory.result', { quotient: given.lateralityQuotient, count: lateralityQuotient(given.inventory).count })),
      el('a', { class: 'button plain', href: `#/session/${app.session.id}/inventory`, 'data-key': 'inventory' }, t(given.lateralityQuotient === null ? 'inventory.open' : 'inventory.change'))),
    dominantHand(app.session) && el('p', { class: 'notice' }, t('dominance.order', { first: t(`hand.${dominantHand(app.session) === 'left' ? 'right' : 'left'}`) })),
    stepFoot(app, 'dominance', { problems: () => (dominantHand(app.session) && given.howKnown ? [] : [t('missing.dominance')]) }),
  ];
}

export function dominanceFields(app) {
  const given = app.session.dominance;
  const started = app.session.trials.length > 0;
  const set = (name) => (value) => app.change((session) => {
    session.dominance[name] = value;
    if (name === 'handedness' && value !== 'ambidextrous') session.dominance.testedAsDominant = '';
    if (!started) session.current = null;
  });
  const both = ['left', 'right'].map((value) => ({ value, label: t(`hand.${value}`), mark: handLetter(value) }));
  return [
    choice({ legend: t('dominance.handedness'), value: given.handedness, key: 'handedness', change: set('handedness'), options: [...both, { value: 'ambidextrous', label: t('dominance.ambidextrous') }].map((option, index) => ({ ...option, label: index < 2 ? t(`dominance.${option.value}`) : option.label })) }),
    given.handedness === 'ambidextrous' && choice({ legend: t('dominance.tested'), hint: t('dominance.testedHint'), value: given.testedAsDominant, key: 'tested', change: set('testedAsDominant'), options: both }),
    choice({ legend: t('dominance.howKnown'), value: given.howKnown, key: 'how-known', change: set('howKnown'), options: ['stated', 'observed', 'inventory'].map((value) => ({ value, label: t(`dominance.${value}`) })) }),
  ];
}

