/**
 * The earliest place of a task among people, tools and rooms that others have taken, against trying every minute: the
 * first start that will do, and something in the way of every earlier one.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { basisOf } from '#shared/schedule/basis.ts';
import { earliestSpot } from '#shared/schedule/levelling/place.ts';
import { Resources } from '#shared/schedule/levelling/resources.ts';
import { workOf } from '#shared/schedule/levelling/work.ts';
import { teamsFor } from '#shared/schedule/levelling/teams.ts';
import { bareNetwork, NO_LOWER } from '#shared/schedule/network.ts';
import { crew } from '../support/arbitrary-builds.ts';
import { makeBuild, NOW, task } from '../support/builds.ts';
import { isAdmissible, runEnd, workable } from '../support/minute-by-minute.ts';

const LENGTH = 20 * 1440;
const NOBODY = 1_000_000;

// Quarters of an hour, so that gaps of just the right length and stretches that touch come up.
const quarters = (least: number, most: number) =>
  fc.integer({ min: least, max: most }).map((count) => 15 * count);
const span = fc.tuple(quarters(0, LENGTH / 15 - 1), quarters(1, 20));
const ask = fc.record({
  minutes: fc.oneof(fc.constant(0), fc.integer({ min: 1, max: 90 }), quarters(1, 12), quarters(1, 60)),
  people: fc.integer({ min: 1, max: 2 }),
  tools: fc.subarray(['saw', 'drill']),
  conditions: fc.subarray(['dry', 'warm']),
  places: fc.uniqueArray(fc.constantFrom('z0', 'z1'), { maxLength: 2 }),
  shortestSitting: fc.integer({ min: 0, max: 200 }),
  waitMinutes: fc.constantFrom(0, 300, 2000),
  waitHoldsZones: fc.boolean(),
  lower: quarters(0, 10 * 96),
  lowerFinish: fc.option(fc.nat(14 * 1440)),
  capacity: fc.integer({ min: 1, max: 2 }),
});

/** Stretches others have: of people and tools, and stays in zones. */
const others = fc.record({
  work: fc.array(fc.tuple(fc.constantFrom('p0', 'p1', 'p2', 'saw', 'drill'), span), {
    minLength: 20,
    maxLength: 60,
  }),
  stays: fc.array(fc.tuple(fc.constantFrom('z0', 'z1'), span), { maxLength: 8 }),
  givenBack: fc.nat(5),
});

describe('the earliest place of a task', () => {
  it('should begin at the first minute at which its people, tools and rooms are free for the whole of it', () => {
    fc.assert(
      fc.property(crew, ask, others, (drawn, wanted, taken) => {
        const { spot, file, team } = found(drawn, wanted, taken);
        const fits = placesIn(file, team, wanted, ownersOf(taken, wanted.capacity));
        const first = firstMinute(wanted.lower, fits);
        if (first === null) expect(spot === null || spot.ready > LENGTH || spot.finish > LENGTH).toBe(true);
        else expect(spot?.start).toBe(first);
      }),
      { numRuns: 150 },
    );
  });

  it('should name what was in the way until then, and nothing where nothing was', () => {
    fc.assert(
      fc.property(crew, ask, others, (drawn, wanted, taken) => {
        const { spot, file, team } = found(drawn, wanted, taken);
        fc.pre(spot !== null && spot.ready <= LENGTH);
        const alone = firstMinute(
          wanted.lower,
          placesIn(file, team, wanted, ownersOf(NOTHING, wanted.capacity)),
        );
        const { obstacle } = spot;
        expect(obstacle === null).toBe(spot.start === alone);
        if (obstacle === null) return;
        const { key, kind, until, holder } = obstacle;
        expect(until).toBeGreaterThan(wanted.lower);
        expect(until).toBeLessThanOrEqual(spot.start);
        const owners = ownersOf(taken, wanted.capacity);
        if (kind === 'zone') expect(owners.inside(key, until - 1)).toContain(holder);
        else {
          expect(owners.who(key, until - 1)).toBe(holder);
          expect(kind === 'person' ? team : wanted.tools).toContain(key);
        }
      }),
      { numRuns: 150 },
    );
  });
});

// Helpers

type Drawn = typeof crew extends fc.Arbitrary<infer T> ? T : never;
type Wanted = typeof ask extends fc.Arbitrary<infer T> ? T : never;
type Taken = typeof others extends fc.Arbitrary<infer T> ? T : never;

const NOTHING: Taken = { work: [], stays: [], givenBack: 0 };

