/**
 * Starter builds beyond what a test run has time for: every combination of the answers that touch each other, crossed
 * with size and insulation, and whole plans where any two answers meet. Prints counts, ranges, and milliseconds a build.
 */
import { computePlan } from '#shared/plan.ts';
import { CHOICES, CLIMATES, readAnswers, type Answers } from '#shared/starter/answers.ts';
import { settled } from '#shared/starter/questions.ts';
import { starterBuild } from '#shared/starter/starter-build.ts';
import { everyCombination, pairwise, type Fields } from '../support/pairwise.ts';
import { fileOf, head, sizeOf, STARTS, starterFaults } from '../support/starter.ts';

const GROUPS: Readonly<Record<string, Fields>> = {
  'openings and roof': pick(
    'windows',
    'roofVent',
    'cooling',
    'roofRack',
    'solar',
    'lights',
    'awning',
    'rearCarrier',
    'van',
    'insulation',
  ),
  'water, heat and gas': pick(
    'heater',
    'cooking',
    'hotWater',
    'freshWater',
    'wasteWater',
    'mains',
    'toilet',
    'bed',
    'van',
    'insulation',
  ),
  'the van itself': pick('van', 'inside', 'insulation', 'seats', 'suspension', 'bed', 'workshop', 'built'),
};

export function run(): void {
  for (const [name, fields] of Object.entries(GROUPS)) combinations(name, fields);
  plans();
}

function combinations(name: string, fields: Fields): void {
  const tried = new Set<string>();
  const hours: number[] = [];
  const tasks: number[] = [];
  let wrong = 0;
  const began = performance.now();
  for (const row of everyCombination(fields)) {
    const answers = settled(readAnswers(row));
    const counts = JSON.stringify(answers);
    if (tried.has(counts)) continue;
    tried.add(counts);
    const file = fileOf(answers as Answers);
    const faults = starterFaults(file);
    if (faults.length > 0 && wrong++ < 10) print(`  ${counts}: ${faults.slice(0, 3).join('; ')}`);
    hours.push(sizeOf(file).hours);
    tasks.push(file.tasks.length);
  }
  const each = (performance.now() - began) / tried.size;
  print(
    `${name}: ${tried.size} combinations, ${wrong} wrong, ${range(tasks)} tasks, ${range(hours)} person-hours, ${each.toFixed(1)} ms each`,
  );
}

function plans(): void {
  const rows = pairwise({ ...CHOICES, climate: CLIMATES });
  const weeks: number[] = [];
  let wrong = 0;
  const began = performance.now();
  for (const row of rows) {
    const build = starterBuild(readAnswers(row), head());
    const plan = computePlan(build, { now: `${STARTS}T00:00` });
    if (plan.errors.length > 0 || plan.provisional || plan.finish.dates === null) wrong++;
    else weeks.push((Date.parse(`${plan.finish.dates}Z`) - Date.parse(`${STARTS}T00:00Z`)) / 604_800_000);
  }
  const each = (performance.now() - began) / rows.length;
  print(
    `whole plans: ${rows.length} in which any two answers meet, ${wrong} wrong, ${range(weeks)} weeks at the expected pace, ${each.toFixed(0)} ms each`,
  );
}

function pick(...keys: readonly (keyof typeof CHOICES)[]): Fields {
  return Object.fromEntries(keys.map((key) => [key, CHOICES[key]]));
}

function range(values: readonly number[]): string {
  const least = values.reduce((a, b) => Math.min(a, b));
  const most = values.reduce((a, b) => Math.max(a, b));
  return `${Math.round(least)} to ${Math.round(most)}`;
}

function print(line: string): void {
  process.stdout.write(`${line}\n`);
}
