// What is known of one sitting. Plain data; times of trials are text.

export const steps = ['patient', 'performer', 'dominance', 'precautions', 'setup', 'trials', 'review', 'sent'];
export const outcomesWithTime = ['completed', 'stopped-at-cap'];
export const outcomesWithReason = ['not-given', 'void'];
export const hands = ['left', 'right'];
export const otherHand = (hand) => (hand === 'left' ? 'right' : 'left');

export const noConclusion = { text: '', writtenFor: null, signedAt: null, signedFor: null };

export function newSession({ device, now, random, paper = false }) {
  const day = new Date(now).toISOString().slice(0, 10).replaceAll('-', '');
  return {
    id: `${day}-${random}`,
    revision: 1,
    createdAt: now,
    changedAt: now,
    paper,
    step: 'patient',
    site: device.site,
    patient: { system: device.patientSystem, value: '', familyName: '', birthDate: '', confirmed: false, record: 'not-asked' },
    performer: { system: device.staffSystem, ...(device.performer ?? { value: '', name: '', role: '' }) },
    startedAt: null,
    endedAt: null,
    dominance: { handedness: '', howKnown: '', lateralityQuotient: null, testedAsDominant: '', inventory: {} },
    sexForNorm: '',
    recordSex: null,
    last: null,
    setup: {
      glasses: '', templateBoard: null, capInForce: null, capSeconds: device.capSeconds,
      tableHeight: '', chairHeight: '', edgeToItems: '', betweenItems: '', unit: device.unit, itemsReplaced: [],
      kitName: device.kitName ?? '', kitSerial: device.kitSerial ?? '',
    },
    precautions: {},
    precautionAt: 0,
    trials: [],
    current: null,
    undo: [],
    comment: '',
    conclusion: noConclusion,
    outgoing: null,
    delivery: null,
  };
}

/** The hand whose role is dominant; null while not known. */
export const dominantHand = (session) =>
  (session.dominance.handedness === 'ambidextrous' ? session.dominance.testedAsDominant : session.dominance.handedness) || null;

export const roleOf = (session, hand) => (dominantHand(session) === hand ? 'dominant' : 'non-dominant');

/** Task and hand pairs in the order in which they are given. */
export function plan(session, instrument) {
  const dominant = dominantHand(session);
  const handOf = (role) => (role === 'dominant' ? dominant : otherHand(dominant));
  return instrument.tasks.flatMap((task) => instrument.handOrder.map((role) => ({ task: task.id, hand: handOf(role) })));
}

const samePair = (pair) => (other) => other.task === pair.task && other.hand === pair.hand;

export const attempts = (session, pair) => session.trials.filter(samePair(pair));

/** The attempt that counts: the last one with a result, else the last one; undefined while there is none. */
export function countedAttempt(session, pair) {
  const all = attempts(session, pair);
  return all.findLast((trial) => trial.outcome !== 'void') ?? all.at(-1);
}

/** A void attempt that is to be repeated leaves its pair open. */
export const isDone = (session, pair) => {
  const counted = countedAttempt(session, pair);
  return counted !== undefined && !(counted.outcome === 'void' && counted.repeat);
};

export const nextPair = (session, instrument) => plan(session, instrument).find((pair) => !isDone(session, pair)) ?? null;

/** True if an earlier pair of the standard order is still to be given. */
export function isOutOfOrder(session, instrument, pair) {
  const order = plan(session, instrument);
  return order.slice(0, order.findIndex(samePair(pair))).some((earlier) => !isDone(session, earlier))
    || order.slice(order.findIndex(samePair(pair)) + 1).some((later) => attempts(session, later).length > 0 && !attempts(session, pair).length);
}

/** Precautions by which the therapist ruled this pair out. */
export const ruledOutBy = (session, pair) => Object.entries(session.precautions)
  .filter(([, answer]) => answer.answer !== 'no' && answer.rulesOut.includes(pair.task)
    && (answer.hands.length === 0 || answer.hands.includes(pair.hand)))
  .map(([id]) => id);

export const freshTrial = (session, instrument, pair) => ({
  ...pair,
  phase: 'ready',
  start: null,
  stop: null,
  hiddenMilliseconds: null,
  practice: 0,
  departures: isOutOfOrder(session, instrument, pair) ? ['order-changed'] : [],
  note: '',
  laid: [],
  override: false,
  end: { outcome: '', reason: '', typed: '', doubt: null },
});

const maxUndo = 10;

/** Notes what the trials looked like, so that the step about to be taken can be undone. */
export function remember(session) {
  const { trials, current } = session;
  session.undo.push(structuredClone({ trials, current }));
  session.undo.splice(0, session.undo.length - maxUndo);
}

export function undo(session) {
  const before = session.undo.pop();
  if (before) Object.assign(session, before);
  if (session.current) session.step = 'trials';
  return before !== undefined;
}

/** Adds an attempt and opens the next trial. */
export function record(session, instrument, trial, now) {
  // What was noted as left out and is now given after all did not stay left out.
  if (trial.outcome !== 'not-given') session.trials = session.trials.filter((other) => !(samePair(trial)(other) && other.outcome === 'not-given'));
  session.trials.push({ departures: [], note: '', corrections: [], ...trial });
  session.endedAt = Math.max(now, session.startedAt);
  openNext(session, instrument);
}

export function openNext(session, instrument) {
  const pair = nextPair(session, instrument);
  session.current = pair && freshTrial(session, instrument, pair);
  if (!pair) session.step = 'review';
}

/** Changes an attempt before sending and keeps what it was. */
export function correct(trial, changes, now) {
  const before = {};
  for (const [name, value] of Object.entries(changes)) {
    if (JSON.stringify(trial[name] ?? null) !== JSON.stringify(value ?? null)) before[name] = trial[name] ?? null;
  }
  if (Object.keys(before).length === 0) return false;
  trial.corrections.push({ at: now, before });
  Object.assign(trial, changes);
  return true;
}
