/**
 * The mass of the plan: payload left, axle and side loads, with everything aboard, now and once all parts are in. The
 * latest weighing takes the place of the papers.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { LoadLevel, LoadOf, MassSum, PlanMass } from '../contract/plan-mass.ts';
import { massItems, type MassItem } from './items.ts';
import { staying, withoutMass, withoutPosition } from './lacking.ts';
import { loadsOf, type Bare } from './moments.ts';
import { bareOnPaper, lastWeighing, weighedVan } from './weighed.ts';

/** Share of a limit from which it is near. */
export const NEAR = 0.9;

/** @param asOfDay the day up to which weighings count, written */
export function planMass(
  file: Pick<BuildFile, 'build' | 'tasks' | 'purchases' | 'weighings'>,
  asOfDay: string,
): PlanMass {
  const { limits } = file.build;
  const items = massItems(file);
  const last = lastWeighing(file.weighings, asOfDay);
  const weighed = last === null ? null : weighedVan(last, items, limits);
  const bare = weighed?.bare ?? bareOnPaper(limits);
  const sum = (of: (item: MassItem) => number, kinds: readonly MassItem['kind'][]) =>
    items.filter(({ kind }) => kinds.includes(kind)).reduce((total, item) => total + of(item), 0);
  const lines = staying(file.purchases).length;
  const lacking = withoutMass(file);
  return {
    vehicle: bare?.total ?? null,
    takenOut: sum(({ now }) => now, ['taken-out']),
    aboard: sum(({ now }) => now, ['aboard']),
    toFit: sum(({ inHand, now }) => inHand - now, ['part']),
    now: sumOf(bare, items, ({ now }) => now, file),
    planned: sumOf(bare, items, ({ planned }) => planned, file),
    weighing: weighed?.weighing ?? null,
    lines,
    shareWithoutMass: lines === 0 ? null : lacking.length / lines,
    withoutMass: lacking,
    withoutPosition: withoutPosition(items),
  };
}

function sumOf(
  bare: Bare | null,
  items: readonly MassItem[],
  massOf: (item: MassItem) => number,
  { build: { limits } }: Pick<BuildFile, 'build'>,
): MassSum {
  const placed = items.map((item) => ({ mass: massOf(item), x: item.x, y: item.y }));
  const loads =
    bare === null ? null : loadsOf(bare, placed, limits?.wheelbase ?? null, limits?.track ?? null);
  return {
    gross: against(loads?.total ?? null, limits?.grossMass ?? null),
    front: against(loads?.front ?? null, limits?.frontAxle ?? null),
    rear: against(loads?.rear ?? null, limits?.rearAxle ?? null),
    leftSide: loads?.left ?? null,
    rightSide: loads?.right ?? null,
    parts: items.reduce((sum, item) => sum + (item.kind === 'part' ? massOf(item) : 0), 0),
  };
}

/** A limit of zero is no limit anybody meant. */
function against(load: number | null, limit: number | null): LoadOf {
  if (load === null || limit === null || limit === 0)
    return { load, limit, left: null, share: null, level: null };
  const share = load / limit;
  return { load, limit, left: limit - load, share, level: levelOf(share) };
}

function levelOf(share: number): LoadLevel {
  return share >= 1 ? 'over' : share >= NEAR ? 'near' : 'fine';
}
