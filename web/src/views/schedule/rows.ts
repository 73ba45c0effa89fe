/**
 * The rows: phases in the order of their numbers, folded or not. As the sheet opens, neighbouring finished phases are
 * one ruled row, those with work near now are unfolded to what is open in them, the rest are one row each.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Phase, Task } from '#shared/contract/task.ts';
import { dayNumber } from '#shared/time/days.ts';

/** A phase with its number, tasks in order of their dates. */
export interface PhaseGroup {
  /** '' for what has no phase. */
  readonly key: string;
  readonly number: number;
  readonly name: string;
  readonly tasks: readonly Task[];
  readonly finished: number;
}

export interface FoldRow {
  readonly kind: 'fold';
  readonly id: string;
  readonly groups: readonly PhaseGroup[];
  readonly done: boolean;
}

export interface TaskRow {
  readonly kind: 'task';
  readonly id: string;
  readonly task: Task;
  readonly group: PhaseGroup;
  /** Place in its phase, from 0, and how many of the phase are shown. */
  readonly place: number;
  readonly of: number;
  /** Finished tasks of the phase that are not shown. */
  readonly hidden: number;
}

/** `index`: its place from the top. */
export type Row = (FoldRow | TaskRow) & { readonly index: number };

export interface Filter {
  readonly zone: string | null;
  readonly person: string | null;
  readonly phase: string | null;
}

export interface Folding {
  /** `all` unfolds everything, `folded` nothing, null what is near. */
  readonly show: 'all' | 'folded' | null;
  /** Phases that are the other way round than `show` says; `key:done` for the finished tasks of one. */
  readonly flip: ReadonlySet<string>;
  /** A task that has to be in sight. */
  readonly reveal: string | null;
}

/** Work that starts within so many days is near. */
const NEAR_DAYS = 42;
/** What was finished so lately still shows among what is open. */
const LATELY_DAYS = 15;

export function isFiltered({ zone, person, phase }: Filter): boolean {
  return zone !== null || person !== null || phase !== null;
}

export function matches(task: Task, { zone, person, phase }: Filter, plan: Plan): boolean {
  if (phase !== null && task.phase !== phase) return false;
  if (zone !== null && !task.places.some((place) => place.zone === zone)) return false;
  if (person === null) return true;
  const people = plan.tasks[task.key]?.dates?.people ?? [];
  return people.includes(person) || (people.length === 0 && task.who.includes(person));
}

/** Phases that have a task left after the filter, with those tasks. */
export function groupsOf(file: BuildFile, plan: Plan, filter: Filter): PhaseGroup[] {
  const of = new Map<string, Task[]>();
  for (const task of file.tasks) {
    if (!matches(task, filter, plan)) continue;
    const key = task.phase ?? '';
    const list = of.get(key);
    if (list === undefined) of.set(key, [task]);
    else list.push(task);
  }
  const none: Phase = { key: '', name: 'No phase', budget: 0 };
  return [...file.phases, none].flatMap(({ key, name }, i) => {
    const tasks = of.get(key);
    if (tasks === undefined) return [];
    const finished = tasks.filter(({ state }) => state === 'finished').length;
    return [{ key, number: i + 1, name, tasks: inOrder(tasks, plan), finished }];
  });
}

export function rowsOf(
  groups: readonly PhaseGroup[],
  plan: Plan,
  folding: Folding,
  filtered: boolean,
): Row[] {
  const rows: (FoldRow | TaskRow)[] = [];
  const today = dayNumber(plan.asOf.slice(0, 10));
  for (const group of groups) {
    if (isUnfolded(group, plan, folding, filtered, today)) {
      rows.push(...unfolded(group, plan, folding, filtered, today));
      continue;
    }
    const done = group.finished === group.tasks.length;
    const last = rows.at(-1);
    if (done && last?.kind === 'fold' && last.done)
      rows[rows.length - 1] = folded([...last.groups, group], true);
    else rows.push(folded([group], done));
  }
  return rows.map((row, index) => ({ ...row, index }));
}

function folded(groups: readonly PhaseGroup[], done: boolean): FoldRow {
  return { kind: 'fold', id: `fold ${groups[0]!.key}`, groups, done };
}

function isUnfolded(
  group: PhaseGroup,
  plan: Plan,
  folding: Folding,
  filtered: boolean,
  today: number,
): boolean {
  if (folding.reveal !== null && group.tasks.some(({ key }) => key === folding.reveal)) return true;
  const usual = folding.show === 'all' || (folding.show === null && (filtered || isNear(group, plan, today)));
  return folding.flip.has(group.key) ? !usual : usual;
}

/** Is something of it under way or about to start? */
function isNear({ tasks }: PhaseGroup, plan: Plan, today: number): boolean {
  return tasks.some(({ key }) => {
    const planned = plan.tasks[key];
    if (planned === undefined || planned.state === 'finished') return false;
    return (
      planned.state === 'started' ||
      (planned.dates !== null && dayNumber(planned.dates.start.slice(0, 10)) - today <= NEAR_DAYS)
    );
  });
}

function unfolded(
  group: PhaseGroup,
  plan: Plan,
  folding: Folding,
  filtered: boolean,
  today: number,
): TaskRow[] {
  const every = folding.show === 'all' || filtered || group.finished === group.tasks.length;
  const all = folding.flip.has(`${group.key}:done`) ? !every : every;
  const shown = all
    ? group.tasks
    : group.tasks.filter(({ key }) => {
        const planned = plan.tasks[key];
        if (planned?.state !== 'finished' || key === folding.reveal) return true;
        return planned.dates !== null && today - dayNumber(planned.dates.finish.slice(0, 10)) <= LATELY_DAYS;
      });
  // Nothing open and nothing late: the phase still has its row.
  const tasks = shown.length === 0 ? group.tasks : shown;
  const hidden = group.tasks.length - tasks.length;
  return tasks.map((task, place) => ({
    kind: 'task',
    id: task.key,
    task,
    group,
    place,
    of: tasks.length,
    hidden,
  }));
}

/** By start, those without dates last; ties stay as the builder listed them. */
function inOrder(tasks: readonly Task[], plan: Plan): Task[] {
  const start = ({ key }: Task) => plan.tasks[key]?.dates?.start ?? '~';
  return tasks.toSorted((a, b) => (start(a) < start(b) ? -1 : start(a) > start(b) ? 1 : 0));
}

/** "1–4", "1, 3": numbers of phases folded into one row. */
export function numbersOf(groups: readonly PhaseGroup[]): string {
  const first = groups[0]!.number;
  const last = groups.at(-1)!.number;
  if (groups.length === 1) return String(first);
  return last - first === groups.length - 1
    ? `${first}–${last}`
    : groups.map(({ number }) => number).join(', ');
}

/** A phase's name on two lines of a narrow column, where it does not fit on one. */
export function inTwo(name: string, most: number): readonly [string, string] {
  if (name.length <= most) return [name, ''];
  const cut = name.lastIndexOf(' ', most);
  return cut < 4 ? [name, ''] : [name.slice(0, cut), name.slice(cut + 1)];
}
