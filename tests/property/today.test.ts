/** Whatever the build: an evening's set can be worked, keeps rooms and hours, and does not depend on the order of records. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { computePlan } from '#shared/plan.ts';
import type { Ask } from '#shared/today/ask.ts';
import { todayOf, type Chosen } from '#shared/today/today.ts';
import { arbitraryBuild } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';
import { readyNow } from '../support/ready-now.ts';

const builds = arbitraryBuild({
  acyclic: false,
  places: 'any',
  kinds: ['FS', 'FS', 'SS', 'FF', 'SF'],
  progress: true,
});

/** A build with a few checks and questions besides, and an evening asked of it. */
const evenings = fc
  .record({
    parts: builds,
    people: fc.subarray(['p0', 'p1', 'p2'], { minLength: 1 }),
    minutes: fc.constantFrom(20, 45, 120, 180, 400),
    holding: fc.subarray(['dry', 'warm']),
    received: fc.boolean(),
    check: fc.constantFrom('none', 'entry', 'exit', 'exit', 'signed'),
    locked: fc.boolean(),
    tied: fc.boolean(),
  })
  .map(({ parts, people, minutes, holding, received, check, locked, tied }) => {
    const signed = [{ at: '2026-06-07T10:00', by: 'p0', pass: true }];
    const [first, ...rest] = parts.tasks;
    const holdPoints =
      check === 'none'
        ? []
        : [
            {
              key: 'c',
              name: 'c',
              when: check === 'entry' ? 'entry' : 'exit',
              attempts: check === 'signed' ? signed : [],
            },
          ];
    const file = makeBuild({
      ...parts,
      tasks: [{ ...first, holdPoints }, ...rest],
      links: tied
        ? [...parts.links.filter(({ from, to }) => from !== 't0' || to !== 't1'), { from: 't0', to: 't1' }]
        : parts.links,
      purchases: received ? parts.purchases.map((one) => ({ ...one, state: 'received' })) : parts.purchases,
      decisions: locked ? [{ key: 'd', question: 'Which?', options: ['x'], locksTasks: ['t1'] }] : [],
    });
    const plan = computePlan(file, { now: NOW });
    const ask: Ask = { people, minutes, holding, at: plan.asOf };
    return { file, plan, ask };
  });

describe('what can be done now', () => {
  it('should offer exactly what the rule lets be worked on', () => {
    fc.assert(
      fc.property(evenings, ({ file, plan, ask }) => {
        const { set, alternatives } = todayOf(file, plan, ask);
        const offered = [...set.map(({ ranked }) => ranked), ...alternatives].map(({ task }) => task.key);
        expect(offered.toSorted()).toEqual([...readyNow(file, plan, ask)].toSorted());
      }),
    );
  });

  it('should say of everything else that is open what it lacks', () => {
    fc.assert(
      fc.property(evenings, ({ file, plan, ask }) => {
        const { set, alternatives, held } = todayOf(file, plan, ask);
        const open = file.tasks.filter(({ state }) => state !== 'finished').length;
        expect(set.length + alternatives.length + held.length).toBe(open);
        expect(held.every(({ lacks }) => lacks.length > 0)).toBe(true);
      }),
    );
  });
});

