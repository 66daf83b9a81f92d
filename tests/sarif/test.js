// test.js PROGRAM FILE.range...: what `check --format sarif` writes, held
// against the published schema of SARIF 2.1.0 and against `--format json`.
// A validator that refuses nothing proves nothing, so broken files come too.
// Closes with `N passed, N failed`.
'use strict';

const { spawnSync } = require('node:child_process');
const fs = require('node:fs');
const Ajv = require('ajv-draft-04');
const addFormats = require('ajv-formats');

const [program, ...notes] = process.argv.slice(2);
const schema = JSON.parse(fs.readFileSync(require.resolve(
  '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json'), 'utf8'));
// One pattern of the schema is none under the flag u.
const ajv = new Ajv({ allErrors: true, strict: false, unicodeRegExp: false });
addFormats(ajv);
const isSarif = ajv.compile(schema);

let passed = 0;
let failed = 0;

function test(what, good, why) {
  if (good) {
    passed++;
    return;
  }
  failed++;
  console.log(`FAILED: ${what}`);
  if (why)
    console.log(typeof why === 'string' ? why : JSON.stringify(why, null, 1));
}

function check(format, files, more = []) {
  const ran = spawnSync(program, ['check', '--today', '2026-06-01',
    '--format', format, ...more, '--', ...files],
    { maxBuffer: 1 << 28, input: '' });

  return { status: ran.status, text: ran.stdout.toString('utf8') };
}

// A line of the file as bytes, without its end and without a mark before it.
function linesOf(file) {
  let bytes = fs.readFileSync(file);
  const lines = [];

  if (bytes.subarray(0, 3).equals(Buffer.from([0xef, 0xbb, 0xbf])))
    bytes = bytes.subarray(3);
  for (let at = 0; at <= bytes.length;) {
    let end = bytes.indexOf(10, at);

    if (end < 0)
      end = bytes.length;
    lines.push(bytes.subarray(at, end));
    at = end + 1;
  }
  return lines;
}

const isUtf8 = (bytes) => Buffer.from(bytes.toString('utf8')).equals(bytes);

// The same finding in both formats, the place cut out of the line by each.
function same(result, finding, file, lines) {
  const { artifactLocation, region } = result.locations[0].physicalLocation;
  const line = lines[finding.line - 1] || Buffer.alloc(0);
  const bytes = line.subarray(finding.column - 1, finding.end_column - 1);
  const units = line.toString('utf8').slice(
    region.startColumn - 1, region.endColumn - 1);

  return result.ruleId === finding.rule && result.level === finding.level &&
    region.startLine === finding.line && region.endLine === finding.end_line &&
    decodeURIComponent(artifactLocation.uri) === file &&
    result.message.text.replace(/([{}])\1/g, '$1') ===
      finding.message + (finding.hint ? `; ${finding.hint}` : '') &&
    (!isUtf8(line) || bytes.toString('utf8') === units);
}

function testNote(file) {
  const sarif = check('sarif', [file]);
  const json = check('json', [file]);
  const findings = json.text.split('\n').filter(Boolean).map(JSON.parse);
  let log;

  try {
    log = JSON.parse(sarif.text);
  } catch (error) {
    test(`${file}: JSON`, false, String(error));
    return;
  }
  test(`${file}: by the schema`, isSarif(log), isSarif.errors);
  const run = log.runs[0];
  const rules = run.tool.driver.rules;
  const shown = run.results.filter((r) => !r.suppressions);
  const lines = linesOf(file);

  test(`${file}: rules by their index`, run.results.every(
    (r) => rules[r.ruleIndex].id === r.ruleId));
  test(`${file}: the findings of JSON`, shown.length === findings.length &&
    shown.every((r, i) => same(r, findings[i], file, lines)),
    { shown, findings });
  test(`${file}: the status`, sarif.status === json.status &&
    run.invocations[0].exitCode === sarif.status);
}

// --- everything in one run ---------------------------------------------------

