// Starting and stopping a trial: what is pressed, when exactly, whether the page was seen meanwhile, and when the cap is reached.
import { announce } from './dom.js';
import { t } from './text.js';
import { mark, reading, secondsText, since } from './clock.js';
import { remember } from './session.js';
import { hundredths } from './seconds.js';
import { getDevice, save } from './store.js';
import { tone } from './tone.js';

// Nobody finishes a task this fast: a second press is a bounce of the finger.
const bounceMilliseconds = 300;
let table;
let hiddenSince = null;
let ticker = null;
let capTimer = null;
let lastPress = 0;
let pressing = false;

const running = () => table?.session?.current?.phase === 'running' && table.route().name === 'trials';

/** Listens for what can end or spoil a trial. Called once. */
export function watch(app) {
  if (table) return;
  table = app;
  addEventListener('keydown', (event) => {
    if (event.code !== 'Space' || event.repeat || document.querySelector('dialog[open]')) return;
    const inControl = event.target.closest?.('input, textarea, select, summary, a, button:not(.run), [role=button]');
    if (inControl || !document.querySelector('button.run')) return;
    event.preventDefault();
    press(event);
  });
  // A press redraws the page at once. What the browser makes of the same finger when it is lifted would hit whatever lies there now.
  addEventListener('pointerdown', () => { pressing = false; }, true);
  for (const name of ['mousedown', 'click']) {
    addEventListener(name, (event) => {
      if (!pressing || event.detail === 0) return;
      event.preventDefault();
      event.stopImmediatePropagation();
    }, true);
  }
  document.addEventListener('visibilitychange', () => (document.hidden ? unseen() : seen()));
  document.addEventListener('freeze', unseen);
  document.addEventListener('resume', seen);
}

function unseen() {
  if (!running() || hiddenSince !== null) return;
  hiddenSince = performance.now();
  const { current } = table.session;
  current.hiddenMilliseconds ??= 0;
  save(table.session);
}

function seen() {
  if (hiddenSince === null) return;
  if (running()) {
    table.session.current.hiddenMilliseconds += performance.now() - hiddenSince;
    save(table.session);
  }
  hiddenSince = null;
}

/** Start or stop, on the press itself. A click counts only if no press came before it (assistive technology). */
export function press(event) {
  if (event.type === 'click' && performance.now() - lastPress < 1000) return;
  if (event.type === 'pointerdown' && event.button !== 0) return;
  if (event.type !== 'click') lastPress = performance.now();
  pressing = event.type === 'pointerdown';
  const { current } = table.session;
  if (current.phase === 'ready') start(event);
  else if (current.phase === 'running') stop(event);
}

function start(event) {
  const { session } = table;
  const at = mark(event);
  remember(session);
  Object.assign(session.current, { phase: 'running', start: at, stop: null, hiddenMilliseconds: null, capReached: false });
  shown('start', at);
  announce(t('run.started'));
}

function stop(event) {
  const { session } = table;
  const { current } = session;
  const at = mark(event);
  if (at.life === current.start.life && at.monotonic - current.start.monotonic < bounceMilliseconds) return;
  seen();
  const read = reading(current.start, at, current.hiddenMilliseconds);
  const seconds = secondsText(read.milliseconds);
  remember(session);
  Object.assign(current, { phase: 'stopped', stop: at, read: { ...read, seconds } });
  current.end = { outcome: beyondCap(session, seconds) ? 'stopped-at-cap' : 'completed', reason: '', typed: '', doubt: null };
  disarm();
  shown('stop', at);
  announce(t(read.doubts.length > 0 ? 'run.stoppedDoubtful' : 'run.stopped', { seconds }));
}

/** True if `seconds` are more than the cap in force allows. */
export const beyondCap = (session, seconds) => session.setup.capInForce && hundredths(seconds) > hundredths(session.setup.capSeconds);

function shown(what, at) {
  table.draw(true);
  // How long from the press until the page had answered it.
  performance.measure(`table-${what}`, { start: at.monotonic, end: performance.now() });
  save(table.session);
}

/** Keeps the running time on the screen and watches for the cap. `display` is where the time is shown. */
export function arm(app, display) {
  disarm();
  const { current, setup } = app.session;
  const calm = matchMedia('(prefers-reduced-motion: reduce)').matches;
  const show = () => { display.textContent = (since(current.start) / 1000).toFixed(calm ? 0 : 1); };
  show();
  ticker = setInterval(show, calm ? 1000 : 100);
  if (!setup.capInForce || current.capReached) return;
  const capMilliseconds = hundredths(setup.capSeconds) * 10;
  const check = () => {
    const left = capMilliseconds - since(current.start);
    if (left > 0) capTimer = setTimeout(check, left);
    else capIsReached(app);
  };
  check();
}

export function disarm() {
  clearInterval(ticker);
  clearTimeout(capTimer);
}

function capIsReached(app) {
  if (!running()) return;
  app.session.current.capReached = true;
  if (getDevice().tone) tone();
  announce(t('run.capReached', { cap: app.session.setup.capSeconds }), true);
  // Not from within the drawing that armed the timer.
  setTimeout(() => running() && app.draw());
}
