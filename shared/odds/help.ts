/** What would help with a task that often drives the finish: the one thing that holds or spreads it most, in words. */
import type { OddsDriver } from '../contract/plan-odds.ts';
import type { Purchase } from '../contract/purchase.ts';
import type { Task } from '../contract/task.ts';
import { shortName } from '../covers/names.ts';
import { purchaseName } from '../purchases/name.ts';
import type { Draft } from '../schedule/draft.ts';
import { DAY } from '../time/clock.ts';
import { durationWords, listWords } from '../time/words.ts';

export interface Driver {
  readonly v: number;
  readonly share: number;
  /** r² of its own minutes with the finish. */
  readonly varies: number;
  readonly waitsFor: OddsDriver['waitsFor'];
  /** Mean minutes between what it waited for and its start. */
  readonly gap: number;
  /** The purchase whose parts come last; null: it waits for none. */
  readonly purchase: string | null;
}

/** Its part is what it waits for in at least this share of the trials in which it drives. */
const OFTEN = 0.25;
/** Its own minutes carry this much of the finish's variance: where all slip together, few single things carry more. */
const MUCH = 0.003;
/** Longer than this between what it waits for and its start is a season, not an evening off. */
const SEASON = 10 * DAY;

export function driverOf(draft: Draft, driver: Driver): OddsDriver {
  const { basis, graph } = draft;
  const { v, share, varies, waitsFor, purchase } = driver;
  const task = basis.taskOf.get(graph.ids[v]!)!;
  const help = helpFor(task, driver);
  return {
    task: task.key,
    share,
    varies,
    waitsFor,
    help,
    purchase: help === 'part' ? purchase : null,
    words: wordsFor(draft, task, help, driver),
  };
}

function helpFor(task: Task, { varies, waitsFor, gap, purchase }: Driver): OddsDriver['help'] {
  if (purchase !== null && waitsFor.part >= OFTEN) return 'part';
  if (task.conditions.length > 0 && gap >= SEASON) return 'season';
  if (varies >= MUCH) return 'estimate';
  if (waitsFor.room >= 0.5) return 'room';
  if (waitsFor.people >= 0.5) return 'people';
  return 'hours';
}

function wordsFor(
  { basis, names, levelled }: Draft,
  task: Task,
  help: OddsDriver['help'],
  { v, waitsFor, gap, purchase }: Driver,
): string {
  switch (help) {
    case 'part': {
      const bought = basis.file.purchases.find(({ key }) => key === purchase)!;
      return `In ${percent(waitsFor.part)} of these trials it waits for “${shortName(purchaseName(bought))}”: ${isOnItsWay(bought) ? 'ask for an earlier day' : 'order it earlier'}, or get it where it comes sooner.`;
    }
    case 'season':
      return `It waits ${Math.round(gap / DAY)} days on average for its people and ${listWords(task.conditions.map((key) => `“${names.condition(key)}”`))}: get what comes before it done while that holds, or find a place where it does.`;
    case 'estimate': {
      const { low, high } = task.minutes;
      return `Its estimate runs from ${durationWords(low)} to ${durationWords(high)}: a second estimate, or a trial piece, narrows it.`;
    }
    case 'room': {
      const zones = [...new Set(task.places.map(({ zone }) => zone))].sort().map(names.zone);
      return `It waits until there is room${zones.length === 0 ? '' : ` at ${shortList(zones)}`}: do what is there before it sooner, or together with it.`;
    }
    case 'people': {
      const people = levelled.spots[v]!.team.people.map(names.person);
      if (task.tools.length > 0)
        return `It waits until ${listWords([...people, ...task.tools.toSorted().map(names.tool)])} are free: a helper, a second tool, or another order of the work.`;
      return `It waits until ${listWords(people)} ${people.length === 1 ? 'is' : 'are'} done with other work: a helper for it, or for what comes before it.`;
    }
    default:
      if (waitsFor.date >= 0.5)
        return task.state === 'not-started' && task.fixedStart !== null
          ? 'It stands on a date fixed by hand: another date brings it forward.'
          : 'Nothing else holds it up: only more hours a week, or less to do, bring it forward.';
      return 'It follows at once on what comes before it: only more hours a week, or less to do, bring it forward.';
  }
}

function isOnItsWay({ state }: Purchase): boolean {
  return state === 'ordered' || state === 'part-received';
}

/** Three at most, and how many more. */
function shortList(names: readonly string[]): string {
  return names.length <= 3
    ? listWords(names)
    : `${names.slice(0, 2).join(', ')} and ${names.length - 2} more`;
}

function percent(share: number): string {
  return `${Math.round(100 * share)} %`;
}
