// What `npm test` runs, on a fresh machine too: installs what is missing, then types, lint, format and every test.
// Plain JavaScript without dependencies, because it has to run before there are any.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';

/** Installed, and not older than the lock file? */
function isInstalled() {
  const stamp = join(root, 'node_modules/.package-lock.json');
  return existsSync(stamp) && statSync(stamp).mtimeMs >= statSync(join(root, 'package-lock.json')).mtimeMs;
}

function run(title, command, args) {
  process.stdout.write(`\n== ${title}\n`);
  const { status } = spawnSync(command, args, { cwd: root, stdio: 'inherit' });
  return status === 0;
}

if (!isInstalled() && !run('Installing what is missing', npm, ['ci'])) process.exit(1);

const report = join(tmpdir(), `coverlast-tests-${process.pid}.json`);
const checks = [
  ['Types', npm, ['run', '--silent', 'check:types']],
  ['Lint, import rule included', npm, ['run', '--silent', 'check:lint']],
  ['Format', npm, ['run', '--silent', 'check:format']],
  [
    'Tests',
    npm,
    ['run', '--silent', 'unit', '--', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`],
  ],
];
const failed = checks.filter(([title, command, args]) => !run(title, command, args)).map(([title]) => title);

let counts = { numPassedTests: 0, numFailedTests: 0 };
if (existsSync(report)) {
  counts = JSON.parse(readFileSync(report, 'utf8'));
  rmSync(report);
}
if (failed.length > 0) process.stdout.write(`\nNot passed: ${failed.join(', ')}\n`);
process.stdout.write(`\n${counts.numPassedTests} passed, ${counts.numFailedTests} failed\n`);
process.exit(failed.length === 0 && counts.numPassedTests > 0 ? 0 : 1);
