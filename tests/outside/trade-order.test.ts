/**
 * The order of the trade, held against the plan: what common practice says is hidden by what is never planned the
 * other way round, a link that asks for it is caught, and the demo's own story keeps to it but for its one slip.
 */
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { OrderError } from '#shared/contract/plan.ts';
import type { Link } from '#shared/contract/task.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { CATALOGUE_LINKS, CATALOGUE_PARTS } from '#shared/starter/catalogue.ts';
import { coverPairs } from '../support/cover-rule.ts';
import { FIRST_MINUTE, LINKS, stated, untouchedVan } from '../support/untouched-van.ts';
import { TRADE_RULES } from './trade-hidden-by.ts';

const HIDDEN_BY = CATALOGUE_LINKS.filter(({ why }) => why === 'hidden-by');
const UNBEGUN = untouchedVan('evenings');
const ROUND_THE_CLOCK = untouchedVan('round the clock');

describe('what the trade says is hidden (common practice)', () => {
  const plan = computePlan(UNBEGUN, { now: FIRST_MINUTE });
  const wait = new Map(UNBEGUN.tasks.map(({ key, waitMinutes }) => [key, waitMinutes]));
  const here = TRADE_RULES.filter(({ notHere }) => notHere === undefined);

  it('should be 36 rules, each expressed by this van or with the reason why it cannot be', () => {
    expect(new Set(TRADE_RULES.map(({ id }) => id)).size).toBe(36);
    expect(here.filter(({ pairs }) => pairs.length === 0)).toEqual([]);
    const elsewhere = TRADE_RULES.filter(({ notHere }) => notHere !== undefined);
    expect(elsewhere.map(({ id, pairs }) => [id, pairs.length])).toEqual([['C041', 0]]);
  });

  it('should leave the untouched van without an error', () => {
    expect(plan.errors).toEqual([]);
    expect(plan.provisional).toBe(false);
  });

  for (const { id, says, pairs, photoBefore } of here) {
    it(`should come first, cured: ${id}, ${says}`, () => {
      for (const [inner, later] of pairs) {
        const cured = plan.tasks[inner]!.early!.finish + wait.get(inner)!;
        expect(plan.tasks[later]!.early!.start, `${inner}, then ${later}`).toBeGreaterThanOrEqual(cured);
      }
    });

    it(`should be caught the other way round: ${id}, ${says}`, () => {
      for (const [inner, later] of pairs) {
        const told = errorsWith([...LINKS, stated(later, inner)]);
        expect(
          told.map(({ rule }) => rule),
          `${later}, then ${inner}`,
        ).toEqual(['wrong-order']);
        expect(told[0]!.tasks, `${later}, then ${inner}`).toEqual(expect.arrayContaining([inner, later]));
        expect(told[0]!.chain[0]).toMatchObject({ from: later, to: inner, by: 'link' });
      }
    });

    if (photoBefore !== undefined)
      it(`should have its photo asked for before the cover starts: ${id}, ${says}`, () => {
        for (const key of photoBefore) {
          const checks = UNBEGUN.tasks.find((task) => task.key === key)!.holdPoints;
          expect(checks, key).toMatchObject([{ kind: 'photo', when: 'entry' }]);
          const closings = plan.closings.filter(({ by }) => by === key);
          expect(closings.length, key).toBeGreaterThan(0);
          for (const { unsigned } of closings)
            expect(unsigned).toContainEqual({ task: key, holdPoint: checks[0]!.key, name: checks[0]!.name });
        }
      });
  }
});

