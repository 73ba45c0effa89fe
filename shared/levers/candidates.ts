/**
 * Which single changes are worth computing: hands always, the rest from what drives the finish. A few of each kind, so
 * that the answer comes while somebody waits for it.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Odds } from '../contract/plan-odds.ts';
import type { Plan } from '../contract/plan.ts';
import { dayNumber, dayText, weekdayOf } from '../time/days.ts';
import type { Change } from './change.ts';
import {
  freeDate,
  haveSooner,
  helperEvery,
  helperForMonth,
  helperOnWeekend,
  oneMoreEvening,
  onePersonMore,
  orderNow,
  swapInOrder,
} from './changes.ts';
import { buildersOf, longestWeekday } from './hands.ts';
import { leaveOut, optionsOf } from './leave-out.ts';

const MOST_OPTIONS = 5;
const MOST_PARTS = 2;
const MOST_SWAPS = 3;
const MOST_DATES = 2;
const SOONER_DAYS = 7;
/** To be ordered within so many days: later does no harm yet. */
const ORDER_SOON_DAYS = 14;
const SATURDAY = 5;

/** What is known of the build as it is. */
export interface Known {
  readonly plan: Plan;
  readonly odds: Odds;
}

/** Changes by key, each once. */
export function candidates(file: BuildFile, { plan, odds }: Known): Change[] {
  // Hands last: they need calendars of their own, all others share that of the build.
  const found = [
    ...options(file),
    ...parts(file, plan, odds),
    ...orders(file, plan),
    ...swaps(file, plan, odds),
    ...dates(file, plan),
    ...hands(file, plan),
  ];
  return [...new Map(found.flatMap((one) => (one === null ? [] : [[one.key, one] as const]))).values()];
}

function hands(file: BuildFile, plan: Plan): (Change | null)[] {
  const builders = buildersOf(file);
  const today = plan.asOf.slice(0, 10);
  return [
    oneMoreEvening(file),
    ...(builders.length < 2 ? [] : builders.map(({ key }) => oneMoreEvening(file, [key]))),
    helperOnWeekend(file, saturdayFrom(today)),
    helperForMonth(file, today),
    helperEvery(file, longestWeekday(file)),
    onePersonMore(file),
  ];
}

/** The options with the most work. */
function options(file: BuildFile): (Change | null)[] {
  return optionsOf(file)
    .filter(({ begun }) => !begun)
    .map(({ name }) => leaveOut(file, name))
    .toSorted((a, b) => a!.asks.once - b!.asks.once)
    .slice(0, MOST_OPTIONS);
}

/** The parts that most often hold up what drives the finish, then those that hold something up in the plan. */
function parts(file: BuildFile, plan: Plan, { drivers }: Odds): (Change | null)[] {
  const driving = drivers.flatMap(({ purchase }) => (purchase === null ? [] : [purchase]));
  const late = file.purchases.map(({ key }) => key).filter((key) => plan.purchases[key]!.late);
  const today = plan.asOf.slice(0, 10);
  return [...new Set([...driving, ...late])]
    .map((key) => haveSooner(file, key, SOONER_DAYS, today))
    .filter((change) => change !== null)
    .slice(0, MOST_PARTS);
}

/** What has to be ordered soon to keep the finish. */
function orders(file: BuildFile, plan: Plan): (Change | null)[] {
  const today = plan.asOf.slice(0, 10);
  const until = dayText(dayNumber(today) + ORDER_SOON_DAYS);
  const lastDay = (key: string) => plan.purchases[key]!.orderByLatest ?? '9999';
  return file.purchases
    .map(({ key }) => key)
    .filter((key) => plan.purchases[key]!.late || lastDay(key) <= until)
    .toSorted((a, b) => (lastDay(a) < lastDay(b) ? -1 : lastDay(a) > lastDay(b) ? 1 : a < b ? -1 : 1))
    .map((key) => orderNow(file, key, today))
    .filter((change) => change !== null)
    .slice(0, MOST_PARTS);
}

/** What drives the finish goes before what it waits for at its people, tools or rooms. */
function swaps(file: BuildFile, plan: Plan, { chain }: Odds): (Change | null)[] {
  const place = new Map(plan.order.map((key, i) => [key, i]));
  return Object.entries(plan.tasks)
    .flatMap(([key, { because, state }]) => {
      const other = because?.task ?? null;
      const isHeld = because?.kind === 'person' || because?.kind === 'tool' || because?.kind === 'zone';
      if (!isHeld || other === null || state !== 'not-started') return [];
      if ((place.get(other) ?? Infinity) >= (place.get(key) ?? -1)) return [];
      // What drives the finish itself wins nothing by going later.
      const gain = (chain[key] ?? 0) - (chain[other] ?? 0);
      return gain > 0 ? [{ key, other, gain }] : [];
    })
    .toSorted((a, b) => b.gain - a.gain || (a.key < b.key ? -1 : 1))
    .slice(0, MOST_SWAPS)
    .map(({ key, other }) => swapInOrder(file, plan.order, key, other));
}

/** Dates somebody fixed, where they drive the finish. */
function dates(file: BuildFile, plan: Plan): (Change | null)[] {
  return file.tasks
    .filter(
      ({ key, state, fixedStart }) =>
        state === 'not-started' && fixedStart !== null && plan.tasks[key]!.chain === true,
    )
    .toSorted((a, b) =>
      a.fixedStart === b.fixedStart ? (a.key < b.key ? -1 : 1) : a.fixedStart! > b.fixedStart! ? -1 : 1,
    )
    .slice(0, MOST_DATES)
    .map(({ key }) => freeDate(file, key));
}

function saturdayFrom(day: string): string {
  const number = dayNumber(day);
  return dayText(number + ((SATURDAY - weekdayOf(number) + 7) % 7));
}
