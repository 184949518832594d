// Says of unit codes whether they are UCUM, with npm @lhncbc/ucum-lhc.
// Usage: node check-ucum.mjs CODE…              codes as they are
//        node check-ucum.mjs -                  one code a line on standard input
//        node check-ucum.mjs --in PATH…         every code of the UCUM system in JSON files, and in folders of them
// Prints one JSON line a code: {"code","valid","name","message"}.
// Exit codes: 0 all valid, 1 one or more not valid, 2 usage, 3 no code found or a file that cannot be read.
import { readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import ucum from '@lhncbc/ucum-lhc';

const system = 'http://unitsofmeasure.org';
const given = process.argv.slice(2);
if (!given.length || (given[0] === '--in' && given.length === 1) || given.some((word) => word.startsWith('--') && word !== '--in')) {
  console.error('usage: node check-ucum.mjs CODE… | node check-ucum.mjs - <CODES | node check-ucum.mjs --in PATH…');
  process.exit(2);
}

let codes;
try {
  if (given[0] === '--in') codes = [...new Set(given.slice(1).flatMap(files).flatMap((file) => codesIn(JSON.parse(readFileSync(file, 'utf8')))))].sort();
  else codes = given[0] === '-' ? readFileSync(0, 'utf8').split('\n').filter(Boolean) : given;
} catch (problem) {
  console.error(problem.message);
  process.exit(3);
}
if (!codes.length) {
  console.error('no UCUM code found');
  process.exit(3);
}

const units = ucum.UcumLhcUtils.getInstance();
let invalid = 0;
for (const code of codes) {
  const { status, unit, msg } = units.validateUnitString(code);
  const valid = status === 'valid';
  if (!valid) invalid++;
  console.log(JSON.stringify({ code, valid, name: unit?.name ?? '', message: msg.join(' ') }));
}
process.exit(invalid ? 1 : 0);

function files(path) {
  if (!statSync(path).isDirectory()) return [path];
  return readdirSync(path).flatMap((name) => {
    const below = join(path, name);
    return statSync(below).isDirectory() || name.endsWith('.json') ? files(below) : [];
  });
}

function codesIn(value) { // Quantity and Coding name system and code; a value set names the system once above its concepts
  if (!value || typeof value !== 'object') return [];
  const own = value.system === system ? [value.code, ...(value.concept ?? []).map((concept) => concept.code)].filter(Boolean) : [];
  return [...own, ...Object.values(value).flatMap(codesIn)];
}
