/** A plain project in, the best schedule a search finds for it out, with what is proven about it. */
import { boundsOf, type Bounds } from './bounds.ts';
import type { Limits } from './ledger.ts';
import { projectDecoder } from './project-decoder.ts';
import { compileProject, type Project } from './project.ts';
import { seededRandom } from './random.ts';
import { urgentFirst } from './sampling.ts';
import { search } from './search.ts';

export interface Solved {
  readonly makespan: number;
  readonly starts: readonly number[];
  readonly bounds: Bounds;
  /** The makespan is one of the bounds, so there is no better schedule. */
  readonly proven: boolean;
  /** Schedules made: with the same seed, as many lead to the same result. */
  readonly schedules: number;
}

/** @throws RangeError on a project that cannot be compiled */
export function solveProject(
  project: Project,
  { seed, ...limits }: Limits & { readonly seed: number },
): Solved {
  const compiled = compileProject(project);
  const bounds = boundsOf(compiled);
  const decoder = projectDecoder(compiled, bounds.best);
  const { objective, starts, proven, schedules } = search(decoder, {
    start: urgentFirst(decoder),
    random: seededRandom(seed),
    ...limits,
  });
  return { makespan: objective[0]!, starts: [...starts], bounds, proven, schedules };
}
