// What the page asks of the service. Opened from the record, a cookie that the page cannot read lets it in; otherwise a key, which stays in this tab.
import { call as ask, keepDigits, Unreachable } from '../../table/js/call.js';

export { Unreachable };

const place = 'chart.key';

export const getKey = () => sessionStorage.getItem(place) ?? '';
export const setKey = (key) => (key ? sessionStorage.setItem(place, key) : sessionStorage.removeItem(place));

const call = (path, options) => ask(path, { ...options, reviver: keepDigits });

export const getAbout = () => call('about');
export const getOpened = () => call('chart/course');
export const getCourse = ({ system, value, site }) => call(`courses?${new URLSearchParams({ system, value, ...(site && { site }) })}`, { key: getKey() });

/** The sentences of an OperationOutcome, each with what to do. */
export const sentences = (outcome) =>
  (outcome?.issue ?? []).map((issue) => [issue.details?.text, issue.diagnostics].filter(Boolean).join(' ')).join(' ');
