/**
 * "How far is it?" said in quarters: the share done sets what is left. Half done after six hours leaves six hours more:
 * share = logged / (logged + remaining × people), so remaining = logged × (1 − share) / share / people.
 */
import type { Task } from '../contract/task.ts';

/**
 * Clock minutes left of a task that is so far done, in whole minutes.
 * @param share above 0, below 1
 * @param logged person-minutes logged to it, those of today included; 0: the estimate speaks
 */
export function remainingAt(share: number, logged: number, { minutes, people }: Task): number {
  const whole = logged > 0 ? logged / share / people : minutes.likely;
  return Math.round(whole * (1 - share));
}
