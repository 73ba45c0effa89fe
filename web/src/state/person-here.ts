/** Who stands at this device: the person whose name the history is told, else the first who is not here by name only. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { who } from './api.ts';

export function personHere({ people }: Pick<BuildFile, 'people'>): string | null {
  const name = who.get();
  const found =
    people.find((person) => person.name === name || person.key === name) ??
    people.find(({ byNameOnly }) => !byNameOnly) ??
    people[0];
  return found?.key ?? null;
}
