/**
 * How long an edit takes to reach the dates, and what the search for a better order wins against the time it is given.
 * Milliseconds and seconds are those of the machine it runs on; days won and orders tried come out the same everywhere.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { movedTo } from '#shared/demo/shift.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { computePlan } from '#shared/plan.ts';
import { draftOf, floorOf } from '#shared/schedule/draft.ts';
import { Generator } from '#shared/schedule/levelling/generate.ts';
import { improve } from '#shared/search/dates/improve.ts';
import { NOW } from '../support/builds.ts';
import { alternate, checksum, median, ratio } from './measure.ts';
import { seeded } from './networks.ts';
import { atMost, digits, printTable, times } from './table.ts';
import { manyZones } from './zones.ts';

const SEEDS = [1, 2];
/** As many as the page asks for: orders with the next days kept still, then with everything free to move. */
const COUNTS = { still: 4000, free: 2000 };
/** Where the search is looked at on its way. */
const MARKS = [50, 100, 300, 1000, 2000, COUNTS.still] as const;

export function run(): void {
  benchEdit();
  benchSearch('The demo', wagtail());
  benchSearch('The demo moved to November', movedTo(wagtail(), '2027-11-10'));
  benchThousand();
  process.stdout.write(`\nEverything was used: ${checksum()}\n`);
}

/** Every run edits another task, so that nothing can be kept from the run before. */
function benchEdit(): void {
  const file = wagtail();
  const edited = file.tasks.flatMap(({ key, state }) => (state === 'finished' ? [] : [longer(file, key)]));
  const { basis, net, graph, list } = draftOf(file, NOW);
  const floor = floorOf(basis);
  let next = 0;
  const taken = alternate(
    {
      edited: () => computePlan(edited[next++ % edited.length]!, { now: NOW }).order.length,
      unedited: () => computePlan(file, { now: NOW }).order.length,
      levelled: () => new Generator(basis, net, graph.ids).generate(list, { floor, explain: true }).end!,
    },
    { samples: 201, sample: 0, warmUp: 2000 },
  );
  const ms = median(taken.edited);
  printTable(
    `From one edit of the demo to its new plan, ${edited.length} edits in turn`,
    ['', 'ms', 'over it', 'aim'],
    [
      ['the plan after an edit', digits(ms), '', atMost(30, ms, ' ms')],
      ['the plan without one', digits(median(taken.unedited)), times(ratio(taken.edited, taken.unedited))],
      [
        'the levelled dates alone',
        digits(median(taken.levelled)),
        times(ratio(taken.edited, taken.levelled)),
      ],
    ],
  );
}

function benchSearch(name: string, file: BuildFile): void {
  const rows = SEEDS.flatMap((seed) =>
    wins(file, seed).map(({ orders, seconds, days, moved }) => [
      `${seed}`,
      orders.toLocaleString('en-GB'),
      digits(seconds),
      `${days}`,
      `${moved}`,
    ]),
  );
  const { finish } = computePlan(file, { now: NOW });
  printTable(
    `${name}, finished on ${finish.dates?.slice(0, 10)} as it stands: won by search`,
    ['seed', 'orders tried', 's', 'days earlier', 'near tasks moved'],
    rows,
  );
}

function benchThousand(): void {
  const file = manyZones(1000, 15, seeded(15));
  const taken = alternate(
    {
      dates: () => draftOf(file, NOW).levelled.end!,
      plan: () => computePlan(file, { now: NOW }).order.length,
    },
    { samples: 21 },
  );
  const dates = median(taken.dates);
  printTable(
    'A build of 1,000 tasks, four people in 15 zones',
    ['', 'ms', 'aim'],
    [
      ['its dates, from the file', digits(dates), atMost(150, dates, ' ms')],
      ['its whole plan', digits(median(taken.plan))],
    ],
  );
}

// Helpers

interface Won {
  readonly orders: number;
  readonly seconds: number;
  readonly days: number;
  readonly moved: number;
}

/** What the best order so far wins at each mark; the last row is the end, wherever the search came to it. */
function wins(file: BuildFile, seed: number): Won[] {
  const rows: Won[] = [];
  const from = performance.now();
  let [days, moved] = [0, 0];
  const row = (orders: number): Won => ({ orders, seconds: (performance.now() - from) / 1000, days, moved });
  const { counts } = improve(file, {
    now: NOW,
    seed,
    counts: COUNTS,
    stop: (done) => {
      if (done >= (MARKS[rows.length] ?? Infinity)) rows.push(row(done));
      return false;
    },
    onBetter: (found) => ([days, moved] = [found.daysWon, found.moved.length]),
  });
  return [...rows, row(counts.still + counts.free)];
}

/** The build with one task two hours longer. */
function longer(file: BuildFile, key: string): BuildFile {
  return {
    ...file,
    tasks: file.tasks.map((task) => {
      if (task.key !== key) return task;
      const { low, likely, high } = task.minutes;
      return { ...task, minutes: { low: low + 120, likely: likely + 120, high: high + 120 } };
    }),
  };
}
