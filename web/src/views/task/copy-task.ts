/** One task copied to another zone: what it is stays, what happened to it does not. */
import { numbered } from '#shared/changes/free-key.ts';
import { notBegun } from '#shared/changes/not-begun.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Place, Task } from '#shared/contract/task.ts';

export interface Copied {
  readonly file: BuildFile;
  readonly key: string;
}

/**
 * Its places in `from` (all of them where that is null) moved to `to`. Links, decisions and parts stay with the first
 * one; the links can be copied as well. A depth the other zone lacks falls back on the nearest behind it.
 */
export function copyTask(
  file: BuildFile,
  task: Task,
  { from, to, withLinks }: { readonly from: string | null; readonly to: string; readonly withLinks: boolean },
): Copied {
  const zone = file.zones.find(({ key }) => key === to);
  const name = `${task.name}, ${zone?.name ?? to}`.slice(0, 200);
  const key = numbered(`${task.key}-${to}`, new Set(file.tasks.map((one) => one.key)));
  const copy: Task = {
    ...notBegun(task),
    key,
    name,
    places: placesIn(file, task, from, to),
  };
  const at = file.tasks.findIndex((one) => one.key === task.key) + 1;
  const links = withLinks
    ? file.links.flatMap((link) =>
        link.from === task.key
          ? [link, { ...link, from: key }]
          : link.to === task.key
            ? [link, { ...link, to: key }]
            : [link],
      )
    : file.links;
  return { key, file: { ...file, tasks: file.tasks.toSpliced(at, 0, copy), links } };
}

function placesIn(file: BuildFile, task: Task, from: string | null, to: string): Place[] {
  const depths = file.zones.find(({ key }) => key === to)?.depths ?? [];
  const seen = new Set<string>();
  return task.places
    .filter((place) => from === null || place.zone === from)
    .flatMap((place) => {
      const own = file.zones.find(({ key }) => key === place.zone)?.depths ?? [];
      const depth = nearest(own, depths, place.depth);
      if (depth === null || seen.has(depth)) return [];
      seen.add(depth);
      return [{ zone: to, depth, hides: place.hides === null ? null : nearest(own, depths, place.hides) }];
    });
}

/** The depth itself, else the nearest behind it in its own zone that the other one has too. */
function nearest(own: readonly string[], other: readonly string[], depth: string): string | null {
  for (let at = own.indexOf(depth); at >= 0; at--) if (other.includes(own[at]!)) return own[at]!;
  return null;
}
