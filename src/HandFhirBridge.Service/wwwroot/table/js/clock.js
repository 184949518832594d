// Time at the table. Elapsed time is the difference of two event timestamps of one monotonic clock; ticks are never counted.
// The wall clock is noted beside it. Where the two disagree, or nobody can have watched, the time is doubtful and the therapist decides.

/** Two monotonic marks can be compared only within one life of the page. */
const life = crypto.randomUUID();

/** The two clocks are read at slightly different moments, and the wall clock may be slewed by a few milliseconds. */
const disagreementMilliseconds = 100;

/** When the event happened (not when it was handled), on both clocks, in milliseconds. */
export function mark(event) {
  const now = performance.now();
  const stamp = event?.timeStamp;
  const monotonic = stamp > 0 && stamp <= now ? stamp : now;
  return { monotonic, wall: Date.now() - (now - monotonic), life };
}

/** Milliseconds since `start`, for show. */
export function since(start) {
  return start.life === life ? performance.now() - start.monotonic : Date.now() - start.wall;
}

/**
 * The time between two marks: milliseconds, and why it is doubtful (empty if it is not).
 * `hiddenMilliseconds` is how long the page was not on the screen in between, null if it always was.
 */
export function reading(start, stop, hiddenMilliseconds) {
  const byWall = stop.wall - start.wall;
  const sameLife = start.life === stop.life;
  const milliseconds = sameLife ? stop.monotonic - start.monotonic : byWall;
  const doubts = [];
  if (!sameLife) doubts.push('reloaded');
  else if (Math.abs(byWall - milliseconds) > disagreementMilliseconds) doubts.push('clocks-disagree');
  if (hiddenMilliseconds !== null) doubts.push('hidden');
  return { milliseconds, doubts, wallMilliseconds: byWall };
}

/** Seconds to the hundredth, as text: 12400 ms is "12.40". */
export function secondsText(milliseconds) {
  const hundredths = Math.max(1, Math.round(milliseconds / 10));
  return `${Math.floor(hundredths / 100)}.${String(hundredths % 100).padStart(2, '0')}`;
}

/** RFC 3339 to the second, with the offset of this place. */
export function instantText(milliseconds) {
  const date = new Date(milliseconds);
  const pad = (number) => String(number).padStart(2, '0');
  const offset = -date.getTimezoneOffset();
  const zone = `${offset < 0 ? '-' : '+'}${pad(Math.floor(Math.abs(offset) / 60))}:${pad(Math.abs(offset) % 60)}`;
  return `${date.getFullYear()}-${pad(date.getMonth() + 1)}-${pad(date.getDate())}`
    + `T${pad(date.getHours())}:${pad(date.getMinutes())}:${pad(date.getSeconds())}${zone}`;
}

/** Date and time for an input of this place: 2026-03-02T09:05. */
export const localInputText = (milliseconds) => instantText(milliseconds).slice(0, 16);
