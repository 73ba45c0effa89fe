/**
 * Everything with a mass that is not the bare van: what was taken out of it, what is carried, what was bought. Each with
 * its place: x from the front axle to the rear, y from the middle line to the left, z up from the floor, millimetres.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { fittedOf } from './fitted.ts';

export interface MassItem {
  readonly kind: 'taken-out' | 'aboard' | 'part';
  /** Unique among all: `load/2`, or the purchase's key and the line's. */
  readonly key: string;
  readonly name: string;
  /** The purchase it is a line of. */
  readonly purchase: string | null;
  readonly line: string | null;
  /** Grams in the end, in hand, and in the van now. */
  readonly planned: number;
  readonly inHand: number;
  readonly now: number;
  /** Since when it is in the van; null: always, or nobody knows. */
  readonly on: string | null;
  readonly x: number | null;
  readonly y: number | null;
  readonly z: number | null;
}

/** What weighs nothing in the end is left out. */
export function massItems(file: Pick<BuildFile, 'build' | 'tasks' | 'purchases'>): MassItem[] {
  const loads = (file.build.limits?.loads ?? []).map(({ name, mass, x, y }, i): MassItem => ({
    kind: mass < 0 ? 'taken-out' : 'aboard',
    key: `load/${i}`,
    name,
    purchase: null,
    line: null,
    planned: mass,
    inHand: mass,
    now: mass,
    on: null,
    x,
    y,
    z: null,
  }));
  const tasks = new Map(file.tasks.map((task) => [task.key, task]));
  const parts = file.purchases.flatMap((purchase) =>
    purchase.lines.flatMap((line): MassItem[] => {
      const { mass } = line;
      if (mass === null) return [];
      const { planned, inHand, now, on } = fittedOf(purchase, { ...line, mass }, tasks);
      const { key, name, x, y, z } = line;
      return planned === 0
        ? []
        : [
            {
              kind: 'part',
              key: `${purchase.key}/${key}`,
              name,
              purchase: purchase.key,
              line: key,
              planned,
              inHand,
              now,
              on,
              x,
              y,
              z,
            },
          ];
    }),
  );
  return [...loads, ...parts];
}
