// The list: what is not in the record, by reason, oldest first.
import { el } from '../../table/js/dom.js';
import { t } from '../../table/js/text.js';
import { button, selectField, textField } from '../../table/js/forms.js';
import { age, ago, due, stateTag } from './words.js';
import { entryHash, listHash, pageSize } from './route.js';
import { retryAllAsked } from './actions.js';

const states = ['accepted', 'sending', 'held', 'failed', 'delivered', 'superseded'];

export function listScreen(app, page, filter) {
  return [
    el('h1', {}, t('home.title')),
    figures(page),
    page.groups.length === 0
      ? el('p', { class: 'notice good' }, t('home.nothing'))
      : el('section', {},
        el('h2', {}, t('groups.title')),
        el('ul', { class: 'cards' }, page.groups.map((group) => groupCard(app, group, filter)))),
    filterForm(app, page, filter),
    el('section', {},
      el('h2', {}, t('list.title')),
      page.entries.length === 0
        ? el('p', {}, t('list.none'))
        : el('ol', { class: 'entries' }, page.entries.map(entryRow)),
      pager(app, page, filter)),
  ];
}

function figures({ counts, oldestUnsent }) {
  const waits = counts.held + counts.failed;
  const figure = (kind, label, value) => el('div', { class: `figure ${kind}` }, el('dt', {}, label), el('dd', {}, value));
  return el('dl', { class: 'figures' },
    figure('oldest', t('home.oldest'), oldestUnsent ? age(oldestUnsent) : t('home.oldest.none')),
    figure(waits > 0 ? 'waits' : '', t('home.waits.label'), String(waits)),
    figure('', t('home.line'), String(counts.accepted + counts.sending)),
    figure('', t('home.delivered'), String(counts.delivered)));
}

function groupCard(app, group, filter) {
  const title = group.title ?? t('groups.none');
  const names = { count: group.entries, state: t(`state.${group.state}`), title };
  const shown = new URLSearchParams(filter);
  shown.delete('skip');
  shown.delete('all');
  shown.set('state', group.state);
  shown.set('code', group.code ?? '');
  const mayRetry = group.code && ['held', 'failed'].includes(group.state);
  return el('li', { class: `card group ${group.state}` },
    el('h3', {}, title),
    el('p', {}, group.code && [el('span', { class: 'code' }, group.code), ' '], stateTag(group.state)),
    el('p', {}, el('span', { class: 'size' }, t('groups.count', { count: group.entries })), ', ', t('groups.oldest', { age: age(group.oldest) })),
    group.remedy && el('p', { class: 'small' }, group.remedy),
    group.oneByOne && el('p', { class: 'small' }, t('groups.oneByOne')),
    el('div', { class: 'buttons' },
      el('a', { class: 'button', href: listHash(shown), 'data-key': `show-${group.state}-${group.code}`, 'aria-label': t('groups.showFor', names) }, t('groups.show')),
      mayRetry && button(t('groups.retry'), () => retryAllAsked(app, {
        state: group.state, code: group.code, site: filter.get('site') || undefined, target: filter.get('target') || undefined,
      }), { key: `retry-${group.state}-${group.code}`, 'aria-label': t('groups.retryFor', names) })));
}

function filterForm(app, page, filter) {
  const wanted = new URLSearchParams(filter);
  wanted.delete('skip');
  const set = (name) => (value) => (value ? wanted.set(name, value) : wanted.delete(name));
  const codes = [...new Map(page.groups.filter((group) => group.code).map((group) => [group.code, group.title])).entries()];
  if (filter.get('code') && !codes.some(([code]) => code === filter.get('code'))) codes.push([filter.get('code'), '']);
  const active = [...filter.keys()].some((name) => name !== 'skip');
  const asked = Object.fromEntries(['state', 'code', 'site', 'target'].map((name) => [name, filter.get(name) || undefined]));
  const mayRetry = !filter.get('session') && !filter.get('all') && [undefined, 'held', 'failed'].includes(asked.state);
  return el('details', { class: 'filter', open: active },
    el('summary', {}, t('filter.title')),
    el('form', { onsubmit: (event) => { event.preventDefault(); app.go(listHash(wanted)); } },
      selectField({
        label: t('filter.state'), key: 'filter-state', empty: t('filter.unsent'), value: filter.get('all') ? 'all' : filter.get('state') ?? '',
        options: [...states.map((state) => ({ value: state, label: t(`state.${state}`) })), { value: 'all', label: t('filter.all') }],
        change: (value) => { set('all')(value === 'all' ? 'true' : ''); set('state')(value === 'all' ? '' : value); },
      }),
      selectField({
        label: t('filter.code'), key: 'filter-code', empty: t('filter.anyCode'), value: filter.get('code') ?? '', change: set('code'),
        options: codes.map(([code, title]) => ({ value: code, label: [code, title].filter(Boolean).join(' ') })),
      }),
      textField({ label: t('filter.site'), key: 'filter-site', value: filter.get('site') ?? '', change: set('site') }),
      textField({ label: t('filter.target'), key: 'filter-target', value: filter.get('target') ?? '', change: set('target') }),
      textField({ label: t('filter.session'), key: 'filter-session', value: filter.get('session') ?? '', change: set('session') }),
      el('div', { class: 'buttons' },
        el('button', { class: 'primary', 'data-key': 'filter-apply' }, t('filter.apply')),
        active && el('a', { class: 'button', href: '#/', 'data-key': 'filter-clear' }, t('filter.clear')),
        mayRetry && button(t('filter.retry'), () => retryAllAsked(app, asked), { key: 'retry-matching' }))));
}

const entryRow = (entry) => el('li', { class: 'entry' },
  el('p', {}, el('a', { href: entryHash(entry), 'data-key': `entry-${entry.site}/${entry.sessionId}/${entry.revision}` }, `${entry.site}/${entry.sessionId}`)),
  el('p', {}, stateTag(entry.state), ' ',
    entry.code && [el('span', { class: 'code' }, entry.code), ' '], entry.reason),
  el('p', { class: 'facts' },
    el('span', {}, ago(entry.acceptedAt)),
    entry.revision > 1 && el('span', {}, t('list.revision', { revision: entry.revision }), entry.withdrawal && `, ${t('list.withdrawal')}`),
    el('span', {}, `${t('list.attempts')}: ${entry.attempts}`),
    entry.state === 'accepted' && entry.nextAttemptAt && el('span', {}, `${t('list.next')}: ${due(entry.nextAttemptAt)}`)));

function pager(app, page, filter) {
  if (page.skip === 0 && !page.more) return null;
  const to = (skip) => {
    const next = new URLSearchParams(filter);
    next.set('skip', skip > 0 ? skip : '');
    return () => app.go(listHash(next));
  };
  return el('div', { class: 'pager' },
    button(t('list.earlier'), to(Math.max(0, page.skip - pageSize)), { key: 'older', disabled: page.skip === 0 }),
    el('span', {}, t('list.range', { from: page.skip + 1, to: page.skip + page.entries.length })),
    button(t('list.later'), to(page.skip + pageSize), { key: 'newer', disabled: !page.more }));
}
