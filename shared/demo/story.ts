/** What Ines and Tor have done by March: 51 tasks finished, three under way, and the hours of every sitting. Invented. */
import rows from './story.json' with { type: 'json' };

export interface FinishedEntry {
  readonly task: string;
  readonly startedAt: string;
  readonly finishedAt: string;
  /** Day, person, person-minutes. */
  readonly hours: readonly (readonly [string, string, number])[];
}

export const FINISHED = rows as unknown as readonly FinishedEntry[];

export interface StartedEntry {
  readonly task: string;
  readonly startedAt: string;
  readonly hours: readonly (readonly [string, string, number])[];
}

export const STARTED: readonly StartedEntry[] = [
  {
    task: 'pull-left',
    startedAt: '2027-03-04T18:30',
    hours: [
      ['2027-03-04', 'tor', 150],
      ['2027-03-06', 'tor', 420],
      ['2027-03-07', 'tor', 240],
    ],
  },
  { task: 'start-feed', startedAt: '2027-03-06T09:00', hours: [['2027-03-06', 'ines', 240]] },
  // Begun on a Sunday while the awning plates behind it are still on the bench.
  { task: 'skin-right', startedAt: '2027-03-07T09:30', hours: [['2027-03-07', 'ines', 150]] },
];

/** Hours of which only the phase is known yet. */
export const UNSORTED: readonly { phase: string; hours: readonly (readonly [string, string, number])[] }[] = [
  {
    phase: 'first-fix-water',
    hours: [
      ['2027-03-04', 'ines', 120],
      ['2027-03-06', 'ines', 60],
    ],
  },
];

export const AS_OF = '2027-03-09T19:00';
export const START_ON = '2026-06-06';
export const TARGET = '2028-06-03';
