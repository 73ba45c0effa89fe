// What has to be there before anything of ours can run: the packages of the lock file, and the built client.
// Plain JavaScript without dependencies, because it runs before there are any. Both are judged by content, never by
// time: a fresh checkout has new times, and installing again for them would take minutes.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));
const DIST = join(root, 'web/dist');
const STAMP = join(DIST, '.stamp');

/** Runs a command of the house with its words on the screen. @returns whether it went well */
export function run(title, command, args) {
  process.stdout.write(`\n== ${title}\n`);
  return spawnSync(command, args, { cwd: root, stdio: 'inherit' }).status === 0;
}

/** npm by the node that runs this; `npm` itself may be a script that only a shell finds. */
export function runNpm(title, args) {
  const cli = process.env['npm_execpath'];
  return cli?.endsWith('.js') === true
    ? run(title, process.execPath, [cli, ...args])
    : run(title, process.platform === 'win32' ? 'npm.cmd' : 'npm', args);
}

/** Every package of the lock file is there in its version. Those for other systems may be missing. */
export function isInstalled(folder = root) {
  const hidden = join(folder, 'node_modules/.package-lock.json');
  if (!existsSync(hidden)) return false;
  const packagesOf = (path) => JSON.parse(readFileSync(path, 'utf8')).packages;
  const there = packagesOf(hidden);
  return Object.entries(packagesOf(join(folder, 'package-lock.json'))).every(
    ([path, { version, optional }]) => {
      if (path === '') return true;
      if (there[path] === undefined) return optional === true;
      return there[path].version === version && existsSync(join(folder, path));
    },
  );
}

/** @returns whether all is there now */
export function install() {
  if (isInstalled()) return true;
  // What is there stays where it fits: SQLite alone may take minutes to compile.
  const args = existsSync(join(root, 'node_modules')) ? ['install', '--no-save'] : ['ci'];
  return runNpm('Installing what is missing', [...args, '--loglevel', 'error']) && isInstalled();
}

/** Builds the client unless the built one was made of these very sources. @returns whether one is there now */
export function buildClient() {
  const sources = sourcesHash();
  if (existsSync(STAMP) && readFileSync(STAMP, 'utf8') === sources) return true;
  const vite = join(root, 'node_modules/vite/bin/vite.js');
  if (!run('Building the pages', process.execPath, [vite, 'build', 'web', '--logLevel', 'error']))
    return false;
  // Last, so that a build that was broken off is made again.
  writeFileSync(STAMP, sources);
  return true;
}

function sourcesHash() {
  const hash = createHash('sha256');
  for (const path of [...filesIn('web'), ...filesIn('shared'), 'package-lock.json']) {
    hash.update(`${path}\0`);
    hash.update(readFileSync(join(root, path)));
  }
  return hash.digest('hex');
}

function filesIn(folder) {
  return readdirSync(join(root, folder), { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = `${folder}/${entry.name}`;
      if (!entry.isDirectory()) return [path];
      return ['dist', 'node_modules'].includes(entry.name) ? [] : filesIn(path);
    });
}
