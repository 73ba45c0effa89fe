/** Begins the tour at its first stop, for whoever asks for it. */
import { here } from '../state/address.svelte.ts';
import type { Build } from '../state/build.svelte.ts';
import { tour } from '../state/tour.svelte.ts';
import { stopsOf } from './tour-stops.ts';

export function beginTour(build: Build): void {
  const [first] = stopsOf(build.file, build.plan);
  tour.to(0);
  here.go(here.to(...first!.at) + first!.query);
}
