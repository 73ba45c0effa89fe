/**
 * Random networks for timing: finish-to-start links to any earlier tasks, numbered at random as keys are, so that no
 * array is walked in a kinder order than in a build; without calendars, or with a handful of real ones.
 */
import { Calendar, HORIZON_DAYS } from '#shared/time/calendar.ts';
import { dayNumber } from '#shared/time/days.ts';
import type { WorkingSet } from '#shared/time/working-set.ts';
import type { Digraph } from '#shared/graph/compile.ts';
import { bareNetwork, type Network } from '#shared/schedule/network.ts';
import { makeBuild, START } from '../support/builds.ts';

/** Whole numbers 0 ≤ n < below. */
export type Random = (below: number) => number;

/** A linear congruential generator with the constants of Numerical Recipes (from memory); its high bits count. */
export function seeded(seed: number): Random {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 0x1_0000_0000) * below);
  };
}

export function shuffled(count: number, random: Random): Int32Array {
  const order = Int32Array.from({ length: count }, (_, i) => i);
  for (let i = count - 1; i > 0; i--) {
    const j = random(i + 1);
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

/** Each task follows `links` others (fewer where there are not so many before it), none twice. */
export function randomGraph(count: number, links: number, random: Random): Digraph {
  const nodeAt = shuffled(count, random);
  const after: number[][] = Array.from({ length: count }, () => []);
  for (let place = 1; place < count; place++) {
    const before = new Set<number>();
    while (before.size < Math.min(links, place)) before.add(random(place));
    for (const earlier of before) after[nodeAt[earlier]!]!.push(nodeAt[place]!);
  }
  const offsets = new Int32Array(count + 1);
  after.forEach((targets, v) => (offsets[v + 1] = offsets[v]! + targets.length));
  return {
    size: count,
    offsets,
    targets: Int32Array.from(after.flatMap((targets) => targets.sort((a, b) => a - b))),
  };
}

/** 30 to 600 minutes each, no sitting under an hour, nothing before minute 0. */
export function randomNetwork(
  count: number,
  links: number,
  random: Random,
): { graph: Digraph; net: Network } {
  const graph = randomGraph(count, links, random);
  const net = bareNetwork(graph, count);
  for (let v = 0; v < count; v++) {
    net.minutes[v] = 30 + random(571);
    net.sitting[v] = Math.min(60, net.minutes[v]!);
    net.lower[v] = 0;
  }
  return { graph, net };
}

/** The same network, each task in one of the sets. */
export function onSets(net: Network, sets: readonly WorkingSet[], random: Random): Network {
  return { ...net, set: Int32Array.from(net.set, () => random(sets.length)) };
}

/** Evenings and Saturdays of two, a helper on Sundays, a dry season, mild days and daylight: six sets, ten years. */
export function typicalSets(): readonly WorkingSet[] {
  const file = makeBuild({
    people: [
      {
        key: 'a',
        name: 'A',
        week: { tue: ['18:30-21:00'], thu: ['18:30-21:00'], sat: ['09:00-12:30', '13:30-17:00'] },
        exceptions: [{ from: '2026-08-03', to: '2026-08-16', windows: ['09:00-12:00', '13:00-18:00'] }],
      },
      {
        key: 'b',
        name: 'B',
        week: { mon: ['19:00-21:30'], thu: ['18:30-21:00'], sat: ['10:00-12:30', '13:30-18:00'] },
        exceptions: [{ from: '2026-12-21', to: '2027-01-03', windows: [] }],
      },
      { key: 'c', name: 'C', week: { sun: ['10:00-13:00', '14:00-17:00'] } },
    ],
    conditions: [
      { key: 'mild', name: 'above 10 °C', notYearly: ['11-15..03-15'] },
      { key: 'light', name: 'daylight', hours: '08:00-18:00' },
    ],
  });
  const firstDay = dayNumber(START);
  const calendar = new Calendar(file, { from: firstDay, to: firstDay + HORIZON_DAYS }, firstDay);
  calendar.setOf(1, ['a'], [], []);
  calendar.setOf(1, ['b'], [], []);
  calendar.setOf(1, ['a', 'b'], [], []);
  calendar.setOf(2, ['a', 'b'], [], []);
  calendar.setOf(1, ['a', 'b', 'c'], ['mild'], []);
  calendar.setOf(1, ['a', 'b', 'c'], ['light'], []);
  return calendar.sets;
}
