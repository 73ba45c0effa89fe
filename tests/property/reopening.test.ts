/**
 * Reopening against a simulation: layers are taken off one after the other, what stands in front first, until the
 * depth can be reached, and put back in the reverse order. The hours handed out on the way are the cost.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { computePlan } from '#shared/plan.ts';
import { arbitraryBuild, dayAfter } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW } from '../support/builds.ts';

const stacks = arbitraryBuild({ acyclic: true, places: 'any', kinds: ['FS'], progress: false });
const states = fc.infiniteStream(fc.constantFrom('not-started', 'started', 'finished', 'finished'));
const costs = fc.infiniteStream(fc.constantFrom(null, null, 60, 500));

describe('reopening', () => {
  it('should cost what a builder who takes off and puts back layer by layer would spend', () => {
    fc.assert(
      fc.property(stacks, states, costs, (parts, state, cost) => {
        const tasks = parts.tasks.map((task) => ({
          ...task,
          ...inState(state.next().value),
          reopenMinutes: cost.next().value,
        }));
        const file = makeBuild({ ...parts, links: [], tasks, build: { asOf: `${dayAfter(7)}T00:00` } });
        for (const { zone, depth, reopenMinutes, reopens } of computePlan(file, { now: NOW }).lastChances) {
          const taken = takeOff(file, zone, depth);
          expect(reopens.map(({ task }) => task).toSorted()).toEqual([...taken.keys()].toSorted());
          expect(reopenMinutes).toBe([...taken.values()].reduce((sum, minutes) => sum + minutes, 0));
        }
      }),
      { numRuns: 300 },
    );
  });

  it('should cost nothing where nothing has been closed', () => {
    fc.assert(
      fc.property(stacks, (parts) => {
        for (const chance of computePlan(makeBuild({ ...parts, links: [] }), { now: NOW }).lastChances)
          expect([chance.reopenMinutes, chance.closed]).toEqual([0, false]);
      }),
    );
  });

  it('should take the figure given for a task, and 0.3 off plus 0.7 back of its hours for two people otherwise', () => {
    const done = { ...inState('finished'), people: 2, minutes: { low: 60, likely: 100, high: 200 } };
    const depths = ['metal', 'lining'];
    const places = [{ zone: 'z', depth: 'lining', hides: 'metal' }];
    const file = makeBuild({
      build: { asOf: `${dayAfter(7)}T00:00` },
      depths,
      zones: [{ key: 'z', name: 'z', depths }],
      tasks: [
        { key: 'panel', name: 'panel', ...done, places },
        {
          key: 'shelf',
          name: 'shelf',
          ...done,
          reopenMinutes: 30,
          places: [{ zone: 'z', depth: 'lining', hides: null }],
        },
      ],
    });
    const metal = computePlan(file, { now: NOW }).lastChances.find(({ depth }) => depth === 'metal')!;
    expect(metal.reopens).toEqual([{ task: 'panel', personMinutes: 200 }]);
    expect([metal.closed, metal.by]).toEqual([true, 'panel']);
  });
});

// Helpers

function inState(state: string) {
  if (state === 'not-started') return { state };
  const startedAt = `${dayAfter(1)}T09:00`;
  return state === 'started'
    ? { state, startedAt }
    : { state, startedAt, finishedAt: `${dayAfter(3)}T09:00` };
}

/** Takes off, as long as something is in the way, whatever has nothing left in front of it; minutes by task. */
function takeOff(file: BuildFile, zoneKey: string, depth: string): Map<string, number> {
  const zone = file.zones.find(({ key }) => key === zoneKey)!;
  const position = (key: string) => zone.depths.indexOf(key);
  const wanted = position(depth);
  const layers = file.tasks.flatMap((task) => {
    const here = task.places.filter((place) => place.zone === zoneKey);
    if (here.length === 0 || task.state === 'not-started') return [];
    const hides = Math.max(...here.map((place) => (place.hides === null ? -1 : position(place.hides))));
    const at = here.map((place) => position(place.depth));
    return [{ task, hides, back: Math.min(...at), front: Math.max(...at) }];
  });
  const off = new Map<string, number>();
  const inTheWay = () =>
    layers.filter(({ task, hides, front }) => {
      if (off.has(task.key)) return false;
      if (hides >= wanted) return true;
      const removed = layers.filter((other) => off.has(other.task.key) && other.hides >= wanted);
      return task.state === 'finished' && removed.some((other) => other.back < front);
    });
  for (let next = inTheWay(); next.length > 0; next = inTheWay())
    for (const { task } of next) {
      const zones = new Set(task.places.map((place) => place.zone)).size;
      const whole = task.reopenMinutes ?? task.minutes.likely * task.people;
      off.set(task.key, Math.round(whole / zones));
    }
  return off;
}
