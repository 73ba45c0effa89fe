/** What is wrong with a sum shared out by hand; '' when it adds up. */
import type { Part } from '#shared/progress/log-hours.ts';
import { duration } from '../../drawing/words.ts';

export function sumWords(parts: readonly Part[], minutes: number): string {
  const sum = parts.reduce((total, part) => total + part.minutes, 0);
  if (Number.isNaN(sum)) return 'Say hours and minutes, such as 1 h 30.';
  if (parts.some((part) => part.minutes < 0)) return 'Nobody works less than nothing.';
  if (sum === minutes) return '';
  return sum > minutes
    ? `${duration(sum - minutes)} more than ${duration(minutes)}.`
    : `${duration(minutes - sum)} of ${duration(minutes)} are still to be given out.`;
}
