/**
 * One task as two, one after the other: the first hours, then the rest. Both keep the places, the people and the parts;
 * what must come before comes before both, what follows waits for both. What was done (hours, signed checks, steps that
 * are ticked) stays with the first; checks that close the work off go with the second.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Estimate, Link, Task } from '../contract/task.ts';
import { isSigned } from '../covers/checks.ts';
import { numbered } from './free-key.ts';

export interface HoursAsked {
  readonly task: string;
  /** Likely minutes of the first part: more than 0, less than the whole. */
  readonly first: number;
}

export interface HoursSplit {
  readonly file: BuildFile;
  /** The key of the second part; the first keeps its own. */
  readonly second: string;
}

/** @throws RangeError for a task that is not there, is finished or is not cut */
export function splitByHours(file: BuildFile, { task: key, first }: HoursAsked): HoursSplit {
  const task = file.tasks.find((one) => one.key === key);
  if (task === undefined || task.state === 'finished') throw new RangeError(`no task to split: ${key}`);
  if (!(first > 0 && first < task.minutes.likely)) throw new RangeError(`no two parts: ${first}`);
  const second = numbered(`${key}-2`, new Set(file.tasks.map((one) => one.key)));
  const parts = partsOf(task, second, first);
  const both = (keys: readonly string[]) => keys.flatMap((one) => (one === key ? [key, second] : [one]));
  return {
    second,
    file: {
      ...file,
      tasks: file.tasks.flatMap((one) => (one === task ? parts : [one])),
      links: [...file.links.flatMap((link) => linksOf(link, key, second)), between(key, second)],
      exceptions: file.exceptions.flatMap((pair) =>
        pair.inner === key
          ? [pair, { ...pair, inner: second }]
          : pair.cover === key
            ? [pair, { ...pair, cover: second }]
            : [pair],
      ),
      order: both(file.order),
      decisions: file.decisions.map((decision) =>
        decision.locksTasks.includes(key) ? { ...decision, locksTasks: both(decision.locksTasks) } : decision,
      ),
      purchases: file.purchases.map((purchase) =>
        purchase.lines.some(({ neededBy }) => neededBy.includes(key))
          ? {
              ...purchase,
              lines: purchase.lines.map((line) => ({ ...line, neededBy: both(line.neededBy) })),
            }
          : purchase,
      ),
    },
  };
}

function partsOf(task: Task, second: string, first: number): [Task, Task] {
  const share = first / task.minutes.likely;
  const early = scaled(task.minutes, first);
  const reopen = task.reopenMinutes === null ? null : Math.round(task.reopenMinutes * share);
  // Of a task under way the second part takes what is left up to its own hours, the first what is left over.
  const left = task.remainingMinutes;
  const late = minus(task.minutes, early);
  const leftLater = left === null ? late.likely : Math.min(left, late.likely);
  const leftNow = left === null ? null : left - leftLater;
  const ticked = task.steps.findLastIndex(({ done }) => done) + 1;
  const cut = Math.max(ticked, Math.round(task.steps.length * share));
  const [before, after] = [
    task.holdPoints.filter((hold) => hold.when === 'entry' || isSigned(hold)),
    task.holdPoints.filter((hold) => hold.when === 'exit' && !isSigned(hold)),
  ];
  const isUnderWay = task.state === 'started';
  return [
    {
      ...task,
      minutes: early,
      reopenMinutes: reopen,
      remainingMinutes: leftNow,
      steps: task.steps.slice(0, cut),
      holdPoints: before,
      // Nothing hardens before the work is whole.
      waitMinutes: 0,
      waitConditions: [],
      waitHoldsZones: false,
    },
    {
      ...task,
      key: second,
      name: `${task.name.slice(0, 185).trimEnd()}, second part`,
      minutes: leftLater < late.likely ? scaled(late, leftLater) : late,
      reopenMinutes: reopen === null ? null : task.reopenMinutes! - reopen,
      remainingMinutes: null,
      steps: task.steps.slice(cut),
      holdPoints: after,
      ...(isUnderWay ? { state: 'not-started', startedAt: null } : {}),
      fixedStart: null,
      fixedWhy: null,
    },
  ];
}

/**
 * A link to the start stays a link to the first part, which the second follows; a link that counts from or to the end
 * means the end of the whole.
 */
function linksOf(link: Link, first: string, second: string): Link[] {
  const fromStart = link.kind === 'SS' || link.kind === 'SF';
  const toFinish = link.kind === 'FF' || link.kind === 'SF';
  if (link.from === first) return [fromStart ? link : { ...link, from: second }];
  if (link.to === first) return [toFinish ? { ...link, to: second } : link];
  return [link];
}

function between(from: string, to: string): Link {
  return {
    from,
    to,
    kind: 'FS',
    lagMinutes: 0,
    lagOn: 'clock',
    reason: 'the second part of the same work',
    why: null,
  };
}

/** Smaller in the same proportion; low ≤ likely ≤ high stays. */
function scaled({ low, likely, high }: Estimate, to: number): Estimate {
  const part = (whole: number) => Math.round((whole * to) / likely);
  return { low: part(low), likely: to, high: part(high) };
}

function minus(whole: Estimate, part: Estimate): Estimate {
  return { low: whole.low - part.low, likely: whole.likely - part.likely, high: whole.high - part.high };
}
