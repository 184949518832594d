// One request to the service that the page came from.

export class Unreachable extends Error {}

const waitMilliseconds = 15000;
const address = (path) => new URL(`../../${path}`, import.meta.url);

/** Asks; `key` signs in, `reviver` reads the values of the answer. The body is null where there is none that is JSON. */
export async function call(path, { key, reviver, ...options } = {}) {
  let answer;
  let text;
  try {
    answer = await fetch(address(path), {
      ...options,
      headers: { Accept: 'application/json', ...(key && { Authorization: `Bearer ${key}` }), ...options.headers },
      signal: AbortSignal.timeout(waitMilliseconds),
      cache: 'no-store',
    });
    text = await answer.text();
  } catch (error) {
    throw new Unreachable(error.message);
  }
  return { status: answer.status, ok: answer.ok, body: parsed(text, reviver), location: answer.headers.get('Location'), date: answer.headers.get('Date') };
}

/** A reviver by which numbers come as text, with the digits they were written with. */
export const keepDigits = (name, value, context) => (typeof value === 'number' ? context?.source ?? String(value) : value);

/** Options of a request that sends JSON. */
export const json = (text) => ({ method: 'POST', body: text, headers: { 'Content-Type': 'application/json' } });

// A gateway's page instead of an answer: the status alone counts.
function parsed(text, reviver) {
  try {
    return text ? JSON.parse(text, reviver) : null;
  } catch {
    return null;
  }
}
