// The address says what is shown, so that it can be kept, sent to a colleague and gone back to.
export const pageSize = 50;

/** { name, site, session, revision } of an entry, or { name, filter } of the list. */
export function route() {
  const [path, query = ''] = location.hash.replace(/^#\/?/, '').split('?');
  const values = new URLSearchParams(query);
  const [name, site, session] = path.split('/').map(decodeURIComponent);
  if (name === 'entry' && site && session) return { name: 'entry', site, session, revision: values.get('revision') };
  return { name: 'list', filter: values };
}

export const listHash = (filter) => {
  const kept = new URLSearchParams([...filter].filter(([, value]) => value !== ''));
  return kept.size > 0 ? `#/?${kept}` : '#/';
};

export const entryHash = ({ site, sessionId }, revision) =>
  `#/entry/${encodeURIComponent(site)}/${encodeURIComponent(sessionId)}${revision ? `?revision=${revision}` : ''}`;

/** What the service is asked for a filter. */
export function questionOf(filter) {
  const asked = new URLSearchParams(filter);
  asked.set('take', pageSize);
  return asked;
}
