import { el } from '../dom.js';
import { definition, t } from '../text.js';
import { ask, button, choice } from '../forms.js';
import { handStrip } from '../marks.js';
import { layoutDrawing } from '../drawings/layouts.js';
import { changeDevice, getDevice } from '../store.js';
import { attempts, isDone, openNext, plan, remember, roleOf, ruledOutBy, undo } from '../session.js';
import { arm, press, watch } from '../timing.js';
import { wakeTone } from '../tone.js';
import { endView, openEnd } from './trial-end.js';
import { reviewScreen } from './review.js';

export function trialScreen(app) {
  watch(app);
  const { current } = app.session;
  if (!current) return reviewScreen(app);
  const head = trialHead(app, current);
  if (current.phase === 'running') return el('div', { class: `trial running ${current.hand}` }, head, runningView(app));
  if (current.phase !== 'ready') return el('div', { class: `trial ended ${current.hand}` }, head, endView(app));
  return el('div', { class: `trial ready ${current.hand}` }, head, readyView(app, current));
}

function trialHead(app, trial) {
  const order = plan(app.session, app.instrument);
  const at = order.findIndex((pair) => pair.task === trial.task && pair.hand === trial.hand);
  const again = attempts(app.session, trial).length;
  return [
    handStrip(trial.hand, roleOf(app.session, trial.hand)),
    el('div', { class: 'trial-title' },
      el('h1', {}, t(`task.${trial.task}`), el('span', { class: 'unseen' }, `, ${t(`hand.${trial.hand}`)}`)),
      el('p', {}, t('trial.count', { at: at + 1, all: order.length }), again > 0 && ` · ${t('trial.again', { count: again + 1 })}`),
      trial.phase === 'ready' && el('div', { class: 'small-buttons' },
        app.session.undo.length > 0 && button(t('undo'), () => { app.change((session) => undo(session)); app.draw(true); }, { key: 'undo' }),
        el('a', { class: 'button plain', href: `#/session/${app.session.id}/review`, 'data-key': 'overview' }, t('trial.overview')))),
    el('div', { class: 'beads', 'aria-hidden': 'true' }, order.map((pair, index) => el('span', {
      class: `bead ${pair.hand} ${index === at ? 'now' : isDone(app.session, pair) ? 'done' : ''}`,
    }))),
  ];
}

function readyView(app, trial) {
  const ruled = ruledOutBy(app.session, trial);
  const out = ruled.length > 0 && !trial.override;
  return [
    ruled.length > 0 && el('p', { class: 'notice danger' }, t(out ? 'trial.ruledOut' : 'trial.givenAnyway', { hand: t(`hand.${trial.hand}`), why: ruled.map((id) => t(`precaution.${id}`)).join(', ') })),
    el('div', { class: 'trial-body' }, drawing(app, trial), guide(app, trial)),
    otherWays(app, trial),
    el('div', { class: 'dock' },
      out ? leftOut(app, trial, ruled) : runButton('start', trial)),
  ];
}

function runButton(what, trial) {
  return el('button', {
    type: 'button', class: `run ${what} ${trial.hand}`, 'data-key': 'run',
    onpointerdown: (event) => { wakeTone(); press(event); },
    onclick: press,
    onkeydown: (event) => event.code === 'Enter' && !event.repeat && (event.preventDefault(), press(event)),
  }, el('strong', {}, t(`run.${what}`)), el('span', {}, t(`run.${what}Hint`, { hand: t(`hand.${trial.hand}`) })));
}

function leftOut(app, trial, ruled) {
  const notes = ruled.map((id) => app.session.precautions[id].note.trim()).filter(Boolean);
  const reason = [t('reason.precaution', { why: ruled.map((id) => t(`precaution.${id}`)).join(', ') }), ...notes].join(' ');
  return el('div', { class: 'buttons' },
    button(t('trial.giveAnyway'), async () => {
      const sure = await ask({ title: t('trial.giveAnyway'), text: t('trial.giveAnywayText'), yes: t('trial.giveAnywayYes'), danger: true });
      if (sure) app.change(() => { trial.override = true; });
    }, { kind: 'plain tall', key: 'give-anyway' }),
    button(t('trial.leaveOut'), () => openEnd(app, 'other', { outcome: 'not-given', reason }), { kind: 'primary tall', key: 'leave-out' }));
}

export function drawing(app, trial, view = getDevice().view) {
  return el('figure', { class: 'layout' },
    layoutDrawing(trial.task, trial.hand, view, app.instrument),
    el('figcaption', {}, t('drawing.scale')),
    choice({
      legend: t('drawing.seenFrom'), hidden: true, value: view, key: 'view',
      options: ['patient', 'therapist'].map((value) => ({ value, label: t(`drawing.from.${value}`) })),
      change: async (value) => { await changeDevice({ view: value }); app.draw(); },
    }));
}

