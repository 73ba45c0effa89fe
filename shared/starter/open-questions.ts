/** What these answers leave to decide, and what waits for it: questions of the build with a last day of their own. */
import type { Decision } from '../contract/log.ts';
import type { Facts } from './facts.ts';

interface Open {
  readonly key: string;
  readonly when: (facts: Facts) => boolean;
  readonly question: string;
  readonly options: readonly string[];
  /** Days an answer takes once it is asked for. */
  readonly lead: number;
  readonly locks: readonly string[];
}

const OPEN: readonly Open[] = [
  {
    key: 'window-places',
    when: ({ sideWindows }) => sideWindows,
    question: 'Where exactly do the windows go?',
    options: ['as in the drawing', 'moved clear of ribs and lockers'],
    lead: 0,
    locks: ['win-left-cut', 'win-slider'],
  },
  {
    key: 'inlet-place',
    when: ({ inlet }) => inlet,
    question: 'Where does the shore socket go?',
    options: ['left, rear bay', 'rear bumper'],
    lead: 0,
    locks: ['side-inlets'],
  },
  {
    key: 'foam-hands',
    when: ({ insulation }) => insulation === 'foam',
    question: 'Who sprays the foam?',
    options: ['ourselves, in full protection', 'a firm'],
    lead: 14,
    locks: ['foam-mask', 'foam-spray'],
  },
  {
    key: 'heater-place',
    when: ({ heated }) => heated,
    question: 'Where does the heater stand?',
    options: ['in the tall locker behind the sliding door', 'under the passenger seat'],
    lead: 0,
    locks: ['floor-holes', 'heater-base'],
  },
  {
    key: 'gas-hands',
    when: ({ gas }) => gas,
    question: 'Which gas fitter tests and signs?',
    options: [],
    lead: 14,
    locks: ['gas-pipe', 'gas-test'],
  },
  {
    key: 'probe-kind',
    when: ({ wasteWater }) => wasteWater !== 'none',
    question: 'Which level probe for the waste tank?',
    options: ['resistive, through the lid', 'ultrasonic, glued under the tank'],
    lead: 3,
    locks: ['grey-plumb', 'waste-inside'],
  },
  {
    key: 'seat-papers',
    when: ({ seats }) => seats === 'belted',
    question: 'Which approved frame do the belted seats stand on?',
    options: [],
    lead: 21,
    locks: ['mark-points', 'seat-frame'],
  },
  {
    key: 'spring-papers',
    when: ({ suspension }) => suspension !== 'as-is',
    question: 'Which springs, and who signs them off?',
    options: [],
    lead: 14,
    locks: ['helper-springs', 'raise'],
  },
  {
    key: 'roof-plan',
    when: ({ fan, panels, rack, coolingUnit }) => [fan, panels, rack, coolingUnit].filter(Boolean).length > 1,
    question: 'Who gets which place on the roof?',
    options: ['as in the drawing', 'panels moved to the rear'],
    lead: 0,
    locks: ['fan-cut', 'cooling-cut', 'rack-points', 'solar-rails'],
  },
  {
    key: 'shelf-or-locker',
    when: () => true,
    question: 'Overhead on the right: a locker or an open shelf?',
    options: ['a locker', 'an open shelf with a rail'],
    lead: 0,
    locks: ['cut-sheets', 'over-right'],
  },
];

/** @param by whose word it is @param has whether the build has a task */
export function openQuestions(facts: Facts, by: string, has: (task: string) => boolean): Decision[] {
  return OPEN.filter(({ when }) => when(facts)).map(({ key, question, options, lead, locks }) => ({
    key,
    question,
    options: [...options],
    chosen: null,
    by,
    leadDays: lead,
    locksTasks: locks.filter(has),
    locksPurchases: [],
    putOff: 0,
  }));
}
