// One session, one tab. The lock goes by itself when the tab closes or dies.
const held = new Map();

/** True if this tab now has the session `id` to itself. */
export async function take(id) {
  if (held.has(id)) return true;
  return new Promise((resolve) => {
    navigator.locks.request(`table-session-${id}`, { ifAvailable: true }, (lock) => {
      if (!lock) {
        resolve(false);
        return null;
      }
      return new Promise((release) => {
        held.set(id, release);
        resolve(true);
      });
    });
  });
}

export function release(id) {
  held.get(id)?.();
  held.delete(id);
}

export function releaseAllBut(id) {
  for (const other of [...held.keys()]) if (other !== id) release(other);
}

/** Runs `work` if no other tab is at it; returns undefined without running it otherwise. */
export const alone = (name, work) => navigator.locks.request(`table-${name}`, { ifAvailable: true }, (lock) => (lock ? work() : undefined));

/** True if another tab holds any session. */
export async function othersAtWork() {
  const { held: all } = await navigator.locks.query();
  return all.filter((lock) => lock.name.startsWith('table-session-')).length > held.size;
}
