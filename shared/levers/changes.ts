/**
 * Single changes of a build: an evening, a helper, a person, an order, a date. Each is pure and gives null where there
 * is nothing to change; leaving something out stands in leave-out.ts.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { WEEKDAYS, type Person, type Weekday } from '../contract/calendar.ts';
import { keyFor } from '../contract/new-key.ts';
import type { Purchase } from '../contract/purchase.ts';
import { shortName } from '../covers/names.ts';
import { purchaseName } from '../purchases/name.ts';
import { markOrdered } from '../purchases/steps.ts';
import { dayNumber, dayText, weekdayOf } from '../time/days.ts';
import { dayWords, listWords } from '../time/words.ts';
import { changeBetween, type Change } from './change.ts';
import {
  buildersOf,
  emptyWeek,
  freeDay,
  freeWeekday,
  minutesOf,
  usualEvening,
  WEEKDAY_WORDS,
  windowsOn,
} from './hands.ts';

const MONTH_DAYS = 28;

/** One more evening a week for these people, on a weekday on which none of them works. @param keys all builders if left out */
export function oneMoreEvening(file: BuildFile, keys?: readonly string[]): Change | null {
  const people = keys === undefined ? buildersOf(file) : file.people.filter(({ key }) => keys.includes(key));
  const day = freeWeekday(people);
  if (day === null || people.length === 0) return null;
  const window = usualEvening(people);
  const longer = (person: Person): Person =>
    people.includes(person) ? { ...person, week: { ...person.week, [day]: [window] } } : person;
  const names = listWords(people.map(({ name }) => name));
  return changeBetween(
    file,
    { ...file, people: file.people.map(longer) },
    {
      key: `evening~${day}~${people.map(({ key }) => key).join('+')}`,
      kind: 'evening',
      label: `Work ${WEEKDAY_WORDS[day]} ${windowWords(window)} as well: ${names}`,
      asks: { weekly: minutesOf([window]) * people.length, once: 0 },
    },
  );
}

/** A helper on a Saturday and the Sunday after it. @param saturday `2027-03-13` */
export function helperOnWeekend(file: BuildFile, saturday: string): Change {
  const windows = [...freeDay(file)];
  const sunday = dayText(dayNumber(saturday) + 1);
  return withPerson(file, {
    key: `helper~${saturday}`,
    kind: 'helper',
    name: 'a helper',
    label: `Have a helper on the weekend of ${dayWords(dayNumber(saturday))}`,
    exceptions: [{ from: saturday, to: sunday, windows, why: 'a helper' }],
    asks: { weekly: 0, once: minutesOf(windows) * 2 },
  });
}

/** A helper for four weeks, whenever the builders usually work. @param from the first day. @returns null where nobody works */
export function helperForMonth(file: BuildFile, from: string): Change | null {
  const first = dayNumber(from);
  const exceptions = Array.from({ length: MONTH_DAYS }, (_, i) => first + i).flatMap((day) => {
    const windows = [...windowsOn(file, WEEKDAYS[weekdayOf(day)]!)];
    const on = dayText(day);
    return windows.length === 0 ? [] : [{ from: on, to: on, windows, why: 'a helper' }];
  });
  if (exceptions.length === 0) return null;
  return withPerson(file, {
    key: `helper-month~${from}`,
    kind: 'helper',
    name: 'a helper',
    label: `Have a helper for four weeks from ${dayWords(first)}`,
    exceptions,
    asks: { weekly: 0, once: exceptions.reduce((sum, { windows }) => sum + minutesOf(windows), 0) },
  });
}

/** A helper every week on one weekday. */
export function helperEvery(file: BuildFile, day: Weekday): Change {
  const usual = windowsOn(file, day);
  const windows = [...(usual.length > 0 ? usual : freeDay(file))];
  return withPerson(file, {
    key: `helper-every~${day}`,
    kind: 'helper',
    name: 'a helper',
    label: `Have a helper on ${WEEKDAY_WORDS[day]}`,
    week: { ...emptyWeek(), [day]: windows },
    asks: { weekly: minutesOf(windows), once: 0 },
  });
}

/** One person more, whenever the builders usually work. @returns null where nobody works */
export function onePersonMore(file: BuildFile): Change | null {
  const week = Object.fromEntries(WEEKDAYS.map((day) => [day, [...windowsOn(file, day)]])) as Person['week'];
  const weekly = WEEKDAYS.reduce((sum, day) => sum + minutesOf(week[day]), 0);
  if (weekly === 0) return null;
  return withPerson(file, {
    key: 'person',
    kind: 'person',
    name: 'one more',
    label: 'Have one person more, at your own hours',
    week,
    asks: { weekly, once: 0 },
  });
}

