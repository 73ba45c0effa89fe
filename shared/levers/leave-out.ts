/**
 * Leaving out what could be left out: every task of one option, with what hangs on them. Orders that ran through them
 * stay as links around them; lines nobody else needs go, as long as they are not ordered.
 */
import { withoutTask } from '../changes/remove-task.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase } from '../contract/purchase.ts';
import type { Link, LinkKind, Task } from '../contract/task.ts';
import { loggedByTask, pacesOf } from '../progress/pace.ts';
import { plannedMinutes } from '../progress/remaining.ts';
import { changeBetween, type Change } from './change.ts';

export interface Option {
  readonly name: string;
  readonly tasks: readonly Task[];
  /** Work has gone into it: nothing of it is taken out. */
  readonly begun: boolean;
}

/** The options of a build, by name. */
export function optionsOf(file: BuildFile): Option[] {
  const worked = new Set([...file.hours, ...file.timers].flatMap(({ task }) => task ?? []));
  const byName = new Map<string, Task[]>();
  for (const task of file.tasks)
    if (task.option !== null) byName.set(task.option, [...(byName.get(task.option) ?? []), task]);
  return [...byName]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, tasks]) => ({
      name,
      tasks,
      begun: tasks.some(({ key, state }) => state !== 'not-started' || worked.has(key)),
    }));
}

/** @returns null where there is no such option or work has gone into it, so that no worked hour loses its task */
export function leaveOut(file: BuildFile, name: string): Change | null {
  const option = optionsOf(file).find((one) => one.name === name);
  if (option === undefined || option.begun) return null;
  const keys = new Set(option.tasks.map(({ key }) => key));
  let after: BuildFile = { ...file, purchases: file.purchases.map((one) => withoutLines(one, keys)) };
  for (const task of option.tasks)
    after = withoutTask({ ...after, links: bridged(after.links, task) }, task.key);
  const logged = loggedByTask(file);
  const paces = pacesOf(file, logged);
  const saved = option.tasks.reduce((sum, task) => sum + plannedMinutes(task, 0, paces) * task.people, 0);
  return changeBetween(file, withoutEmpty(after, file), {
    key: `leave-out~${name}`,
    kind: 'leave-out',
    label: `Leave out: ${name}`,
    asks: { weekly: 0, once: -saved },
  });
}

/**
 * The links with those that keep what came before the task before what came after it. A link to its finish says nothing
 * about what hangs on its start. Lags add up where they count the same minutes.
 */
export function bridged(links: readonly Link[], { key, name }: Task): Link[] {
  const known = new Set(links.map(({ from, to, kind }) => `${from}~${to}~${kind}`));
  const into = links.filter(({ to }) => to === key);
  const outOf = links.filter(({ from }) => from === key);
  const added = into.flatMap((a) =>
    outOf.flatMap((b): Link[] => {
      const kind = `${a.kind[0]}${b.kind[1]}` as LinkKind;
      const isSaid = !(a.kind[1] === 'F' && b.kind[0] === 'S');
      const id = `${a.from}~${b.to}~${kind}`;
      if (!isSaid || a.from === b.to || known.has(id)) return [];
      known.add(id);
      const isAlike = a.lagOn === b.lagOn || a.lagMinutes === 0 || b.lagMinutes === 0;
      return [
        {
          from: a.from,
          to: b.to,
          kind,
          lagMinutes: isAlike ? a.lagMinutes + b.lagMinutes : Math.max(a.lagMinutes, b.lagMinutes),
          lagOn: isAlike && (a.lagMinutes > 0 ? a : b).lagOn === 'working' ? 'working' : 'clock',
          reason: `It ran through ${name}, which is left out.`,
          why: null,
        },
      ];
    }),
  );
  return [...links, ...added];
}

/** Without the lines that only those tasks need; a quote or a discount is for the whole, so those keep their lines. */
function withoutLines(purchase: Purchase, tasks: ReadonlySet<string>): Purchase {
  if (purchase.state !== 'wanted' && purchase.state !== 'quoted') return purchase;
  const goes = ({ neededBy }: Purchase['lines'][number]) =>
    neededBy.length > 0 && neededBy.every((key) => tasks.has(key));
  const lines = purchase.lines.filter((line) => !goes(line));
  if (lines.length === purchase.lines.length) return purchase;
  const isForTheWhole = purchase.discount > 0 || purchase.quotes.length > 0;
  return lines.length > 0 && isForTheWhole ? purchase : { ...purchase, lines };
}

/** Without the purchases that lost all their lines; those paid for stay, so that no payment is lost. */
function withoutEmpty(after: BuildFile, before: BuildFile): BuildFile {
  const had = new Map(before.purchases.map((one) => [one.key, one]));
  const goes = ({ key, lines, payments, receipts }: Purchase) =>
    lines.length === 0 && had.get(key)!.lines.length > 0 && payments.length + receipts.length === 0;
  const gone = new Set(after.purchases.filter(goes).map(({ key }) => key));
  if (gone.size === 0) return after;
  return {
    ...after,
    purchases: after.purchases.filter(({ key }) => !gone.has(key)),
    decisions: after.decisions.map((one) =>
      one.locksPurchases.some((key) => gone.has(key))
        ? { ...one, locksPurchases: one.locksPurchases.filter((key) => !gone.has(key)) }
        : one,
    ),
  };
}
