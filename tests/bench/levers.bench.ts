/**
 * What a builder waits for: the levers of the demo build, and its health. Milliseconds are those of the machine; of the levers
 * also what the processor spent, because their aim is a wait of at most ten seconds and a busy machine makes it longer.
 */
import { wagtail } from '#shared/demo/wagtail.ts';
import { planHealth } from '#shared/health/plan-health.ts';
import { leversOf, USUAL_LEVER_TRIALS } from '#shared/levers/levers.ts';
import { computePlan } from '#shared/plan.ts';
import { NOW } from '../support/builds.ts';
import { alternate, checksum, median, ratio } from './measure.ts';
import { seeded } from './networks.ts';
import { atMost, digits, printTable, times } from './table.ts';
import { manyZones } from './zones.ts';

const DEMO_NOW = '2027-03-09T19:04';
const ROUNDS = 3;
const LONGEST_SECONDS = 10;

export function run(): void {
  benchLevers();
  benchHealth();
  process.stdout.write(`\nEverything was used: ${checksum()}\n`);
}

function benchLevers(): void {
  const file = wagtail();
  const rounds = Array.from({ length: ROUNDS }, () => {
    const [from, spent] = [performance.now(), process.cpuUsage()];
    const { done } = leversOf(file, { now: DEMO_NOW, trials: USUAL_LEVER_TRIALS, seed: 1 });
    const { user, system } = process.cpuUsage(spent);
    return { done, wall: (performance.now() - from) / 1000, cpu: (user + system) / 1e6 };
  });
  const wall = median(rounds.map((round) => round.wall));
  const cpu = median(rounds.map((round) => round.cpu));
  const { done } = rounds[0]!;
  printTable(
    `The levers of the demo, ${done} changes of ${USUAL_LEVER_TRIALS} trials each`,
    ['', 's', 'aim'],
    [
      ['whole, on the wall', digits(wall), atMost(LONGEST_SECONDS, wall, ' s')],
      ['whole, of the processor', digits(cpu)],
      ['each change', digits(cpu / (done + 1))],
    ],
  );
}

function benchHealth(): void {
  const builds = [
    ['the demo', wagtail(), DEMO_NOW],
    ['1,000 tasks in 15 zones', manyZones(1000, 15, seeded(15)), NOW],
  ] as const;
  const rows = builds.map(([name, file, now]) => {
    const plan = computePlan(file, { now });
    const taken = alternate(
      { health: () => planHealth(file, plan).passed, plan: () => computePlan(file, { now }).order.length },
      { samples: 11 },
    );
    return [
      name,
      digits(median(taken.health)),
      digits(median(taken.plan)),
      times(ratio(taken.health, taken.plan)),
    ];
  });
  printTable('Health, beside the plan it is of', ['', 'health ms', 'plan ms', 'over it'], rows);
}
