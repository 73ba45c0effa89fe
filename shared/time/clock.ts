/**
 * Instants: whole civil minutes from 00:00 of the build's first day, local, without a zone (a van is built in one
 * place, so a summer-time change never moves an evening). Files and screens write `2027-03-13T18:30`.
 */
import { dayNumber, dayText } from './days.ts';

export const DAY = 1440;

export interface Clock {
  /** The build's first day, in days since 1970-01-01. */
  readonly firstDay: number;
}

export function clockFrom(startOn: string): Clock {
  return { firstDay: dayNumber(startOn) };
}

/** `18:30` → 1110; `24:00` → 1440. */
export function clockMinutes(text: string): number {
  return Number(text.slice(0, 2)) * 60 + Number(text.slice(3, 5));
}

/** 00:00 of that day. */
export function dayStart({ firstDay }: Clock, day: string): number {
  return (dayNumber(day) - firstDay) * DAY;
}

/** `2027-03-13T18:30` → minutes from the build's start; negative before it. */
export function instantOf(clock: Clock, text: string): number {
  return dayStart(clock, text.slice(0, 10)) + clockMinutes(text.slice(11));
}

/** Minutes from the build's start → `2027-03-13T18:30`. Midnight is the next day's 00:00. */
export function instantText(clock: Clock, instant: number): string {
  const day = Math.floor(instant / DAY);
  const minute = instant - day * DAY;
  return `${dayText(clock.firstDay + day)}T${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

/** The day an instant lies in, counted from the build's first day. */
export function dayIndex(instant: number): number {
  return Math.floor(instant / DAY);
}

/** That day of the build, written. */
export function dayOfBuild({ firstDay }: Clock, index: number): string {
  return dayText(firstDay + index);
}

function two(value: number): string {
  return value < 10 ? `0${value}` : `${value}`;
}
