/** Who does a task, as a narrow column says it. */
import type { Person } from '#shared/contract/calendar.ts';
import { list } from '../../drawing/words.ts';

/** "Ines", "both" for the two who do everything, "all" for more of them, "Ines +1" for other mixes. */
export function whoShort(keys: readonly string[], people: readonly Person[]): string {
  const regulars = people.filter(({ byNameOnly }) => !byNameOnly);
  if (
    regulars.length > 1 &&
    keys.length === regulars.length &&
    regulars.every(({ key }) => keys.includes(key))
  )
    return regulars.length === 2 ? 'both' : 'all';
  const names = keys.map((key) => people.find((person) => person.key === key)?.name ?? key);
  return names.length < 2 ? (names[0] ?? '') : `${names[0]} +${names.length - 1}`;
}

export function whoWords(keys: readonly string[], people: readonly Person[]): string {
  return list(keys.map((key) => people.find((person) => person.key === key)?.name ?? key));
}
