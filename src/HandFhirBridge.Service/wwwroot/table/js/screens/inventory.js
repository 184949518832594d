import { el } from '../dom.js';
import { t } from '../text.js';
import { button, choice, foot } from '../forms.js';
import { answers, items, lateralityQuotient } from '../laterality.js';

export function inventoryScreen(app) {
  const given = app.session.dominance.inventory;
  const { quotient, count } = lateralityQuotient(given);
  return [
    el('h1', {}, t('inventory.title')),
    el('p', {}, t('inventory.text')),
    items.map((item) => choice({
      legend: t(`inventory.item.${item}`), value: given[item], key: `item-${item}`,
      options: Object.keys(answers).map((value) => ({ value, label: t(`inventory.${value}`) })),
      change: (value) => app.change((session) => {
        session.dominance.inventory[item] = value;
        session.dominance.lateralityQuotient = lateralityQuotient(session.dominance.inventory).quotient;
      }),
    })),
    el('p', { class: 'notice', role: 'status' }, quotient === null ? t('inventory.none') : t('inventory.result', { quotient, count })),
    el('p', { class: 'hint' }, t('inventory.source')),
    foot(
      button(t('inventory.drop'), () => app.change((session) => { Object.assign(session.dominance, { inventory: {}, lateralityQuotient: null }); })),
      button(t('inventory.back'), () => app.goStep('dominance'), { kind: 'primary', key: 'next' })),
  ];
}
