/** The build at hand, for every component below the frame. */
import { getContext, setContext } from 'svelte';
import type { Build } from './build.svelte.ts';

const KEY = Symbol('build');

export function provideBuild(build: () => Build): void {
  setContext(KEY, build);
}

/** Call it while a component is being made. */
export function theBuild(): Build {
  return getContext<() => Build>(KEY)();
}
