/**
 * A weighing is the truth: from it on, the bare van is what the weighbridge showed less what was aboard: as delivered
 * (only parts fitted by that day), empty (also without what was taken out) or loaded (people, water and everything carried
 * too). Where the weighing does not say which, it is read as the one that comes nearest.
 */
import type { Limits } from '../contract/build.ts';
import type { Weighing } from '../contract/log.ts';
import type { LastWeighing } from '../contract/plan-mass.ts';
import type { MassItem } from './items.ts';
import { loadsOf, type Bare } from './moments.ts';

/** The latest that day; of several on one day the last by key. */
export function lastWeighing(weighings: readonly Weighing[], until: string): Weighing | null {
  const rank = ({ on, key }: Weighing) => `${on} ${key ?? ''}`;
  return weighings
    .filter(({ on }) => on <= until)
    .reduce<Weighing | null>((last, one) => (last === null || rank(one) > rank(last) ? one : last), null);
}

export interface Weighed {
  readonly bare: Bare;
  readonly weighing: LastWeighing;
}

/** The bare van as the papers give it; null where they do not. */
export function bareOnPaper(limits: Limits | null): Bare | null {
  if (limits === null || limits.kerbMass === null) return null;
  const { kerbMass, kerbFront } = limits;
  return { total: kerbMass, rear: kerbFront === null ? null : kerbMass - kerbFront };
}

export function weighedVan(weighing: Weighing, items: readonly MassItem[], limits: Limits | null): Weighed {
  const { key, on, front, rear, aboard: told } = weighing;
  const total = front + rear;
  const paper = bareOnPaper(limits);
  const parts = items.filter((item) => item.kind === 'part' && item.now > 0 && (item.on ?? on) <= on);
  const sumOf = (...kinds: MassItem['kind'][]) => {
    const aboard = [...parts, ...items.filter(({ kind }) => kinds.includes(kind))];
    const placed = aboard.map(({ now, x, y }) => ({ mass: now, x, y }));
    return loadsOf({ total: 0, rear: 0 }, placed, limits?.wheelbase ?? null, null);
  };
  const readings = [
    { readAs: 'as-delivered', aboard: sumOf() },
    { readAs: 'empty', aboard: sumOf('taken-out') },
    { readAs: 'loaded', aboard: sumOf('taken-out', 'aboard') },
  ] as const;
  const off = ({ aboard }: (typeof readings)[number]) => total - aboard.total - (paper?.total ?? 0);
  // Nothing to compare with: a van on a weighbridge carries what was fitted and nothing else.
  const nearest = () =>
    paper === null
      ? readings[1]
      : readings.reduce((best, one) => (Math.abs(off(one)) < Math.abs(off(best)) ? one : best));
  const { aboard, readAs } = readings.find((one) => one.readAs === told) ?? nearest();
  const bare = { total: total - aboard.total, rear: aboard.rear === null ? null : rear - aboard.rear };
  const axles = paper === null || paper.rear === null || bare.rear === null ? null : bare.rear - paper.rear;
  const gross = paper === null ? null : bare.total - paper.total;
  return {
    bare,
    weighing: {
      key,
      on,
      front,
      rear,
      readAs,
      told: told !== null,
      difference:
        gross === null ? null : { gross, front: axles === null ? null : gross - axles, rear: axles },
    },
  };
}
