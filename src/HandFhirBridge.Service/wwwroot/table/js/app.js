// Starts the page, keeps its facts, and shows the screen that the address names.
import { announce, el } from './dom.js';
import { loadText, t } from './text.js';
import * as api from './api.js';
import * as store from './store.js';
import { release, releaseAllBut, take } from './locks.js';
import { startOutbox } from './outbox.js';
import { registerWorker } from './installing.js';
import { renderTop } from './top.js';
import { screens, sessionScreens } from './screens/index.js';

const app = {
  instrument: null,
  sites: [],
  about: { demonstration: false },
  session: null,
  screen: '',
  clockOffBy: 0,

  /** Changes the session at the table; it is written at once. Redraws unless told not to. */
  async change(mutate, { redraw = true } = {}) {
    mutate(app.session);
    const written = store.save(app.session);
    if (redraw) app.draw();
    return written;
  },

  go(hash) {
    if (location.hash === hash) app.draw(true);
    else location.hash = hash;
  },

  /** Goes to a step of the session at the table and remembers it as the place to resume at. */
  goStep(step) {
    app.session.step = step;
    store.save(app.session);
    app.go(`#/session/${app.session.id}/${step}`);
  },

  loadFacts,

  draw(fresh = false) {
    const kept = fresh ? null : document.activeElement?.dataset?.key;
    const caret = kept && document.activeElement.tagName === 'TEXTAREA' ? document.activeElement.selectionStart : null;
    const scroll = fresh ? 0 : scrollY;
    const main = document.getElementById('screen');
    const route = app.route();
    document.body.dataset.screen = route.name;
    main.replaceChildren(...[route.show(app)].flat(Infinity).filter(Boolean));
    renderTop(app);
    const target = kept && main.querySelector(`[data-key="${CSS.escape(kept)}"]`);
    if (target) target.focus({ preventScroll: true });
    if (target && caret !== null) target.setSelectionRange(caret, caret);
    scrollTo(0, scroll);
    if (fresh) {
      const heading = main.querySelector('h1');
      heading?.setAttribute('tabindex', '-1');
      // Finding out what can take the focus lays the page out; that can wait until it is laid out anyway.
      requestAnimationFrame(() => {
        if (heading?.isConnected && !main.contains(document.activeElement)) heading.focus({ preventScroll: true });
      });
      document.title = `${heading?.textContent ?? ''} · ${t('app.title')}`;
    }
  },

  route() {
    const [, name = '', id, step] = location.hash.split('/');
    if (name === 'session' && app.session?.id === id) {
      return { name: step, show: sessionScreens[step] ?? sessionScreens.patient };
    }
    return { name: name || 'home', show: screens[name] ?? (name === 'session' ? screens.taken : screens.home) };
  },
};

async function follow() {
  const [, name, id, step] = location.hash.split('/');
  releaseAllBut(id);
  app.session = null;
  if (name === 'session') {
    const session = store.getSession(id);
    if (!session) return app.go('#/');
    if (await take(id)) {
      app.session = session;
      if (!step) return app.go(`#/session/${id}/${session.step}`);
    }
  }
  app.draw(true);
  return undefined;
}

async function loadFacts() {
  const [instrument, sites, about] = await Promise.allSettled([api.getInstrument(), api.getSites(), api.getAbout()]);
  if (instrument.status === 'fulfilled') app.instrument = numbers(instrument.value);
  if (sites.status === 'fulfilled') app.sites = sites.value;
  if (about.status === 'fulfilled') {
    app.about = about.value.body;
    app.clockOffBy = about.value.off;
  }
  await adoptOnlySite();
}

// A service of one clinic leaves nothing to choose.
async function adoptOnlySite() {
  const device = store.getDevice();
  if (device.site || app.sites.length !== 1) return;
  const [site] = app.sites;
  await store.changeDevice({
    site: site.id, patientSystem: site.patientSystem ?? device.patientSystem, staffSystem: site.staffSystem ?? device.staffSystem,
  });
}

// Only times need their digits kept; what the definition counts with are numbers.
function numbers(instrument) {
  return { ...instrument, maxSeconds: Number(instrument.maxSeconds), maxDecimals: Number(instrument.maxDecimals) };
}

function moved(session) {
  renderTop(app);
  if (app.session?.id !== session.id || app.route().name !== 'sent') return;
  app.session = store.getSession(session.id);
  announce(t(`delivery.${session.delivery.state}`));
  app.draw();
}

async function start() {
  await loadText();
  const main = document.getElementById('screen');
  if (!isSecureContext || !navigator.locks || !indexedDB) {
    main.replaceChildren(el('h1', {}, t('app.title')), el('p', { class: 'notice danger' }, t('app.notPossible')));
    return;
  }
  await store.openStore();
  await loadFacts();
  store.onChange((what) => {
    renderTop(app);
    if (what === 'elsewhere' && app.route().name === 'home') app.draw();
  });
  addEventListener('hashchange', follow);
  addEventListener('pagehide', () => app.session && release(app.session.id));
  addEventListener('pageshow', (event) => event.persisted && follow());
  for (const change of ['online', 'offline']) addEventListener(change, () => renderTop(app));
  await registerWorker(app);
  await follow();
  startOutbox(moved);
  performance.mark('table-ready');
}

start();
