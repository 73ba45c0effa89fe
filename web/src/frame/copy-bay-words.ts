/** What copying a bay leaves out, in sentences. */
import type { BayCopied, LeftOut } from '#shared/changes/copy-bay.ts';
import type { Task } from '#shared/contract/task.ts';
import { shortName } from '#shared/covers/names.ts';
import { count, list } from '../drawing/words.ts';

/** More names than this are counted. */
const NAMED = 3;

/** @param to the code of the other zone */
export function leftWords(
  { left, linksLeft }: BayCopied,
  tasks: ReadonlyMap<string, Task>,
  to: string,
): string[] {
  const name = (key: string) => shortName(tasks.get(key)?.name ?? key);
  const named = (why: LeftOut['why']) =>
    names(left.filter((one) => one.why === why).map(({ task }) => name(task)));
  const [there, closed, circle] = [named('there'), named('closed'), named('circle')];
  return [
    there === '' ? '' : `Already planned in ${to}, so not copied: ${there}.`,
    closed === '' ? '' : `Behind what is closed up in ${to}, so not copied: ${closed}.`,
    circle === '' ? '' : `Before and after the same cover in ${to}, so not copied: ${circle}.`,
    linksLeft.length === 0
      ? ''
      : `${count(linksLeft.length, 'link is', 'links are')} not copied, because the work in ${to} would run in a circle.`,
  ].filter(Boolean);
}

function names(found: readonly string[]): string {
  if (found.length <= NAMED + 1) return list(found);
  return `${found.slice(0, NAMED).join(', ')} and ${found.length - NAMED} more`;
}
