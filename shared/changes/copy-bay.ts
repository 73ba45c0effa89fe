/**
 * The tasks of one bay once more for another: the work that is planned there, with its hours, waits, checks and links,
 * as one change. What works in both bays already stays as it is. Depths the other bay lacks are added to it. A copy is
 * left out, and named, where it could never be done: behind what is closed up there, or before and after the same task.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Zone } from '../contract/shell.ts';
import type { Exception, Link, Place, Task } from '../contract/task.ts';
import { hidesIn, stacksOf } from '../covers/stacks.ts';
import { compileGraph } from '../graph/compile.ts';
import { knots } from '../graph/components.ts';
import { taskGraph } from '../graph/task-graph.ts';
import { nameForBay, textForBay } from './bay-names.ts';
import { withPartsFor } from './copy-parts.ts';
import { numbered } from './free-key.ts';
import { acceptedLinks } from './mirror-links.ts';
import { notBegun } from './not-begun.ts';

export interface BayAsked {
  /** Codes of two zones. */
  readonly from: string;
  readonly to: string;
  /** `again`: what the tasks need is wanted once more; tools serve both in either case. */
  readonly parts: 'none' | 'again';
}

export interface LeftOut {
  readonly task: string;
  /** It works there already; it would lie behind what is closed up there; no order of the work could hold it. */
  readonly why: 'there' | 'closed' | 'circle';
}

export interface BayCopied {
  readonly file: BuildFile;
  /** Keys of a task and of its copy, in the order of the build. */
  readonly tasks: readonly { readonly of: string; readonly key: string }[];
  readonly left: readonly LeftOut[];
  /** Depths the other zone gets. */
  readonly addedDepths: readonly string[];
  /** Links that were not copied because the work would run in a circle. */
  readonly linksLeft: readonly Link[];
  /** Purchases that are wanted once more, by key. */
  readonly purchases: readonly string[];
}

/** @throws RangeError for zones that are not there, or one and the same */
export function copyBay(file: BuildFile, { from, to, parts }: BayAsked): BayCopied {
  const [source, target] = [from, to].map((key) => file.zones.find((zone) => zone.key === key));
  if (source === undefined || target === undefined || source === target)
    throw new RangeError(`no two zones: ${from}, ${to}`);
  const worksIn = (zone: string) => (task: Task) => task.places.some((place) => place.zone === zone);
  const here = file.tasks.filter(worksIn(from));
  const there = new Set(here.filter(worksIn(to)).map(({ key }) => key));
  const left = new Map<string, LeftOut['why']>([...there].map((key) => [key, 'there']));

  // What is behind a cover or in a circle shows only in the whole: each round leaves out what it finds.
  for (;;) {
    const chosen = here.filter(({ key }) => !left.has(key));
    const keys = keysFor(file, chosen, to);
    const laid = laidDown(file, chosen, keys, source, target);
    const closed = closedIn(laid, to, keys);
    const barred = closed.length > 0 ? closed : inCircle(laid, keys);
    if (barred.length > 0) {
      for (const { task, why } of barred) left.set(task, why);
      continue;
    }
    const isOut = (key: string) => left.has(key) && !there.has(key);
    const mirrored = file.links.flatMap((link) => mirror(link, keys, isOut));
    const { accepted, refused } = acceptedLinks(laid, mirrored);
    const bought = withPartsFor({ ...laid, links: [...laid.links, ...accepted] }, keys, parts, (name) =>
      nameForBay(name, source, target),
    );
    return {
      file: bought.file,
      tasks: chosen.map(({ key }) => ({ of: key, key: keys.get(key)! })),
      left: here.flatMap(({ key }) => (left.has(key) ? [{ task: key, why: left.get(key)! }] : [])),
      addedDepths: laid.zones
        .find(({ key }) => key === to)!
        .depths.filter((depth) => !target.depths.includes(depth)),
      linksLeft: refused,
      purchases: bought.purchases,
    };
  }
}

/** By the key of the task that is copied. */
function keysFor(file: BuildFile, chosen: readonly Task[], to: string): Map<string, string> {
  const taken = new Set(file.tasks.map(({ key }) => key));
  return new Map(
    chosen.map(({ key }) => {
      const free = numbered(`${key}-${to}`, taken);
      taken.add(free);
      return [key, free];
    }),
  );
}

