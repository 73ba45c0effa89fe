/**
 * A build to begin with when the plan is the builder's own: one person with two evenings and a Saturday, a van of three
 * bays with its zones and the usual stacks, the usual phases without budgets, no tasks.
 */
import type { Face } from '../contract/shell.ts';
import phaseRows from './phases.json' with { type: 'json' };
import { DEPTHS, FACES_OF_VAN } from './van.ts';

const INSIDE = [
  'metal',
  'opening',
  'damping',
  'fixing',
  'insulation',
  'services',
  'fill',
  'film',
  'batten',
  'rail',
  'finish',
  'furniture',
  'trim',
];
const OUTSIDE = ['metal', 'opening', 'seal', 'fit'];
/** From bare metal to the room. */
const STACKS: Readonly<Record<Face, readonly string[]>> = {
  left: INSIDE,
  right: INSIDE,
  ceiling: INSIDE.filter((depth) => depth !== 'furniture'),
  floor: [
    'metal',
    'opening',
    'damping',
    'fixing',
    'insulation',
    'services',
    'batten',
    'backing',
    'finish',
    'furniture',
    'trim',
  ],
  front: ['metal', 'damping', 'insulation', 'services', 'finish'],
  rear: ['metal', 'damping', 'insulation', 'services', 'film', 'finish'],
  underbody: ['metal', 'fixing', 'services', 'seal', 'fit'],
  roof: OUTSIDE,
  'outside-left': OUTSIDE,
  'outside-right': OUTSIDE,
  cab: ['metal', 'services', 'finish', 'furniture'],
  elsewhere: ['metal'],
};

export interface EmptyBuild {
  readonly name: string;
  readonly vehicle: string;
  readonly startOn: string;
  readonly currency: string;
  readonly person: string;
  readonly phases: boolean;
}

/** As a build file that leaves out what has a default. */
export function emptyBuild({ name, vehicle, startOn, currency, person, phases }: EmptyBuild): object {
  const zones = FACES_OF_VAN.flatMap(({ face, zones: own }) =>
    own.map(({ key, name: words, bay }) => ({ key, name: words, face, bay, depths: STACKS[face] })),
  );
  return {
    format: 'coverlast-build',
    version: 1,
    build: { name, vehicle, currency, startOn },
    people: [
      {
        key: 'me',
        name: person,
        week: { tue: ['18:30-21:00'], thu: ['18:30-21:00'], sat: ['09:00-12:30', '13:30-17:00'] },
      },
    ],
    depths: DEPTHS,
    zones,
    phases: phases ? phaseRows.map(({ key, name: words }) => ({ key, name: words })) : [],
  };
}
