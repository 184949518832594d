// The service worker keeps the page; a new version waits until no session is open.
import { allSessions } from './store.js';

export async function registerWorker(app) {
  if (!navigator.serviceWorker) return;
  try {
    const registration = await navigator.serviceWorker.register('sw.js');
    app.updateWaiting = () => registration.waiting !== null && navigator.serviceWorker.controller !== null;
    app.update = () => {
      navigator.serviceWorker.addEventListener('controllerchange', () => location.reload(), { once: true });
      registration.waiting.postMessage('take-over');
    };
    registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', () => {
      if (app.route().name === 'home') app.draw();
    }));
  } catch {
    // Without the worker everything works as long as the network does.
  }
}

/** An update is offered only while nobody is in the middle of a session. */
export const mayUpdate = (app) => app.updateWaiting?.() && !allSessions().some((session) => session.step === 'trials');
