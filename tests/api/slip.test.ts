/** How the finish slipped, as the server tells it from a journal of several days. */
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { addBuild, readSnapshot, versionIn } from '../../server/store/builds.ts';
import { change, redo, undo } from '../../server/store/journal.ts';
import { readPast } from '../../server/store/past.ts';
import { document, link, task } from '../support/builds.ts';
import { NOW, startServer, type TestServer } from '../support/server.ts';

interface Point {
  readonly day: string;
  readonly finish: string | null;
  readonly provisional: boolean;
  readonly changes: number;
}

describe('the slip', () => {
  it('should have, for each day on which the build was changed, the finish of the file as it was then', async () => {
    const { server, days } = await changedOverDays();
    const expected = [...days].map(([day, { file, changes }]) => {
      const plan = computePlan(file, { now: `${day}T23:59` });
      return { day, finish: plan.finish.dates, provisional: plan.provisional, changes };
    });
    const { file } = await server.snapshot('slipping');
    const today = computePlan(file, { now: NOW });
    const { status, body } = await server.ask('GET', '/api/builds/slipping/slip');
    expect(status).toBe(200);
    expect(body['since']).toBe('2027-02-20');
    expect(body['points']).toEqual([
      ...expected,
      { day: NOW.slice(0, 10), finish: today.finish.dates, provisional: today.provisional, changes: 0 },
    ]);
    // The days differ, or nothing was seen to slip.
    expect(new Set(expected.map(({ finish }) => finish)).size).toBeGreaterThan(3);
    expect(expected.some(({ finish }) => finish === null)).toBe(true);
  });

  it('should be the same when asked twice, and another once something was changed', async () => {
    const { server } = await changedOverDays();
    const ask = async () => (await server.ask('GET', '/api/builds/slipping/slip')).body;
    const [first, second] = await Promise.all([ask(), ask()]);
    expect(second).toEqual(first);
    setMinutes(server, 'a', 2000, `${NOW}:00.000Z`);
    const third = await ask();
    expect(third['revision']).toBe((first['revision'] as number) + 1);
    const last = (points: unknown) => (points as Point[]).at(-1)!;
    expect(last(third['points']).finish).not.toBe(last(first['points']).finish);
    expect(last(third['points'])).toMatchObject({ day: NOW.slice(0, 10), changes: 1 });
  });

  it('should have no more points than asked for, the first and the last among them', async () => {
    const { server } = await changedOverDays();
    const { body } = await server.ask('GET', '/api/builds/slipping/slip?points=3');
    const points = body['points'] as unknown as Point[];
    expect(points.map(({ day }) => day)).toEqual(['2027-02-20', expect.any(String), '2027-03-10']);
    // Changes of days that are not shown fall to the next that is.
    expect(points.reduce((sum, { changes }) => sum + changes, 0)).toBe(7);
  });

  it('should let other questions be answered while it is worked out', async () => {
    const { server } = await changedOverDays();
    const answered: string[] = [];
    await Promise.all([
      server.ask('GET', '/api/builds/slipping/slip').then(() => answered.push('slip')),
      server.ask('GET', '/api/builds/slipping/file').then(() => answered.push('file')),
    ]);
    expect(answered).toEqual(['file', 'slip']);
  });

  it('should say what is wrong with a question', async () => {
    const server = await startServer();
    expect((await server.ask('GET', '/api/builds/nowhere/slip')).status).toBe(404);
    const { server: other } = await changedOverDays();
    const { status, text } = await other.ask('GET', '/api/builds/slipping/slip?points=1');
    expect(status).toBe(400);
    expect(text).toContain('how many points at most, 2 to 200');
  });
});

describe('the past of a build', () => {
  it('should reach back to the last whole day where the notes are cut', async () => {
    const { server } = await changedOverDays();
    const whole = readPast(server.store.db, 'slipping');
    expect(whole.since).toBe('2027-02-20');
    const cut = readPast(server.store.db, 'slipping', 3);
    expect(cut.days).toEqual(whole.days.slice(0, cut.days.length));
    expect(cut.since).toBe(whole.days[cut.days.length]!.day);
  });
});

// Helpers

const DAYS = Object.fromEntries(
  ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'].map((name) => [name, ['08:00-16:00']]),
);

/** A build of four tasks, changed on five days: the file and the number of changes at the end of each. */
async function changedOverDays() {
  const server = await startServer();
  const tasks = ['a', 'b', 'c', 'd'].map((key) => task(key, 480));
  const file = readBuild(
    document({
      build: { name: 'Slipping', startOn: '2027-02-01', asOf: null },
      people: [{ key: 'p', name: 'P', week: DAYS }],
      tasks,
      links: [link('a', 'b'), link('b', 'c'), link('c', 'd')],
    }),
  );
  addBuild(server.store, file, '2027-02-20T12:00:00.000Z');
  const days = new Map<string, { file: BuildFile; changes: number }>();
  const end = (day: string, changes: number) =>
    days.set(day, { file: readSnapshot(server.store.db, 'slipping').file, changes });
  const at = (day: string) => ({ who: 'Ines', at: `${day}T12:00:00.000Z` });
  end('2027-02-20', 0);

  // Twice in one day: what counts is how it ends.
  setMinutes(server, 'b', 9999, at('2027-02-22').at);
  setMinutes(server, 'b', 1440, at('2027-02-22').at);
  end('2027-02-22', 2);
  // A task goes, with its links.
  edit(server, at('2027-02-25').at, [
    ['links', 'c~d~FS', null],
    ['tasks', 'd', null],
  ]);
  end('2027-02-25', 1);
  // Nobody has time any more: there is no finish.
  edit(server, at('2027-03-01').at, [
    ['people', 'p', { ...file.people[0]!, week: Object.fromEntries(Object.keys(DAYS).map((d) => [d, []])) }],
  ]);
  end('2027-03-01', 1);
  undo(server.store, 'slipping', at('2027-03-04'));
  undo(server.store, 'slipping', at('2027-03-04'));
  end('2027-03-04', 2);
  redo(server.store, 'slipping', at('2027-03-07'));
  end('2027-03-07', 1);
  return { server, days };
}

function setMinutes(server: TestServer, key: string, likely: number, at: string): void {
  const { file } = readSnapshot(server.store.db, 'slipping');
  const found = file.tasks.find((one) => one.key === key)!;
  edit(server, at, [['tasks', key, { ...found, minutes: { low: likely, likely, high: likely } }]]);
}

function edit(
  server: TestServer,
  at: string,
  rows: readonly (readonly ['tasks' | 'links' | 'people', string, object | null])[],
): void {
  const snapshot = readSnapshot(server.store.db, 'slipping');
  const edits = rows.map(([noun, id, value]) => ({
    noun,
    id,
    version: versionIn(snapshot, noun, id),
    value: value as Record<string, unknown> | null,
  }));
  change(server.store, 'slipping', 'Change', edits, { who: 'Ines', at });
}
