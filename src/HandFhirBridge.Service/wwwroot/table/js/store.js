// Sessions in memory and in the vault. Every change is written at once; what the header says about it is true.
import * as vault from './vault.js';
import { announce } from './dom.js';
import { useKey } from './api.js';
import { t } from './text.js';

const sessions = new Map();
const listeners = new Set();
const channel = new BroadcastChannel('table');
let writing = Promise.resolve();
let pending = 0;
let failed = false;
let device;
let access = '';

const defaults = {
  site: '', patientSystem: '', staffSystem: '', unit: 'in', paper: 'a4', capSeconds: '120', tone: true, view: 'patient', performer: null,
};

export async function openStore() {
  await vault.openVault();
  device = { ...defaults, ...(await vault.readDevice()) };
  access = await vault.readAccess();
  useKey(access);
  for (const [id, session] of await vault.unsealAll()) sessions.set(id, session);
}

export const onChange = (listener) => listeners.add(listener);
const tell = (what) => listeners.forEach((listener) => listener(what));

export const getDevice = () => device;

export async function changeDevice(changes) {
  device = { ...device, ...changes };
  await vault.writeDevice(device);
}

/** The key by which this device signs in; empty for none. */
export const getAccess = () => access;

export async function changeAccess(secret) {
  access = secret;
  useKey(access);
  await vault.writeAccess(access);
}

export const getSession = (id) => sessions.get(id) ?? null;
export const allSessions = () => [...sessions.values()].sort((a, b) => a.createdAt - b.createdAt);

/** Sessions that are nowhere but on this device, oldest first. */
export const onlyHere = () => allSessions().filter((session) => !isHandedOver(session));

export const isHandedOver = (session) => ['accepted', 'sending', 'delivered', 'held', 'failed'].includes(session.delivery?.state);

/** saved, saving or failed. */
export const saveState = () => (failed ? 'failed' : pending > 0 ? 'saving' : 'saved');

/** Keeps `session`; resolves true when it is on the disk. */
export function save(session) {
  session.changedAt = Date.now();
  sessions.set(session.id, session);
  const copy = structuredClone(session);
  return enqueue(() => vault.seal(session.id, copy), session.id);
}

export function discard(id) {
  sessions.delete(id);
  return enqueue(() => vault.remove(id), id);
}

// One write after the other, so that an older state never overtakes a newer one.
function enqueue(work, id) {
  pending += 1;
  tell('saving');
  writing = writing.then(work).then(
    () => { failed = false; return true; },
    () => { failed = true; announce(t('save.failedSpoken'), true); return false; },
  ).finally(() => {
    pending -= 1;
    tell('saving');
    channel.postMessage({ id });
  });
  return writing;
}

export async function clearAll() {
  await writing;
  sessions.clear();
  await vault.clearVault();
  access = '';
  useKey(access);
  device = { ...device, performer: null };
  await vault.writeDevice(device);
  channel.postMessage({ cleared: true });
}

channel.onmessage = async ({ data }) => {
  if (data.cleared) {
    location.hash = '#/';
    location.reload();
    return;
  }
  const fresh = await vault.unseal(data.id);
  if (fresh) sessions.set(data.id, fresh);
  else sessions.delete(data.id);
  tell('elsewhere');
};
