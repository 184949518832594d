// One picture: drawn by the service, its points visited with the arrow keys or a press.
import { el } from '../../table/js/dom.js';
import { t } from '../../table/js/text.js';
import { button } from '../../table/js/forms.js';
import { reportLink } from './course.js';
import { savePicture } from './save.js';

export function pictureOf(view, series, place) {
  const drawn = document.importNode(new DOMParser().parseFromString(view.pictures[place], 'image/svg+xml').documentElement, true);
  const inspect = el('div', { class: 'inspect', 'data-inspect': place }, el('p', { class: 'small' }, t('picture.how')));
  const points = [...drawn.querySelectorAll('.visit')];

  function visit(index) {
    points.forEach((point, other) => point.setAttribute('tabindex', other === index ? '0' : '-1'));
    inspect.replaceChildren(...[el('p', {}, view.words[place][index]),
      reportLink(view, view.course.sessions[index], t('report.openLong')),
      series.points[index].observation && el('small', {}, ' ', series.points[index].observation)].filter(Boolean));
  }

  points.forEach((point, index) => {
    point.addEventListener('focus', () => visit(index));
    point.addEventListener('click', () => point.focus());
    point.addEventListener('keydown', (event) => {
      const next = { ArrowRight: index + 1, ArrowDown: index + 1, ArrowLeft: index - 1, ArrowUp: index - 1, Home: 0, End: points.length - 1 }[event.key];
      if (next === undefined) return;
      event.preventDefault();
      points[Math.min(points.length - 1, Math.max(0, next))].focus();
    });
  });

  return el('figure', {},
    el('h3', {}, t(`hand.title.${series.hand}`)), drawn, inspect,
    el('div', { class: 'buttons' }, button(t('picture.save'), () => savePicture(drawn, `${series.subject}-${series.hand}.png`), { key: `png-${place}`, 'aria-label': t('picture.saveOf', { title: series.title, hand: t(`hand.${series.hand}`) }) })));
}
