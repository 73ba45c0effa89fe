/** Random builds that are valid by construction: people and their weeks, conditions, tools, zones, tasks and links. */
import fc from 'fast-check';
import { START } from './builds.ts';

const two = (value: number) => String(value).padStart(2, '0');
const clock = (quarters: number) => `${two(Math.floor(quarters / 4))}:${two((quarters % 4) * 15)}`;

/** Sorted quarters of an hour, in pairs, are windows apart from each other. */
const windows = fc
  .uniqueArray(fc.integer({ min: 0, max: 96 }), { minLength: 0, maxLength: 6 })
  .map((cuts) => cuts.toSorted((a, b) => a - b))
  .map((cuts) =>
    Array.from(
      { length: Math.floor(cuts.length / 2) },
      (_, i) => `${clock(cuts[2 * i]!)}-${clock(cuts[2 * i + 1]!)}`,
    ),
  );

const week = fc.record({
  mon: windows,
  tue: windows,
  wed: windows,
  thu: windows,
  fri: windows,
  sat: windows,
  sun: windows,
});

/** A day that many days after the start. */
export function dayAfter(days: number): string {
  return new Date(Date.parse(`${START}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

const range = fc
  .tuple(fc.integer({ min: -2, max: 14 }), fc.integer({ min: 0, max: 5 }))
  .map(([from, length]) => ({ from: dayAfter(from), to: dayAfter(from + length) }));

const monthDay = fc.constantFrom('05-20', '06-01', '06-05', '06-09', '06-30', '12-31', '01-15', '02-29');

const person = (key: string) =>
  fc.record({
    key: fc.constant(key),
    name: fc.constant(key),
    week,
    exceptions: fc.array(
      fc.tuple(range, windows).map(([days, open]) => ({ ...days, windows: open })),
      { maxLength: 3 },
    ),
  });

const condition = (key: string) =>
  fc.record({
    key: fc.constant(key),
    name: fc.constant(key),
    notYearly: fc.array(
      fc.tuple(monthDay, monthDay).map(([from, to]) => `${from}..${to}`),
      { maxLength: 1 },
    ),
    not: fc.array(range, { maxLength: 1 }),
    hours: fc.constantFrom('00:00-24:00', '08:00-18:00', '10:15-23:45'),
    overrides: fc.uniqueArray(
      fc.record({ on: fc.integer({ min: 0, max: 12 }).map(dayAfter), holds: fc.boolean() }),
      { maxLength: 2, selector: ({ on }) => on },
    ),
  });

const tool = (key: string) =>
  fc.record({ key: fc.constant(key), name: fc.constant(key), only: fc.array(range, { maxLength: 2 }) });

/** One to three people with weeks of their own, two conditions, a tool. */
export const crew = fc
  .tuple(
    fc
      .integer({ min: 1, max: 3 })
      .chain((count) => fc.tuple(...Array.from({ length: count }, (_, i) => person(`p${i}`)))),
    fc.tuple(condition('dry'), condition('warm')),
    fc.tuple(tool('saw')),
  )
  .map(([people, conditions, tools]) => ({ people, conditions, tools }));

/** A week in which something can always be done. */
const kindWeek = fc.constantFrom(
  { tue: ['18:30-21:00'], thu: ['18:30-21:00'], sat: ['09:00-12:30', '13:30-17:00'] },
  { mon: ['08:00-12:00', '13:00-17:00'], wed: ['08:00-12:00'], sun: ['10:00-16:00'] },
  { mon: ['19:00-24:00'], tue: ['00:00-01:30', '19:00-22:00'], fri: ['18:00-20:00'], sat: ['08:00-18:00'] },
);

const kindPerson = (key: string) =>
  fc.record({
    key: fc.constant(key),
    name: fc.constant(key.toUpperCase()),
    week: kindWeek,
    exceptions: fc.array(
      fc
        .tuple(range, fc.constantFrom([], ['09:00-19:00']))
        .map(([days, open]) => ({ ...days, windows: open })),
      { maxLength: 2 },
    ),
  });

const kindCondition = (key: string) =>
  fc.record({
    key: fc.constant(key),
    name: fc.constant(key),
    not: fc.array(range, { maxLength: 2 }),
    hours: fc.constantFrom('00:00-24:00', '08:00-20:30'),
  });

const DEPTH_KEYS = ['d0', 'd1', 'd2', 'd3'];
const ZONE_KEYS = ['z0', 'z1', 'z2'];

const places = fc.uniqueArray(
  fc.record({
    zone: fc.constantFrom(...ZONE_KEYS),
    depth: fc.constantFrom(...DEPTH_KEYS),
    hides: fc.option(fc.constantFrom(...DEPTH_KEYS), { freq: 2 }),
  }),
  { maxLength: 3, selector: ({ zone, depth }) => `${zone} ${depth}` },
);

/** Places whose covers work in front of what they hide, as most do. */
const orderlyPlaces = places.map((list) =>
  list.map((place) => ({
    ...place,
    hides: place.hides !== null && place.hides < place.depth ? place.hides : null,
  })),
);

interface Options {
  /** Links only from a lower to a higher number, so that they never run in a circle. */
  readonly acyclic: boolean;
  /** Places in zones; `any`: covers may hide themselves and each other. */
  readonly places: 'none' | 'orderly' | 'any';
  readonly kinds: readonly ('FS' | 'SS' | 'FF' | 'SF')[];
  /** Some tasks finished or begun before the as-of day. */
  readonly progress: boolean;
}

const minutes = fc.oneof(
  { weight: 1, arbitrary: fc.constant(0) },
  { weight: 8, arbitrary: fc.integer({ min: 1, max: 420 }) },
);

function taskOf(key: string, options: Options) {
  return fc
    .record({
      minutes,
      people: fc.integer({ min: 1, max: 2 }),
      who: fc.constantFrom([], [], ['p0', 'p1'], ['p1', 'p2']),
      tools: fc.constantFrom([], [], ['saw']),
      conditions: fc.constantFrom([], [], ['dry'], ['dry', 'warm']),
      waitMinutes: fc.constantFrom(0, 0, 600, 2000),
      waitConditions: fc.constantFrom([], [], ['warm']),
      waitHoldsZones: fc.boolean(),
      shortestSitting: fc.constantFrom(0, 60, 150),
      places:
        options.places === 'none' ? fc.constant([]) : options.places === 'orderly' ? orderlyPlaces : places,
    })
    .map(({ minutes: length, ...rest }) => ({
      key,
      name: key.toUpperCase(),
      minutes: { low: length, likely: length, high: length },
      ...rest,
    }));
}

function linkOf(count: number, { acyclic, kinds }: Options) {
  return fc
    .record({
      from: fc.nat(count - 1),
      to: fc.nat(count - 1),
      kind: fc.constantFrom(...kinds),
      lagMinutes: fc.constantFrom(0, 0, 0, 90, 1500),
      lagOn: fc.constantFrom('clock', 'working'),
      reason: fc.constantFrom('', 'because'),
    })
    .filter(({ from, to }) => (acyclic ? from < to : from !== to))
    .map(({ from, to, ...rest }) => ({ from: `t${from}`, to: `t${to}`, ...rest }));
}

interface Progress {
  readonly state?: 'started' | 'finished';
  readonly startedAt?: string;
  readonly finishedAt?: string;
}

/** The first tasks are done, the next one is under way; dates before the as-of day, a week after the start. */
const AS_OF_LATER = `${dayAfter(7)}T00:00`;

function withProgress<T extends object>(
  tasks: readonly T[],
  finished: number,
  begun: number,
): (T & Progress)[] {
  return tasks.map((task, i) => {
    if (i < finished)
      return {
        ...task,
        state: 'finished',
        startedAt: `${dayAfter(i % 5)}T09:00`,
        finishedAt: `${dayAfter(5)}T10:00`,
      };
    if (i < finished + begun) return { ...task, state: 'started', startedAt: `${dayAfter(6)}T09:00` };
    return task;
  });
}

/** Parts of a build, as `makeBuild` takes them. */
export function arbitraryBuild(options: Options) {
  return fc.integer({ min: 2, max: 8 }).chain((count) =>
    fc
      .record({
        people: fc.tuple(kindPerson('p0'), kindPerson('p1'), kindPerson('p2')),
        tools: fc.tuple(tool('saw').map((saw) => ({ ...saw, only: [] }))),
        conditions: fc.tuple(kindCondition('dry'), kindCondition('warm')),
        tasks: fc.tuple(...Array.from({ length: count }, (_, i) => taskOf(`t${i}`, options))),
        links: fc.uniqueArray(linkOf(count, options), {
          maxLength: 2 * count,
          selector: ({ from, to, kind }) => `${from} ${to} ${kind}`,
        }),
        capacity: fc.integer({ min: 1, max: 2 }),
        groupCapacity: fc.integer({ min: 1, max: 3 }),
        lead: fc.integer({ min: 0, max: 12 }),
        needed: fc.nat(count - 1),
        finished: options.progress ? fc.nat(2) : fc.constant(0),
        begun: options.progress ? fc.nat(1) : fc.constant(0),
      })
      .map(({ tasks, capacity, groupCapacity, lead, needed, finished, begun, ...rest }) => ({
        ...rest,
        ...(options.progress ? { build: { asOf: AS_OF_LATER } } : {}),
        tasks: withProgress(tasks, finished, begun),
        depths: DEPTH_KEYS,
        zones: ZONE_KEYS.map((key) => ({ key, name: key, capacity, depths: DEPTH_KEYS })),
        zoneGroups: [{ key: 'all', zones: ZONE_KEYS, capacity: groupCapacity }],
        purchases: [
          {
            key: 'shop',
            state: 'wanted',
            leadDays: lead,
            lines: [{ key: 'part', name: 'part', quantity: 1, neededBy: [`t${needed}`] }],
          },
        ],
      })),
  );
}
