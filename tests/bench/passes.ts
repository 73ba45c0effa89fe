/**
 * One sweep that finds the order and the earliest dates, one back for the latest, against bare sweeps; and how both
 * grow. Every contestant's dates are checked before it is timed.
 */
import { UNKNOWN } from '#shared/schedule/backward.ts';
import { UNPLACED } from '#shared/schedule/forward.ts';
import type { WorkingSet } from '#shared/time/working-set.ts';
import { bothPasses, LINKS, makeCase, same, turns, type Case } from './kernel.ts';
import { sweepBackward, sweepBackwardUnbranched, sweepForward, sweepForwardUnbranched } from './limit.ts';
import { alternate, median, ratio, type Samples } from './measure.ts';
import { seeded, typicalSets } from './networks.ts';
import { atMost, digits, printTable, times } from './table.ts';

/**
 * Tasks the networks of one size have together. Given one small network again and again, a processor learns its every
 * branch by heart, which no plan of a single edit ever sees; so contestants go from one network to the next.
 */
const TASKS_IN_TURN = 40_000;

type Contestant = 'bare' | 'unbranched' | 'plain' | 'calendars';

/** The two passes, and how they grow. */
export function benchPasses(): void {
  const sets = typicalSets();
  const sizes = [1000, 10_000, 100_000];
  const taken = sizes.map((size) => samplesOf(size, sets));
  const row = (name: 'plain' | 'calendars', i: number, aim: number) => {
    const { [name]: ours, bare, unbranched } = taken[i]!;
    const over = ratio(ours, bare);
    return [
      `${sizes[i]!.toLocaleString('en-GB')} tasks, ${name === 'plain' ? 'without' : 'with'} calendars`,
      digits(median(ours)),
      digits(median(bare)),
      times(over),
      atMost(aim, over),
      digits(median(unbranched)),
      times(ratio(ours, unbranched)),
    ];
  };
  printTable(
    `Order and two passes, ${LINKS} links a task, against bare sweeps in a known order, with branches and without`,
    ['', 'ms', 'bare', 'ratio', 'aim', 'unbranched', 'ratio'],
    [...sizes.map((_, i) => row('plain', i, 2)), ...sizes.map((_, i) => row('calendars', i, 4))],
  );
  const [, tens, hundreds] = taken as [unknown, Samples<Contestant>, Samples<Contestant>];
  const exponent = (name: Contestant) => Math.log10(median(hundreds[name]) / median(tens[name]));
  const growth = (name: 'plain' | 'calendars', words: string) => [
    words,
    exponent(name).toFixed(2),
    exponent('bare').toFixed(2),
    (exponent(name) - exponent('bare')).toFixed(2),
    atMost(0.1, exponent(name) - exponent('bare'), ''),
  ];
  printTable(
    'Growth from 10,000 to 100,000 tasks, as a power',
    ['', 'ours', 'bare', 'more', 'aim'],
    [growth('plain', 'without calendars'), growth('calendars', 'with calendars')],
  );
}

// Helpers

function samplesOf(size: number, sets: readonly WorkingSet[]): Samples<Contestant> {
  const random = seeded(size);
  const cases = Array.from({ length: Math.max(1, TASKS_IN_TURN / size) }, () => makeCase(size, sets, random));
  const [start, latest] = [new Int32Array(size), new Int32Array(size)];
  for (const one of cases) checkCase(one, sets, start, latest);
  const next = turns(cases.length);
  return alternate(
    {
      bare: () => {
        const { graph, net, order } = cases[next('bare')]!;
        const end = sweepForward(graph, net.minutes, order, start);
        sweepBackward(graph, net.minutes, order, end, latest);
        return end + latest[0]!;
      },
      unbranched: () => {
        const { graph, net, order } = cases[next('unbranched')]!;
        const end = sweepForwardUnbranched(graph, net.minutes, order, start);
        sweepBackwardUnbranched(graph, net.minutes, order, end, latest);
        return end + latest[0]!;
      },
      plain: () => {
        const { late, end } = bothPasses(cases[next('plain')]!.net, []);
        return end + late.start[0]!;
      },
      calendars: () => {
        const { late, end } = bothPasses(cases[next('calendars')]!.onCalendars, sets);
        return end + late.start[0]!;
      },
    },
    { samples: size < 100_000 ? 151 : 61 },
  );
}

/** Both bare sweeps agree with ours, and on calendars every task has its dates: nobody saves time by giving up. */
function checkCase(
  { graph, net, onCalendars, order }: Case,
  sets: readonly WorkingSet[],
  start: Int32Array,
  latest: Int32Array,
): void {
  const { early, late, end } = bothPasses(net, []);
  const agree = (last: number) => {
    same(last, end, 'a bare sweep');
    for (let v = 0; v < net.size; v++) {
      same(start[v]!, early.start[v]!, 'a bare sweep');
      same(latest[v]!, late.start[v]!, 'a bare sweep');
    }
  };
  const last = sweepForward(graph, net.minutes, order, start);
  sweepBackward(graph, net.minutes, order, last, latest);
  agree(last);
  const again = sweepForwardUnbranched(graph, net.minutes, order, start);
  sweepBackwardUnbranched(graph, net.minutes, order, again, latest);
  agree(again);
  const placed = bothPasses(onCalendars, sets);
  for (let v = 0; v < net.size; v++)
    if (placed.early.ready[v] === UNPLACED || placed.late.start[v] === UNKNOWN)
      throw new Error(`task ${v} has no dates on the calendars`);
}
