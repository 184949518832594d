// Lays what SUSHI generated as the content of a FHIR package, apart from the examples that only check invariants.
// Usage: node assemble.mjs SUSHI_RESOURCES SUSHI_CONFIG OUT     (called by generate.sh)
// OUT/package: package.json, .index.json, one JSON a definition, example/ with the other examples.
// OUT/checks: passes/ and fails/ with one example of each kind for each invariant, and index.json that says which is which.
// The output depends on the input alone: no date, no order of a file system.
// Exit codes: 0 done, 1 an example misnamed or an invariant without both examples, 2 usage.
import { mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const [source, config, out] = process.argv.slice(2);
if (!out) {
  console.error('usage: node assemble.mjs SUSHI_RESOURCES SUSHI_CONFIG OUT');
  process.exit(2);
}

const definitions = new Set(['StructureDefinition', 'ValueSet', 'CodeSystem', 'ConceptMap', 'Questionnaire', 'PlanDefinition']);
const publisher = 'HandFhirBridge';
const setting = (name) => readFileSync(config, 'utf8').match(new RegExp(`^${name}: *(.+)$`, 'm'))[1].trim();
const write = (path, value) => writeFileSync(path, `${JSON.stringify(value, undefined, 2)}\n`);
const byName = (a, b) => (a < b ? -1 : 1);

for (const folder of ['package/example', 'checks/passes', 'checks/fails']) mkdirSync(join(out, folder), { recursive: true });

const index = [], checks = [], invariants = new Map(), wrong = [];
for (const filename of readdirSync(source).sort(byName)) {
  const resource = JSON.parse(readFileSync(join(source, filename), 'utf8'));
  const { resourceType, id, url, version, kind, type, derivation } = resource;
  if (definitions.has(resourceType)) {
    write(join(out, 'package', filename), withPublisher(resource));
    index.push({ filename, resourceType, id, url, version, kind, type, derivation });
    for (const element of resource.differential?.element ?? [])
      for (const { key } of element.constraint ?? []) invariants.set(key, [...(invariants.get(key) ?? []), url]);
    continue;
  }
  const [, invariant, side] = /^(hfb-\d+)-(passes|fails)$/.exec(id) ?? [];
  if (!invariant) {
    write(join(out, 'package', 'example', filename), resource);
    continue;
  }
  write(join(out, 'checks', side, filename), resource);
  checks.push({ file: `${side}/${filename}`, invariant, expect: side, profile: resource.meta.profile[0] });
}

for (const key of invariants.keys())
  for (const side of ['passes', 'fails'])
    if (!checks.some((check) => check.invariant === key && check.expect === side)) wrong.push(`${key} has no example that ${side}`);
for (const { file, invariant } of checks) if (!invariants.has(invariant)) wrong.push(`${file}: no profile states ${invariant}`);

const order = (check) => Number(check.invariant.slice('hfb-'.length));
checks.sort((a, b) => order(a) - order(b) || byName(b.expect, a.expect));
write(join(out, 'checks', 'index.json'), checks);
write(join(out, 'package', '.index.json'), { 'index-version': 2, files: index });
write(join(out, 'package', 'package.json'), {
  name: 'handfhirbridge.r4',
  version: setting('version'),
  type: 'Conformance',
  canonical: setting('canonical'),
  url: setting('canonical'),
  title: 'HandFhirBridge profiles',
  description: 'Profiles, extensions, value sets, code systems and questionnaires for sessions of timed hand-function tests.',
  author: publisher,
  fhirVersions: [setting('fhirVersion')],
  dependencies: { 'hl7.fhir.r4.core': setting('fhirVersion') },
});
for (const line of wrong) console.error(line);
process.exit(wrong.length ? 1 : 0);

function withPublisher(resource) { // SUSHI sets it only where it also makes an implementation guide; here before what describes it
  if (resource.publisher) return resource;
  const entries = Object.entries(resource);
  const at = entries.findIndex(([name]) => name === 'description');
  entries.splice(at < 0 ? entries.length : at, 0, ['publisher', publisher]);
  return Object.fromEntries(entries);
}
