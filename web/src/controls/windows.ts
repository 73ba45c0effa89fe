/**
 * Working windows of one day as stretches of minutes: read, written, and changed by hand. What is dragged or moved
 * keeps to steps and stops at its neighbours, so windows of a day stay sorted and apart.
 */
import { clockMinutes, DAY } from '#shared/time/clock.ts';

export interface Stretch {
  /** Minutes of the day, `from` < `to`. */
  readonly from: number;
  readonly to: number;
}

export type Edge = 'from' | 'to';

/** Windows are set by quarter hours. */
export const STEP = 15;

/** `18:30-21:00`. */
export function readWindow(text: string): Stretch {
  return { from: clockMinutes(text.slice(0, 5)), to: clockMinutes(text.slice(6)) };
}

export function writeWindow({ from, to }: Stretch): string {
  return `${clockText(from)}-${clockText(to)}`;
}

/** Sorted by their start. */
export function readWindows(texts: readonly string[]): Stretch[] {
  return texts.map(readWindow).toSorted((a, b) => a.from - b.from || a.to - b.to);
}

export function clockText(minute: number): string {
  return `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
}

export function snapped(minute: number): number {
  return Math.min(DAY, Math.max(0, Math.round(minute / STEP) * STEP));
}

/** Minutes that lie in a window at all: what two windows share counts once. */
export function minutesIn(windows: readonly Stretch[]): number {
  let total = 0;
  let end = 0;
  for (const { from, to } of windows.toSorted((a, b) => a.from - b.from)) {
    total += Math.max(0, to - Math.max(from, end));
    end = Math.max(end, to);
  }
  return total;
}

/** A window drawn from one minute to another on empty hours, cut off at its neighbours; null when nothing is left. */
export function drawn(windows: readonly Stretch[], start: number, end: number): Stretch | null {
  if (windows.some(({ from, to }) => from < start && start < to)) return null;
  const [low, high] = roomAround(windows, start, end >= start);
  const from = Math.max(low, snapped(Math.min(start, end)));
  const to = Math.min(high, snapped(Math.max(start, end)));
  return to - from >= STEP ? { from, to } : null;
}

/** Where the gap around a minute begins and ends. */
function roomAround(windows: readonly Stretch[], minute: number, forward: boolean): [number, number] {
  const before = windows.filter(({ to }) => (forward ? to <= minute : to < minute)).map(({ to }) => to);
  const after = windows
    .filter(({ from }) => (forward ? from > minute : from >= minute))
    .map(({ from }) => from);
  return [Math.max(0, ...before), Math.min(DAY, ...after)];
}

export function added(windows: readonly Stretch[], window: Stretch): Stretch[] {
  return [...windows, window].toSorted((a, b) => a.from - b.from || a.to - b.to);
}

export function without(windows: readonly Stretch[], index: number): Stretch[] {
  return windows.filter((_, i) => i !== index);
}

/** A window moved by some minutes, its length kept, as far as its neighbours let it. */
export function moved(windows: readonly Stretch[], index: number, by: number): Stretch[] {
  const { from, to } = windows[index]!;
  const { low, high } = neighbours(windows, index);
  const shift = Math.min(high - to, Math.max(low - from, by));
  return windows.with(index, { from: from + shift, to: to + shift });
}

/** One end of a window set to a minute, as far as its other end and its neighbours let it. */
export function resized(windows: readonly Stretch[], index: number, edge: Edge, minute: number): Stretch[] {
  const { from, to } = windows[index]!;
  const { low, high } = neighbours(windows, index);
  const next =
    edge === 'from'
      ? { from: Math.min(to - STEP, Math.max(low, minute)), to }
      : { from, to: Math.max(from + STEP, Math.min(high, minute)) };
  return next.from < next.to ? windows.with(index, next) : [...windows];
}

/** How far a window can reach; overlapping neighbours hold it where it is. */
function neighbours(windows: readonly Stretch[], index: number): { low: number; high: number } {
  const { from, to } = windows[index]!;
  return {
    low: Math.min(from, windows[index - 1]?.to ?? 0),
    high: Math.max(to, windows[index + 1]?.from ?? DAY),
  };
}

/** Where people first look for time: the evening, a day off's morning and afternoon, else the first gap of an hour. */
const USUAL: readonly Stretch[] = [
  { from: 1110, to: 1260 },
  { from: 540, to: 750 },
  { from: 810, to: 1020 },
];

/** A window that fits between those there are; null when the day is full. */
export function freeWindow(windows: readonly Stretch[]): Stretch | null {
  const free = (one: Stretch) => windows.every(({ from, to }) => to <= one.from || one.to <= from);
  const usual = USUAL.find(free);
  if (usual !== undefined) return usual;
  for (let from = 0; from + 60 <= DAY; from += STEP)
    if (free({ from, to: from + 60 })) return { from, to: from + 60 };
  return null;
}

/** A time of the day as people type it: "18:30", "1830", "9", "24:00"; null for what is none. */
export function readClock(text: string): number | null {
  const match = /^(\d{1,2})(?:[:.h]?(\d{2}))?$/.exec(text.trim());
  if (match === null) return null;
  const minute = Number(match[1]) * 60 + Number(match[2] ?? 0);
  return Number(match[2] ?? 0) < 60 && minute <= DAY ? minute : null;
}
