/** Hints: nothing is wrong, but something looks forgotten, doubled or out of turn. */
import type { Hint } from '../contract/plan.ts';
import type { CompiledGraph } from '../graph/compile.ts';
import { topologicalOrder } from '../graph/order.ts';
import { impliedArcs } from '../graph/reach.ts';
import { shortestPath } from '../graph/shortest-path.ts';
import type { Basis } from '../schedule/basis.ts';
import { dueUnsigned, lackWords } from './checks.ts';
import type { Exceptions } from './exceptions.ts';
import type { Names } from './names.ts';
import { hidesIn, type Stack, type StackEntry } from './stacks.ts';

/** Pairs of coats looked at, at most: a zone painted a hundred times is not a plan. */
const MOST_COATS = 200;

/** @param left 1 per arc that the suggested repairs leave out */
export function hintsOf(
  basis: Basis,
  stacks: readonly Stack[],
  exceptions: Exceptions,
  graph: CompiledGraph,
  left: Uint8Array,
  names: Names,
): Hint[] {
  return [
    ...stacks.flatMap((stack) => stackHints(stack, exceptions, names)),
    ...coatHints(stacks, graph, left, names),
    ...impliedHints(graph, left, names),
    ...sequenceHints(basis, stacks, exceptions, names),
    ...uncheckedHints(basis, names),
  ];
}

function stackHints(stack: Stack, exceptions: Exceptions, names: Names): Hint[] {
  const { zone, depths, entries } = stack;
  if (entries.length === 0)
    return [
      {
        rule: 'empty-zone',
        tasks: [],
        zone,
        depth: null,
        sentence: `No task works in ${names.zone(zone)} yet.`,
      },
    ];
  const hints: Hint[] = [];
  const furthest = Math.max(...entries.map((entry) => entry.hides));
  const front = Math.max(...entries.map((entry) => entry.front));
  const surface = Math.max(...entries.filter((entry) => entry.hides >= 0).map((entry) => entry.front));
  // What is furthest in front is meant to be seen, and so is the outermost cover. A zone that nothing covers at all
  // (a roof from outside) is meant so.
  if (furthest >= 0)
    for (let d = furthest + 1; d < front; d++) {
      if (d === surface) continue;
      const tasks = entries.filter((entry) => entry.reach === d).map(({ task }) => task.key);
      if (tasks.length > 0)
        hints.push({
          rule: 'nothing-hides-it',
          tasks,
          zone,
          depth: depths[d]!,
          sentence: `Nothing hides ${names.depth(depths[d]!)} in ${names.zone(zone)}: is the task that covers it missing?`,
        });
    }
  for (const cover of entries) {
    if (cover.hides < 0 || entries.some((inner) => hidesIn(inner, cover))) continue;
    if (exceptions.anyFor(cover.task.key)) continue;
    hints.push({
      rule: 'hides-nothing',
      tasks: [cover.task.key],
      zone,
      depth: depths[cover.hides]!,
      sentence: `${names.task(cover.task.key)} covers ${names.zone(zone)} up to ${names.depth(depths[cover.hides]!)}, but no task works behind it there.`,
    });
  }
  return hints;
}

/** Two tasks that would hide each other, with nothing to say which comes first. */
function coatHints(stacks: readonly Stack[], graph: CompiledGraph, left: Uint8Array, names: Names): Hint[] {
  const order = topologicalOrder(graph, left);
  const place = new Map(Array.from(order, (v, i) => [graph.ids[v]!, i]));
  const hints: Hint[] = [];
  let looked = 0;
  for (const { zone, depths, entries } of stacks) {
    const coats = entries
      .filter((entry) => entry.hides >= entry.reach && place.has(entry.task.key))
      .sort((a, b) => place.get(a.task.key)! - place.get(b.task.key)!);
    // In their order it is enough that each leads to the next: then all are decided.
    for (let i = 1; i < coats.length && looked < MOST_COATS; i++) {
      const [a, b] = [coats[i - 1]!, coats[i]!];
      if (!hideEachOther(a, b)) continue;
      looked++;
      const [from, to] = [graph.indexOf.get(a.task.key)!, graph.indexOf.get(b.task.key)!];
      if (shortestPath(graph, graph.taskCount, from, to, left) !== null) continue;
      hints.push({
        rule: 'undecided-coats',
        tasks: [a.task.key, b.task.key],
        zone,
        depth: depths[a.reach]!,
        sentence: `${names.task(a.task.key)} and ${names.task(b.task.key)} would each hide the other in ${names.zone(zone)}: say which comes first.`,
      });
    }
  }
  return hints;
}