describe('a link of the catalogue that says one task is hidden by another', () => {
  /** Links the rest of the plan does not enforce once they are gone, and why. Two-way: no more, no fewer. */
  const unprotected: Readonly<Record<string, string>> = {
    'drains > floor-insul':
      'the drain lies in front of the insulation and may be laid on it, as long as it is in before the sub-floor',
    'vapour-check > furring-walls':
      'battens cross the film and leave most of its joints to be seen: they hide nothing by themselves',
    'vapour-check > furring-ceiling':
      'battens cross the film and leave most of its joints to be seen: they hide nothing by themselves',
  };
  /** Those that places alone, without any other link, do not enforce either. */
  const unprotectedByPlaces: Readonly<Record<string, string>> = {
    ...unprotected,
    'pull-test > skin-arch':
      'the arch pieces hide nothing in the walls; the wall sheet beside them hides the inserts, and wax comes between',
    'water-test > bed': 'the panels of the bed lift out: it hides nothing',
    'hose-test-1 > trims': 'surrounds and cover strips hide nothing: each is unscrewed in a minute',
  };

  it('should be one of 59, and most of them follow from places alone', () => {
    expect(HIDDEN_BY).toHaveLength(59);
    expect(HIDDEN_BY.length - Object.keys(unprotected).length).toBe(56);
    expect(HIDDEN_BY.length - Object.keys(unprotectedByPlaces).length).toBe(53);
    const known = new Set(HIDDEN_BY.map(({ from, to }) => `${from} > ${to}`));
    expect(Object.keys(unprotectedByPlaces).filter((name) => !known.has(name))).toEqual([]);
  });

  for (const { from, to } of HIDDEN_BY) {
    const others = LINKS.filter((link) => link.from !== from || link.to !== to);
    const because = unprotected[`${from} > ${to}`];
    it(
      because === undefined
        ? `should be caught turned round: ${from}, then ${to}`
        : `should pass turned round: ${from}, then ${to}, because ${because}`,
      () => expectCaught([...others, stated(to, from)], from, to, because === undefined),
    );

    const becauseOfPlaces = unprotectedByPlaces[`${from} > ${to}`];
    it(
      becauseOfPlaces === undefined
        ? `should be caught turned round by places alone: ${from}, then ${to}`
        : `should pass turned round with places alone: ${from}, then ${to}, because ${becauseOfPlaces}`,
      () => expectCaught([stated(to, from)], from, to, becauseOfPlaces === undefined),
    );
  }
});

