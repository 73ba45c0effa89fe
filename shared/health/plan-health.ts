/**
 * How far a plan can be trusted, after the published checks of a good schedule: GAO-16-89G, Schedule Assessment Guide
 * (2015) and DCMA-EA PAM 200.1 (2012), with thresholds of our own where theirs are made for projects of many years.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { PlanHealth } from '../contract/plan-health.ts';
import type { Plan } from '../contract/plan.ts';
import { logicOf } from '../schedule/draft.ts';
import { dateRows } from './date-rows.ts';
import { finishRows } from './finish-rows.ts';
import { guessRows } from './guess-rows.ts';
import { Neighbours } from './neighbours.ts';
import { orderRows } from './order-rows.ts';

/**
 * Every row, in the order of the page. Dates come from the plan; only the critical path is run again.
 *
 * @param plan of the same build
 */
export function planHealth(file: BuildFile, plan: Plan): PlanHealth {
  const logic = logicOf(file, plan.asOf);
  const rows = [
    ...orderRows(file, plan, new Neighbours(logic.drawn)),
    ...dateRows(file, plan),
    ...guessRows(file, plan),
    ...finishRows(file, logic),
  ];
  const count = (state: string) => rows.filter((row) => row.state === state).length;
  return { asOf: plan.asOf, passed: count('passed'), look: count('look'), failed: count('failed'), rows };
}
