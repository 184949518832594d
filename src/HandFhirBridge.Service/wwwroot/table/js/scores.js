// Scores of the session as the service gives them, asked again when the session changed.
import { preview, Unreachable } from './api.js';
import { documentText, missing } from './document.js';
import { isDone, plan } from './session.js';

export const allGiven = (session, instrument) => plan(session, instrument).every((pair) => isDone(session, pair));

/** { state: incomplete | asking | done | unreachable, problems, report, draft } for the session at the table. */
export function scores(app) {
  const { session, instrument } = app;
  if (missing(session, instrument).some(({ key }) => key !== 'missing.signature') || !allGiven(session, instrument)) return { state: 'incomplete', problems: [], report: null, draft: null };
  const text = documentText(session, instrument);
  if (app.scored?.text !== text) {
    app.scored = { text, state: 'asking', problems: [], report: null, draft: null };
    ask(app, app.scored);
  }
  return app.scored;
}

/** Asks once more after the service could not be reached. */
export function askAgain(app) {
  app.scored = null;
  app.draw();
}

async function ask(app, scored) {
  try {
    const { problems, report, conclusionDraft } = await preview(scored.text);
    Object.assign(scored, { state: 'done', problems: problems ?? [], report: report ?? null, draft: conclusionDraft ?? null });
  } catch (error) {
    if (!(error instanceof Unreachable)) throw error;
    scored.state = 'unreachable';
  }
  if (app.scored === scored && ['review', 'sent'].includes(app.route().name)) app.draw();
}
