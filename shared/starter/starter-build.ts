/**
 * A whole build from answers: zones, tasks, links, purchases, conditions, people and open questions, all of them ordinary
 * records to be edited. The same answers always give the same build.
 */
import { FORMAT, FORMAT_VERSION, type BuildFile } from '../contract/build-file.ts';
import { readBuild } from '../contract/read.ts';
import type { Face } from '../contract/shell.ts';
import type { Link } from '../contract/task.ts';
import type { Answers, StarterHead } from './answers.ts';
import { lineTotal } from '../money/cost.ts';
import { bridge } from './bridge.ts';
import { CATALOGUE_LINKS, CATALOGUE_PHASES, CATALOGUE_TASKS, type CatalogueTask } from './catalogue.ts';
import { changedTasks } from './changes.ts';
import { crewFor, type Crew } from './crew.ts';
import { EXTRA_LINKS, EXTRA_TASKS } from './extras.ts';
import { factsOf, type Facts } from './facts.ts';
import { inOrder } from './in-order.ts';
import { openQuestions } from './open-questions.ts';
import { conditionOf, conditionsAt, monthlyMeans } from './seasons.ts';
import { partsFor, purchasesOf } from './shopping.ts';
import { limitsFor, SIZES } from './sizes.ts';
import { linkFrom, taskFrom } from './tasks.ts';
import { DEPTHS, facesOfVan, zonesOf } from './van.ts';
import { isWanted } from './wanted.ts';

/** Hours taken per hour of practised hands, until the log of this build says better (a guess). */
const PACE = { first: 1.5, second: 1.1 } as const;

/** Faces one works on from inside: two tasks fit there at once, not more. */
const INSIDE: ReadonlySet<Face> = new Set(['left', 'right', 'floor', 'ceiling', 'front', 'rear']);

/**
 * @param answers from `readAnswers`
 * @param head from `readStarterHead`
 * @throws PlanError `bad-build` for a head that `readStarterHead` would have refused
 */
export function starterBuild(answers: Answers, head: StarterHead): BuildFile {
  return readBuild(starterFile(answers, head));
}

/** The same, not yet vouched for and without what has a default. */
export function starterFile(answers: Answers, head: StarterHead) {
  const facts = factsOf(answers);
  const van = facesOfVan(SIZES[facts.van].bays);
  const entries = changedTasks(wantedTasks(facts), facts);
  const phaseOf = new Map(entries.map(({ key, phase }) => [key, phase]));
  const has = (task: string) => phaseOf.has(task);
  const zones = zonesOf(entries, van, (face) => stackOf(face, facts)).filter(
    ({ depths }) => depths.length > 0,
  );
  const crew = crewFor(head, facts);
  const tasks = entries.map((entry) => ({
    ...taskFrom(entry, zones, null, van),
    ...settingOf(entry, facts, crew),
  }));
  const asked = new Set(tasks.flatMap((task) => [...task.conditions, ...task.waitConditions]));
  const means = monthlyMeans(facts.climate);
  const tools = new Set(tasks.flatMap((task) => task.tools));
  const purchases = purchasesOf(partsFor(facts, has), (task) => phaseOf.get(task)!);
  const budgets = phaseBudgets(purchases);
  return {
    format: FORMAT,
    version: FORMAT_VERSION,
    build: {
      name: head.name,
      vehicle: SIZES[facts.van].words,
      currency: head.currency,
      startOn: head.startOn,
      targetFinishOn: head.targetFinishOn,
      budget: head.budget,
      pace: { use: true, prior: PACE[facts.built] },
      limits: limitsFor(facts),
    },
    people: crew.people,
    tools: TOOLS.filter(({ key }) => tools.has(key)),
    conditions: [...asked].sort().map((key) => conditionOf(key, means)),
    depths: DEPTHS.filter(({ key }) => zones.some(({ depths }) => depths.includes(key))),
    zones,
    zoneGroups: [
      {
        key: 'interior',
        zones: zones.filter(({ face }) => INSIDE.has(face)).map(({ key }) => key),
        capacity: 2,
      },
    ],
    phases: CATALOGUE_PHASES.filter(({ key }) => entries.some(({ phase }) => phase === key)).map(
      ({ key, name }) => ({ key, name, budget: budgets.get(key) ?? 0 }),
    ),
    tasks,
    links: linksBetween(facts, has),
    decisions: openQuestions(facts, crew.people[0]!.key, has),
    purchases,
  };
}

const TOOLS = [
  { key: 'track-saw', name: 'track saw' },
  { key: 'insert-tool', name: 'threaded-insert tool' },
];

/** By phase, and within a phase in an order one could work in. */
function wantedTasks(facts: Facts): CatalogueTask[] {
  const phases = CATALOGUE_PHASES.map(({ key }) => key);
  const wanted = [...CATALOGUE_TASKS, ...EXTRA_TASKS].filter(({ key }) => isWanted(key, facts));
  return inOrder(wanted, [...CATALOGUE_LINKS, ...EXTRA_LINKS]).sort(
    (a, b) => phases.indexOf(a.phase) - phases.indexOf(b.phase),
  );
}

/** Depths from bare metal. Spray foam locks in the wires of walls and ceiling: there they lie behind the insulation. */
function stackOf(face: Face, { insulation }: Facts): readonly string[] {
  const usual = DEPTHS.map(({ key }) => key);
  const flipped = insulation === 'foam' && ['left', 'right', 'ceiling'].includes(face);
  if (!flipped) return usual;
  return usual.flatMap((depth) =>
    depth === 'insulation' ? ['services', 'insulation'] : depth === 'services' ? [] : [depth],
  );
}

/** What place, season and crew make of a task. */
function settingOf(entry: CatalogueTask, facts: Facts, crew: Crew) {
  const { work, wait } = conditionsAt(entry, facts.workshop);
  return {
    conditions: work,
    waitConditions: entry.wait === undefined || entry.wait === 0 ? [] : wait,
    who: crew.whoFor(entry),
  };
}

/** Tasks of the whole van that are left out pass their order on; extra ones that nobody asked for never were there. */
function linksBetween(facts: Facts, has: (task: string) => boolean): Link[] {
  const extras = EXTRA_TASKS.map(({ key }) => key).filter((key) => isWanted(key, facts));
  const keys = [...CATALOGUE_TASKS.map(({ key }) => key), ...extras];
  const known = new Set(keys);
  const links = [...CATALOGUE_LINKS, ...EXTRA_LINKS].filter(
    ({ from, to }) => known.has(from) && known.has(to),
  );
  const { kept, bridged } = bridge(keys, links, has);
  return [
    ...kept.map(linkFrom),
    ...bridged.map(({ from, to, over }) => ({
      ...linkFrom({ from, to, why: 'needs-access', reason: '' }),
      why: null,
      reason: `the order stays although this van has no task “${NAME_OF.get(over)}”`,
    })),
  ];
}

const NAME_OF = new Map([...CATALOGUE_TASKS, ...EXTRA_TASKS].map(({ key, name }) => [key, name]));

/** Minor units per phase: what its lines cost at their guessed prices. */
function phaseBudgets(purchases: BuildFile['purchases']): Map<string | null, number> {
  const budgets = new Map<string | null, number>();
  for (const line of purchases.flatMap(({ lines }) => lines))
    budgets.set(line.phase, (budgets.get(line.phase) ?? 0) + lineTotal(line));
  return budgets;
}