function guide(app, trial) {
  const task = app.instrument.tasks.find(({ id }) => id === trial.task);
  return el('div', { class: 'guide' },
    el('section', { class: 'say' }, el('h2', {}, t('trial.say')), el('p', {}, t(`say.${trial.task}`, { hand: t(`hand.${trial.hand}.short`), side: t(`side.${trial.hand}`) }))),
    el('dl', { class: 'rules' },
      el('div', {}, el('dt', {}, t('trial.startsWhen')), el('dd', {}, definition(task.start.text))),
      el('div', {}, el('dt', {}, t('trial.stopsWhen')), el('dd', {}, definition(task.stop.text))),
      el('div', {}, el('dt', {}, t('trial.finishedWhen')), el('dd', {}, t(`finished.${trial.task}`)))),
    materials(app, trial, task),
    el('section', { class: 'practice' },
      button(t('trial.practised'), () => app.change(() => {
        trial.practice += 1;
        if (!trial.departures.includes('practice-allowed')) trial.departures.push('practice-allowed');
      }), { key: 'practised' }),
      el('p', { role: 'status' }, trial.practice > 0 ? t('trial.practices', { count: trial.practice }) : t('trial.practiceHint'))),
    el('details', { class: 'sources' }, el('summary', {}, t('trial.sources')),
      el('ul', {}, sourced(task).map(({ text, source }) => el('li', {}, definition(text), ' ', el('cite', {}, definition(source)))))));
}

function sourced(task) {
  const materialFacts = task.materials.map(({ id, source }) => ({ text: t(`material.${id}`), source }));
  const measureFacts = task.measures.map(({ id, source }) => ({ text: t(`measure.${id}`), source }));
  return [...task.layout, task.start, task.stop, ...measureFacts, ...materialFacts];
}

function materials(app, trial, task) {
  return el('fieldset', { class: 'materials' },
    el('legend', {}, t('trial.materials', { done: trial.laid.length, all: task.materials.length })),
    task.materials.map(({ id, count, size }) => el('label', { class: 'check' },
      el('input', {
        type: 'checkbox', checked: trial.laid.includes(id), 'data-key': `laid-${id}`,
        onchange: (event) => app.change(() => { trial.laid = event.target.checked ? [...trial.laid, id] : trial.laid.filter((other) => other !== id); }),
      }),
      el('span', {}, el('b', {}, `${count} × `), t(`material.${id}`), size && el('small', {}, ` ${definition(size)}`)))),
    task.layout.map(({ text }) => el('p', { class: 'laying' }, definition(text))));
}

function otherWays(app, trial) {
  const tried = attempts(app.session, trial).filter(({ outcome }) => outcome !== 'not-given');
  const leave = () => {
    app.change((session) => {
      remember(session);
      attempts(session, trial).at(-1).repeat = false;
      openNext(session, app.instrument);
    }, { redraw: false });
    app.goStep(app.session.step);
  };
  return el('section', { class: 'other-ways', 'aria-label': t('trial.otherWays') },
    el('h2', {}, t('trial.otherWays')),
    el('div', { class: 'buttons' },
      button(t('trial.typeTime'), () => openEnd(app, 'typed', { outcome: 'completed' }), { key: 'type-time' }),
      ['unable', 'declined', ...(tried.length > 0 ? [] : ['not-given'])].map((outcome) => button(t(`outcome.${outcome}`), () => openEnd(app, 'other', { outcome }), { key: outcome })),
      tried.at(-1)?.repeat && button(t('trial.leaveVoid'), leave, { key: 'leave-void' })));
}

function runningView(app) {
  const { current, setup } = app.session;
  const display = el('span', { class: 'elapsed', role: 'timer', 'aria-live': 'off', 'aria-label': t('run.elapsed') });
  arm(app, display);
  return [
    el('div', { class: 'running-info' },
      el('p', { class: 'clock' }, display, ' ', el('abbr', { title: t('seconds') }, t('seconds.unit'))),
      setup.capInForce && el('p', { class: current.capReached ? 'notice danger cap' : 'cap' }, t(current.capReached ? 'run.capReached' : 'run.cap', { cap: setup.capSeconds })),
      button(t('run.undoStart'), () => { app.change((session) => undo(session)); app.draw(true); }, { key: 'undo' })),
    el('div', { class: 'dock fill' }, runButton('stop', current)),
  ];
}
