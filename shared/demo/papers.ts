/** Wagtail's papers: limits from the plate, loads, weighings, open questions, photo records. Invented. */
import type { Limits } from '../contract/build.ts';
import type { Decision, PhotoRecord, Weighing } from '../contract/log.ts';

export const LIMITS: Limits = {
  grossMass: 3_500_000,
  frontAxle: 1_850_000,
  rearAxle: 2_120_000,
  wheelbase: 3640,
  track: 1730,
  kerbMass: 2_140_000,
  kerbFront: 1_310_000,
  loads: [
    { name: 'bulkhead, cargo linings and lashing rings taken out', mass: -52_000, x: 1600, y: 0 },
    { name: 'passenger', mass: 75_000, x: 450, y: -400 },
    { name: 'fresh water, 85 l', mass: 85_000, x: 3640, y: -640 },
    { name: 'six stock crates, full', mass: 138_000, x: 4200, y: 0 },
    { name: 'food, clothes, running kit', mass: 90_000, x: 3200, y: 0 },
    { name: 'market table and tent on the rear door', mass: 22_000, x: 4980, y: 0 },
    { name: 'dishes, bedding, tools', mass: 35_000, x: 2400, y: 300 },
  ],
};

export const WEIGHINGS: readonly Weighing[] = [
  {
    key: null,
    on: '2026-06-13',
    front: 1_310_000,
    rear: 830_000,
    aboard: 'as-delivered',
    note: 'as delivered, full tank, driver aboard',
  },
];

export const DECISIONS: readonly Decision[] = [
  {
    key: 'probe-kind',
    question: 'Which level probe for the waste tank?',
    options: ['resistive, through the lid', 'ultrasonic, glued under the floor'],
    chosen: null,
    by: 'tor',
    leadDays: 3,
    locksTasks: ['grey-plumb'],
    locksPurchases: [],
    putOff: 2,
  },
  {
    key: 'shelf-or-locker',
    question: 'Overhead on the right: a locker or an open shelf?',
    options: ['a locker', 'an open shelf with a rail'],
    chosen: null,
    by: 'ines',
    leadDays: 0,
    locksTasks: ['cut-sheets', 'over-right'],
    locksPurchases: [],
    putOff: 0,
  },
  {
    key: 'inlet-place',
    question: 'Where does the shore socket go?',
    options: ['left, rear bay', 'rear bumper'],
    chosen: 'left, rear bay',
    by: 'ines',
    leadDays: 0,
    locksTasks: ['side-inlets'],
    locksPurchases: [],
    putOff: 1,
  },
];

export const RECORDS: readonly PhotoRecord[] = [
  {
    key: null,
    zone: 'L2',
    depth: 'opening',
    task: 'win-left-fit',
    takenAt: '2026-10-24T13:50',
    file: null,
    note: 'Inner frame clamped, tape rule along the lower edge',
    marks: [{ x: 2300, y: 1100, what: 'middle of the window' }],
  },
  {
    key: null,
    zone: 'L3',
    depth: 'services',
    task: 'conduit-left',
    takenAt: '2027-03-02T20:30',
    file: null,
    note: 'Conduits along the third rib; the spare one has the blue cord',
    marks: [
      { x: 3720, y: 910, what: 'spare conduit' },
      { x: 3720, y: 1240, what: 'shore cable conduit' },
    ],
  },
];
