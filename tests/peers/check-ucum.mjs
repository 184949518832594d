// Says of unit codes whether they are UCUM, with npm @lhncbc/ucum-lhc.
// Usage: node check-ucum.mjs CODE…     or, with -, one code a line on standard input
// Prints one JSON line a code: {"code","valid","name","message"}.
// Exit codes: 0 all valid, 1 one or more not valid, 2 usage.
import { readFileSync } from 'node:fs';
import ucum from '@lhncbc/ucum-lhc';

const given = process.argv.slice(2);
const codes = given.length === 1 && given[0] === '-' ? readFileSync(0, 'utf8').split('\n').filter(Boolean) : given;
if (!codes.length) {
  console.error('usage: node check-ucum.mjs CODE… | node check-ucum.mjs - <CODES');
  process.exit(2);
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
