/** Finding a task by any part of its words, its zones or its phase. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Task } from '#shared/contract/task.ts';

export function plainWords(text: string): string {
  return text.toLowerCase().normalize('NFKD').replace(/\p{M}/gu, '');
}

/** Those that hold every part of what is typed; a name that begins with it comes first. @param without keys left out */
export function findTasks(file: BuildFile, text: string, without: ReadonlySet<string>): Task[] {
  const parts = plainWords(text).split(/\s+/).filter(Boolean);
  if (parts.length === 0) return [];
  const phases = new Map(file.phases.map(({ key, name }) => [key, name]));
  const ranked = file.tasks.flatMap((task) => {
    if (without.has(task.key)) return [];
    const name = plainWords(task.name);
    const all = `${name} ${plainWords(task.places.map(({ zone }) => zone).join(' '))} ${plainWords(task.phase === null ? '' : (phases.get(task.phase) ?? ''))}`;
    if (!parts.every((part) => all.includes(part))) return [];
    return [
      { task, rank: name.startsWith(parts[0]!) ? 0 : parts.every((part) => name.includes(part)) ? 1 : 2 },
    ];
  });
  return ranked.sort((a, b) => a.rank - b.rank).map(({ task }) => task);
}
