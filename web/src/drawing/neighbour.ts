/** Which box lies next in a direction: arrow keys walk a drawing by where its parts stand. */
export interface Box {
  readonly key: string;
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

export type Direction = 'left' | 'right' | 'up' | 'down';

const OF_KEY: Readonly<Record<string, Direction>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
};

/** The direction of an arrow key pressed alone; null for every other key. */
export function directionOf(
  event: Pick<KeyboardEvent, 'key' | 'altKey' | 'ctrlKey' | 'metaKey' | 'shiftKey'>,
): Direction | null {
  if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return null;
  return OF_KEY[event.key] ?? null;
}

/** A step aside counts as this many steps ahead: straight on comes first. */
const ASIDE = 3;

/** @returns the key of the nearest box that way, one in line before one aside; null at the edge */
export function neighbourOf(boxes: readonly Box[], from: string, to: Direction): string | null {
  const here = boxes.find(({ key }) => key === from);
  if (here === undefined) return null;
  const level = to === 'left' || to === 'right';
  const sign = to === 'left' || to === 'up' ? -1 : 1;
  let best: { key: string; cost: number } | null = null;
  for (const box of boxes) {
    if (box.key === from) continue;
    const ahead =
      sign *
      (level ? middle(box.x, box.w) - middle(here.x, here.w) : middle(box.y, box.h) - middle(here.y, here.h));
    if (ahead <= 1) continue;
    const gap = level ? apart(here.y, here.h, box.y, box.h) : apart(here.x, here.w, box.x, box.w);
    const off = level
      ? middle(box.y, box.h) - middle(here.y, here.h)
      : middle(box.x, box.w) - middle(here.x, here.w);
    const cost = ahead + ASIDE * gap + Math.abs(off) / 100;
    if (best === null || cost < best.cost) best = { key: box.key, cost };
  }
  return best?.key ?? null;
}

function middle(start: number, length: number): number {
  return start + length / 2;
}

/** How far two stretches lie apart; 0 where they overlap. */
function apart(a: number, aLength: number, b: number, bLength: number): number {
  return Math.max(0, b - (a + aLength), a - (b + bLength));
}
