/** Starting and stopping the server as a builder does: flags, environment, what stands in the way, signals. */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, onTestFinished } from 'vitest';
import { PlanError } from '#shared/errors.ts';
import { helpText, readConfig } from '../../server/config.ts';
import { openStore } from '../../server/store/database.ts';
import { laterMigrations } from '../support/later-migrations.ts';
import { makeFolder } from '../support/server.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

describe('the configuration', () => {
  it('should listen on this machine alone, with a store outside the code and the demo in it', () => {
    const config = readConfig([], {});
    expect(config).toMatchObject({ port: 4180, host: 'localhost', demo: true });
    expect(config!.data.startsWith(homedir())).toBe(true);
    expect(config!.data.startsWith(resolve(ROOT))).toBe(false);
  });

  it('should take flags over the environment, and the environment over what is usual', () => {
    const env = { PORT: '5000', HOST: '127.0.0.1', COVERLAST_DATA: '/srv/van' };
    expect(readConfig([], env)).toEqual({ port: 5000, host: '127.0.0.1', data: '/srv/van', demo: true });
    expect(readConfig(['--port', '0', '--host=::1', '--data', '/a', '--no-demo'], env)).toEqual({
      port: 0,
      host: '::1',
      data: '/a',
      demo: false,
    });
    expect(readConfig([], { PORT: '', HOST: '', COVERLAST_DATA: '' })).toEqual(readConfig([], {}));
    expect(readConfig([], { XDG_DATA_HOME: '/var/data' })!.data).toBe('/var/data/coverlast');
    expect(readConfig([], { XDG_DATA_HOME: 'data' })).toEqual(readConfig([], {}));
  });

  it.each([
    [['--port', '65536'], '"65536" is not a port'],
    [['--port', '-1'], '--port'],
    [['--port', '80a'], '"80a" is not a port'],
    [['--port'], '--port needs a value'],
    [['--data', ''], '--data needs a value'],
    [['--colour', 'red'], 'no flag --colour'],
    [['-p', '5'], 'no flag -p'],
    [['--no-demo=yes'], '--no-demo takes no value'],
    [['start'], '"start" is not understood'],
    [['--host', '0.0.0.0'], 'would let others in'],
    [['--host', '192.168.1.5'], 'would let others in'],
    [['--host', 'localhost.van.example'], 'would let others in'],
  ])('should refuse %j in one sentence', (args, words) => {
    let refused: unknown;
    try {
      readConfig(args, {});
    } catch (error) {
      refused = error;
    }
    expect(refused).toBeInstanceOf(PlanError);
    expect((refused as PlanError).failure.code).toBe('bad-usage');
    expect((refused as PlanError).message).toContain(words);
    expect((refused as PlanError).message).not.toContain('\n');
  });

  it('should refuse a host of the environment that would let others in', () => {
    expect(() => readConfig([], { HOST: '0.0.0.0' })).toThrow('would let others in');
  });

  it('should name every flag in its help', () => {
    expect(readConfig(['--port', 'x', '--help'], {})).toBeNull();
    for (const word of ['--port', '--host', '--data', '--no-demo', 'PORT', 'HOST', 'COVERLAST_DATA', '4180'])
      expect(helpText({})).toContain(word);
  });
});

describe('the server', () => {
  it('should print its address last, have the demo, stop cleanly, and have it all again', async () => {
    const data = join(makeFolder(), 'new', 'data');
    const first = await start('--port', '0', '--data', data);
    expect(first.lines.at(-1)).toMatch(/^http:\/\/localhost:\d+\/$/);
    const [build] = (await (await fetch(`${first.address}api/builds`)).json()) as {
      id: string;
      name: string;
    }[];
    expect(build).toMatchObject({ name: 'Wagtail', revision: 1 });
    const url = `api/builds/${build!.id}/phases`;
    const body = JSON.stringify({ key: 'mine', name: 'Mine' });
    const made = await fetch(`${first.address}${url}`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body,
    });
    expect(made.status).toBe(201);
    expect(await first.stop('SIGTERM')).toEqual({ code: 0, stderr: '' });
    expect(readdirSync(data).sort()).toEqual(['coverlast.db', 'coverlast.lock']);

    const second = await start('--port', '0', '--data', data);
    expect((await fetch(`${second.address}${url}/mine`)).status).toBe(200);
    expect(await (await fetch(`${second.address}api/builds`)).json()).toHaveLength(1);
    const events = await fetch(`${second.address}api/builds/${build!.id}/events`);
    expect(events.status).toBe(200);
    expect(await second.stop('SIGINT')).toEqual({ code: 0, stderr: '' });
  });

  it('should leave an empty store empty when it is told to, and take its settings from the environment', async () => {
    const data = makeFolder();
    const server = await start('--no-demo', { PORT: '0', HOST: '127.0.0.1', COVERLAST_DATA: data });
    expect(server.lines.at(-1)).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(await (await fetch(`${server.address}api/builds`)).json()).toEqual([]);
    const { port } = new URL(server.address);
    const taken = await refused('--port', '0', '--data', data);
    expect(taken).toContain(`Another Coverlast already has the data folder ${data}`);
    const other = await refused('--port', port, '--host', '127.0.0.1', '--data', makeFolder());
    expect(other).toContain(`Port ${port} is taken`);
    await server.stop('SIGTERM');
  });

  it('should say in one sentence what stands in its way, and end with 1', async () => {
    const folder = makeFolder();
    writeFileSync(join(folder, 'file'), '');
    mkdirSync(join(folder, 'letter'));
    writeFileSync(join(folder, 'letter', 'coverlast.db'), 'Dear builder, this is no store. '.repeat(200));
    newerStore(join(folder, 'newer'));
    const answers = await Promise.all([
      refused('--port', '0', '--data', join(folder, 'file', 'data')),
      refused('--port', '0', '--data', join(folder, 'letter')),
      refused('--port', '0', '--data', join(folder, 'newer')),
      refused('--colour'),
    ]);
    const words = ['cannot be used', 'is no store of Coverlast', 'later version', 'no flag --colour'];
    words.forEach((word, i) => expect(answers[i]).toContain(word));
  });

  it('should print its help and end well', async () => {
    const { code, stdout, stderr } = await ended(run(['--help']));
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toContain('--data FOLDER');
  });
});

