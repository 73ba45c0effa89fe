/** For every noun a record that fits the full document, as somebody would send it, and a change of it. */
import type { NounName } from '#shared/contract/nouns.ts';
import type { Loose } from './full-document.ts';

export interface Sample {
  /** The id it gets; null where the store gives one. */
  readonly id: string | null;
  readonly record: Loose;
  readonly change: Loose;
  /** A change no record of the noun can have, and the field that is at fault. */
  readonly wrong: Loose;
  readonly pointer: string;
}

const sample = (id: string | null, record: Loose, change: Loose, wrong: Loose, pointer: string): Sample => ({
  id,
  record,
  change,
  wrong,
  pointer,
});

export const SAMPLES: Readonly<Record<NounName, Sample>> = {
  people: sample(
    'tor',
    { key: 'tor', name: 'Tor', week: { sat: ['09:00-12:00'] } },
    { rate: 4500 },
    { rate: '4500' },
    '/rate',
  ),
  tools: sample(
    'press',
    { key: 'press', name: 'press' },
    { only: [{ from: '2027-01-01', to: '2027-02-01' }] },
    { only: [{ from: '2027-02-01', to: '2027-01-01' }] },
    '/only/0/to',
  ),
  conditions: sample(
    'dry',
    { key: 'dry', name: 'dry' },
    { hours: '08:00-20:00' },
    { hours: '20:00-08:00' },
    '/hours',
  ),
  depths: sample('trim', { key: 'trim', name: 'trim' }, { hatch: 'trim' }, { hatch: 'dots' }, '/hatch'),
  zones: sample(
    'R2',
    { key: 'R2', name: 'right wall, middle', depths: ['metal'] },
    { capacity: 2, face: 'right' },
    { depths: ['no-such-depth'] },
    '/depths/0',
  ),
  zoneGroups: sample('rear', { key: 'rear', zones: ['T'] }, { capacity: 3 }, { capacity: 0 }, '/capacity'),
  phases: sample('water', { key: 'water', name: 'Water' }, { budget: 90_000 }, { budget: -1 }, '/budget'),
  tasks: sample(
    'sand',
    { key: 'sand', name: 'Sand the lining', minutes: { low: 30, likely: 60, high: 90 }, phase: 'first-fix' },
    { note: 'fine grain', steps: [{ text: 'dust off' }] },
    { phase: 'no-such-phase' },
    '/phase',
  ),
  links: sample(
    'pull-cables~close-wall~FS',
    { from: 'pull-cables', to: 'close-wall' },
    { reason: 'the wall hides them', why: 'hidden-by' },
    { lagMinutes: 1.5 },
    '/lagMinutes',
  ),
  exceptions: sample(
    'hose-test~close-wall',
    { inner: 'hose-test', cover: 'close-wall', reason: 'it is done from outside' },
    { reason: 'it was done from outside' },
    { reason: ' ' },
    '/reason',
  ),
  decisions: sample(
    'colour',
    { key: 'colour', question: 'Which wood?', options: ['birch', 'oak'] },
    { chosen: 'oak' },
    { chosen: 'ash' },
    '/chosen',
  ),
  purchases: sample(
    'oil',
    { key: 'oil', supplier: 'the paint shop', leadDays: 2 },
    { state: 'ordered', orderedOn: '2027-03-01' },
    { state: 'ordered' },
    '/orderedOn',
  ),
  hours: sample(
    null,
    { task: 'close-wall', person: 'ines', on: '2027-03-05', minutes: 30 },
    { minutes: 45, note: 'measured' },
    { minutes: 1441 },
    '/minutes',
  ),
  timers: sample(
    null,
    { person: 'bea', task: 'close-wall', startedAt: '2027-03-05T18:30' },
    { note: 'with the radio on' },
    { person: 'nobody' },
    '/person',
  ),
  records: sample(
    null,
    { zone: 'T', depth: 'metal', takenAt: '2027-03-05T10:00' },
    { note: 'from above' },
    { depth: 'services' },
    '/depth',
  ),
  weighings: sample(
    null,
    { on: '2027-03-05', front: 1_400_000, rear: 1_100_000 },
    { note: 'half a tank' },
    { front: null },
    '/front',
  ),
  baselines: sample(
    'second',
    { key: 'second', name: 'Second plan', on: '2027-03-01', tasks: {} },
    { name: 'Spring plan' },
    { name: 'two\nlines' },
    '/name',
  ),
  dismissals: sample(
    'blocking.C2',
    { key: 'blocking.C2', reason: 'this wall has no opening' },
    { on: '2027-03-05' },
    { reason: '  ' },
    '/reason',
  ),
};
