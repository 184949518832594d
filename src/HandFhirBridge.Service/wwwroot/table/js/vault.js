// Keeps sessions on this device, enciphered. The key can be used but not read out, and goes first when the device is cleared:
// what may remain of the store on the disk can then no longer be read.
const databaseName = 'handfhirbridge-table';
let database;
let key;

const done = (request) => new Promise((resolve, reject) => {
  request.onsuccess = () => resolve(request.result);
  request.onerror = () => reject(request.error);
});

async function open() {
  const request = indexedDB.open(databaseName, 1);
  request.onupgradeneeded = () => {
    request.result.createObjectStore('keys');
    request.result.createObjectStore('sealed');
    request.result.createObjectStore('device');
  };
  const opened = await done(request);
  // Another tab clears the device: let go, so that it can.
  opened.onversionchange = () => opened.close();
  return opened;
}

async function loadKey() {
  const existing = await done(database.transaction('keys').objectStore('keys').get('content'));
  if (existing) return existing;
  const fresh = await crypto.subtle.generateKey({ name: 'AES-GCM', length: 256 }, false, ['encrypt', 'decrypt']);
  // Two tabs may do this at once; the first key written is the one both use.
  const transaction = database.transaction('keys', 'readwrite', { durability: 'strict' });
  const store = transaction.objectStore('keys');
  const first = await done(store.get('content'));
  if (first) return first;
  await done(store.put(fresh, 'content'));
  return fresh;
}

export async function openVault() {
  database = await open();
  key = await loadKey();
  // Asks not to be swept away when the disk runs full; a refusal changes nothing here.
  await navigator.storage?.persist?.();
}

/** Writes `value` under `id`; resolves when it is on the disk. */
export async function seal(id, value) {
  const record = await encipher(value);
  await written('sealed', (store) => store.put(record, id));
}

export async function unseal(id) {
  const record = await done(database.transaction('sealed').objectStore('sealed').get(id));
  return record ? decipher(record) : null;
}

export async function unsealAll() {
  const store = database.transaction('sealed').objectStore('sealed');
  const [ids, records] = await Promise.all([done(store.getAllKeys()), done(store.getAll())]);
  return new Map(await Promise.all(ids.map(async (id, index) => [id, await decipher(records[index])])));
}

export const remove = (id) => written('sealed', (store) => store.delete(id));

/** Settings of the device: nothing about a patient. */
export const readDevice = () => done(database.transaction('device').objectStore('device').get('settings'));
export const writeDevice = (settings) => written('device', (store) => store.put(settings, 'settings'));

/** The key by which this device signs in, enciphered like the sessions and forgotten with them; empty for none. */
export async function readAccess() {
  const record = await done(database.transaction('device').objectStore('device').get('access'));
  return record ? decipher(record) : '';
}

export async function writeAccess(secret) {
  const record = await encipher(secret);
  await written('device', (store) => (secret === '' ? store.delete('access') : store.put(record, 'access')));
}

/** Forgets the key, then everything else but the device's own settings. */
export async function clearVault() {
  const settings = await readDevice();
  await written('keys', (store) => store.clear());
  await written('sealed', (store) => store.clear());
  database.close();
  await done(indexedDB.deleteDatabase(databaseName));
  await openVault();
  if (settings) await writeDevice(settings);
}

async function encipher(value) {
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const data = await crypto.subtle.encrypt({ name: 'AES-GCM', iv }, key, new TextEncoder().encode(JSON.stringify(value)));
  return { iv, data };
}

async function decipher({ iv, data }) {
  return JSON.parse(new TextDecoder().decode(await crypto.subtle.decrypt({ name: 'AES-GCM', iv }, key, data)));
}

function written(storeName, change) {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(storeName, 'readwrite', { durability: 'strict' });
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
    change(transaction.objectStore(storeName));
  });
}