describe('what is installed', () => {
  it('should be known by the versions in the lock file, whatever the times of the files', async () => {
    const { isInstalled } = (await import('../../server/bootstrap.mjs' as string)) as {
      isInstalled: (folder: string) => boolean;
    };
    const folder = makeFolder();
    const lock = (packages: object) => JSON.stringify({ packages: { '': {}, ...packages } });
    const there = (packages: object) =>
      writeFileSync(join(folder, 'node_modules', '.package-lock.json'), lock(packages));
    const one = { 'node_modules/one': { version: '1.0.0' } };
    writeFileSync(
      join(folder, 'package-lock.json'),
      lock({ ...one, 'node_modules/other-system': { version: '1.0.0', optional: true } }),
    );
    expect(isInstalled(folder)).toBe(false);
    mkdirSync(join(folder, 'node_modules', 'one'), { recursive: true });
    there(one);
    expect(isInstalled(folder)).toBe(true);
    there({ 'node_modules/one': { version: '1.0.1' } });
    expect(isInstalled(folder)).toBe(false);
    there({});
    expect(isInstalled(folder)).toBe(false);
    there(one);
    rmSync(join(folder, 'node_modules', 'one'), { recursive: true });
    expect(isInstalled(folder)).toBe(false);
    expect(isInstalled(ROOT)).toBe(true);
  });
});

// Helpers

type Env = Record<string, string>;

function run(words: readonly (string | Env)[]): ChildProcess {
  const args = words.filter((word) => typeof word === 'string');
  const env = Object.assign({}, ...words.filter((word) => typeof word !== 'string')) as Env;
  const { PORT: _port, HOST: _host, COVERLAST_DATA: _data, ...clean } = process.env;
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts', ...args], {
    cwd: ROOT,
    env: { ...clean, ...env },
  });
  onTestFinished(() => void child.kill('SIGKILL'));
  return child;
}

async function start(...words: readonly (string | Env)[]) {
  const child = run(words);
  let [stdout, stderr] = ['', ''];
  child.stderr!.on('data', (part) => (stderr += String(part)));
  await new Promise<void>((resolve, reject) => {
    child.stdout!.on('data', (part) => {
      stdout += String(part);
      if (/^http:.*\n$/m.test(stdout)) resolve();
    });
    child.on('exit', () => reject(new Error(`It ended: ${stderr}`)));
  });
  const lines = stdout.trimEnd().split('\n');
  const stop = (signal: NodeJS.Signals) =>
    new Promise<{ code: number | null; stderr: string }>((resolve) => {
      child.on('exit', (code) => resolve({ code, stderr }));
      child.kill(signal);
    });
  return { lines, address: lines.at(-1)!, stop };
}

function ended(child: ChildProcess): Promise<{ code: number | null; stdout: string; stderr: string }> {
  let [stdout, stderr] = ['', ''];
  child.stdout!.on('data', (part) => (stdout += String(part)));
  child.stderr!.on('data', (part) => (stderr += String(part)));
  return new Promise((resolve) => child.on('close', (code) => resolve({ code, stdout, stderr })));
}

/** The one sentence on standard error. */
async function refused(...words: readonly string[]): Promise<string> {
  const { code, stdout, stderr } = await ended(run(words));
  expect([code, stdout]).toEqual([1, '']);
  expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  return stderr.trimEnd();
}

/** A store that a later version of this program has opened. */
function newerStore(folder: string): void {
  mkdirSync(folder);
  const migrations = laterMigrations(folder, ['create table `later` (`id` text)']);
  openStore(join(folder, 'coverlast.db'), { migrations }).close();
}
