/**
 * The task most like a new one, to take phase, hours, people and conditions from. Words count by how rare they are
 * among the tasks' names; working in the same zone and depth counts as well.
 */
import type { Task } from '#shared/contract/task.ts';

export interface Wanted {
  readonly name: string;
  /** Where it will work, as far as that is known. */
  readonly zone: string | null;
  readonly depth: string | null;
}

const EVERYDAY = new Set([
  'the',
  'and',
  'for',
  'with',
  'into',
  'from',
  'off',
  'all',
  'one',
  'two',
  'new',
  'its',
]);
const SAME_ZONE = 0.12;
const SAME_DEPTH = 0.25;
/** A word no task has says little against one. */
const UNKNOWN = 0.3;
/** Below this nothing is alike enough to be worth a word. */
const LEAST = 0.3;

/** @returns null where nothing is like it */
export function similarTask(tasks: readonly Task[], { name, zone, depth }: Wanted): Task | null {
  const wanted = wordsOf(name);
  const words = tasks.map((task) => wordsOf(task.name));
  const inTasks = new Map<string, number>();
  for (const set of words) for (const word of set) inTasks.set(word, (inTasks.get(word) ?? 0) + 1);
  const rarity = (word: string) => {
    const count = inTasks.get(word) ?? 0;
    return Math.log(1 + tasks.length / (1 + count)) * (count === 0 ? UNKNOWN : 1);
  };
  const whole = [...wanted].reduce((sum, word) => sum + rarity(word), 0);
  let best: Task | null = null;
  let most = LEAST;
  tasks.forEach((task, i) => {
    const shared = [...wanted]
      .filter((word) => words[i]!.has(word))
      .reduce((sum, word) => sum + rarity(word), 0);
    const near = zone === null ? [] : task.places.filter((place) => place.zone === zone);
    const score =
      (whole === 0 ? 0 : shared / whole) +
      (near.length > 0 ? SAME_ZONE : 0) +
      (depth !== null && near.some((place) => place.depth === depth) ? SAME_DEPTH : 0);
    if (score > most || (score === most && best !== null && task.key < best.key)) {
      best = task;
      most = score;
    }
  });
  return best;
}

/** Words of three letters or more in any script, small and without accents, one form for singular and plural. */
function wordsOf(name: string): Set<string> {
  const plain = name.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  const words = plain.match(/[\p{L}\p{N}]+/gu) ?? [];
  return new Set(
    words
      .filter((word) => word.length >= 3 && !EVERYDAY.has(word))
      .map((word) => (word.length > 4 ? word.replace(/(?<=[^s])s$/, '') : word)),
  );
}