function testAll() {
  const one = JSON.parse(check('sarif', notes).text);
  const apart = notes.map((n) => JSON.parse(check('sarif', [n]).text));
  const rules = spawnSync(program, ['rules']).stdout.toString('utf8')
    .split('\n').filter((l) => /^  [a-z]/.test(l)).map((l) => l.split(/ +/));

  test('all notes in one run', isSarif(one), isSarif.errors);
  test('all notes in one run: the results of each', JSON.stringify(
    one.runs[0].results) === JSON.stringify(
    apart.flatMap((log) => log.runs[0].results)));
  test('all results: some are suppressed', one.runs[0].results.some(
    (r) => r.suppressions && r.suppressions[0].kind === 'inSource'));
  test('the catalogue', JSON.stringify(one.runs[0].tool.driver.rules.map(
    (r) => [r.id, r.defaultConfiguration.level])) ===
    JSON.stringify(rules.map((r) => [r[2], r[1]])), rules);
  test('each rule explains itself', one.runs[0].tool.driver.rules.every(
    (r) => r.shortDescription.text && r.fullDescription.text &&
      r.help.text.includes('Reported here:')));
}

function testOptions() {
  const missing = JSON.parse(check('sarif', ['no-such.range']).text);
  const nothing = JSON.parse(check('sarif', ['/dev/null']).text);
  const name = 'a b%\u00e9.range';
  const named = JSON.parse(spawnSync(program, ['check', '--format', 'sarif',
    '--stdin-name', name], { input: 'knew R A 0-5\n' }).stdout);
  const place = named.runs[0].results[0].locations[0].physicalLocation;
  const levels = JSON.parse(check('sarif', ['corpus/demo'],
    ['--level', 'missing-opposite=off', '--color=always']).text);

  test('a missing file', isSarif(missing) &&
    !missing.runs[0].invocations[0].executionSuccessful, isSarif.errors);
  test('nothing to report', isSarif(nothing) &&
    nothing.runs[0].results.length === 0 &&
    nothing.runs[0].invocations[0].executionSuccessful, isSarif.errors);
  test('standard input by name', isSarif(named) &&
    place.artifactLocation.uri === 'a%20b%25%C3%A9.range', place);
  test('a rule that is off', isSarif(levels) && levels.runs[0].results.every(
    (r) => r.ruleId !== 'missing-opposite'), isSarif.errors);
}

// --- what the validator must refuse ------------------------------------------

const breaks = {
  'no version': (log) => delete log.version,
  'another version': (log) => (log.version = '2.0.0'),
  'no runs': (log) => delete log.runs,
  'no tool': (log) => delete log.runs[0].tool,
  'a tool without a name': (log) => delete log.runs[0].tool.driver.name,
  'an unknown member': (log) => (log.runs[0].result = []),
  'a level that is none': (log) => (log.runs[0].results[0].level = 'fatal'),
  'a result without a message': (log) => delete log.runs[0].results[0].message,
  'a message without text': (log) => (log.runs[0].results[0].message = {}),
  'a message that is a text': (log) => (log.runs[0].results[0].message = 'a'),
  'line 0': (log) => (log.runs[0].results[0].locations[0].physicalLocation
    .region.startLine = 0),
  'column 0': (log) => (log.runs[0].results[0].locations[0].physicalLocation
    .region.startColumn = 0),
  'a line that is a text': (log) => (log.runs[0].results[0].locations[0]
    .physicalLocation.region.endLine = '3'),
  'a blank in a URI': (log) => (log.runs[0].results[0].locations[0]
    .physicalLocation.artifactLocation.uri = 'a b.range'),
  'columns of another kind': (log) => (log.runs[0].columnKind = 'bytes'),
  'suppressed elsewhere': (log) => (log.runs[0].results[0].suppressions =
    [{ kind: 'somewhere' }]),
  'an invocation without an end': (log) =>
    delete log.runs[0].invocations[0].executionSuccessful,
};

function testBroken() {
  const good = check('sarif', ['corpus/demo']).text;

  test('the file that is to be broken', isSarif(JSON.parse(good)),
    isSarif.errors);
  for (const [what, spoil] of Object.entries(breaks)) {
    const log = JSON.parse(good);

    spoil(log);
    test(`refused: ${what}`, !isSarif(log));
  }
}

// Characters of two, three and four bytes before the place of a finding.
function testColumns() {
  const file = 'build/sarif-client/columns.range';

  fs.writeFileSync(file, 'session 2026-05-04\n' +
    'elbow flexion R A 8-131 "8\u00b0 \u2265 \u{1f9b5}" knew\n');
  test('columns: a finding behind them', check('json', [file]).text.includes(
    '"line":2,"column":40,'), check('json', [file]).text);
  testNote(file);
}

for (const note of notes)
  testNote(note);
testColumns();
testAll();
testOptions();
testBroken();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed ? 1 : 0);
