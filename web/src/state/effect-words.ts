/** What a change did, in a sentence or two: for the line of messages, where there is no room for a list. */
import { isQuiet, type Effect, type MovedClosing } from '#shared/changes/effect.ts';
import { dayWords, daysBetween } from '../drawing/words.ts';

/** "The finish moves to Sat 7 Oct 2028, 2 d later. C1 closes Thu 3 Dec, 2 d later." @param now years are said where they differ from its */
export function effectWords(effect: Effect, now: string): string {
  if (isQuiet(effect)) return 'Neither the finish nor a closing moves.';
  const { finish, days, closings, newErrors, goneErrors, provisional } = effect;
  const words: string[] = [];
  if (finish.from !== null && finish.to === null) words.push('The finish loses its date.');
  else if (finish.from === null && finish.to !== null)
    words.push(`The finish is ${dayWords(finish.to, now)}.`);
  else if (days === null || days === 0) words.push('The finish stays.');
  else words.push(`The finish moves to ${dayWords(finish.to!, now)}, ${moved(days)}.`);
  if (provisional.from && !provisional.to) words.push('The dates are no longer provisional.');
  if (!provisional.from && provisional.to) words.push('The dates become provisional.');
  const [first] = closings;
  if (first !== undefined) {
    const more =
      closings.length === 1
        ? ''
        : ` and ${closings.length - 1} more ${closings.length === 2 ? 'closing moves' : 'closings move'}`;
    words.push(`${first.zone} ${closingWords(first, now)}${more}.`);
  }
  if (newErrors[0] !== undefined) words.push(`New: ${newErrors[0].sentence}`);
  if (goneErrors.length > 0)
    words.push(goneErrors.length === 1 ? 'One error goes.' : `${goneErrors.length} errors go.`);
  return words.join(' ');
}

/** What becomes of a closing, to stand after its zone: "closes Thu 3 Dec, 2 d later", "no longer closes Thu 3 Dec". */
export function closingWords({ from, to, is }: MovedClosing, now: string): string {
  if (is === 'gone') return `no longer closes${from === null ? '' : ` ${dayWords(from, now)}`}`;
  const verb = { moved: 'closes', new: 'closes as well', 'at another depth': 'closes at another depth' }[is];
  if (to === null) return from === null ? `${verb}, without a date` : `${verb}, its date is lost`;
  const on = dayWords(to, now);
  if (from === null) return `${verb} ${on}`;
  return from === to ? `${verb}, still ${on}` : `${verb} ${on}, ${moved(daysBetween(from, to))}`;
}

function moved(days: number): string {
  return `${Math.abs(days)} d ${days > 0 ? 'later' : 'earlier'}`;
}
