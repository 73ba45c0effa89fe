/** The vehicle as surfaces: depths, zones and the groups that share room. */
import { Type, type Static } from 'typebox';
import { Key, Keys, Maybe, Name, OneOf, Strict } from './common.ts';

/** How a depth is drawn (a hatch of the drawing language). */
export const HATCHES = [
  'metal',
  'opening',
  'damping',
  'fixing',
  'sheet',
  'wire',
  'fill',
  'film',
  'batten',
  'rail',
  'ply',
  'furniture',
  'trim',
  'wax',
  'cells',
  'plain',
] as const;

/** The side of the vehicle a zone lies on; the shell is unfolded by these. */
export const FACES = [
  'left',
  'floor',
  'right',
  'ceiling',
  'front',
  'rear',
  'underbody',
  'roof',
  'outside-left',
  'outside-right',
  'cab',
  'elsewhere',
] as const;

/** A position in a zone's stack. */
export const Depth = Type.Object({ key: Key, name: Name, hatch: OneOf(HATCHES, 'plain') }, Strict);

const Capacity = Type.Integer({
  minimum: 1,
  maximum: 100,
  default: 1,
  description: 'how many tasks fit at once, a whole number from 1 to 100',
});

/** A surface or space of the vehicle. `depths`: the first is reached last (bare metal). */
export const Zone = Type.Object(
  {
    /** The short drawing code: a letter for the face and the bay from the front. */
    key: Key,
    name: Name,
    face: OneOf(FACES, 'elsewhere'),
    /** Counted from the front; null: the whole face. */
    bay: Maybe(
      Type.Integer({
        minimum: 1,
        maximum: 50,
        description: 'a bay from the front, a whole number from 1 to 50',
      }),
    ),
    capacity: Capacity,
    depths: Keys,
  },
  Strict,
);

/** Zones that share room: "whole interior: 2". */
export const ZoneGroup = Type.Object({ key: Key, zones: Keys, capacity: Capacity }, Strict);

export type Depth = Static<typeof Depth>;
export type Zone = Static<typeof Zone>;
export type ZoneGroup = Static<typeof ZoneGroup>;
export type Face = (typeof FACES)[number];
export type Hatch = (typeof HATCHES)[number];
