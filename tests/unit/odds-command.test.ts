/** The odds as a command: a build file in, figures on standard output, refusals in words. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import type { Odds } from '#shared/contract/plan-odds.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { document, link, makeBuild, NOW } from '../support/builds.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = mkdtempSync(join(tmpdir(), 'coverlast-odds-'));
afterAll(() => rmSync(FOLDER, { recursive: true }));

const PARTS = {
  build: { targetFinishOn: '2026-06-04' },
  tasks: [
    { key: 'a', name: 'A', minutes: { low: 600, likely: 1200, high: 3000 } },
    { key: 'b', name: 'B', minutes: { low: 900, likely: 1000, high: 1500 } },
  ],
  links: [link('a', 'b')],
  purchases: [{ key: 'p', lines: [{ key: 'l', name: 'L', quantity: 2, unitPrice: 1000, priceHigh: 4000 }] }],
};

describe('odds', () => {
  it('should print the odds of a build file, and nothing else', () => {
    const { status, stdout, stderr } = run(saved(), '--trials', '500', '--seed', '3');
    expect([status, stderr]).toEqual([0, '']);
    const { ms, ...odds } = JSON.parse(stdout) as Odds & { ms: number };
    expect(ms).toBeGreaterThanOrEqual(0);
    expect(odds).toEqual(oddsOf(makeBuild(PARTS), { now: NOW, trials: 500, seed: 3 }));
    expect(Object.keys(odds.chain)).toEqual(['a', 'b']);
    expect(odds.finish.p10! <= odds.finish.p50! && odds.finish.p50! <= odds.finish.p90!).toBe(true);
    expect(odds.cost.p10!).toBeGreaterThanOrEqual(1700);
    expect(odds.cost.p90!).toBeLessThanOrEqual(8000);
  });

  it('should leave the common pace out where it is told to', () => {
    const { stdout } = run(saved(), '--trials', '50', '--pace-sigma', '0');
    const odds = JSON.parse(stdout) as Odds;
    expect(odds.paceSigma).toBe(0);
    expect(odds).toMatchObject({ trials: 50, seed: 1, distribution: 'pert' });
  });

  it('should take triangular estimates where they are chosen', () => {
    const { stdout } = run(saved(), '--trials', '50', '--distribution', 'triangular');
    expect((JSON.parse(stdout) as Odds).distribution).toBe('triangular');
  });

  it('should refuse words that are none, in words', () => {
    const path = saved();
    for (const args of [
      [path, '--trials', 'many'],
      [path, '--pace-sigma', '3'],
      [path, '--distribution', 'normal'],
      [path, '--fast'],
    ]) {
      const { status, stdout, stderr } = run(...args);
      expect(status, args.join(' ')).toBe(1);
      expect(JSON.parse(stdout), args.join(' ')).toMatchObject({ type: '/problems/bad-usage' });
      expect(stderr, args.join(' ')).toContain('npm run --silent odds');
    }
  });
});

// Helpers

function saved(): string {
  const path = join(FOLDER, 'build.json');
  writeFileSync(path, JSON.stringify(document(PARTS)));
  return path;
}

function run(...args: string[]) {
  return spawnSync(process.execPath, ['--import', 'tsx', 'server/commands/odds.ts', ...args], {
    cwd: ROOT,
    encoding: 'utf8',
  });
}