function hideEachOther(a: StackEntry, b: StackEntry): boolean {
  return a.reach <= b.hides && b.reach <= a.hides;
}

function impliedHints(graph: CompiledGraph, left: Uint8Array, names: Names): Hint[] {
  const order = topologicalOrder(graph, left);
  const follows = (arc: number) => {
    const origin = graph.origins[arc]!;
    return left[arc] === 0 && (!('stated' in origin) || origin.stated.kind === 'FS');
  };
  const implied = impliedArcs(graph, order, follows);
  const hints: Hint[] = [];
  implied.forEach((is, arc) => {
    const origin = graph.origins[arc]!;
    if (is === 0 || !('stated' in origin) || origin.stated.lagMinutes > 0) return;
    const { from, to } = origin.stated;
    hints.push({
      rule: 'implied-link',
      tasks: [from, to],
      zone: null,
      depth: null,
      sentence: `The link from ${names.task(from)} to ${names.task(to)} follows from others already; it is kept for its reason.`,
    });
  });
  return hints;
}

/** Begun before something a link puts first is finished. What is closed up by it is an error, told elsewhere. */
function sequenceHints(basis: Basis, stacks: readonly Stack[], exceptions: Exceptions, names: Names): Hint[] {
  const covered = new Set<string>();
  for (const { entries } of stacks)
    for (const cover of entries)
      if (cover.hides >= 0 && cover.task.state !== 'not-started')
        for (const inner of entries)
          if (hidesIn(inner, cover) && !exceptions.has(inner.task.key, cover.task.key))
            covered.add(`${inner.task.key} ${cover.task.key}`);
  return basis.file.links
    .filter(({ from, to, kind }) => {
      const [a, b] = [basis.taskOf.get(from)!, basis.taskOf.get(to)!];
      if (b.state === 'not-started' || covered.has(`${from} ${to}`)) return false;
      if (kind === 'FS') return a.state !== 'finished';
      if (kind === 'SS') return a.state === 'not-started';
      return b.state === 'finished' && (kind === 'FF' ? a.state !== 'finished' : a.state === 'not-started');
    })
    .map(({ from, to }) => ({
      rule: 'out-of-sequence' as const,
      tasks: [from, to],
      zone: null,
      depth: null,
      sentence: `${names.task(to)} has ${basis.taskOf.get(to)!.state === 'finished' ? 'been finished' : 'begun'} although ${names.task(from)}, which a link puts before it, is not ${basis.taskOf.get(from)!.state === 'not-started' ? 'begun' : 'finished'}. What is left keeps the order.`,
    }))
    .sort((a, b) => (a.sentence < b.sentence ? -1 : 1));
}

/** Entry checks of tasks that hide nothing; those of covers are errors. */
function uncheckedHints(basis: Basis, names: Names): Hint[] {
  return basis.tasks
    .filter((task) => task.places.every(({ hides }) => hides === null))
    .flatMap((task) =>
      dueUnsigned(task)
        .filter((hold) => hold.when === 'entry')
        .map((hold) => ({
          rule: 'started-unchecked' as const,
          tasks: [task.key],
          zone: null,
          depth: null,
          sentence: `${names.task(task.key)} has begun, but the check “${hold.name}” that comes before it ${lackWords(hold)}.`,
        })),
    );
}
