/**
 * What the starter is told about a van: one choice per field, each with a default, so that no answers at all make a
 * build too. Every combination is a build; what a choice makes meaningless (hot water without a tank) counts as none.
 */
import { Type, type Static, type TSchema } from 'typebox';
import { inputOf } from '../contract/build-file.ts';
import { Week } from '../contract/calendar.ts';
import { CURRENCY, Day, Maybe, Money, Name, OneOf, Strict } from '../contract/common.ts';
import { withDefaults } from '../contract/defaults.ts';
import { faultsOf, type SchemaNode } from '../contract/faults.ts';
import { PlanError } from '../errors.ts';

/** Every choice of every field but the climate; the words for them stand in `questions.ts`. */
export const CHOICES = {
  van: ['short', 'medium', 'long'],
  inside: ['bare', 'converted'],
  windows: ['none', 'sides', 'all'],
  roofVent: ['none', 'fan', 'fan-and-light'],
  cooling: ['none', 'roof-unit'],
  roofRack: ['no', 'yes'],
  solar: ['none', 'one', 'two'],
  awning: ['no', 'yes'],
  rearCarrier: ['no', 'yes'],
  insulation: ['sheet', 'foam', 'wool'],
  heater: ['none', 'diesel', 'gas'],
  cooking: ['none', 'induction', 'gas'],
  hotWater: ['none', 'engine', 'gas'],
  freshWater: ['none', 'inside', 'below'],
  wasteWater: ['none', 'inside', 'below'],
  mains: ['no', 'yes'],
  seats: ['cab', 'swivel', 'belted'],
  bed: ['fixed', 'folding'],
  toilet: ['no', 'yes'],
  lights: ['none', 'outside', 'outside-and-work'],
  suspension: ['as-is', 'helper-springs', 'raised'],
  workshop: ['outdoors', 'barn', 'heated'],
  built: ['first', 'second'],
} as const;

export const CLIMATES = [
  'north-mild',
  'north-cold',
  'north-warm',
  'south-mild',
  'south-cold',
  'south-warm',
] as const;
export type ClimateName = (typeof CLIMATES)[number];

/** January to December, °C. */
const TwelveMonths = Type.Array(
  Type.Number({ minimum: -60, maximum: 50, description: 'a mean temperature from -60 to 50 °C' }),
  {
    minItems: 12,
    maxItems: 12,
    description: 'twelve mean temperatures in °C, from January to December',
  },
);

export const Answers = Type.Object(
  {
    van: OneOf(CHOICES.van, 'medium'),
    inside: OneOf(CHOICES.inside, 'bare'),
    windows: OneOf(CHOICES.windows, 'sides'),
    roofVent: OneOf(CHOICES.roofVent, 'fan'),
    cooling: OneOf(CHOICES.cooling, 'none'),
    roofRack: OneOf(CHOICES.roofRack, 'no'),
    solar: OneOf(CHOICES.solar, 'two'),
    awning: OneOf(CHOICES.awning, 'no'),
    rearCarrier: OneOf(CHOICES.rearCarrier, 'no'),
    insulation: OneOf(CHOICES.insulation, 'sheet'),
    heater: OneOf(CHOICES.heater, 'diesel'),
    cooking: OneOf(CHOICES.cooking, 'induction'),
    hotWater: OneOf(CHOICES.hotWater, 'engine'),
    freshWater: OneOf(CHOICES.freshWater, 'inside'),
    wasteWater: OneOf(CHOICES.wasteWater, 'below'),
    mains: OneOf(CHOICES.mains, 'yes'),
    seats: OneOf(CHOICES.seats, 'swivel'),
    bed: OneOf(CHOICES.bed, 'fixed'),
    toilet: OneOf(CHOICES.toilet, 'yes'),
    lights: OneOf(CHOICES.lights, 'outside'),
    suspension: OneOf(CHOICES.suspension, 'as-is'),
    /** A climate by name, or a place's own monthly means. */
    climate: Type.Union(
      [
        Type.Enum([...CLIMATES], {
          description: `one of: ${CLIMATES.join(', ')}; or twelve mean temperatures in °C, from January to December`,
        }),
        TwelveMonths,
      ],
      { default: 'north-mild' },
    ),
    workshop: OneOf(CHOICES.workshop, 'barn'),
    built: OneOf(CHOICES.built, 'first'),
  },
  Strict,
);
export type Answers = Static<typeof Answers>;
/** A field answered by one of a few words. */
export type ChoiceField = keyof typeof CHOICES;

/** What does not change the plan of work but names it and sets it in time. */
export const StarterHead = Type.Object(
  {
    name: Name,
    startOn: Day,
    budget: Maybe(Money),
    targetFinishOn: Maybe(Day),
    currency: Type.String({ ...CURRENCY, default: 'EUR' }),
    /** Whoever builds, with the windows of a usual week. */
    people: Type.Array(Type.Object({ name: Name, week: Week }, Strict), {
      minItems: 1,
      maxItems: 20,
      description: 'a list of the people who build, 1 to 20, each with name and week',
    }),
  },
  Strict,
);
export type StarterHead = Static<typeof StarterHead>;

/** Answers with every default filled in. @throws PlanError `bad-request` with a fault per field */
export function readAnswers(value: unknown): Answers {
  return read(Answers, value, 'These are not answers for a starter plan') as Answers;
}

/** @throws PlanError `bad-request` with a fault per field */
export function readStarterHead(value: unknown): StarterHead {
  const head = read(StarterHead, value, 'A build cannot begin like this') as StarterHead;
  const { startOn, targetFinishOn } = head;
  if (targetFinishOn !== null && targetFinishOn < startOn) {
    const detail = `${targetFinishOn} is before the build starts on ${startOn}: it must be ${startOn} or later`;
    throw refused('A build cannot begin like this', [{ pointer: '/targetFinishOn', detail }]);
  }
  return head;
}

function read(schema: TSchema, value: unknown, what: string): unknown {
  const errors = faultsOf(inputOf(schema), value);
  if (errors.length > 0) throw refused(what, errors);
  return withDefaults(schema as unknown as SchemaNode, value);
}

function refused(what: string, errors: readonly { pointer: string; detail: string }[]): PlanError {
  const [first] = errors;
  return new PlanError(`${what}: ${first!.pointer || 'what was sent'} ${first!.detail}.`, {
    code: 'bad-request',
    errors,
  });
}
