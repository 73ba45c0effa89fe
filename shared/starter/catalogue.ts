/**
 * The trade catalogue as data: tasks of a two-person winter van with their hours, waits, checks and places, the links
 * between them and the parts they use. Hours, prices and masses are invented but plausible; the order of work, the
 * waits and the reasons are common practice.
 */
import type { Caution, LinkWhy } from '../contract/task.ts';
import linkRows from './links.json' with { type: 'json' };
import partRows from './parts.json' with { type: 'json' };
import phaseRows from './phases.json' with { type: 'json' };
import reasonRows from './reasons.json' with { type: 'json' };
import taskRows from './tasks.json' with { type: 'json' };

export interface CataloguePhase {
  readonly key: string;
  readonly name: string;
  /** Minor units: the parts of the phase at catalogue prices. */
  readonly budget: number;
}

export interface CatalogueTask {
  readonly key: string;
  readonly phase: string;
  readonly name: string;
  readonly kinds: readonly string[];
  /** Clock minutes at the bench: low, likely, high. */
  readonly minutes: readonly [number, number, number];
  readonly people: number;
  /** Shortest sitting that makes sense, minutes. */
  readonly sitting: number;
  /** `bay`: a dry day outdoors, or under the roof of the bay. */
  readonly place: 'indoor' | 'outdoor' | 'dry-outdoor' | 'bay' | 'road';
  /** Quiet, indoors, without daylight: an evening will do. */
  readonly evening: boolean;
  /** Lowest temperature of work and wait, °C. */
  readonly above?: number;
  readonly wait?: number;
  readonly waitHoldsZones?: boolean;
  /**
   * `L:services`, `L2:opening`, `L:insulation>fixing`: face or zone, depth, and the depth it hides. Faces: L left wall,
   * R right wall, S sliding door, F floor, C ceiling, B bulkhead, D rear doors, U underbody, T roof outside, EL and ER
   * sides outside, K cab.
   */
  readonly places?: readonly string[];
  /** Person-minutes to open again and restore. */
  readonly reopen?: number;
  readonly check?: { readonly kind: string; readonly when: string; readonly name: string };
  /** Who else takes part: an office, a licensed trade, a workshop. */
  readonly who?: string;
  readonly tools?: readonly string[];
  readonly cautions?: readonly Caution[];
  /** What could be left out and takes this task with it. */
  readonly option?: string;
  readonly note?: string;
}

export interface CataloguePart {
  readonly key: string;
  readonly name: string;
  readonly usedIn: string;
  /** The task that cannot start without it in hand; often earlier than its use. */
  readonly inHandBy: string;
  readonly category: 'material' | 'tool' | 'consumable' | 'fee' | 'hire';
  readonly group: string;
  readonly quantity: number;
  readonly unit: string;
  /** Minor units, tax included. */
  readonly unitPrice: number;
  /** Days. */
  readonly lead: number;
  readonly shelfLife?: number;
  readonly returnDays: number;
  /** Grams as bought, the share that stays in the van, and where: [x, y, z] mm. */
  readonly mass?: number;
  readonly fittedShare?: number;
  readonly at?: readonly [number, number, number];
  readonly note?: string;
}

export interface CatalogueLink {
  readonly from: string;
  readonly to: string;
  readonly why: LinkWhy;
  readonly reason: string;
}

export const CATALOGUE_PHASES: readonly CataloguePhase[] = phaseRows;
export const CATALOGUE_TASKS = taskRows as unknown as readonly CatalogueTask[];
export const CATALOGUE_PARTS = partRows as unknown as readonly CataloguePart[];

const reasons = new Map(reasonRows.map(({ from, to, reason }) => [`${from} ${to}`, reason]));

export const CATALOGUE_LINKS: readonly CatalogueLink[] = (linkRows as [string, string, LinkWhy][]).map(
  ([from, to, why]) => ({
    from,
    to,
    why,
    reason: reasons.get(`${from} ${to}`) ?? '',
  }),
);
