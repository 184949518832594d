// The session document, as the service takes it: docs and schema are the service's. Decimals are written as the digits entered.
import { attempts, countedAttempt, dominantHand, outcomesWithReason, outcomesWithTime } from './session.js';
import { conclusionOf, isSigned } from './conclusion.js';
import { instantText } from './clock.js';
import { t } from './text.js';

/** Digits that go into the document as they are. */
class Digits {
  constructor(text) {
    if (!/^-?\d+(\.\d+)?$/.test(text)) throw new Error('Not a number');
    this.text = text;
  }
}

const digits = (text) => (text === null || text === undefined || text === '' ? undefined : new Digits(String(text)));

function write(value) {
  if (value instanceof Digits) return value.text;
  if (Array.isArray(value)) return `[${value.map(write).join(',')}]`;
  if (value !== null && typeof value === 'object') {
    const members = Object.entries(value).filter(([, member]) => member !== undefined && member !== null);
    return `{${members.map(([name, member]) => `${JSON.stringify(name)}:${write(member)}`).join(',')}}`;
  }
  return JSON.stringify(value);
}

const text = (typed) => typed?.trim() || undefined;
const list = (entries) => (entries?.length ? entries : undefined);

/** The document of `session` as JSON text. */
export function documentText(session, instrument) {
  return write({
    $schema: 'https://handfhirbridge.example/schemas/session-1.json',
    schemaVersion: '1',
    sessionId: session.id,
    revision: session.revision,
    site: session.site,
    instrument: { id: instrument.id, version: instrument.version },
    patient: {
      identifier: { system: session.patient.system, value: session.patient.value.trim() },
      familyName: session.patient.familyName.trim(),
      birthDate: session.patient.birthDate,
    },
    performer: {
      identifier: { system: session.performer.system, value: session.performer.value.trim() },
      name: session.performer.name.trim(),
      role: session.performer.role,
    },
    startedAt: instantText(session.startedAt),
    endedAt: instantText(session.endedAt),
    dominance: dominance(session),
    sexForNorm: session.sexForNorm,
    setup: setup(session.setup),
    precautions: list(precautions(session, instrument)),
    trials: trials(session),
    comment: text(session.comment),
    conclusion: isSigned(session) ? { text: text(session.conclusion.text), signedAt: instantText(session.conclusion.signedAt) } : undefined,
  });
}

function dominance(session) {
  const { handedness, howKnown, lateralityQuotient } = session.dominance;
  return { handedness, howKnown, lateralityQuotient: digits(lateralityQuotient), testedAsDominant: dominantHand(session) };
}

function setup(given) {
  const length = (value) => (text(value) ? { value: digits(text(value)), unit: given.unit } : undefined);
  return {
    glasses: given.glasses,
    templateBoard: given.templateBoard,
    capSeconds: given.capInForce ? digits(given.capSeconds) : undefined,
    tableHeight: length(given.tableHeight),
    chairHeight: length(given.chairHeight),
    edgeToItems: length(given.edgeToItems),
    betweenItems: length(given.betweenItems),
    itemsReplaced: list(given.itemsReplaced.map(({ item, replacedBy }) => ({ item, replacedBy: replacedBy.trim() }))),
    kit: text(given.kitName) ? { name: text(given.kitName), serialNumber: text(given.kitSerial) } : undefined,
  };
}

function precautions(session, instrument) {
  return instrument.precautions.filter(({ id }) => session.precautions[id]).map(({ id }) => {
    const { answer, rulesOut, hands, note } = session.precautions[id];
    const applies = answer !== 'no';
    return {
      precaution: id, answer,
      rulesOut: applies ? list(rulesOut) : undefined,
      hands: applies ? list(hands) : undefined,
      note: text(note),
    };
  });
}

function trials(session) {
  const began = startTimes(session);
  return session.trials.map((trial, index) => {
    const timed = outcomesWithTime.includes(trial.outcome);
    return {
      task: trial.task,
      hand: trial.hand,
      outcome: trial.outcome,
      seconds: timed ? digits(trial.seconds) : undefined,
      startedAt: began[index] === null ? undefined : instantText(began[index]),
      source: timed ? trial.source : undefined,
      counted: trial === countedAttempt(session, trial) || attempts(session, trial).length === 1 ? undefined : false,
      departures: list(trial.departures),
      reason: timed ? undefined : text(trial.reason),
      note: notes(trial, began[index] === null && trial.startedAt ? t('note.clockMoved') : null),
    };
  });
}

// A start that does not fit its neighbours comes from a clock that was moved: it is left out, and the note says so.
function startTimes(session) {
  const whole = (milliseconds) => Math.floor(milliseconds / 1000);
  let latest = session.startedAt;
  return session.trials.map(({ startedAt }) => {
    if (!startedAt || whole(startedAt) < whole(latest) || whole(startedAt) > whole(session.endedAt)) return null;
    latest = startedAt;
    return startedAt;
  });
}

function notes(trial, remark) {
  const old = trial.corrections.map(({ before }) => t('note.corrected', {
    was: Object.entries(before).map(([name, value]) => t('note.was', { field: t(`field.${name}`), value: shown(name, value) })).join('; '),
  }));
  return text([text(trial.note), text(trial.remark), remark, ...old].filter(Boolean).join(' '));
}

function shown(name, value) {
  if (value === null || value === '' || value?.length === 0) return t('note.nothing');
  if (name === 'outcome') return t(`outcome.${value}`);
  if (name === 'departures') return value.join(', ');
  return String(value);
}

/** What is still missing before the document can be sent: keys of the text file, each with the step where it is mended. */
export function missing(session, instrument) {
  const gaps = [];
  const need = (present, step, key) => { if (!present) gaps.push({ step, key }); };
  need(session.patient.value.trim() && session.patient.system, 'patient', 'missing.patientNumber');
  need(session.patient.familyName.trim() && session.patient.birthDate, 'patient', 'missing.patientName');
  need(session.patient.confirmed, 'patient', 'missing.patientConfirmed');
  need(session.performer.value.trim() && session.performer.name.trim() && session.performer.role && session.performer.system, 'performer', 'missing.performer');
  need(dominantHand(session) && session.dominance.howKnown, 'dominance', 'missing.dominance');
  need(instrument.precautions.every(({ id }) => session.precautions[id]), 'precautions', 'missing.precautions');
  need(session.sexForNorm, 'setup', 'missing.sex');
  need(session.setup.glasses && session.setup.templateBoard !== null && session.setup.capInForce !== null, 'setup', 'missing.setup');
  need(!session.trials.some((trial) => outcomesWithReason.includes(trial.outcome) && !trial.reason?.trim()), 'review', 'missing.reason');
  need(isSigned(session) || !conclusionOf(session).text.trim(), 'review', 'missing.signature');
  return gaps;
}
