/**
 * People who work on several builds of a store. What a build that comes first has planned for them is taken out of their
 * windows in every later one, to the minute, as exceptions of single days in a copy of the file: everything that
 * computes from that copy (dates, search, odds, tonight) keeps nobody in two vans at once. The copy is never stored.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { CalendarException, Person } from '../contract/calendar.ts';
import type { Busy, Elsewhere } from '../contract/elsewhere.ts';
import type { Plan } from '../contract/plan.ts';
import { personAvailability } from './availability.ts';
import { clockFrom, clockMinutes, DAY, instantText } from './clock.ts';
import { dayNumber, dayText } from './days.ts';
import { Patterns } from './patterns.ts';

/** A day of which another build has taken something; only in computed copies. */
interface TakenDay extends CalendarException {
  readonly taken: readonly Busy[];
}

/** Of one day: minutes from its 00:00. */
interface Part {
  readonly from: number;
  readonly to: number;
  readonly busy: Busy;
}

/** The planned sittings of the people who are shared, by their shared name; touching ones are one. */
export function busyOf(file: BuildFile, plan: Pick<Plan, 'tasks'>): Elsewhere {
  const clock = clockFrom(file.build.startOn);
  const names = new Map(file.people.map(({ key, sharedAs }) => [key, sharedAs]));
  const sittings = new Map<string, [number, number][]>();
  for (const { dates } of Object.values(plan.tasks))
    for (const key of dates?.people ?? []) {
      const name = names.get(key) ?? null;
      if (name !== null) sittings.set(name, [...(sittings.get(name) ?? []), ...dates!.sittings]);
    }
  return Object.fromEntries(
    [...sittings].map(([name, stretches]) => [
      name,
      joined(stretches).map(([from, to]) => ({
        from: instantText(clock, from),
        to: instantText(clock, to),
        build: file.build.name,
      })),
    ]),
  );
}

/** What two builds have planned, together. */
export function bothBusy(a: Elsewhere, b: Elsewhere): Elsewhere {
  const names = [...new Set([...Object.keys(a), ...Object.keys(b)])];
  return Object.fromEntries(
    names.map((name) => [
      name,
      [...busyAs(a, name), ...busyAs(b, name)].sort((x, y) => (x.from < y.from ? -1 : 1)),
    ]),
  );
}

/** The file to plan from: the same object where nobody loses a window. */
export function withElsewhere(file: BuildFile, elsewhere: Elsewhere): BuildFile {
  let isSame = true;
  const people = file.people.map((person) => {
    const busy = person.sharedAs === null ? [] : busyAs(elsewhere, person.sharedAs);
    const left = busy.length === 0 ? person : without(person, busy);
    isSame &&= left === person;
    return left;
  });
  return isSame ? file : { ...file, people };
}

/** What other builds took of a person's windows in such a copy. */
export function takenOf({ exceptions }: Person): Busy[] {
  return exceptions.flatMap((day) => ('taken' in day ? (day as TakenDay).taken : []));
}

/** A shared name is anybody's word: "constructor" is one, and no list. */
function busyAs(elsewhere: Elsewhere, name: string): readonly Busy[] {
  return Object.hasOwn(elsewhere, name) ? elsewhere[name]! : [];
}

function without(person: Person, busy: readonly Busy[]): Person {
  const byDay = new Map<number, Part[]>();
  for (const part of busy.flatMap(partsOf)) byDay.set(part.day, [...(byDay.get(part.day) ?? []), part]);
  const days = [...byDay.keys()].sort((a, b) => a - b);
  const first = days[0]!;
  const patterns = new Patterns();
  const open = personAvailability(person, { from: first, to: days.at(-1)! + 1 }, patterns);
  const cut = new Map<string, TakenDay>();
  for (const day of days) {
    const found = takenDay(dayText(day), patterns.at(open[day - first]!), byDay.get(day)!);
    if (found !== null) cut.set(found.from, found);
  }
  if (cut.size === 0) return person;
  // Of two exceptions of one single day the alphabet would decide: the one that was worked out stands alone.
  const kept = person.exceptions.filter(({ from, to }) => from !== to || !cut.has(from));
  return { ...person, exceptions: [...kept, ...cut.values()] };
}

/** A stretch cut at midnights. */
function partsOf(busy: Busy): (Part & { readonly day: number })[] {
  const [start, end] = [minutesOf(busy.from), minutesOf(busy.to)];
  const parts = [];
  for (let day = Math.floor(start / DAY); day * DAY < end; day++)
    parts.push({
      day,
      from: Math.max(start - day * DAY, 0),
      to: Math.min(end - day * DAY, DAY),
      busy,
    });
  return parts;
}

/** @param stretches open minutes of the day, `[from, to, …]`. @returns null where none of them is taken */
function takenDay(day: string, stretches: readonly number[], parts: readonly Part[]): TakenDay | null {
  let open = pairs(stretches);
  const taken = parts.filter((part) => open.some(([from, to]) => part.from < to && part.to > from));
  if (taken.length === 0) return null;
  for (const part of taken)
    open = open.flatMap(([from, to]): [number, number][] =>
      part.from >= to || part.to <= from
        ? [[from, to]]
        : [
            [from, part.from],
            [part.to, to],
          ],
    );
  return {
    from: day,
    to: day,
    windows: open
      .filter(([from, to]) => from < to)
      .map(([from, to]) => `${clockText(from)}-${clockText(to)}`),
    why: `at ${[...new Set(taken.map(({ busy }) => busy.build))].join(', ')}`,
    taken: taken.map(({ from, to, busy }) => ({
      from: `${day}T${clockText(from)}`,
      // Written as an instant, the end of a day is the next one's beginning.
      to: to === DAY ? `${dayText(dayNumber(day) + 1)}T00:00` : `${day}T${clockText(to)}`,
      build: busy.build,
    })),
  };
}

function joined(stretches: readonly (readonly [number, number])[]): [number, number][] {
  const out: [number, number][] = [];
  for (const [from, to] of stretches.toSorted((a, b) => a[0] - b[0])) {
    const last = out.at(-1);
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], to);
    else if (from < to) out.push([from, to]);
  }
  return out;
}

function pairs(flat: readonly number[]): [number, number][] {
  return Array.from({ length: flat.length / 2 }, (_, i) => [flat[2 * i]!, flat[2 * i + 1]!]);
}

/** Minutes since 1970-01-01T00:00, civil. */
function minutesOf(instant: string): number {
  return dayNumber(instant.slice(0, 10)) * DAY + clockMinutes(instant.slice(11));
}

function clockText(minutes: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
