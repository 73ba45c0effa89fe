/**
 * What the van weighs, as the plan says it: grams, per axle and side, now and with all parts in. Null is "not known"
 * (no plate, no wheelbase, no weight of the bare van), never zero.
 */
import { Type, type Static, type TSchema } from 'typebox';
import { Day, Key, Maybe, Strict } from './common.ts';
import { ABOARD } from './log.ts';

const Grams = Type.Integer();
const Sentence = Type.String();
const OrNull = <T extends TSchema>(type: T) => Type.Union([type, Type.Null()]);

/** From 90 % of a limit it is near, from the limit on over. */
export const LOAD_LEVELS = ['fine', 'near', 'over'] as const;

/** A load beside its limit. */
export const LoadOf = Type.Object(
  {
    load: OrNull(Grams),
    limit: OrNull(Grams),
    /** What the limit still allows; negative when over. */
    left: OrNull(Grams),
    /** Load over limit, 1 = all of it. */
    share: OrNull(Type.Number()),
    level: OrNull(Type.Enum([...LOAD_LEVELS])),
  },
  Strict,
);

/** The van with people, water and everything else aboard; front and rear add up to the gross mass. */
export const MassSum = Type.Object(
  {
    /** Its `left` is the payload left. */
    gross: LoadOf,
    front: LoadOf,
    rear: LoadOf,
    leftSide: OrNull(Grams),
    rightSide: OrNull(Grams),
    /** Of it, what was bought and stays in the van. */
    parts: Grams,
  },
  Strict,
);

/** What the weighbridge said last, beside what the papers and parts come to for that day. */
export const LastWeighing = Type.Object(
  {
    key: Maybe(Key),
    on: Day,
    front: Grams,
    rear: Grams,
    /** What was aboard: as the weighing says, else the sum nearest to what was weighed. */
    readAs: Type.Enum([...ABOARD]),
    /** The weighing says so itself. */
    told: Type.Boolean(),
    /** Weighed less worked out; null where the bare van's own weight is not known. */
    difference: OrNull(Type.Object({ gross: Grams, front: OrNull(Grams), rear: OrNull(Grams) }, Strict)),
  },
  Strict,
);

/** A line of a purchase that lacks something, the one that matters most first. */
export const LackingLine = Type.Object(
  {
    purchase: Key,
    line: Key,
    name: Sentence,
    /** What it matters: the fitted mass, or a guess of it from what the like of it weigh for their price; null: no idea. */
    effect: OrNull(Grams),
  },
  Strict,
);

export const PlanMass = Type.Object(
  {
    /** The van without people, loads and parts: from the last weighing, else from the papers. */
    vehicle: OrNull(Grams),
    /** What was taken out of it, as a negative mass. */
    takenOut: Grams,
    /** People, water and what is carried. */
    aboard: Grams,
    /** In hand and not fitted yet. */
    toFit: Grams,
    now: MassSum,
    planned: MassSum,
    weighing: OrNull(LastWeighing),
    /** Lines that stay in the van. */
    lines: Type.Integer(),
    /** Share of them without a mass, 0..1; null when there is none. */
    shareWithoutMass: OrNull(Type.Number()),
    withoutMass: Type.Array(LackingLine),
    /** They count at the middle between the axles until somebody says where they sit. */
    withoutPosition: Type.Array(LackingLine),
  },
  Strict,
);

export type LoadOf = Static<typeof LoadOf>;
export type LoadLevel = (typeof LOAD_LEVELS)[number];
export type MassSum = Static<typeof MassSum>;
export type LastWeighing = Static<typeof LastWeighing>;
export type LackingLine = Static<typeof LackingLine>;
export type PlanMass = Static<typeof PlanMass>;
