/**
 * The paper under the window: how close it is looked at and where its left edge lies. Both are kept in the address a
 * moment after they come to rest. The left edge is a day and a rest in px, so that it stands still when the scale
 * changes, and moves freely through the break.
 */
import { here } from '../../state/address.svelte.ts';
import { axisOf, panLimits, zoomLimits, type AxisRange } from './axis.ts';
import { dayNumber, dayText, isDay } from '#shared/time/days.ts';

const REST_MS = 400;
const STEP = 1.35;

export class Paper {
  readonly #range: () => AxisRange;
  /** Px over which all that lies ahead is drawn at zoom 1. */
  width = $state(900);
  /** Px that are seen. */
  view = $state(900);
  zoom = $state(1);
  /** Null: as the sheet opens. */
  #left = $state.raw<{ readonly day: number; readonly rest: number } | null>(null);
  #timer: ReturnType<typeof setTimeout> | undefined;
  readonly axis = $derived.by(() => axisOf(this.#range(), this.width, this.zoom));
  readonly #limits = $derived(panLimits(this.axis, this.view));
  /** The x of the left edge. */
  readonly pan = $derived.by(() => {
    const wanted = this.axis.x(this.#left?.day ?? this.axis.range.from) + (this.#left?.rest ?? 0);
    return Math.min(Math.max(this.#limits.least, wanted), Math.max(this.#limits.least, this.#limits.most));
  });
  readonly moved = $derived(this.zoom !== 1 || this.#left !== null);

  constructor(range: () => AxisRange) {
    this.#range = range;
    const query = here.now.query;
    const zoom = Number(query.get('zoom'));
    if (Number.isFinite(zoom) && zoom > 0) this.zoom = zoom;
    const at = query.get('at');
    if (at !== null && isDay(at)) this.#left = { day: dayNumber(at), rest: 0 };
  }

  panTo(x: number): void {
    const to = Math.min(Math.max(this.#limits.least, x), Math.max(this.#limits.least, this.#limits.most));
    const day = this.axis.day(to);
    this.#left = { day, rest: to - this.axis.x(day) };
    this.#keep();
  }

  panBy(px: number): void {
    this.panTo(this.pan + px);
  }

  /** @param at px from the left edge that stands still */
  zoomBy(factor: number, at = this.view / 3): void {
    const day = this.axis.day(this.pan + at);
    const { least, most } = zoomLimits(this.#range(), this.width);
    this.zoom = Math.min(most, Math.max(least, this.axis.zoom * factor));
    this.panTo(this.axis.x(day) - at);
  }

  closer(): void {
    this.zoomBy(STEP);
  }

  further(): void {
    this.zoomBy(1 / STEP);
  }

  whole(): void {
    this.zoom = 1;
    this.#left = null;
    this.#keep();
  }

  /** Brings a stretch of days into sight, if it is not. */
  show(from: number, to: number): void {
    const x1 = this.axis.x(from) - 60;
    const x2 = this.axis.x(to) + 60;
    if (x1 < this.pan) this.panTo(x1);
    else if (x2 > this.pan + this.view) this.panTo(Math.min(x1, x2 - this.view));
  }

  close(): void {
    clearTimeout(this.#timer);
  }

  #keep(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      const left = this.#left;
      here.set({
        zoom: this.zoom === 1 ? null : this.axis.zoom.toFixed(2),
        at: left === null ? null : dayText(Math.round(left.day)),
      });
    }, REST_MS);
  }
}
