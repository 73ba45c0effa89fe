/** What is in the wrong order, told beside the drawing: the cause, the cost now, the cost later; and where its leader runs. */
import type { OrderError } from '#shared/contract/plan.ts';
import type { Stack } from '#shared/covers/stacks.ts';
import { shortName } from '../../drawing/fit.ts';
import { INSET, type Placed, type ShellLayout } from '../../drawing/shell-layout.ts';
import { hours, roughDay } from '../../drawing/words.ts';
import { hiddenSteps, type ShellIndex } from './bands.ts';
import { reopenLater } from './reopen.ts';

export interface Callout {
  readonly id: string;
  readonly zone: string;
  readonly depth: string;
  readonly title: string;
  readonly text: string;
}

const TITLES: Readonly<Partial<Record<OrderError['rule'], string>>> = {
  'covered-unchecked': 'Covered unchecked',
  'covers-in-a-circle': 'Covers in a circle',
};

/** One per error that concerns a zone of the drawing, as the plan lists them. */
export function calloutsOf(index: ShellIndex, stacks: ReadonlyMap<string, Stack>): Callout[] {
  return index.errors.flatMap((error, number): Callout[] => {
    const step = hiddenSteps(error)[0];
    const zone = step?.zone ?? error.zone;
    const depth = step?.depth ?? error.depth;
    if (zone === null || depth === null) return [];
    return [
      {
        id: `${number} ${error.rule}`,
        zone,
        depth,
        title: `${TITLES[error.rule] ?? 'Wrong order'} in ${zone}.`,
        text: [cause(index, error), cost(index, error, stacks.get(zone) ?? null, depth)]
          .filter((words) => words !== '')
          .join(' '),
      },
    ];
  });
}

function cause({ taskOf, plan }: ShellIndex, error: OrderError): string {
  const name = (key: string) => `“${shortName(taskOf.get(key)?.name ?? key, 24)}”`;
  const step = hiddenSteps(error)[0];
  if (step === undefined) return error.sentence;
  if (error.rule === 'closed-too-early') {
    const cover = taskOf.get(step.to);
    const since = cover?.startedAt ?? null;
    const inner = plan.tasks[step.from]?.dates?.start ?? null;
    return `${name(step.to)} begun${since === null ? '' : ` ${roughDay(since, plan.asOf)}`}, ${name(step.from)} ${inner === null ? 'not in' : `only ${roughDay(inner, plan.asOf)}`}.`;
  }
  if (error.rule === 'wrong-order' && error.chain[0]?.by === 'link') {
    const [first] = error.chain;
    return first.to === step.from
      ? `${name(first.from)} is linked before ${name(first.to)}, which ${name(step.to)} hides first.`
      : `${name(first.from)} is linked before ${name(first.to)}, but ${name(step.to)} hides ${name(step.from)}.`;
  }
  return error.sentence;
}

function cost(
  { plan, taskOf }: ShellIndex,
  { repair, otherRepairs }: OrderError,
  stack: Stack | null,
  depth: string,
): string {
  const reopen = [repair, ...otherRepairs].find((one) => one?.kind === 'reopen');
  if (reopen?.kind !== 'reopen') return '';
  const later = stack === null ? null : reopenLater(stack, depth, plan);
  const once =
    later === null || later.personMinutes <= reopen.personMinutes || later.stands.state !== 'not-started'
      ? ''
      : `, ${hours(later.personMinutes)} h once “${shortName(taskOf.get(later.stands.key)?.name ?? '', 20)}” stands`;
  return `Off and back: ${hours(reopen.personMinutes)} h now${once}.`;
}

/** Of the words in a callout: the width of a letter and the height of a line. */
const LETTER = 4.9;
export const LINE = 13;

export interface Slot {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
  /** As many lines as stand whole. */
  readonly lines: number;
  /** From the band to the words, along gutters where no words stand; null where none is free. */
  readonly leader: { readonly d: string; readonly x: number; readonly y: number } | null;
}

/** Callouts in their column, one above the other. Leaders keep to the gutters beside the columns. */
export function slotsOf({ cells, callout }: ShellLayout, callouts: readonly Omit<Callout, 'id'>[]): Slot[] {
  const letters = Math.max(10, callout.w / LETTER);
  const lines = callouts.map(({ title, text }) => Math.ceil((title.length + text.length + 4) / letters));
  const whole = lines.reduce((sum, one) => sum + one, 0);
  let y = callout.y;
  return callouts.map(({ zone, depth }, i): Slot => {
    const h = (callout.h * lines[i]!) / whole;
    const slot = { x: callout.x, y, w: callout.w, h: h - 2, lines: Math.max(1, Math.round((h - 6) / LINE)) };
    y += h;
    const cell = cells.find((one) => one.zone.key === zone);
    return {
      ...slot,
      leader: cell === undefined ? null : leaderOf(cell, depth, slot, callout.w > cell.w, i),
    };
  });
}

function leaderOf(
  cell: Placed,
  depth: string,
  slot: { x: number; y: number; w: number },
  apart: boolean,
  i: number,
): Slot['leader'] {
  const row = cell.rows.find((one) => one.depth === depth);
  if (row === undefined || cell.part !== 'bays' || apart || cell.column === 0) return null;
  const y = row.y + (cell.pitch - 1.8) / 2;
  const aside = 3.5 + 3 * (i % 2);
  if (cell.column === 3) {
    const x = cell.x + INSET + 5;
    return { x, y, d: `M${x} ${y}H${cell.x + aside}V${slot.y}H${slot.x}` };
  }
  const x = cell.x + cell.w - INSET - 6;
  const end = cell.column === 1 ? slot.x + slot.w : slot.x;
  // The second one runs beyond the fold, so that two never lie on each other.
  const gutter = cell.x + cell.w + (i % 2 === 0 ? -3.5 : 3.5);
  return { x, y, d: `M${x} ${y}H${gutter}V${slot.y}H${end}` };
}
