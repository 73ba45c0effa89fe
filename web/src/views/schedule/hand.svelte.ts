/**
 * The pointer over the chart: a bar is chosen or pulled, empty paper is moved, two fingers come closer or go further.
 * A finger moves the paper; only the chosen bar is pulled with it.
 */
import type { Bar } from './bars.ts';
import type { Paper } from './paper.svelte.ts';
import type { Proposal } from './proposal.svelte.ts';

interface Under {
  paper: () => Paper;
  proposal: () => Proposal;
  barAt: (x: number, y: number) => Bar | null;
  chosen: () => string | null;
  scroller: () => HTMLElement | undefined;
  onchoose: (key: string) => void;
  /** A bar that cannot be moved was pulled. */
  onrefuse: (words: string) => void;
}

interface Point {
  readonly x: number;
  readonly y: number;
}

interface Grip extends Point {
  readonly pan: number;
  readonly top: number;
  readonly clientY: number;
  readonly bar: Bar | null;
  readonly touch: boolean;
  moved: boolean;
  refused: boolean;
}

/** Px a press may slip and still be a press. */
const SLIP = 4;

export class Hand {
  readonly #under: Under;
  readonly #fingers = new Map<number, Point>();
  #grip: Grip | null = null;
  #spread = 0;
  held = $state<'paper' | 'bar' | null>(null);
  /** Is a bar under the pointer? */
  over = $state(false);

  constructor(under: Under) {
    this.#under = under;
  }

  down = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    const { x, y } = placeOf(event);
    (event.currentTarget as HTMLElement).setPointerCapture(event.pointerId);
    this.#fingers.set(event.pointerId, { x, y });
    if (this.#fingers.size === 2) {
      this.#grip = null;
      this.#spread = this.#pinch().distance;
      return;
    }
    this.#grip = {
      x,
      y,
      pan: this.#under.paper().pan,
      top: this.#under.scroller()?.scrollTop ?? 0,
      clientY: event.clientY,
      bar: this.#under.barAt(x, y),
      touch: event.pointerType !== 'mouse',
      moved: false,
      refused: false,
    };
    this.held = null;
  };

  move = (event: PointerEvent): void => {
    const { x, y } = placeOf(event);
    if (this.#fingers.has(event.pointerId)) this.#fingers.set(event.pointerId, { x, y });
    if (this.#fingers.size === 2) {
      const { distance, middle } = this.#pinch();
      if (this.#spread > 0 && distance > 0) this.#under.paper().zoomBy(distance / this.#spread, middle);
      this.#spread = distance;
      return;
    }
    const grip = this.#grip;
    if (grip === null) {
      this.over = this.#under.barAt(x, y) !== null;
      return;
    }
    if (!grip.moved && Math.hypot(x - grip.x, y - grip.y) < SLIP) return;
    grip.moved = true;
    if (grip.bar !== null && (!grip.touch || grip.bar.key === this.#under.chosen()))
      this.#pull(grip, grip.bar, x);
    else this.#shift(grip, x, event.clientY);
  };

  up = (event: PointerEvent): void => {
    this.#fingers.delete(event.pointerId);
    const grip = this.#grip;
    if (grip !== null && !grip.moved && grip.bar !== null) this.#under.onchoose(grip.bar.key);
    if (this.held === 'bar') this.#under.proposal().settled = true;
    this.#grip = null;
    this.held = null;
  };

  lost = (event: PointerEvent): void => {
    this.#fingers.delete(event.pointerId);
    this.#grip = null;
    if (this.held === 'bar') this.#under.proposal().leave();
    this.held = null;
  };

  leave = (): void => {
    this.over = false;
  };

  wheel = (event: WheelEvent): void => {
    const paper = this.#under.paper();
    if (event.ctrlKey || event.metaKey) {
      event.preventDefault();
      paper.zoomBy(Math.exp(-event.deltaY * (event.deltaMode === 0 ? 0.0025 : 0.06)), placeOf(event).x);
    } else if (Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
      event.preventDefault();
      paper.panBy(event.deltaX);
    }
  };

  #shift(grip: Grip, x: number, clientY: number): void {
    this.held = 'paper';
    this.#under.paper().panTo(grip.pan + grip.x - x);
    const scroller = this.#under.scroller();
    if (!grip.touch && scroller !== undefined) scroller.scrollTop = grip.top - (clientY - grip.clientY);
  }

  #pull(grip: Grip, bar: Bar, x: number): void {
    const [paper, proposal] = [this.#under.paper(), this.#under.proposal()];
    const refusal = proposal.refusal(bar.key);
    if (refusal !== null) {
      if (!grip.refused) this.#under.onrefuse(refusal);
      grip.refused = true;
      return;
    }
    this.held = 'bar';
    const days = paper.axis.day(paper.pan + x) - paper.axis.day(grip.pan + grip.x);
    proposal.fix(bar.key, bar.start + Math.round(days));
  }

  #pinch(): { readonly distance: number; readonly middle: number } {
    const [a, b] = [...this.#fingers.values()];
    return a === undefined || b === undefined
      ? { distance: 0, middle: this.#under.paper().view / 2 }
      : { distance: Math.hypot(a.x - b.x, a.y - b.y), middle: (a.x + b.x) / 2 };
  }
}

function placeOf(event: PointerEvent | WheelEvent): Point {
  const box = (event.currentTarget as HTMLElement).getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}
