/**
 * A better order for the dates of a build, found by search. Twice: first with everything planned within the next 14 days
 * kept where it is, then without; what is near only moves where that wins more than a day at the finish. The result is
 * never worse than the order it started from, and fixed by the build, the seed and how many schedules were made.
 */
import type { BuildFile } from '../../contract/build-file.ts';
import { asOfOf } from '../../plan.ts';
import { draftOf } from '../../schedule/draft.ts';
import { compareObjectives } from '../decoder.ts';
import type { Best } from '../ledger.ts';
import { seededRandom } from '../random.ts';
import { search } from '../search.ts';
import { datesDecoder, type DatesDecoder } from './decoder.ts';
import { FINISH_DAY, Judge, MOVED } from './judge.ts';
import { heldFirst, nearTasks } from './still.ts';

/** How many schedules each part makes. */
export interface Counts {
  /** With what is near kept still. */
  readonly still: number;
  /** With everything free to move. */
  readonly free: number;
}

export interface Improvement {
  /** The keys of all tasks that are not finished: to be kept as the build's `order`. */
  readonly order: readonly string[];
  /** Better than what it started from. */
  readonly isBetter: boolean;
  /** The day of the finish comes so many days earlier; 0 or more. */
  readonly daysWon: number;
  /** Tasks of the next 14 days that it moves, by key. */
  readonly moved: readonly string[];
  /** No order can finish on an earlier day. */
  readonly proven: boolean;
}

export interface Improved extends Improvement {
  /** With the same build and seed, as many lead to the same result. */
  readonly counts: Counts;
}

export interface Improving {
  /** The caller's now, for a build that names no as-of instant. */
  readonly now: string;
  readonly seed: number;
  readonly counts: Counts;
  /** Asked before each schedule; what has been found so far stands. */
  readonly stop?: (done: number) => boolean;
  /** Told of each better order. */
  readonly onBetter?: (found: Improvement) => void;
}

interface Kept {
  readonly objective: Float64Array;
  /** Task nodes, first to last, and those of the next days that move. */
  readonly tasks: readonly number[];
  readonly moved: readonly number[];
}

/** @param file a build that `readBuild` has vouched for */
export function improve(file: BuildFile, { now, seed, counts, stop, onBetter }: Improving): Improved {
  const draft = draftOf(file, asOfOf(file, now));
  const near = nearTasks(draft);
  const judge = new Judge(draft, near);
  const given = new Float64Array(judge.goals);
  judge.judge(draft.levelled, given);
  const used = { still: 0, free: 0 };
  let isStopped = false;
  let best: Kept = { objective: given, tasks: draft.list, moved: [] };
  let proven = false;
  for (const part of near.length === 0 ? (['free'] as const) : (['still', 'free'] as const)) {
    if (proven || isStopped || counts[part] < 1) continue;
    const decoder = datesDecoder(draft, judge, part === 'still' ? heldFirst(draft, near) : []);
    const before = used.still;
    const found = search(decoder, {
      start: decoder.listOf(draft.list),
      random: seededRandom(seed),
      schedules: counts[part],
      stop: (done) => (isStopped = stop?.(before + done) ?? false),
      onBetter: (better) => take(decoder, better),
    });
    used[part] = found.schedules;
    proven = found.proven && found.objective[FINISH_DAY] === best.objective[FINISH_DAY];
  }
  return { ...improvement(), counts: used };

  function take(decoder: DatesDecoder, { objective, list, proven: isProven }: Best): void {
    if (!isWorthIt(objective, best.objective)) return;
    best = {
      objective,
      tasks: [...decoder.tasksOf(list)],
      moved: judge.movedIn(decoder.levelledOf(list)),
    };
    proven = isProven;
    onBetter?.(improvement());
  }

  function improvement(): Improvement {
    const { tasks, objective, moved } = best;
    const { ids } = draft.graph;
    return {
      order: tasks.map((v) => ids[v]!),
      isBetter: objective !== given,
      daysWon: given[FINISH_DAY]! - objective[FINISH_DAY]!,
      moved: moved.map((v) => ids[v]!),
      proven,
    };
  }
}

/** Better, and worth a day where it moves more of what is near. */
function isWorthIt(found: Float64Array, best: Float64Array): boolean {
  if (found[MOVED]! <= best[MOVED]! || found[0] !== best[0]) return compareObjectives(found, best) < 0;
  return found[FINISH_DAY]! < best[FINISH_DAY]! - 1;
}
