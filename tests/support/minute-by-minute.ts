/**
 * The calendar as its definitions read, one minute after the other and nothing remembered: the oracle for working
 * sets, dates and waits. Slow on purpose; it shares no code with the calendar it checks.
 */
import type { Condition, Person, Tool } from '#shared/contract/calendar.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Task } from '#shared/contract/task.ts';

const DAY = 1440;
const NAMES = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat'] as const;

/** Minutes from 00:00 of `startOn` → the written day and the minute of it. */
export function split(startOn: string, minute: number): { day: string; at: number } {
  const days = Math.floor(minute / DAY);
  const date = new Date(
    Date.UTC(Number(startOn.slice(0, 4)), Number(startOn.slice(5, 7)) - 1, Number(startOn.slice(8)) + days),
  );
  return { day: date.toISOString().slice(0, 10), at: minute - days * DAY };
}

export function minuteOf(startOn: string, instant: string): number {
  return (Date.parse(`${instant}:00Z`) - Date.parse(`${startOn}T00:00:00Z`)) / 60_000;
}

/** First minute of a window and the one after its last. */
function ends(window: string): [number, number] {
  const minutes = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  return [minutes(window.slice(0, 5)), minutes(window.slice(6))];
}

/** The windows a person has on that day: of the last exception that holds, else of the week. */
export function windowsOn(person: Person, day: string): readonly string[] {
  const replaced = person.exceptions
    .filter(({ from, to }) => from <= day && day <= to)
    .sort(
      (a, b) => compare(a.from, b.from) || compare(b.to, a.to) || compare(text(a.windows), text(b.windows)),
    )
    .at(-1);
  return replaced?.windows ?? person.week[NAMES[new Date(`${day}T00:00:00Z`).getUTCDay()]!];
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function text(windows: readonly string[]): string {
  return windows.toSorted().join();
}

/** The windows in which a condition holds on that day. */
export function holdsOn(condition: Condition, day: string): readonly string[] {
  const override = condition.overrides.find(({ on }) => on === day);
  if (override !== undefined) return override.holds ? ['00:00-24:00'] : [];
  if (condition.not.some(({ from, to }) => from <= day && day <= to)) return [];
  const monthDay = day.slice(5);
  const outside = condition.notYearly.some((range) => {
    const [from, to] = range.split('..') as [string, string];
    return from <= to ? from <= monthDay && monthDay <= to : monthDay >= from || monthDay <= to;
  });
  return outside ? [] : [condition.hours];
}

export function toolIsThere(tool: Tool, day: string): boolean {
  return tool.only.length === 0 || tool.only.some(({ from, to }) => from <= day && day <= to);
}

/** For each minute of `[0, length)`: are at least `count` of these people there, conditions holding, tools there? */
export function workable(
  file: BuildFile,
  { conditions: needed, tools: used }: Pick<Task, 'conditions' | 'tools'>,
  team: readonly string[],
  count: number,
  length: number,
): Uint8Array {
  const people = file.people.filter(({ key }) => team.includes(key));
  const conditions = file.conditions.filter(({ key }) => needed.includes(key));
  const tools = file.tools.filter(({ key }) => used.includes(key));
  const open = new Uint8Array(length);
  for (let midnight = 0; midnight < length; midnight += DAY) {
    const { day } = split(file.build.startOn, midnight);
    if (!tools.every((tool) => toolIsThere(tool, day))) continue;
    const there = new Uint8Array(DAY);
    for (const person of people) {
      const his = new Uint8Array(DAY);
      for (const window of windowsOn(person, day)) his.fill(1, ...ends(window));
      his.forEach((is, at) => (there[at]! += is));
    }
    const fine = new Uint8Array(DAY).fill(1);
    for (const condition of conditions) {
      const holds = new Uint8Array(DAY);
      for (const window of holdsOn(condition, day)) holds.fill(1, ...ends(window));
      holds.forEach((is, at) => (fine[at]! &= is));
    }
    for (let at = 0; at < DAY && midnight + at < length; at++)
      if (there[at]! >= count && fine[at] === 1) open[midnight + at] = 1;
  }
  return open;
}

/** Worked minutes left from a worked minute on, in its sitting: breaks of 90 minutes within a day do not end it. */
export function leftOfSitting(open: Uint8Array, minute: number): number {
  let left = 0;
  let pause = 0;
  for (let m = minute; m < open.length; m++) {
    if (open[m] === 1) {
      left++;
      pause = 0;
      continue;
    }
    // A break lies within one day: it ends with the day it began in.
    pause++;
    if (pause > 90 || Math.floor((m - pause) / DAY) !== Math.floor((m + 1) / DAY)) break;
  }
  return left;
}

export function isAdmissible(open: Uint8Array, minute: number, sitting: number): boolean {
  return open[minute] === 1 && leftOfSitting(open, minute) >= sitting;
}

/** The end of the last of `minutes` open minutes from `start` on; -1 past the end. */
export function runEnd(open: Uint8Array, start: number, minutes: number): number {
  let left = minutes;
  for (let m = start; m < open.length; m++) if (open[m] === 1 && --left === 0) return m + 1;
  return minutes === 0 ? start : -1;
}