type Hands = Pick<Change, 'key' | 'kind' | 'label' | 'asks'> & Pick<Person, 'name'> & Partial<Person>;

function withPerson(file: BuildFile, { key, kind, label, asks, name, week, exceptions }: Hands): Change {
  const person: Person = {
    key: keyFor(
      name,
      file.people.map((one) => one.key),
    ),
    name,
    sharedAs: null,
    byNameOnly: false,
    rate: 0,
    week: week ?? emptyWeek(),
    exceptions: exceptions ?? [],
  };
  return changeBetween(file, { ...file, people: [...file.people, person] }, { key, kind, label, asks });
}

/** A purchase ordered on that day. @returns null where it is ordered already or is not there */
export function orderNow(file: BuildFile, key: string, on: string): Change | null {
  const purchase = file.purchases.find((one) => one.key === key);
  if (purchase === undefined || (purchase.state !== 'wanted' && purchase.state !== 'quoted')) return null;
  return withPurchase(file, markOrdered(purchase, on), {
    key: `order~${key}`,
    kind: 'order',
    label: `Order ${purchaseName(purchase)} on ${dayWords(dayNumber(on))}`,
  });
}

/** A purchase that takes so many days less to come. @returns null where it is in or cannot come sooner */
export function haveSooner(file: BuildFile, key: string, days: number, asOfDay: string): Change | null {
  const purchase = file.purchases.find((one) => one.key === key);
  if (purchase === undefined || purchase.state === 'received' || purchase.state === 'returned') return null;
  const { leadDays, promisedOn, orderedOn } = purchase;
  const floor = orderedOn === null || orderedOn < asOfDay ? asOfDay : orderedOn;
  const isOrdered = purchase.state === 'ordered' || purchase.state === 'part-received';
  const promised = isOrdered ? promisedOn : null;
  const by = Math.min(days, promised === null ? leadDays : dayNumber(promised) - dayNumber(floor));
  if (by <= 0) return null;
  const bad = purchase.leadDaysBad;
  const after: Purchase =
    promised === null
      ? {
          ...purchase,
          leadDays: leadDays - by,
          leadDaysBad: bad === null ? null : Math.max(leadDays, bad) - by,
        }
      : { ...purchase, promisedOn: dayText(dayNumber(promised) - by) };
  return withPurchase(file, after, {
    key: `sooner~${key}~${days}`,
    kind: 'sooner',
    label: `Have ${purchaseName(purchase)} ${by} ${by === 1 ? 'day' : 'days'} sooner`,
  });
}

function withPurchase(
  file: BuildFile,
  after: Purchase,
  change: Pick<Change, 'key' | 'kind' | 'label'>,
): Change {
  const purchases = file.purchases.map((one) => (one.key === after.key ? after : one));
  return changeBetween(file, { ...file, purchases }, change);
}

/**
 * Two tasks that change places in the kept order. @param order the list the dates follow, `plan.order`
 * @returns null where one of them is not in it
 */
export function swapInOrder(file: BuildFile, order: readonly string[], a: string, b: string): Change | null {
  const name = (key: string) => shortName(file.tasks.find((task) => task.key === key)?.name ?? key);
  if (a === b || !order.includes(a) || !order.includes(b)) return null;
  const swapped = order.map((key) => (key === a ? b : key === b ? a : key));
  return changeBetween(
    file,
    { ...file, order: swapped },
    { key: `swap~${a}~${b}`, kind: 'swap', label: `Swap “${name(a)}” and “${name(b)}” in the order` },
  );
}

/** A task freed from its fixed date. @returns null where it has none */
export function freeDate(file: BuildFile, key: string): Change | null {
  const task = file.tasks.find((one) => one.key === key);
  if (task === undefined || task.fixedStart === null) return null;
  const free = { ...task, fixedStart: null, fixedWhy: null };
  return changeBetween(
    file,
    { ...file, tasks: file.tasks.map((one) => (one === task ? free : one)) },
    {
      key: `free-date~${key}`,
      kind: 'free-date',
      label: `Free “${shortName(task.name)}” from ${dayWords(dayNumber(task.fixedStart.slice(0, 10)))}`,
    },
  );
}

/** "18:30 to 21:00" */
function windowWords(window: string): string {
  return window.replace('-', ' to ');
}
