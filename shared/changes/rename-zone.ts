/** A zone under another code: wherever the build names it, it is named anew. */
import type { BuildFile } from '../contract/build-file.ts';

/** Lists and records that do not name the zone stay the same objects. */
export function renameZone(file: BuildFile, from: string, to: string): BuildFile {
  const named = (key: string) => (key === from ? to : key);
  const places = (task: BuildFile['tasks'][number]) =>
    task.places.some(({ zone }) => zone === from)
      ? { ...task, places: task.places.map((place) => ({ ...place, zone: named(place.zone) })) }
      : task;
  return {
    ...file,
    zones: file.zones.map((zone) => (zone.key === from ? { ...zone, key: to } : zone)),
    zoneGroups: file.zoneGroups.map((group) =>
      group.zones.includes(from) ? { ...group, zones: group.zones.map(named) } : group,
    ),
    tasks: file.tasks.map(places),
    records: file.records.map((record) => (record.zone === from ? { ...record, zone: to } : record)),
  };
}
