/**
 * The tour: offered once to a device that has never had it, then only where it is asked for. The stop stands in the
 * device's memory, so a reload goes on with it.
 */
import { keep, kept } from './kept.ts';

const KEPT = 'coverlast.tour';

type Standing = 'unknown' | 'offered' | 'over' | { readonly stop: number };

class Tour {
  #standing: Standing = $state.raw(read());

  /** The number of the stop, from 0; null while nobody is on the tour. */
  get stop(): number | null {
    return typeof this.#standing === 'object' ? this.#standing.stop : null;
  }

  get offered(): boolean {
    return this.#standing === 'offered';
  }

  /** Says nothing to whoever has taken or refused it. */
  offer(): void {
    if (this.#standing === 'unknown') this.#set('offered');
  }

  to(stop: number): void {
    this.#set({ stop });
  }

  leave(): void {
    this.#set('over');
  }

  #set(standing: Standing): void {
    this.#standing = standing;
    keep(KEPT, standing);
  }
}

function read(): Standing {
  const value = kept(KEPT);
  if (value === 'offered' || value === 'over') return value;
  const stop = (value as { stop?: unknown } | null)?.stop;
  return typeof stop === 'number' && stop >= 0 ? { stop } : 'unknown';
}

export const tour = new Tour();
