// Evaluates the invariants of our profiles with npm fhirpath, an engine independent of the .NET SDK's.
// Usage: node check-fhirpath.mjs [PROFILES_DIR]      (default: profiles of this repository)
// PROFILES_DIR holds package/ and checks/ with checks/index.json: each failing example must break exactly the invariant
// it is for, each passing example and each example of package/example none.
// Prints one line an example that is not as expected, then a closing line with the counts.
// Exit codes: 0 all as expected, 1 some not, 2 usage, 3 nothing to check.
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fhirpath from 'fhirpath';
import r4 from 'fhirpath/fhir-context/r4/index.js';

const [folder = fileURLToPath(new URL('../../profiles', import.meta.url)), ...rest] = process.argv.slice(2);
if (rest.length) {
  console.error('usage: node check-fhirpath.mjs [PROFILES_DIR]');
  process.exit(2);
}
if (!existsSync(join(folder, 'checks', 'index.json'))) {
  console.error(`${folder} holds no checks/index.json`);
  process.exit(3);
}

const read = (...path) => JSON.parse(readFileSync(join(folder, ...path), 'utf8'));
const profiles = new Map();
for (const name of readdirSync(join(folder, 'package')).filter((file) => file.startsWith('StructureDefinition-'))) {
  const definition = read('package', name);
  profiles.set(definition.url, constraints(definition));
}

function constraints(definition) { // a slice repeats what its element states, so elements without a slice name say all
  return definition.snapshot.element.flatMap((element) => (element.constraint ?? [])
    .filter((constraint) => constraint.key.startsWith('hfb-') && !element.id.includes(':'))
    .map(({ key, expression }) => {
      const path = element.path.split('.').slice(1).join('.').replaceAll('[x]', '');
      return { key, holds: fhirpath.compile(path ? `${path}.all(${expression})` : expression, r4) };
    }));
}

function broken(resource) {
  const rules = profiles.get(resource.meta.profile[0]);
  if (!rules) throw new Error(`${resource.id}: profile ${resource.meta.profile[0]} is not in the package`);
  return [...new Set(rules.filter(({ holds }) => holds(resource)[0] !== true).map(({ key }) => key))];
}

let passed = 0, failed = 0;
function expect(name, resource, wanted) {
  const found = broken(resource).join(', '), asExpected = found === wanted;
  if (asExpected) passed++;
  else { failed++; console.log(`${name}: expected to break ${wanted || 'nothing'}, breaks ${found || 'nothing'}`); }
}
for (const { file, invariant, expect: side } of read('checks', 'index.json')) expect(file, read('checks', file), side === 'fails' ? invariant : '');
for (const file of readdirSync(join(folder, 'package', 'example')).sort()) expect(file, read('package', 'example', file), '');

console.log(`invariants: ${passed} passed, ${failed} failed`);
process.exit(passed + failed === 0 ? 3 : failed ? 1 : 0);
