/** Why a task stands in the evening, and why another does not, in the words of the workshop. */
import type { Lack } from '#shared/today/lacks.ts';
import type { Ranked } from '#shared/today/rank.ts';
import type { Piece } from '#shared/today/evening.ts';
import { capital, count, dayWords, duration, instantWords, list } from '../../drawing/words.ts';
import { shortName } from '../../drawing/fit.ts';
import type { Indexes } from '../../state/indexes.ts';

/** How many tasks each kind of lack keeps back: "62 wait for something to be in". */
export const LACK_COUNTS: Readonly<Record<Lack['kind'], readonly [one: string, many: string]>> = {
  before: ['waits for something to be in', 'wait for something to be in'],
  check: ['waits for a check', 'wait for a check'],
  wait: ['waits for something to harden', 'wait for something to harden'],
  part: ['waits for a part', 'wait for a part'],
  decision: ['waits for a decision', 'wait for a decision'],
  fixed: ['has its date fixed', 'have their dates fixed'],
  room: ['finds no room', 'find no room'],
  tool: ['lacks a tool', 'lack a tool'],
  condition: ['lacks the right weather or hour', 'lack the right weather or hour'],
  people: ['needs other people', 'need other people'],
  hours: ['needs more time', 'need more time'],
};

const name = (by: Indexes, key: string) => `“${shortName(by.tasks.get(key)?.name ?? key)}”`;

/** One sentence without its full stop. @param task the one that lacks it */
export function lackWords(lack: Lack, by: Indexes, task: string, now: string): string {
  switch (lack.kind) {
    case 'before':
      if (lack.hidden) return `it would hide ${name(by, lack.task)}, which is not in`;
      return `${name(by, lack.task)} ${lack.starts ? 'has not begun' : 'is not finished'}`;
    case 'check': {
      const of = lack.task === task ? '' : ` of ${name(by, lack.task)}`;
      return `the check “${lack.check.name}”${of} is not signed`;
    }
    case 'wait':
      return lack.until === null
        ? `${name(by, lack.task)} never hardens: its conditions do not come again`
        : `${name(by, lack.task)} hardens or waits until ${instantWords(lack.until, now)}`;
    case 'part':
      return `${lack.name} is not here: ${
        !lack.ordered ? 'not ordered' : lack.comes === null ? 'ordered' : `comes ${dayWords(lack.comes, now)}`
      }`;
    case 'decision':
      return `to be settled first: ${by.decisions.get(lack.decision)?.question ?? lack.decision}`;
    case 'fixed':
      return `its date is fixed to ${instantWords(lack.at, now)}`;
    case 'room':
      return `no room in ${lack.zone}: ${list(lack.tasks.map((key) => name(by, key)))} ${
        lack.tasks.length === 1 ? 'is' : 'are'
      } there`;
    case 'tool':
      return `the ${by.tools.get(lack.tool)?.name ?? lack.tool} is not there`;
    case 'condition':
      return `it needs ${by.conditions.get(lack.condition)?.name ?? lack.condition}`;
    case 'people':
      return `it needs ${count(lack.need, 'person', 'people')} who may do it; ${
        lack.there.length === 0 ? 'none is there' : `${lack.there.length} there`
      }`;
    case 'hours':
      return `it needs a sitting of ${duration(lack.need)}`;
  }
}

/** What else speaks for it, beside the mark that says how long it can wait. */
export function besides({ closing, chain, sameZone }: Ranked, now: string): string[] {
  return [
    ...(closing === null
      ? []
      : [`${closing.zone} misses it${closing.on === null ? '' : `, closes ${dayWords(closing.on, now)}`}`]),
    ...(sameZone && !chain && closing === null ? ['where you worked last'] : []),
  ];
}

/** "Finishes", "3 h of 4 h 52". */
export function sizeWords({ minutes }: Ranked, { from, to, finishes }: Piece): string {
  return finishes ? 'finishes' : `${duration(to - from)} of ${duration(minutes)}`;
}

/** "Running, 0:38 of 1 h 30". */
export function runWords(spent: number, whole: number): string {
  return `running, ${Math.floor(spent / 60)}:${String(spent % 60).padStart(2, '0')} of ${duration(whole)}`;
}

export function heldWords(kinds: ReadonlyMap<Lack['kind'], number>): string {
  const parts = [...kinds]
    .toSorted(([, a], [, b]) => b - a)
    .map(([kind, number]) => `${number} ${LACK_COUNTS[kind][number === 1 ? 0 : 1]}`);
  return capital(list(parts));
}
