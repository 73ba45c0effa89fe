/** The builds to be compared: the plan as it is stored, and what-ifs laid over it. Each is computed once. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { layOver } from '#shared/whatif/lay.ts';
import type { WhatIf } from '#shared/whatif/what-if.ts';
import type { Build } from '../../state/build.svelte.ts';

/** The word of the plan itself in the address; no what-if is called so. */
export const THE_PLAN = 'plan';

export interface NamedSide {
  readonly id: string;
  readonly name: string;
  readonly file: BuildFile;
  /** As dates are computed from it: the same object as long as nothing changes. */
  readonly planned: BuildFile;
  readonly plan: Plan;
}

interface Known {
  readonly stored: BuildFile;
  readonly now: string;
  readonly busy: Elsewhere;
  readonly side: NamedSide;
}
const known = new WeakMap<WhatIf, Known>();

/** @param id of a what-if, or the plan's. @returns null where there is none */
export function sideOf(build: Build, id: string): NamedSide | null {
  const { stored, now, whatIfs } = build;
  const { busy } = build.others;
  if (id === THE_PLAN) return sideFrom(build, 'The plan', id, stored, build.storedPlan);
  const found = whatIfs.list.find((one) => one.id === id);
  if (found === undefined) return null;
  if (whatIfs.open === found) return sideFrom(build, found.name, id, build.file, build.plan);
  const before = known.get(found);
  if (before?.stored === stored && before.now === now && before.busy === busy) return before.side;
  const { file } = layOver(stored, found.steps);
  const side = sideFrom(build, found.name, id, file, build.planOf(file));
  known.set(found, { stored, now, busy, side });
  return side;
}

const plannedFrom = new WeakMap<BuildFile, { readonly busy: Elsewhere; readonly planned: BuildFile }>();

function sideFrom(build: Build, name: string, id: string, file: BuildFile, plan: Plan): NamedSide {
  const { busy } = build.others;
  let found = plannedFrom.get(file);
  if (found?.busy !== busy) plannedFrom.set(file, (found = { busy, planned: build.plannedOf(file) }));
  return { id, name, file, planned: found.planned, plan };
}
