/**
 * Where a chain's boxes, arrows and words lie for a given width: in rows from left to right, read like text, or under
 * each other where there is no room. What is wrong runs back from the last box to the first. Px of the drawing.
 */
import { arrow } from '../../drawing/marks.ts';
import type { Shape } from './chain-shape.ts';

export interface Spot {
  readonly x: number;
  readonly y: number;
  readonly w: number;
}

export interface LaidArrow {
  readonly line: string;
  readonly head: string;
  /** Where its words stand: the kind above the line and the reason below it. */
  readonly words: Spot;
  /** The arrow runs down past its words, which stand beside it. */
  readonly down: boolean;
  /** The closing mark before a cover's box. */
  readonly bar: string;
}

export interface Laid {
  readonly width: number;
  readonly height: number;
  readonly box: { readonly w: number; readonly h: number };
  readonly boxes: readonly Spot[];
  /** One per step. */
  readonly arrows: readonly LaidArrow[];
  readonly back: { readonly line: string; readonly head: string; readonly words: Spot } | null;
}

const BOX = { h: 88, least: 150, most: 232 } as const;
const GAP = { least: 132, most: 176 } as const;
/** Height in a box at which arrows meet it. */
const AT = 24;
/** Below a row: the way to the next, and the way back. */
const CHANNEL = 46;
const SIDE = 26;
const NARROW = 560;

/** @param wrong whether something runs back against the order */
export function layChain(shape: Shape, width: number, wrong: boolean): Laid {
  if (width < NARROW) return down(shape, width, wrong);
  return shape.kind === 'fan' ? fan(shape, width, wrong) : rows(shape, width, wrong);
}

function rows({ tasks, steps }: Shape, width: number, wrong: boolean): Laid {
  const most = Math.max(1, Math.floor((width + GAP.least) / (BOX.least + GAP.least)));
  const count = Math.ceil(tasks.length / most);
  // A row's end leads back to the margin, and on to the next row.
  const [left, right] = count > 1 ? [SIDE, 14] : [0, 2];
  const room = width - left - right;
  const perRow = Math.min(
    tasks.length,
    Math.max(1, Math.floor((room + GAP.least) / (BOX.least + GAP.least))),
  );
  const { w, gap } = fit(perRow, room);
  const pitch = BOX.h + CHANNEL;
  const boxes = tasks.map((_, i): Spot => ({
    x: left + (i % perRow) * (w + gap),
    y: Math.floor(i / perRow) * pitch,
    w,
  }));
  const lines = Math.ceil(tasks.length / perRow);
  const arrows = steps.map((step, i): LaidArrow => {
    const [a, b] = [boxes[i]!, boxes[i + 1]!];
    const tip = b.x - (step.by === 'cover' ? 7 : 1);
    const closing = step.by === 'cover' ? barBefore(b) : '';
    if (a.y === b.y) {
      const y = a.y + AT;
      return {
        line: `M${a.x + w} ${y}H${tip - 5}`,
        head: arrow(tip, y, 'right', 9, 2.8),
        words: { x: a.x + w + 9, y, w: gap - 24 },
        down: false,
        bar: closing,
      };
    }
    const y = a.y + BOX.h + CHANNEL / 2;
    const end = b.y + AT;
    return {
      line: `M${a.x + w} ${a.y + AT}h12V${y}H${left - 16}V${end}H${tip - 5}`,
      head: arrow(tip, end, 'right', 9, 2.8),
      words: { x: left + 8, y, w: Math.min(460, Math.max(200, a.x - left)) },
      down: false,
      bar: closing,
    };
  });
  const bottom = (lines - 1) * pitch + BOX.h;
  const [first, last] = [boxes[0]!, boxes.at(-1)!];
  const channel = bottom + 30;
  const out = last.x + w / 2;
  const back = !wrong
    ? null
    : lines === 1
      ? {
          line: `M${out} ${bottom}V${channel}H${first.x + w / 2}V${BOX.h + 10}`,
          head: arrow(first.x + w / 2, BOX.h + 1, 'up', 13, 4.6),
          words: { x: (out + first.x + w / 2) / 2, y: channel, w: Math.max(200, out - first.x - w / 2 - 40) },
        }
      : {
          line: `M${out} ${bottom}V${channel}H3V${AT + 28}H${left - 10}`,
          head: arrow(left - 1, AT + 28, 'right', 13, 4.6),
          words: { x: (out + 3) / 2, y: channel, w: Math.max(200, out - 80) },
        };
  const laidWidth = Math.max(...boxes.map(({ x }) => x)) + w + right;
  return {
    width: laidWidth,
    height: (back === null ? bottom : channel + 22) + 2,
    box: { w, h: BOX.h },
    boxes,
    arrows,
    back,
  };
}

