// The therapist's own conclusion on a session, and its signature.
import { noConclusion } from './session.js';

/** A session kept by an earlier version of the page has none. */
export const conclusionOf = (session) => session.conclusion ?? noConclusion;

// What somebody who signs has seen: when any of it changes, nobody has signed the new state.
const seen = ({ patient, performer, startedAt, endedAt, dominance, sexForNorm, setup, precautions, trials }) =>
  JSON.stringify([patient, performer, startedAt, endedAt, dominance, sexForNorm, setup, precautions, trials]);

export const isSigned = (session) => conclusionOf(session).text.trim() !== '' && conclusionOf(session).signedFor === seen(session);

/** Words that speak of what has been changed since. */
export const isOutdated = (session) => conclusionOf(session).text.trim() !== '' && conclusionOf(session).writtenFor !== seen(session);

/** Other words are not signed. */
export function reword(session, text) {
  session.conclusion = { ...noConclusion, text, writtenFor: seen(session) };
}

/** Takes the signature back; the words stay. */
export function unsign(session) {
  session.conclusion = { ...session.conclusion, signedAt: null, signedFor: null };
}

export function sign(session, now) {
  session.conclusion = { ...session.conclusion, writtenFor: seen(session), signedAt: Math.max(now, session.endedAt), signedFor: seen(session) };
}
