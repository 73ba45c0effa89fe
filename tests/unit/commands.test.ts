/**
 * The commands without a screen, run as a builder's script would run them: a build file in, JSON on standard output,
 * sentences on standard error, exit 1 with a problem object (RFC 9457) on bad input. The demo comes with every week.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Value } from 'typebox/value';
import { afterAll, describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { Plan } from '#shared/contract/plan.ts';
import { readBuild } from '#shared/contract/read.ts';
import { movedTo } from '#shared/demo/shift.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { document, link, NOW, START, task } from '../support/builds.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = mkdtempSync(join(tmpdir(), 'coverlast-commands-'));
afterAll(() => rmSync(FOLDER, { recursive: true }));

describe('plan', () => {
  it('should print the plan of a build file, and nothing else', () => {
    const path = saved('two-tasks.json', {
      ...document({ tasks: [task('a', 60), task('b', 90)], links: [link('a', 'b')] }),
    });
    const { status, stdout, stderr } = run('plan', path);
    expect([status, stderr]).toEqual([0, '']);
    const plan = JSON.parse(stdout) as Plan;
    expect(Value.Check(Plan, plan)).toBe(true);
    expect(plan.tasks['b']!.early).toEqual({ start: 60, finish: 150 });
    expect(plan.finish).toEqual({ early: 150, dates: `${START}T02:30` });
  });

  it('should look at a build that names no as-of date now', () => {
    const path = saved('now.json', document({ build: { startOn: '2020-06-01', asOf: null } }));
    const before = localNow();
    const { stdout } = run('plan', path);
    const { asOf } = JSON.parse(stdout) as Plan;
    expect(before <= asOf && asOf <= localNow()).toBe(true);
  });

  it('should read a file that begins with a byte order mark', () => {
    const path = saved('marked.json', `\uFEFF${JSON.stringify(document({}))}`);
    expect(run('plan', path)).toMatchObject({ status: 0, stderr: '' });
  });

  it('should name every field that is wrong in a bad file', () => {
    const path = saved('bad.json', {
      ...document({ build: { startOn: '2026-02-30' }, tasks: [task('a', 60, { people: 0 })] }),
    });
    const { problem, sentence } = refused(run('plan', path));
    expect(problem['type']).toBe('/problems/bad-build');
    expect(problem['errors']).toMatchObject([{ pointer: '/build/startOn' }, { pointer: '/tasks/0/people' }]);
    expect(sentence).toContain('/build/startOn');
  });

  it('should say where a file that was cut off ends', () => {
    const whole = JSON.stringify(document({}), null, 2);
    const { problem, sentence } = refused(run('plan', saved('cut.json', whole.slice(0, -10))));
    expect(problem['type']).toBe('/problems/not-json');
    expect(sentence).toMatch(/ends in the middle, at line \d+/);
  });

  it('should say which file is not there', () => {
    const path = join(FOLDER, 'nowhere.json');
    const { problem, sentence } = refused(run('plan', path));
    expect(problem).toMatchObject({ type: '/problems/no-file', path });
    expect(sentence).toContain(path);
  });

  it('should say how it is called when it is called without a file', () => {
    const { problem, sentence } = refused(run('plan'));
    expect(problem).toMatchObject({ type: '/problems/bad-usage', usage: 'npm run --silent plan -- FILE' });
    expect(sentence).toContain('npm run --silent plan -- FILE');
  });
});

describe('demo', () => {
  it('should write a build file, say so on standard error and print nothing', () => {
    const { path, file, outcome } = written();
    expect(outcome).toMatchObject({ status: 0, stdout: '' });
    expect(outcome.stderr).toContain('Wagtail');
    expect(outcome.stderr).toContain(path);
    expect(file).toEqual(wagtail());
  });

  it('should write a file that the plan command plans, wrong order and all', () => {
    const { status, stdout, stderr } = run('plan', written().path);
    expect([status, stderr]).toEqual([0, '']);
    const plan = JSON.parse(stdout) as Plan;
    expect(Value.Check(Plan, plan)).toBe(true);
    expect(plan.asOf).toBe('2027-03-09T19:00');
    expect(plan.errors.map(({ rule }) => rule)).toEqual(['wrong-order', 'closed-too-early']);
    expect(plan.finish.dates).not.toBeNull();
  });

  it('should stand in the week it is told to, on its own weekday and hour', () => {
    expect(written('2029-07-04').file.build.asOf).toBe('2029-07-03T19:00'); // Wednesday, Tuesday
  });

  it.each([
    ['2029-07-02', '2029-07-03'],
    ['2029-07-08', '2029-07-03'],
    ['2027-03-08', '2027-03-09'],
    ['2027-03-14', '2027-03-09'],
    ['2027-03-15', '2027-03-16'],
    ['2024-02-29', '2024-02-27'],
  ])('should take a week from Monday to Sunday: on %s it stands on the Tuesday %s', (on, tuesday) => {
    expect(movedTo(wagtail(), on).build.asOf).toBe(`${tuesday}T19:00`);
  });

  it('should move every date by the same whole weeks', () => {
    const [dates, moved] = [datesIn(written().file), datesIn(written('2029-07-04').file)];
    expect(dates.length).toBeGreaterThan(800);
    expect(weeksBetween(dates, moved)).toEqual([121]); // 9 March 2027 to 3 July 2029
  });

  it('should change nothing but dates when it is moved', () => {
    expect(withoutDates(written('2029-07-04').file)).toEqual(withoutDates(written().file));
  });

  it('should have the same plan, moved, where no season comes into it', () => {
    const [here, there] = [written(), written('2029-07-04')].map(({ file }) => planOf(withoutSeasons(file)));
    expect(weeksBetween(datesIn(here), datesIn(there))).toEqual([121]);
    const told = ({ errors }: Plan) => errors.map(({ rule, tasks, repair }) => ({ rule, tasks, repair }));
    expect(told(there!)).toEqual(told(here!));
    for (const [key, { early, late, totalFloat, freeFloat, critical }] of Object.entries(here!.tasks))
      expect(there!.tasks[key], key).toMatchObject({ early, late, totalFloat, freeFloat, critical });
    expect(there!.progress).toEqual(here!.progress);
    expect(there!.order).toEqual(here!.order);
  });

  it('should have the same two errors in any season', () => {
    const errors = [
      { rule: 'wrong-order', tasks: ['furring-walls', 'filler-hose', 'vapour-walls', 'vapour-check'] },
      { rule: 'closed-too-early', tasks: ['awning', 'skin-right'] },
    ];
    for (const on of ['2027-03-09', '2027-06-09', '2027-09-08', '2027-12-08'])
      expect(planOf(movedTo(wagtail(), on)).errors, on).toMatchObject(errors);
  });

  it('should refuse to stand on what is not a day, and write nothing', () => {
    const path = join(FOLDER, 'never.json');
    const { problem, sentence } = refused(run('demo', path, '--on', 'nonsense'));
    expect(problem['type']).toBe('/problems/bad-usage');
    expect(sentence).toContain('"nonsense" is not a day');
    expect(existsSync(path)).toBe(false);
  });

  it('should refuse a day so far off that its own dates would leave the calendar, and write nothing', () => {
    const path = join(FOLDER, 'far-off.json');
    refused(run('demo', path, '--on', '1990-01-01'));
    expect(existsSync(path)).toBe(false);
  });

  it('should say how it is called when it is called with a word it does not know', () => {
    const { problem } = refused(run('demo', join(FOLDER, 'never.json'), '--off', '2027-03-09'));
    expect(problem['type']).toBe('/problems/bad-usage');
    expect(problem['usage']).toContain('npm run --silent demo -- FILE');
  });

  it('should say where it could not write', () => {
    const path = join(FOLDER, 'no-such-folder', 'demo.json');
    expect(refused(run('demo', path)).problem).toMatchObject({ type: '/problems/no-file', path });
  });
});

// Helpers

const WEEK = 7 * 24 * 60 * 60 * 1000;
const DATE = /^\d{4}-\d{2}-\d{2}(T\d{2}:\d{2})?$/;

interface Outcome {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

function run(command: string, ...words: readonly string[]): Outcome {
  const script = join('server', 'commands', `${command}.ts`);
  return spawnSync(process.execPath, ['--import', 'tsx', script, ...words], { cwd: ROOT, encoding: 'utf8' });
}

/** Exit 1, a problem object alone on standard output, one sentence without a stack on standard error. */
function refused({ status, stdout, stderr }: Outcome): {
  problem: Record<string, unknown>;
  sentence: string;
} {
  expect(status).toBe(1);
  const problem = JSON.parse(stdout) as Record<string, unknown>;
  const sentence = stderr.trimEnd();
  expect(sentence).not.toBe('');
  expect(sentence.split('\n')).toHaveLength(1);
  expect(sentence).not.toMatch(/\bat .*\.[jt]s:\d+/);
  expect(problem['title']).toBe(sentence);
  return { problem, sentence };
}

