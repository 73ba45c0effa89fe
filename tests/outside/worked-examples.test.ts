/**
 * Critical paths against published worked examples. Each network runs in continuous time, one day of the book = 1,440
 * minutes, so its day numbers come back exactly. The source of each stands beside its figures in the data.
 */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { link, makeBuild, NOW, task } from '../support/builds.ts';
import data from './data/worked-examples.json' with { type: 'json' };

const DAY = 1440;

interface Activity {
  readonly d?: number;
  readonly te?: number;
  readonly amb?: readonly number[];
  readonly pred?: readonly string[];
  readonly es?: number;
  readonly ef?: number;
  readonly ls?: number;
  readonly lf?: number;
  readonly slack?: number;
}
type Activities = Readonly<Record<string, Activity>>;

/** Published PERT means are used as they stand: low = likely = high. */
function minutesOf({ d, te, amb }: Activity): number {
  const days = d ?? te ?? (amb![0]! + 4 * amb![1]! + amb![2]!) / 6;
  return Math.round(days * DAY);
}

function planOf(activities: Activities) {
  const entries = Object.entries(activities);
  const file = makeBuild({
    tasks: entries.map(([key, activity]) => task(key, minutesOf(activity))),
    links: entries.flatMap(([key, { pred = [] }]) => pred.map((from) => link(from, key))),
  });
  return computePlan(file, { now: NOW });
}

/** Activity on arc: an arc follows every arc that ends in the event it leaves. */
function arcsAsActivities(arcs: readonly (readonly (string | number)[])[]): Activities {
  const name = (arc: readonly (string | number)[]) => `${arc[0]}-${arc[1]}`;
  return Object.fromEntries(
    arcs.map((arc) => [
      name(arc),
      {
        d: Number(arc[2]),
        pred: arcs.filter((before) => before[1] === arc[0]).map(name),
        ...(arc.length > 3
          ? { es: Number(arc[3]), ef: Number(arc[4]), ls: Number(arc[5]), lf: Number(arc[6]) }
          : {}),
      },
    ]),
  );
}

for (const example of data.cpm) {
  const activities: Activities =
    'activities' in example
      ? (example.activities as unknown as Activities)
      : arcsAsActivities((example.aoa ?? example.aoaPlain) as unknown as (string | number)[][]);

  describe(`${example.id} (${example.source})`, () => {
    const plan = planOf(activities);

    // Books that round their means print a rounded total; the data says by how much.
    const tolerance = ('tol' in example ? Number(example.tol) : 0) * DAY;

    it('should end when the book says', () => {
      expect(Math.abs(plan.finish.early! - example.T * DAY)).toBeLessThanOrEqual(tolerance);
    });

    it('should have the published dates and slack', () => {
      for (const [key, { es, ef, ls, lf, slack }] of Object.entries(activities)) {
        const planned = plan.tasks[key]!;
        if (es !== undefined) expect(planned.early, key).toEqual({ start: es * DAY, finish: ef! * DAY });
        if (ls !== undefined) expect(planned.late, key).toEqual({ start: ls * DAY, finish: lf! * DAY });
        if (es !== undefined && ls !== undefined) expect(planned.totalFloat, key).toBe((ls - es) * DAY);
        if (slack !== undefined)
          expect(Math.abs(planned.totalFloat! - slack * DAY), key).toBeLessThanOrEqual(tolerance);
      }
    });

    if ('critical' in example)
      it('should find the published critical path as one chain', () => {
        const critical = Object.keys(activities).filter((key) => plan.tasks[key]!.critical);
        expect(critical.toSorted()).toEqual(example.critical!.toSorted());
        expect(plan.criticalChains).toContainEqual(example.critical);
      });

    if ('eventE' in example)
      it('should reach each event when the book says', () => {
        for (const [event, at] of Object.entries(example.eventE as Record<string, number>)) {
          const into = Object.keys(activities).filter((key) => key.endsWith(`-${event}`));
          const reached = Math.max(0, ...into.map((key) => plan.tasks[key]!.early!.finish));
          expect(reached, `event ${event}`).toBe(at * DAY);
        }
      });
  });
}

describe('PERT networks, on their published means', () => {
  const advertising = data.pert.find(({ id }) => id === 'stevenson-advertising')!;

  it(`should give the published path lengths (${advertising.source})`, () => {
    const activities = advertising.activities as unknown as Activities;
    const plan = planOf(activities);
    for (const [path, { mean }] of Object.entries(advertising.paths as Record<string, { mean: number }>)) {
      const last = path.at(-1)!;
      expect(plan.tasks[last]!.early!.finish, path).toBe(Math.round(mean * DAY));
    }
    expect(plan.criticalChains).toEqual([['D', 'F', 'G']]);
  });

  const six = data.pert.find(({ id }) => id === 'asw-6')!;

  it(`should give the published length of the critical path (${six.source})`, () => {
    const activities = six.activities as unknown as Activities;
    // The network is not printed; its critical path B-D-F is.
    const chain = {
      B: activities['B']!,
      D: { ...activities['D']!, pred: ['B'] },
      F: { ...activities['F']!, pred: ['D'] },
    };
    expect(planOf(chain).finish.early).toBe(Math.round(23.83 * DAY));
  });
});
