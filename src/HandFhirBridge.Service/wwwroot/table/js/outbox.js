// Hands finished sessions over and follows them into the record. Sending the same document twice is harmless: the service knows it.
import * as api from './api.js';
import { alone } from './locks.js';
import { allSessions, isHandedOver, save } from './store.js';
import { documentText } from './document.js';

const stepsMilliseconds = [2000, 5000, 15000, 60000];
const followMilliseconds = 1500;
const heldMilliseconds = 15000;
let failures = 0;
let timer = null;
let onProgress = () => {};

/** Starts sending in the background; `progress` is called with each session that moved. */
export function startOutbox(progress) {
  onProgress = progress;
  addEventListener('online', () => { failures = 0; sendNow(); });
  sendNow();
}

/** Fixes the document of a finished session and puts it in line. */
export async function putInLine(session, instrument) {
  session.outgoing = documentText(session, instrument);
  session.delivery = { state: 'waiting', since: Date.now(), attempts: 0, problems: [] };
  session.step = 'sent';
  await save(session);
  failures = 0;
  sendNow();
}

export function sendNow() {
  clearTimeout(timer);
  alone('outbox', round).then((next) => plan(next ?? stepsMilliseconds.at(-1)));
}

function plan(milliseconds) {
  clearTimeout(timer);
  if (milliseconds !== null) timer = setTimeout(sendNow, milliseconds);
}

// One pass over everything in line. Returns how long to wait for the next, null if nothing is left to do.
async function round() {
  let unreachable = false;
  for (const session of allSessions()) {
    try {
      if (session.delivery?.state === 'waiting') await send(session);
      else if (isUnderWay(session)) await follow(session);
    } catch (error) {
      if (!(error instanceof api.Unreachable)) throw error;
      unreachable = true;
      session.delivery.attempts += 1;
      session.delivery.lastTry = Date.now();
      onProgress(session);
    }
  }
  failures = unreachable ? failures + 1 : 0;
  const open = allSessions().filter((session) => session.delivery?.state === 'waiting' || isUnderWay(session));
  if (open.length === 0) return null;
  if (unreachable) return stepsMilliseconds[Math.min(failures, stepsMilliseconds.length) - 1];
  return open.every((session) => session.delivery.state === 'held') ? heldMilliseconds : followMilliseconds;
}

// Held is for a person to resolve: it may still end in the record.
const isUnderWay = (session) => isHandedOver(session) && !['delivered', 'failed'].includes(session.delivery.state);

async function send(session) {
  const answer = await api.postSession(session.outgoing);
  // Not let in says nothing about the session: it waits until the device has its key.
  if (answer.status >= 500 || [401, 403, 408, 429].includes(answer.status)) throw new api.Unreachable(String(answer.status));
  session.delivery.attempts += 1;
  session.delivery.lastTry = Date.now();
  if (answer.ok) session.delivery = { ...session.delivery, state: 'accepted', acceptedAt: Date.now(), problems: [] };
  else session.delivery = { ...session.delivery, state: 'refused', status: answer.status, problems: problemsOf(answer.body) };
  await save(session);
  onProgress(session);
}

async function follow(session) {
  const answer = await api.getSessionState(session.site, session.id);
  if (!answer.ok || !answer.body) throw new api.Unreachable(String(answer.status));
  const { state, reason } = answer.body;
  if (state === session.delivery.state && reason === session.delivery.reason) return;
  session.delivery = { ...session.delivery, state, reason };
  await save(session);
  onProgress(session);
}

/** Problems of an OperationOutcome: where, and in words. */
function problemsOf(outcome) {
  return (outcome?.issue ?? []).filter((issue) => issue.severity !== 'information').map((issue) => ({
    severity: issue.severity,
    location: issue.expression?.[0] ?? '',
    message: [issue.details?.text, issue.diagnostics].filter(Boolean).join(' '),
  }));
}