function found({ people, conditions }: Drawn, wanted: Wanted, taken: Taken) {
  const { minutes, lower, lowerFinish, capacity, places, ...rest } = wanted;
  const depths = ['d0', 'd1'];
  const file = makeBuild({
    people,
    conditions,
    tools: ['saw', 'drill'].map((key) => ({ key, name: key })),
    depths,
    zones: ['z0', 'z1'].map((key) => ({ key, name: key, capacity, depths })),
    zoneGroups: [{ key: 'all', zones: ['z0', 'z1'], capacity: 2 }],
    tasks: [task('t', minutes, { ...rest, places: places.map((zone) => ({ zone, depth: 'd0' })) })],
  });
  const basis = basisOf(file, NOW);
  const resources = new Resources(basis);
  take(resources, taken);
  const net = bareNetwork({ size: 1, offsets: new Int32Array(2), targets: new Int32Array(0) }, 1);
  net.wait[0] = wanted.waitMinutes;
  net.minutes[0] = minutes;
  net.sitting[0] = Math.min(wanted.shortestSitting, minutes);
  const { sets } = basis.calendar;
  const [work] = workOf(basis, net, sets, ['t'], resources);
  const [team] = minutes === 0 ? teamsFor(basis, file.tasks[0]!) : work!.crews;
  fc.pre(team !== undefined);
  const request = { work: work!, lower, lowerFinish: lowerFinish ?? NO_LOWER, explain: true };
  const ask = () => earliestSpot(net, sets, request, work!.crews[0] ?? null, NOBODY);
  // Asked before some is given back, it must not remember it.
  ask();
  for (let holder = 0; holder < taken.givenBack; holder++)
    for (const [key] of taken.work.slice(holder, holder + 1)) busyOf(resources, key)?.release(holder);
  return { spot: ask(), file, team: team.people };
}

function busyOf(resources: Resources, key: string) {
  return key.startsWith('p') ? resources.person(key) : resources.tool(key);
}

/** What is not free any more is left out, so that nobody is in two places. */
function take(resources: Resources, taken: Taken): void {
  const owners = ownersOf({ ...taken, givenBack: 0 }, 1);
  taken.work.forEach(([key, [from, length]], holder) => {
    if (owners.who(key, from) === holder) busyOf(resources, key)?.take([[from, from + length]], holder);
  });
  taken.stays.forEach(([zone, [from, length]], holder) => {
    for (const { room } of resources.roomsOf({ places: [{ zone }] } as BuildFile['tasks'][number]))
      room.enter(from, from + length, holder);
  });
}

/** Who has what at a minute, minute by minute. */
function ownersOf({ work, stays, givenBack }: Taken, capacity: number) {
  const rows = new Map<string, Int32Array>();
  work.forEach(([key, [from, length]], holder) => {
    const row = rows.get(key) ?? new Int32Array(LENGTH + 1000).fill(-1);
    rows.set(key, row);
    if (row.subarray(from, from + length).every((owner) => owner === -1))
      row.fill(holder, from, from + length);
  });
  const isBack = (holder: number) => holder < givenBack;
  const inside = (room: string, minute: number) =>
    stays.flatMap(([zone, [from, length]], holder) =>
      (room === 'all' || zone === room) && from <= minute && minute < from + length ? [holder] : [],
    );
  return {
    who: (key: string, minute: number) => {
      const owner = rows.get(key)?.[minute] ?? -1;
      return owner !== -1 && isBack(owner) ? -1 : owner;
    },
    inside,
    isFull: (room: string, minute: number) => inside(room, minute).length >= (room === 'all' ? 2 : capacity),
  };
}

/** Does the task fit where it begins at that minute? */
function placesIn(
  file: BuildFile,
  team: readonly string[],
  wanted: Wanted,
  owners: ReturnType<typeof ownersOf>,
): (minute: number) => boolean {
  const open = workable(file, file.tasks[0]!, team, team.length, LENGTH);
  const { minutes, tools, places, waitMinutes, waitHoldsZones, lowerFinish } = wanted;
  const used = [...(minutes === 0 ? [] : team), ...tools];
  const rooms = places.length === 0 ? [] : [...places, 'all'];
  const sitting = Math.min(wanted.shortestSitting, minutes);
  return (start) => {
    if (minutes > 0 && !isAdmissible(open, start, sitting)) return false;
    const finish = minutes === 0 ? start : runEnd(open, start, minutes);
    if (finish === -1 || finish < (lowerFinish ?? 0)) return false;
    for (let m = start; m < finish; m++)
      if (open[m] === 1 && used.some((key) => owners.who(key, m) !== -1)) return false;
    const leave = waitHoldsZones ? finish + waitMinutes : finish;
    for (let m = start; m < leave; m++) if (rooms.some((room) => owners.isFull(room, m))) return false;
    return leave <= LENGTH;
  };
}

function firstMinute(lower: number, fits: (minute: number) => boolean): number | null {
  for (let m = lower; m < LENGTH; m++) if (fits(m)) return m;
  return null;
}
