// Runs a view (SQL on FHIR v2) over NDJSON with npm fhirpath, an engine independent of the .NET SDK's.
// Usage: node view-rows.mjs VIEW.json RESOURCES.ndjson [--times N]
// Knows where, constants, columns, forEach and sibling selects: what our own views use. No runner of views is to be had from npm;
// this does with fhirpath what one does: each expression compiled once, then evaluated for each resource.
// Prints the rows as NDJSON; with --times the file is run N times instead, and one line says {"rows", "milliseconds"} of the fastest.
// Exit codes: 0 done, 1 a column with several values, 2 usage.
import { readFileSync } from 'node:fs';
import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4/index.js';

const [viewFile, resources, option, times] = process.argv.slice(2);
if (!resources || (option && (option !== '--times' || !(Number(times) > 0)))) {
  console.error('usage: node view-rows.mjs VIEW.json RESOURCES.ndjson [--times N]');
  process.exit(2);
}

const view = JSON.parse(readFileSync(viewFile, 'utf8'));
const constants = Object.fromEntries((view.constant ?? []).map((c) => [c.name, Object.entries(c).find(([key]) => key.startsWith('value'))[1]]));
const keyOf = (reference) => /^(?!urn:|#)(?:.*\/)?([A-Z]\w+)\/([A-Za-z0-9.-]+)(?:\/_history\/.*)?$/.exec(reference ?? '')?.slice(1).join('/');
const plain = (node) => node?.data ?? node;
const options = {
  userInvocationTable: {
    getResourceKey: { fn: (inputs) => inputs.map((i) => `${plain(i).resourceType}/${plain(i).id}`), arity: { 0: [] } },
    getReferenceKey: {
      fn: (inputs, type) => inputs.map((i) => keyOf(plain(i).reference)).filter((key) => key && (!type || key.startsWith(`${type}/`))),
      arity: { 0: [], 1: ['String'] },
    },
  },
};
const compile = (path, base) => fhirpath.compile(base ? { base, expression: text(path) } : text(path), r4, options);
const text = (path) => path.replaceAll(/getReferenceKey\((\w+)\)/g, "getReferenceKey('$1')");
const where = (view.where ?? []).map(({ path }) => compile(path));
const selects = view.select.map(({ forEach, column }) => ({
  over: forEach && compile(forEach),
  columns: column.map(({ name, path }) => ({ name, value: compile(path, forEach && `${view.resource}.${forEach}`) })),
}));

function* rowsOf(resource) {
  if (resource.resourceType !== view.resource || !where.every((holds) => holds(resource, constants)[0] === true)) return;
  let rows = [{}];
  for (const { over, columns } of selects) {
    const items = over ? over(resource, constants) : [resource];
    rows = rows.flatMap((row) => items.map((item) => ({ ...row, ...Object.fromEntries(columns.map((column) => [column.name, cell(column, item, resource)])) })));
  }
  yield* rows;
}

function cell({ name, value }, item, resource) {
  const values = value(item, constants);
  if (values.length > 1) {
    console.error(`${name} has several values in ${resource.resourceType}/${resource.id}`);
    process.exit(1);
  }
  return values[0] ?? null;
}

function* run() {
  for (const line of readFileSync(resources, 'utf8').split('\n')) if (line) yield* rowsOf(JSON.parse(line));
}

if (!option) {
  for (const row of run()) console.log(JSON.stringify(row));
} else {
  let best = Infinity, rows = 0;
  for (let time = 0; time < Number(times); time++) {
    const start = performance.now();
    rows = 0;
    for (const _ of run()) rows++;
    best = Math.min(best, performance.now() - start);
  }
  console.log(JSON.stringify({ rows, milliseconds: best }));
}
