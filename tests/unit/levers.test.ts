/** What would bring the finish forward most: real changes, planned and tried, ranked by what they win. */
import { describe, expect, it } from 'vitest';
import { withRows } from '#shared/changes/apply.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { oneMoreEvening } from '#shared/levers/changes.ts';
import { leversOf, type Lever } from '#shared/levers/levers.ts';
import { oddsOf } from '#shared/odds/odds.ts';
import { computePlan } from '#shared/plan.ts';
import { EVENINGS, link, makeBuild, NOW, task, type BuildParts } from '../support/builds.ts';

const ASKED = { now: NOW, trials: 60, seed: 3 };
const parts = {
  people: [
    { key: 'ines', name: 'Ines', week: EVENINGS },
    { key: 'tor', name: 'Tor', week: EVENINGS },
  ],
  tasks: [
    guessed('cut', 900),
    guessed('mount', 1800, { option: 'the roof rack' }),
    guessed('line', 1500),
    guessed('paint', 900, { who: ['ines'] }),
    guessed('sew', 2400, { who: ['ines'] }),
  ],
  links: [link('cut', 'mount'), link('mount', 'line'), link('line', 'paint')],
  order: ['sew', 'cut', 'mount', 'line', 'paint'],
  purchases: [
    {
      key: 'rack',
      state: 'wanted',
      leadDays: 40,
      lines: [{ key: 'r', name: 'rack', quantity: 1, unitPrice: 50_000, neededBy: ['mount'] }],
    },
  ],
} satisfies BuildParts;
const build = makeBuild(parts);
const found = leversOf(build, ASKED);

describe('the levers', () => {
  it('should be computed, not guessed: each day won is the difference of two plans and of two runs of the odds', () => {
    const odds = oddsOf(build, ASKED);
    expect(found.before).toEqual({ plan: odds.plan.finish, p80: odds.finish.p80 });
    for (const row of found.rows.filter(({ kind }) => kind !== 'order')) {
      const changed = withRows(build, row.edits);
      const other = oddsOf(changed, ASKED);
      expect(row.finish).toEqual({ plan: other.plan.finish, p80: other.finish.p80 });
      expect(row.daysWon.p80).toBe(days(other.finish.p80!, odds.finish.p80!));
      expect(row.daysWon.plan).toBe(
        days(computePlan(changed, { now: NOW }).finish.dates!, found.before.plan!),
      );
    }
  });

  it('should try hands, what can be left out, the part that holds work up and the task that has to wait', () => {
    expect(found.rows.map(({ key }) => key).toSorted()).toEqual(
      expect.arrayContaining([
        'evening~mon~ines',
        'evening~mon~ines+tor',
        'evening~mon~tor',
        'helper-every~sat',
        'leave-out~the roof rack',
        'order~rack',
        'person',
        'sooner~rack~7',
      ]),
    );
    expect(found).toMatchObject({ done: found.rows.length, of: found.rows.length });
  });

  it('should rank by days won on the four-in-five date, the most first, then on the plan', () => {
    const won = found.rows.map(
      ({ daysWon }) => [daysWon.p80 ?? -Infinity, daysWon.plan ?? -Infinity] as const,
    );
    expect(won).toEqual(won.toSorted(([a, c], [b, d]) => (b === a ? d - c : b - a)));
    expect(found.rows[0]!.daysWon.p80).toBeGreaterThan(0);
  });

  it('should say what a change costs until its finish, and what it spares', () => {
    const evening = rowOf('evening~mon~tor');
    const weeks = days(NOW, evening.finish.plan!) / 7;
    expect(evening.costs).toEqual({ minutes: Math.round(150 * weeks), money: 0 });
    expect(rowOf('leave-out~the roof rack').costs).toEqual({ minutes: -1800, money: -50_000 });
  });

  it('should say of an order what a week of waiting would lose', () => {
    const late = { ...build, purchases: build.purchases.map((one) => ({ ...one, leadDays: 47 })) };
    const [now, later] = [oddsOf(build, ASKED), oddsOf(late, ASKED)];
    const row = rowOf('order~rack');
    expect(row.daysWon.p80).toBe(days(now.finish.p80!, later.finish.p80!));
    expect(row.daysWon.p80).toBeGreaterThan(0);
    expect(row.finish).toEqual(found.before);
    expect(row.costs).toEqual({ minutes: 0, money: 0 });
  });

  it('should come out the same with the same seed', () => {
    expect(leversOf(build, ASKED)).toEqual(found);
  });

  it('should not depend on the order of the records', () => {
    const turned = {
      ...build,
      tasks: build.tasks.toReversed(),
      people: build.people.toReversed(),
      links: build.links.toReversed(),
    };
    expect(told(leversOf(turned, ASKED).rows)).toEqual(told(found.rows));
  });

  it('should leave what is past its date out of the ranking of a build that names its own day', () => {
    const later: BuildFile = { ...build, build: { ...build.build, asOf: '2026-06-10T20:00' } };
    const { rows } = leversOf(later, ASKED);
    expect(rows.find(({ key }) => key.startsWith('helper~'))!.key).toBe('helper~2026-06-13');
  });

  it('should be ended at any moment, with whole rows only', () => {
    let asked = 0;
    const rows: Lever[] = [];
    const part = leversOf(build, { ...ASKED, stop: () => ++asked > 30, onRow: (row) => rows.push(row) });
    expect(part.done).toBeGreaterThan(0);
    expect(part.done).toBeLessThan(part.of);
    expect(part.rows).toHaveLength(part.done);
    expect(rows).toHaveLength(part.done);
    for (const row of part.rows) expect(row).toEqual(rowOf(row.key));
    expect(leversOf(build, { ...ASKED, stop: () => true })).toMatchObject({ rows: [], done: 0, of: 0 });
  });

  it('should tell how far it is', () => {
    const told: number[][] = [];
    leversOf(build, { ...ASKED, trials: 1, onProgress: (done, of) => told.push([done, of]) });
    expect(told).toEqual(Array.from({ length: found.of + 1 }, (_, i) => [i, found.of]));
  });

  it('should be none where the finish has no date', () => {
    const never = makeBuild({ ...parts, tasks: [...parts.tasks, task('lift', 60, { people: 9 })] });
    expect(leversOf(never, ASKED)).toMatchObject({ before: { plan: null, p80: null }, rows: [], of: 0 });
  });
});

describe('an evening more', () => {
  it('should win what the finish comes earlier when a build is made with it by hand', () => {
    const byHand = makeBuild({
      ...parts,
      people: parts.people.map((one) => ({ ...one, week: { ...EVENINGS, mon: ['18:30-21:00'] } })),
    });
    expect(oneMoreEvening(build)!.file).toEqual(byHand);
  });
});

// Helpers

function guessed(key: string, likely: number, more: object = {}): object {
  return task(key, likely, { minutes: { low: likely * 0.8, likely, high: likely * 1.5 }, ...more });
}

function rowOf(key: string): Lever {
  return found.rows.find((row) => row.key === key)!;
}

function days(from: string, to: string): number {
  return (Date.parse(to.slice(0, 10)) - Date.parse(from.slice(0, 10))) / 86_400_000;
}

function told(rows: readonly Lever[]) {
  return rows.map(({ kind, daysWon, costs, finish }) => ({ kind, daysWon, costs, finish }));
}
