/** The checks of a plan in words: groups, states, what is allowed, where a threshold comes from. */
import type {
  HealthGroup,
  HealthRecord,
  HealthRow,
  HealthSource,
  HealthState,
} from '#shared/contract/plan-health.ts';

export const GROUP_NAMES: Record<HealthGroup, string> = {
  order: 'The order of the work',
  dates: 'Dates',
  guesses: 'Hours, prices, masses',
  finish: 'What the finish hangs on',
};

export const STATE_WORDS: Record<HealthState, string> = {
  passed: 'passed',
  look: 'to look at',
  failed: 'failed',
};

export const SOURCE_TITLES: Record<HealthSource, string> = {
  'GAO-16-89G': 'United States Government Accountability Office, Schedule Assessment Guide, 2015',
  'DCMA-EA PAM 200.1':
    'Defense Contract Management Agency, Earned Value Management System pamphlet, 2012; thresholds from memory',
  'our choice': 'chosen for a van that is built at evenings and weekends',
};

/** "none", "2", "5 % at most" */
export function allowedWords({ most }: HealthRow): string {
  if (most.share !== null) return `${Math.round(most.share * 100)} % at most`;
  return most.count === 0 || most.count === null ? 'none' : `${most.count} at most`;
}

/** "3 of 98" */
export function foundWords({ count, of }: HealthRow): string {
  return of === 0 && count === 0 ? 'none' : `${count} of ${of}`;
}

/** Where a record is seen and mended, as the words of an address. */
export function wayTo({ noun, id }: HealthRecord): readonly [string, ...string[]] {
  switch (noun) {
    case 'tasks':
      return ['task', id];
    case 'links':
      // A link is mended at the task it leads to.
      return ['task', id.split('~')[1] ?? ''];
    case 'purchases':
      return ['purchases', id];
    case 'hours':
      return ['hours'];
    case 'baselines':
      return ['drift'];
  }
}