function fan({ tasks, steps }: Shape, width: number, wrong: boolean): Laid {
  const { w, gap } = fit(2, width - 20);
  const pitch = BOX.h + 20;
  const boxes = tasks.map((_, i): Spot =>
    i === 0 ? { x: 0, y: 0, w } : { x: w + gap, y: (i - 1) * pitch, w },
  );
  const arrows = steps.map((step, i): LaidArrow => {
    const b = boxes[i + 1]!;
    const y = b.y + AT;
    const tip = b.x - (step.by === 'cover' ? 7 : 1);
    return {
      line: i === 0 ? `M${w} ${y}H${tip - 5}` : `M${w + 5} ${AT}V${y}H${tip - 5}`,
      head: arrow(tip, y, 'right', 9, 2.8),
      words: { x: w + 12, y, w: gap - 27 },
      down: false,
      bar: step.by === 'cover' ? barBefore(b) : '',
    };
  });
  const bottom = (steps.length - 1) * pitch + BOX.h;
  const channel = bottom + 30;
  const out = w + gap + w / 2;
  const bus = w + gap + w + 14;
  const stubs =
    steps.length === 1
      ? `M${out} ${bottom}V${channel}`
      : `${steps.map((_, i) => `M${bus - 14} ${i * pitch + BOX.h / 2}H${bus}`).join('')}M${bus} ${BOX.h / 2}V${channel}`;
  const back = !wrong
    ? null
    : {
        line: `${stubs}H${w / 2}V${BOX.h + 10}`,
        head: arrow(w / 2, BOX.h + 1, 'up', 13, 4.6),
        words: { x: (out + w / 2) / 2, y: channel, w: w + gap - 40 },
      };
  return {
    width: bus + 2,
    height: (back === null ? bottom : channel + 22) + 2,
    box: { w, h: BOX.h },
    boxes,
    arrows,
    back,
  };
}

/** Under each other. */
function down({ kind, tasks, steps }: Shape, width: number, wrong: boolean): Laid {
  const right = wrong ? 22 : 0;
  const fans = kind === 'fan';
  const indent = fans ? 34 : 0;
  const gap = 60;
  const w = width - right - indent;
  const boxes = tasks.map((_, i): Spot => ({
    x: fans && i === 0 ? 0 : indent,
    y: i * (BOX.h + gap),
    w: fans && i === 0 ? w + indent : w,
  }));
  const arrows = steps.map((step, i): LaidArrow => {
    const b = boxes[i + 1]!;
    const from = fans ? BOX.h : b.y - gap;
    const bar = step.by === 'cover' ? (fans ? barBefore(b) : `M${b.x} ${b.y - 3}H${b.x + b.w}`) : '';
    if (fans) {
      const y = b.y + AT;
      return {
        line: `M14 ${from}V${y}H${b.x - 12}`,
        head: arrow(b.x - 7, y, 'right', 9, 2.8),
        words: { x: indent, y: b.y - gap + 8, w: w - 8 },
        down: true,
        bar,
      };
    }
    const tip = b.y - (step.by === 'cover' ? 6 : 1);
    return {
      line: `M22 ${from}V${tip - 5}`,
      head: arrow(22, tip, 'down', 9, 2.8),
      words: { x: 36, y: from + 8, w: w - 44 },
      down: true,
      bar,
    };
  });
  const last = boxes.at(-1)!;
  const bottom = last.y + BOX.h;
  const x = width - 4;
  const back = wrong
    ? {
        line: `M${width - right} ${last.y + BOX.h / 2}H${x}V${AT}H${width - right + 10}`,
        head: arrow(width - right + 1, AT, 'left', 13, 4.6),
        words: { x: width / 2, y: bottom + 24, w: width },
      }
    : null;
  return { width, height: bottom + (back === null ? 4 : 46), box: { w, h: BOX.h }, boxes, arrows, back };
}

function fit(count: number, width: number): { w: number; gap: number } {
  const w = Math.min(BOX.most, Math.max(BOX.least, (width - (count - 1) * GAP.least) / count));
  const gap = count === 1 ? 0 : Math.min(GAP.most, (width - count * w) / (count - 1));
  return { w: Math.floor(w), gap: Math.floor(gap) };
}

function barBefore({ x, y }: Spot): string {
  return `M${x - 4} ${y - 4}V${y + BOX.h + 4}`;
}
