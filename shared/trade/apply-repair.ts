/** Repairs of the trade check as changes of a build: links with the rule's reason, or a task of the catalogue with its links. */
import type { BuildFile } from '../contract/build-file.ts';
import type { TradeFinding, TradeRepair } from '../contract/plan-trade.ts';
import type { Link, LinkWhy, Task } from '../contract/task.ts';
import { PlanError } from '../errors.ts';
import { compileGraph } from '../graph/compile.ts';
import { isAcyclic } from '../graph/order.ts';
import { taskGraph } from '../graph/task-graph.ts';
import { liveTasks } from '../schedule/basis.ts';
import { CATALOGUE_TASKS, type CatalogueTask } from '../starter/catalogue.ts';
import { EXTRA_TASKS } from '../starter/extras.ts';
import { taskFrom } from '../starter/tasks.ts';
import { kindName } from './kinds.ts';

type Advice = Pick<TradeFinding, 'repair' | 'reason' | 'harm'>;
type AddTask = Extract<TradeRepair, { kind: 'add-task' }>;

/** @throws PlanError `repair-gone` when there is none, or what it would change is no longer there */
export function applyTradeRepair(file: BuildFile, { repair, reason, harm }: Advice): BuildFile {
  if (repair === null) throw gone('this finding has none');
  const tasks = new Set(file.tasks.map(({ key }) => key));
  const named =
    repair.kind === 'link'
      ? repair.links.flatMap(({ from, to }) => [from, to])
      : [...repair.after, ...repair.before];
  const missing = named.find((key) => !tasks.has(key));
  if (missing !== undefined) throw gone(`there is no task "${missing}" any more`);
  if (repair.kind === 'add-task') return withTask(file, repair, reason, harm);
  const dropped = new Set(repair.drops.map(({ from, to, kind }) => `${from} ${to} ${kind}`));
  const kept = file.links.filter(({ from, to, kind }) => !dropped.has(`${from} ${to} ${kind}`));
  return withLinks({ ...file, links: kept }, repair.links, reason, harm);
}

function gone(what: string): PlanError {
  return new PlanError(`This repair no longer fits: ${what}.`, { code: 'repair-gone', repair: 'trade' });
}

function withLinks(
  file: BuildFile,
  links: readonly { from: string; to: string }[],
  reason: string,
  why: LinkWhy,
): BuildFile {
  const stated = new Set(
    file.links.flatMap(({ from, to, kind }) => (kind === 'FS' ? [`${from} ${to}`] : [])),
  );
  const fresh = links
    .filter(({ from, to }) => !stated.has(`${from} ${to}`))
    .map(({ from, to }): Link => ({ from, to, kind: 'FS', lagMinutes: 0, lagOn: 'clock', reason, why }));
  return { ...file, links: [...file.links, ...fresh] };
}

/** With its places where they close no circle; else without: then it counts everywhere. */
function withTask(file: BuildFile, repair: AddTask, reason: string, why: LinkWhy): BuildFile {
  const task = { ...added(file, repair.entry), places: [...repair.places] };
  const links = [
    ...repair.after.map((from) => ({ from, to: task.key })),
    ...repair.before.map((to) => ({ from: task.key, to })),
  ];
  const withIt = (one: Task) => withLinks({ ...file, tasks: [...file.tasks, one] }, links, reason, why);
  const placed = withIt(task);
  return repair.places.length === 0 || isInOrder(placed) ? placed : withIt({ ...task, places: [] });
}

function isInOrder(file: BuildFile): boolean {
  return isAcyclic(compileGraph(taskGraph(file), liveTasks(file.tasks)));
}

/** As the catalogue has it, as far as this build knows its phase, tools and conditions. */
function added(file: BuildFile, wanted: string): Task {
  const entry = [...CATALOGUE_TASKS, ...EXTRA_TASKS].find(({ key }) => key === wanted) ?? plain(wanted);
  const { places: _, ...anywhere } = entry;
  const task = taskFrom(anywhere, file.zones, null);
  const known = (records: readonly { readonly key: string }[], keys: readonly string[]) =>
    keys.filter((key) => records.some((record) => record.key === key));
  return {
    ...task,
    key: freeKey(file, task.key),
    phase: file.phases.some(({ key }) => key === task.phase) ? task.phase : null,
    tools: known(file.tools, task.tools),
    conditions: known(file.conditions, task.conditions),
    waitConditions: known(file.conditions, task.waitConditions),
  };
}

/** A kind the catalogue has no task of: an hour or two, a guess. */
function plain(kind: string): CatalogueTask {
  const name = kindName(kind);
  return {
    key: kind,
    phase: '',
    name: name.charAt(0).toUpperCase() + name.slice(1),
    kinds: [kind],
    minutes: [60, 90, 180],
    people: 1,
    sitting: 60,
    place: 'indoor',
    evening: true,
    note: 'Hours are a guess',
  };
}

function freeKey(file: BuildFile, wanted: string): string {
  const taken = new Set(file.tasks.map((task) => task.key));
  let key = wanted;
  for (let n = 2; taken.has(key); n++) key = `${wanted}-${n}`;
  return key;
}