function saved(name: string, content: unknown): string {
  const path = join(FOLDER, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

const demos = new Map<string | undefined, { path: string; file: BuildFile; outcome: Outcome }>();

/** The demo as the command writes it on that day; each is asked for once. */
function written(on?: string): { path: string; file: BuildFile; outcome: Outcome } {
  const known = demos.get(on);
  if (known !== undefined) return known;
  const path = join(FOLDER, `demo-${on ?? 'as-it-is'}.json`);
  const outcome = run('demo', path, ...(on === undefined ? [] : ['--on', on]));
  const made = { path, file: JSON.parse(readFileSync(path, 'utf8')) as BuildFile, outcome };
  demos.set(on, made);
  return made;
}

function planOf(file: BuildFile): Plan {
  return computePlan(readBuild(file), { now: NOW });
}

/** This minute by the clock on the wall. */
function localNow(): string {
  return new Date().toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' }).replace(' ', 'T');
}

/** Yearly ranges stay where they are when dates move: without them every week is like any other. */
function withoutSeasons(file: BuildFile): BuildFile {
  return { ...file, conditions: file.conditions.map((condition) => ({ ...condition, notYearly: [] })) };
}

function datesIn(value: unknown): string[] {
  if (typeof value === 'string') return DATE.test(value) ? [value] : [];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(datesIn) : [];
}

/** Days, instants and months, but not the names of fields or anything else, made one and the same. */
function withoutDates(value: unknown): unknown {
  return JSON.parse(JSON.stringify(value).replaceAll(/"\d{4}-\d{2}(-\d{2}(T\d{2}:\d{2})?)?"/g, '"a date"'));
}

/** By how many weeks each date moved, each number once. */
function weeksBetween(dates: readonly string[], moved: readonly string[]): number[] {
  expect(moved).toHaveLength(dates.length);
  return [...new Set(dates.map((date, i) => (utc(moved[i]!) - utc(date)) / WEEK))];
}

function utc(date: string): number {
  return Date.parse(`${date.slice(0, 10)}T${date.slice(11) || '00:00'}Z`);
}
