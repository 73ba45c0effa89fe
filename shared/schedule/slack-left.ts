/**
 * How long a task can still wait, as every screen says it: whole days from the day it is planned to end to the last
 * day its work may end without moving the finish, or the target where one is set. `slackDays` of the plan counts from
 * the earliest date the links allow; this counts from the date people, places and parts allow.
 */
import type { PlannedTask } from '../contract/plan.ts';
import { DAY } from '../time/clock.ts';
import { dayNumber } from '../time/days.ts';

/** @returns below zero where it is planned too late to keep the target; null where a date is not known, or it is done */
export function slackLeft({ state, late, dates }: PlannedTask, startOn: string): number | null {
  if (state === 'finished' || late === null || dates === null) return null;
  const minutes = Number(dates.finish.slice(11, 13)) * 60 + Number(dates.finish.slice(14, 16));
  const planned = (dayNumber(dates.finish.slice(0, 10)) - dayNumber(startOn)) * DAY + minutes;
  return lastDay(late.finish) - lastDay(planned);
}

/** The day an end lies in; midnight ends the day before. */
function lastDay(minute: number): number {
  return Math.floor((minute - 1) / DAY);
}
