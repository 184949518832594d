// What the page asks of the service. Numbers in answers come as text, with the digits they were written with.
import { call as ask, json, keepDigits, Unreachable } from './call.js';

export { Unreachable };

let key = '';
let refused = false;

/** Sends `secret` with every question from now on; empty for none. */
export function useKey(secret) {
  key = secret;
  refused = false;
}

/** True if the service did not let this device in when it was last asked. */
export const isRefused = () => refused;

const openToAll = 'about';

async function call(path, options = {}) {
  const answer = await ask(path, { ...options, key, reviver: keepDigits });
  if (answer.status === 401 || answer.status === 403) refused = true;
  else if (path !== openToAll) refused = false;
  return answer;
}

async function read(path) {
  const answer = await call(path);
  if (!answer.ok) throw new Unreachable(`${path}: ${answer.status}`);
  return answer.body;
}

const post = (path, text) => call(path, json(text));

export const getInstrument = () => read('instruments/seven-task');
export const getSites = () => read('sites');
/** What the service is, and by how many milliseconds this device's clock is ahead of it. */
export async function getAbout() {
  const answer = await call(openToAll);
  if (!answer.ok || !answer.body) throw new Unreachable(`about: ${answer.status}`);
  return { body: answer.body, off: answer.date ? Date.now() - Date.parse(answer.date) : 0 };
}
export const postSession = (text) => post('sessions', text);
export const getSessionState = (site, id) => call(`sessions/${encodeURIComponent(site)}/${encodeURIComponent(id)}`);

/** { problems, report }: the scores of a session document, stored nowhere. */
export async function preview(text) {
  const answer = await post('sessions/preview', text);
  if (!answer.ok || !answer.body) throw new Unreachable(`preview: ${answer.status}`);
  return answer.body;
}

/** The patient with this number, or null where the record cannot be reached. */
export async function findPatient({ system, value }) {
  try {
    const answer = await call(`patients?system=${encodeURIComponent(system)}&value=${encodeURIComponent(value)}`);
    return answer.ok ? answer.body : null;
  } catch (error) {
    if (error instanceof Unreachable) return null;
    throw error;
  }
}
