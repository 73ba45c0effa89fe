// What `npm test` runs, on a fresh machine too: installs what is missing, then types, lint, format and every test.
// Plain JavaScript without dependencies, because it has to run before there are any.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildClient, install, root, run, runNpm } from '../server/bootstrap.mjs';

if (!install()) process.exit(1);

const failed = [];
const checks = [
  ['Types', 'check:types'],
  ['Lint, import rule included', 'check:lint'],
  ['Format', 'check:format'],
];
for (const [title, script] of checks) if (!runNpm(title, ['run', '--silent', script])) failed.push(title);

// Browser tests drive the built pages. A machine that has no Chromium and cannot get it runs the others, and is told.
let notRun = null;
const browserTests = testsIn('browser');
if (browserTests > 0) {
  if (!buildClient()) {
    notRun = 'the pages could not be built';
    failed.push('Pages');
  } else if (!hasChromium()) notRun = 'there is no Chromium';
}

const report = join(tmpdir(), `coverlast-tests-${process.pid}.json`);
const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`];
const projects = notRun === null ? [] : ['--project=!browser'];
if (!runNpm('Tests', ['run', '--silent', 'unit', '--', ...reporters, ...projects])) failed.push('Tests');

let counts = { numPassedTests: 0, numFailedTests: 0 };
if (existsSync(report)) {
  counts = JSON.parse(readFileSync(report, 'utf8'));
  rmSync(report);
}
if (notRun !== null)
  process.stdout.write(`\nNOT RUN: the ${browserTests} files of browser tests, because ${notRun}.\n`);
if (failed.length > 0) process.stdout.write(`\nNot passed: ${failed.join(', ')}\n`);
process.stdout.write(`\n${counts.numPassedTests} passed, ${counts.numFailedTests} failed\n`);
process.exit(failed.length === 0 && counts.numPassedTests > 0 ? 0 : 1);

/** How many test files a folder of tests has. */
function testsIn(folder) {
  const path = join(root, 'tests', folder);
  if (!existsSync(path)) return 0;
  return readdirSync(path, { recursive: true }).filter((name) => String(name).endsWith('.test.ts')).length;
}

/** Chromium is there, or Debian's can be installed without asking anybody. */
function hasChromium() {
  const path = process.env['CHROMIUM'] || '/usr/bin/chromium';
  if (existsSync(path)) return true;
  const isRoot = process.getuid?.() === 0;
  const hasApt = isRoot && spawnSync('apt-get', ['--version'], { stdio: 'ignore' }).status === 0;
  if (hasApt && process.env['CHROMIUM'] === undefined) {
    run('Installing Chromium for the browser tests', 'apt-get', ['update', '-qq']);
    run('Installing Chromium for the browser tests', 'apt-get', ['install', '-y', '-qq', 'chromium']);
  }
  if (existsSync(path)) return true;
  process.stdout.write(
    `\nThe browser tests need Chromium and there is none at ${path}: install it (apt-get install chromium) or name yours in CHROMIUM.\n`,
  );
  return false;
}
