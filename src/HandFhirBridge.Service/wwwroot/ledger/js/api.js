// What the page asks of the service. The key stays in this tab.
import { call as ask, json, Unreachable } from '../../table/js/call.js';

export { Unreachable };

const place = 'ledger.key';

export const getKey = () => sessionStorage.getItem(place) ?? '';
export const setKey = (key) => (key ? sessionStorage.setItem(place, key) : sessionStorage.removeItem(place));

const segments = (...parts) => parts.map(encodeURIComponent).join('/');
const call = (path, options) => ask(path, { ...options, key: getKey() });
const post = (path, body) => call(path, json(JSON.stringify(body)));

export const getAbout = () => call('about');
export const getEntries = (query) => call(`ledger/entries?${query}`);
export const getEntry = (site, session, revision) =>
  call(`ledger/entries/${segments(site, session)}${revision ? `?revision=${encodeURIComponent(revision)}` : ''}`);
export const decide = (site, session, action, body) => post(`ledger/entries/${segments(site, session)}/${action}`, body);
export const withdraw = (site, session, body) => post(`sessions/${segments(site, session)}/withdrawal`, body);
export const retryAll = (body) => post('ledger/retry', body);

/** The sentences of an OperationOutcome, each with what to do. */
export const sentences = (outcome) =>
  (outcome?.issue ?? []).map((issue) => [issue.details?.text, issue.diagnostics].filter(Boolean).join(' ')).join(' ');