describe('the set of an evening', () => {
  it('should keep everyone within the hours and in one place at a time', () => {
    fc.assert(
      fc.property(evenings, ({ file, plan, ask }) => {
        const { set } = todayOf(file, plan, ask);
        for (const { piece } of set) {
          expect(piece.from).toBeGreaterThanOrEqual(0);
          expect(piece.to).toBeLessThanOrEqual(ask.minutes);
          expect(piece.people).toHaveLength(piece.from === piece.to ? 0 : piece.task.people);
          expect(piece.people.every((key) => ask.people.includes(key))).toBe(true);
        }
        for (const [a, b] of pairs(set)) {
          if (a.piece.from >= b.piece.to || b.piece.from >= a.piece.to) continue;
          expect(a.piece.people.filter((key) => b.piece.people.includes(key))).toEqual([]);
          expect(a.piece.task.tools.filter((key) => b.piece.task.tools.includes(key))).toEqual([]);
        }
      }),
    );
  });

  it('should finish a task or give it its shortest sitting, and never more than is left of it', () => {
    fc.assert(
      fc.property(evenings, ({ file, plan, ask }) => {
        for (const { piece } of todayOf(file, plan, ask).set) {
          const left = plan.tasks[piece.task.key]!.minutes;
          const length = piece.to - piece.from;
          if (piece.finishes) expect(length).toBe(left);
          else {
            expect(length).toBeGreaterThanOrEqual(piece.task.shortestSitting);
            expect(length).toBeLessThan(left);
          }
        }
      }),
    );
  });

  it('should never have more tasks in a room than fit, what is cut staying in it', () => {
    fc.assert(
      fc.property(evenings, ({ file, plan, ask }) => {
        const { set } = todayOf(file, plan, ask);
        for (let at = 0; at < ask.minutes; at += 5) {
          const inside = set.filter(({ piece }) => piece.from <= at && (!piece.finishes || at < piece.to));
          for (const { key, capacity } of file.zones) {
            const here = inside.filter(({ piece }) => piece.task.places.some(({ zone }) => zone === key));
            // What was under way before stays under way, however many there are.
            if (here.some(({ piece }) => piece.task.state === 'not-started'))
              expect(here.length).toBeLessThanOrEqual(capacity);
          }
          for (const { zones, capacity } of file.zoneGroups) {
            const here = inside.filter(({ piece }) =>
              piece.task.places.some(({ zone }) => zones.includes(zone)),
            );
            expect(here.length).toBeLessThanOrEqual(capacity);
          }
        }
      }),
    );
  });

  it('should not depend on the order of records in the file', () => {
    fc.assert(
      fc.property(evenings, fc.infiniteStream(fc.nat()), ({ file, plan, ask }, numbers) => {
        const shuffled = mixed(file, numbers);
        const again = todayOf(shuffled, computePlan(shuffled, { now: NOW }), {
          ...ask,
          people: ask.people.toReversed(),
          holding: ask.holding.toReversed(),
        });
        expect(told(again)).toEqual(told(todayOf(file, plan, ask)));
      }),
    );
  });

  it('should leave nobody idle for an evening while something ready would take them', () => {
    fc.assert(
      fc.property(evenings, ({ file, plan, ask }) => {
        const { set, alternatives } = todayOf(file, plan, ask);
        if (set.length > 0) return;
        expect(alternatives.filter(({ minutes }) => minutes > 0).map(({ task }) => task.key)).toEqual([]);
      }),
    );
  });
});

// Helpers

function pairs<T>(list: readonly T[]): [T, T][] {
  return list.flatMap((a, i) => list.slice(i + 1).map((b): [T, T] => [a, b]));
}

function told({ set, alternatives, held }: ReturnType<typeof todayOf>) {
  const piece = ({ piece: { task, from, to, people } }: Chosen) => [task.key, from, to, people];
  return {
    set: set.map(piece),
    alternatives: alternatives.map(({ task }) => task.key),
    held: held.map(({ task, lacks }) => [task.key, lacks.map(({ kind }) => kind).toSorted()]),
  };
}

function mixed(file: BuildFile, numbers: Iterator<number>): BuildFile {
  const shuffle = <T>(list: readonly T[]): T[] =>
    list
      .map((item) => ({ item, at: numbers.next().value as number }))
      .toSorted((a, b) => a.at - b.at)
      .map(({ item }) => item);
  return {
    ...file,
    tasks: shuffle(file.tasks),
    links: shuffle(file.links),
    people: shuffle(file.people),
    zones: shuffle(file.zones),
    purchases: shuffle(file.purchases),
  };
}
