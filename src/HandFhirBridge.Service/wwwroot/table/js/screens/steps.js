// What the steps before the trials share: where one is, and the way back and on.
import { el } from '../dom.js';
import { t } from '../text.js';
import { button, foot } from '../forms.js';

const before = ['patient', 'performer', 'dominance', 'precautions', 'setup'];

export function stepHead(step) {
  const at = before.indexOf(step);
  return [
    el('ol', { class: 'steps', 'aria-label': t('steps.label') }, before.map((name, index) => el('li', {
      class: index < at ? 'done' : index === at ? 'now' : null, 'aria-current': index === at ? 'step' : null,
    }, t(`step.${name}`)))),
    el('h1', {}, t(`${step}.title`)),
  ];
}

/** Back and on. Pressing on while `problems()` names something shows it instead; `quiet` while something else is to be pressed first. */
export function stepFoot(app, step, { problems, next, label, quiet = false }) {
  const at = before.indexOf(step);
  const warning = el('p', { class: 'problem', id: 'step-problem', role: 'alert' });
  return [
    warning,
    foot(
      at > 0 && button(t('back'), () => app.goStep(before[at - 1]), { key: 'back' }),
      button(label ?? t('next'), () => {
        const found = problems();
        if (found.length > 0) {
          warning.textContent = found.join(' ');
          return;
        }
        next ? next() : app.goStep(before[at + 1]);
      }, { kind: quiet ? 'plain' : 'primary', key: 'next' })),
  ];
}