describe('the story of the demo', () => {
  const file = wagtail();
  const plan = computePlan(file, { now: FIRST_MINUTE });
  const taskOf = new Map(file.tasks.map((task) => [task.key, task]));
  const begun = file.tasks.filter(({ startedAt }) => startedAt !== null);

  it('should have 149 tasks in 14 phases, 51 of them finished and three under way', () => {
    expect(file.tasks).toHaveLength(149);
    expect(file.phases).toHaveLength(14);
    const count = (state: string) => file.tasks.filter((task) => task.state === state).length;
    expect([count('finished'), count('started'), count('not-started')]).toEqual([51, 3, 95]);
  });

  it('should buy each of the 153 parts once, and send one camera back', () => {
    const lines = file.purchases.flatMap((purchase) => purchase.lines.map(({ key }) => key));
    expect(CATALOGUE_PARTS).toHaveLength(153);
    expect(lines.toSorted()).toEqual([...CATALOGUE_PARTS.map(({ key }) => key), 'camera-wrong'].toSorted());
  });

  it('should have a purchase in every state', () => {
    const states = new Set(file.purchases.map(({ state }) => state));
    expect([...states].toSorted()).toEqual(
      ['ordered', 'part-received', 'quoted', 'received', 'returned', 'wanted'].toSorted(),
    );
  });

  it('should have one wrong order, one cover closed too early, and nothing else wrong', () => {
    expect(plan.errors.map(({ rule, tasks }) => ({ rule, tasks }))).toEqual([
      { rule: 'wrong-order', tasks: ['furring-walls', 'filler-hose', 'vapour-walls', 'vapour-check'] },
      { rule: 'closed-too-early', tasks: ['awning', 'skin-right'] },
    ]);
  });

  it('should have begun nothing before what a link puts before it was finished and cured, but one', () => {
    const early = file.links
      .filter(({ kind, from, to }) => kind === 'FS' && begunTooEarly(from, to))
      .map(({ from, to }) => `${from} > ${to}`);
    expect(early).toEqual(['awning > skin-right']);
  });

  it('should have covered nothing before it was finished and cured, but the awning plates', () => {
    const pairs = coverPairs(file);
    expect(pairs.length).toBeGreaterThan(500);
    const early = pairs
      .filter(({ inner, cover }) => begunTooEarly(inner, cover))
      .map(({ inner, cover, zone }) => `${inner} > ${cover} in ${zone}`);
    expect(early).toEqual(['awning > skin-right in R2']);
  });

  it('should have nothing begun or finished after its own evening, and every check of what is finished signed', () => {
    const asOf = file.build.asOf!;
    for (const { key, state, startedAt, finishedAt, holdPoints } of begun) {
      expect(startedAt! <= asOf && (finishedAt ?? startedAt!) <= asOf, key).toBe(true);
      if (state !== 'finished') continue;
      for (const { attempts } of holdPoints)
        expect(
          attempts.map(({ pass }) => pass),
          key,
        ).toEqual([true]);
    }
    for (const { on } of file.hours) expect(on <= asOf.slice(0, 10)).toBe(true);
  });

  it('should have had every part in hand the day before the work that needs it began', () => {
    const late = file.purchases.flatMap(({ lines, deliveries }) =>
      lines.flatMap(({ key, quantity, neededBy }) =>
        neededBy
          .filter((task) => taskOf.get(task)!.startedAt !== null)
          .filter((task) => {
            const start = taskOf.get(task)!.startedAt!.slice(0, 10);
            const came = deliveries.filter(({ on, line }) => line === key && on < start);
            return came.reduce((sum, delivery) => sum + delivery.quantity, 0) < quantity;
          })
          .map((task) => `${key} for ${task}`),
      ),
    );
    expect(late).toEqual([]);
  });

  it('should have worked only in the windows of its people, none of them in two places at once', () => {
    const worked = new Map<string, number>();
    for (const { person, on, minutes } of file.hours)
      worked.set(`${person} ${on}`, (worked.get(`${person} ${on}`) ?? 0) + minutes);
    expect(worked.size).toBeGreaterThan(100);
    for (const [at, minutes] of worked) {
      const [person, on] = at.split(' ') as [string, string];
      expect(minutes, at).toBeLessThanOrEqual(windowMinutes(file, person, on));
    }
  });

  it('should have hours on each task from the day it began to the day it ended', () => {
    for (const { key, startedAt, finishedAt } of begun) {
      const days = file.hours.filter(({ task }) => task === key).map(({ on }) => on);
      expect(days.toSorted()[0], key).toBe(startedAt!.slice(0, 10));
      if (finishedAt !== null) expect(days.toSorted().at(-1), key).toBe(finishedAt.slice(0, 10));
    }
  });

  /** Had the second of them begun when the first was not done, or not cured? */
  function begunTooEarly(first: string, second: string): boolean {
    const [before, after] = [taskOf.get(first)!, taskOf.get(second)!];
    if (after.startedAt === null) return false;
    if (before.finishedAt === null) return true;
    return minute(after.startedAt) < minute(before.finishedAt) + before.waitMinutes;
  }
});

// Helpers

/** The link that runs against "from, then to" is reported, and it alone is to go; or nothing is. */
function expectCaught(links: readonly Link[], from: string, to: string, caught: boolean): void {
  const repair = { kind: 'drop-links', links: [{ from: to, to: from, kind: 'FS' }], exact: true };
  const told = { rule: 'wrong-order', repair };
  expect(errorsWith(links)).toMatchObject(caught ? [told] : []);
}

function errorsWith(links: readonly Link[]): OrderError[] {
  return computePlan({ ...ROUND_THE_CLOCK, links: [...links] }, { now: FIRST_MINUTE }).errors;
}

/** Minutes of the person's windows that day: the exception of the day, or the usual week. */
function windowMinutes(file: BuildFile, person: string, on: string): number {
  const { week, exceptions } = file.people.find(({ key }) => key === person)!;
  const day = (['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'] as const)[
    new Date(`${on}T00:00Z`).getUTCDay()
  ]!;
  const exception = exceptions.find(({ from, to }) => from <= on && on <= to);
  return (exception?.windows ?? week[day])
    .map((window) => window.split('-') as [string, string])
    .reduce((sum, [from, to]) => sum + minute(`${on}T${to}`) - minute(`${on}T${from}`), 0);
}

function minute(instant: string): number {
  return Date.parse(`${instant}Z`) / 60_000;
}
