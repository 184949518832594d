// A course on the screen: who, what to know, pictures by task, and the same as tables. Everything comes from the service; nothing is worked out here.
import { el } from '../../table/js/dom.js';
import { dateText, t } from '../../table/js/text.js';
import { button } from '../../table/js/forms.js';
import { pictureOf } from './picture.js';
import { saveText } from './save.js';

export const dayOf = (session) => session.startedAt.slice(0, 10);

/** Link to the report of a session; null where this page cannot show it. */
export const reportLink = (view, session, text) => view.reports && el('a', {
  href: view.reports.replace('{site}', encodeURIComponent(session.site)).replace('{session}', encodeURIComponent(session.sessionId)).replace('{report}', encodeURIComponent(session.reportId)),
  target: '_blank', rel: 'noopener', 'aria-label': t('report.of', { text, date: dateText(dayOf(session)) }),
}, text);

export function courseScreen(view) {
  const { course } = view;
  return [
    el('h1', {}, t('course.title')), who(view), notices(view),
    course.sessions.length > 0 && [
      el('div', { class: 'buttons' },
        button(t('course.print'), () => print(), { key: 'print' }),
        button(t('course.csv'), () => saveText('course.csv', 'text/csv;charset=utf-8', view.csv), { key: 'csv' })),
      legend(course), subjects(course).map((subject) => task(view, subject)), sources(course)],
    el('p', { class: 'notice caution' }, course.caution, ' ', t('course.caution')),
  ];
}

function who({ patient }) {
  if (!patient) return el('p', { class: 'who' }, t('who.unknown'));
  return el('p', { class: 'who' }, el('strong', {}, [patient.familyName, patient.givenNames].filter(Boolean).join(', ') || t('who.noName')),
    ' ', t('who.born', { date: patient.birthDate ?? t('who.noDate') }), ' · ', patient.identifiers.join(' · '));
}

function notices({ course, report }) {
  const said = [];
  const add = (kind, text) => said.push(el('p', { class: `notice ${kind}` }, text));
  if (course.demonstration) said.push(el('p', { class: 'demonstration' }, t('course.demonstration')));
  if (course.severalPatients) add('danger', t('course.severalPatients'));
  if (course.sessions.length === 0) add('warn', t('course.empty'));
  if (course.notShown.length > 0) {
    said.push(el('div', { class: 'notice danger' }, el('p', {}, t('course.notShown', { count: course.notShown.length })),
      el('ul', { class: 'plain-list' }, course.notShown.map((session) => el('li', {}, session.reason)))));
  }
  if (course.withdrawn > 0) add('', t('course.withdrawn', { count: course.withdrawn }));
  const opened = report && course.sessions.find((session) => session.reportId === report);
  if (opened) add('', t('course.opened', { date: dateText(dayOf(opened)) }));
  if (report && !opened) add('warn', t('course.openedNotThere'));
  return said;
}

const legend = (course) => el('ul', { class: 'legend', 'aria-label': t('legend.title') },
  [['left', '●'], ['right', '■'], ['departed', '○ □'], ['bound', '▲'], ['none', '✕'], ['band', '▒'], ['mean', '– –'], ...(course.errorSources.length > 0 ? [['error', '· · ·']] : []), ['break', '— · —']]
    .map(([name, sign]) => el('li', {}, el('b', { 'aria-hidden': 'true' }, sign), ' ', t(`legend.${name}`))));

const subjects = (course) => [...new Set(course.series.map((series) => series.subject))];

function task(view, subject) {
  const chosen = view.course.series.map((series, place) => ({ series, place })).filter(({ series }) => series.subject === subject);
  return el('section', { class: 'task', 'aria-label': chosen[0].series.title },
    el('h2', {}, chosen[0].series.title),
    el('div', { class: 'hands' }, chosen.map(({ series, place }) => pictureOf(view, series, place))),
    el('details', {}, el('summary', {}, t('table.open', { title: chosen[0].series.title })), table(view, chosen)));
}

function table(view, chosen) {
  const { title } = chosen[0].series;
  return el('div', { class: 'scroll', tabindex: '0', role: 'region', 'aria-label': t('table.title', { title }) },
    el('table', {}, el('caption', {}, title),
      el('thead', {}, el('tr', {}, ['date', 'hand', 'result', 'norm', 'z', 'change', 'remarks', 'report'].map((name) => el('th', { scope: 'col' }, t(`table.${name}`))))),
      el('tbody', {}, view.course.sessions.flatMap((session, index) => chosen.map(({ series }) => row(view, session, series, series.points[index]))))));
}

function row(view, session, series, point) {
  const remarks = [...point.departures, point.break && t('table.break', { why: point.break }), ...session.protocol, session.revision > 1 && t('table.corrected')].filter(Boolean);
  return el('tr', { class: session.reportId === view.report ? 'opened' : null },
    el('th', { scope: 'row' }, dayOf(session)),
    el('td', {}, t(`hand.${series.hand}`), ', ', t(`role.${point.role}`)),
    el('td', { class: point.judgement === 'slow' ? 'slow' : null }, result(point)),
    el('td', {}, normText(point)),
    el('td', {}, point.z === undefined ? '' : `${signed(point.z)} · ${t(`judgement.${point.judgement}`)}`),
    el('td', {}, change(point)),
    el('td', {}, remarks.join('; ')),
    el('td', {}, reportLink(view, session, t('report.open')) ?? '', ' ', el('small', {}, point.observation ?? '')));
}

const seconds = (value) => t('seconds', { value });
const signed = (value) => (Number(value) > 0 ? `+${value}` : String(value).replace('-', '−'));

export function result(point) {
  if (point.kind === 'time') return seconds(point.seconds);
  if (point.kind === 'bound') return t('result.bound', { value: point.seconds });
  return [t('result.none', { outcome: point.outcome }), point.reason].filter(Boolean).join(': ');
}

function normText(point) {
  if (point.normMean !== undefined) return t('norm.sum', { mean: point.normMean });
  return point.norms.map((norm) => t('norm.of', { ...norm, sd: norm.standardDeviation, sex: t(`sex.${norm.sex}`), evidence: norm.evidence })).join(' / ') || t('norm.none');
}

function change(point) {
  if (point.change === undefined) return '';
  const said = seconds(signed(point.change));
  return point.verdict ? `${said}: ${t(`verdict.${point.verdict}`, { mdc: point.minimalDetectableChange })}` : said;
}

const sources = (course) => [
  el('h2', {}, t('sources.title')),
  el('ul', { class: 'plain-list' },
    course.normSources.map((source) => el('li', {}, t('sources.norm', source))),
    course.errorSources.map((source) => el('li', {}, source)),
    course.errorSources.length === 0 && el('li', {}, t('sources.noError'))),
];