/** The build with the copies in it, each behind its original, and what refers to tasks; no links or parts of theirs yet. */
function laidDown(
  file: BuildFile,
  chosen: readonly Task[],
  keys: ReadonlyMap<string, string>,
  source: Zone,
  target: Zone,
): BuildFile {
  const copies = new Map(chosen.map((task) => [task.key, copyOf(task, keys.get(task.key)!, source, target)]));
  const depths = depthsWith(source, target, [...copies.values()]);
  const both = (list: readonly string[]) =>
    list.flatMap((key) => (keys.has(key) ? [key, keys.get(key)!] : [key]));
  return {
    ...file,
    zones:
      depths.length === target.depths.length
        ? file.zones
        : file.zones.map((zone) => (zone === target ? { ...zone, depths } : zone)),
    tasks: file.tasks.flatMap((task) => (copies.has(task.key) ? [task, copies.get(task.key)!] : [task])),
    exceptions: [...file.exceptions, ...file.exceptions.flatMap((pair) => excepted(pair, keys))],
    decisions: file.decisions.map((decision) =>
      decision.locksTasks.some((key) => keys.has(key))
        ? { ...decision, locksTasks: both(decision.locksTasks) }
        : decision,
    ),
  };
}

function copyOf(task: Task, key: string, source: Zone, target: Zone): Task {
  const zones = new Set(task.places.map(({ zone }) => zone)).size;
  const share = (minutes: number) => Math.round(minutes / zones);
  const text = (words: string) => textForBay(words, source, target);
  const fresh = notBegun(task);
  return {
    ...fresh,
    key,
    name: nameForBay(task.name, source, target),
    minutes: {
      low: share(task.minutes.low),
      likely: share(task.minutes.likely),
      high: share(task.minutes.high),
    },
    reopenMinutes: task.reopenMinutes === null ? null : share(task.reopenMinutes),
    places: task.places
      .filter(({ zone }) => zone === source.key)
      .map((place): Place => ({ ...place, zone: target.key })),
    steps: fresh.steps.map((step) => ({ ...step, text: text(step.text).slice(0, 200) })),
    holdPoints: fresh.holdPoints.map((hold) => ({ ...hold, name: text(hold.name).slice(0, 200) })),
    note: text(task.note).slice(0, 10_000),
  };
}

/** The depths of the target with those the copies need, each just in front of what lies behind it in the source. */
function depthsWith(source: Zone, target: Zone, copies: readonly Task[]): string[] {
  const needed = new Set(
    copies.flatMap(({ places }) => places.flatMap(({ depth, hides }) => [depth, hides])),
  );
  const depths = [...target.depths];
  source.depths.forEach((depth, i) => {
    if (!needed.has(depth) || depths.includes(depth)) return;
    const behind = source.depths.slice(0, i).findLast((one) => depths.includes(one));
    depths.splice(behind === undefined ? 0 : depths.indexOf(behind) + 1, 0, depth);
  });
  return depths;
}

/** What is freed from the cover rule in the one bay is so in the other. */
function excepted(pair: Exception, keys: ReadonlyMap<string, string>): Exception[] {
  const [inner, cover] = [keys.get(pair.inner), keys.get(pair.cover)];
  if (inner === undefined && cover === undefined) return [];
  return [{ ...pair, inner: inner ?? pair.inner, cover: cover ?? pair.cover }];
}

/** A link of a task as a link of its copy; none to what is left out, whose work is not done there. */
function mirror(link: Link, keys: ReadonlyMap<string, string>, isOut: (key: string) => boolean): Link[] {
  const [from, to] = [keys.get(link.from), keys.get(link.to)];
  if ((from === undefined && to === undefined) || isOut(link.from) || isOut(link.to)) return [];
  return [{ ...link, from: from ?? link.from, to: to ?? link.to }];
}

/** Copies that something begun or finished there would hide. */
function closedIn(file: BuildFile, zone: string, keys: ReadonlyMap<string, string>): LeftOut[] {
  const { entries } = stacksOf(file).find((stack) => stack.zone === zone)!;
  const shut = entries.filter(({ task, hides }) => task.state !== 'not-started' && hides >= 0);
  const at = new Map(entries.map((entry) => [entry.task.key, entry]));
  return [...keys].flatMap(([task, key]): LeftOut[] =>
    shut.some((cover) => hidesIn(at.get(key)!, cover)) ? [{ task, why: 'closed' }] : [],
  );
}

/** Of the copies that covers alone would put before and after the same task, the last one: without it the rest may do. */
function inCircle(file: BuildFile, keys: ReadonlyMap<string, string>): LeftOut[] {
  const graph = compileGraph(taskGraph(file), new Map(file.tasks.map(({ key }) => [key, true])));
  const caught = new Set(knots(graph).flatMap((knot) => Array.from(knot, (node) => graph.ids[node]!)));
  const last = [...keys].findLast(([, key]) => caught.has(key));
  return last === undefined ? [] : [{ task: last[0], why: 'circle' }];
}
