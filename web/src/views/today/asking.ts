/**
 * What is asked of the evening, as it stands in the address: hours, people, which day, what is swapped in or left out.
 * What the address does not say, the people's own windows do.
 */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import type { Ask } from '#shared/today/ask.ts';
import { holdingAt, nextTimes, type When } from '#shared/today/when.ts';
import { dayOf } from '../../drawing/words.ts';

export interface Asking {
  readonly ask: Ask;
  /** Now, and the next days on which these people are there. */
  readonly times: readonly When[];
  /** Which of them is asked for. */
  readonly time: When;
  /** False: it is another day than today. */
  readonly isNow: boolean;
}

/** The ruler ends here. */
export const MOST_HOURS = 8;
export const QUARTER = 15;
/** Asked for when nobody's week says how long. */
const USUAL = 180;
const TIMES = 3;

/** @param now this device's clock: on the plan's own day it goes on where the plan stands still */
export function askingOf(
  file: BuildFile,
  plan: Plan,
  query: URLSearchParams,
  here: string | null,
  now: string,
): Asking {
  const people = peopleOf(file, plan, listIn(query, 'who'), here);
  const [today, ...later] = nextTimes(file, plan, people, TIMES);
  const clock = now > plan.asOf && dayOf(now) === dayOf(plan.asOf) ? now : plan.asOf;
  const times = [{ ...today!, at: clock }, ...later];
  const time = times.find(({ at }) => dayOf(at) === query.get('on')) ?? times[0]!;
  return {
    ask: {
      people,
      minutes: minutesOf(query.get('hours'), time.minutes),
      holding: holdingAt(file, plan, time.at),
      at: time.at,
      wanted: listIn(query, 'with'),
      without: listIn(query, 'without'),
    },
    times,
    time,
    isNow: time === times[0],
  };
}

/** Keys hold no comma. */
export function listIn(query: URLSearchParams, name: string): string[] {
  return (query.get(name) ?? '').split(',').filter(Boolean);
}

/** The people named, else those whose week has something today, else whoever stands at this device. */
function peopleOf(file: BuildFile, plan: Plan, named: readonly string[], here: string | null): string[] {
  const known = file.people.filter(({ key }) => named.includes(key)).map(({ key }) => key);
  if (known.length > 0) return known;
  const usual = file.people.filter(({ byNameOnly }) => !byNameOnly).map(({ key }) => key);
  const today = usual.filter((key) => nextTimes(file, plan, [key], 1)[0]!.minutes > 0);
  return today.length > 0 ? today : here === null ? usual : [here];
}

/** Whole quarters of an hour, within the ruler. */
function minutesOf(hours: string | null, windows: number): number {
  const asked = hours === null || hours.trim() === '' ? NaN : Number(hours) * 60;
  const minutes = Number.isFinite(asked) ? asked : windows >= QUARTER ? windows : USUAL;
  return Math.min(MOST_HOURS * 60, Math.max(QUARTER, Math.round(minutes / QUARTER) * QUARTER));
}
