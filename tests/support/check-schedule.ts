/** Starts of a plain project against its rules as they are written: every link, every resource in every unit of time. */
import type { Project } from '#shared/search/project.ts';

/** @returns what is broken, in words; empty when nothing is */
export function brokenRules(
  { capacities, activities }: Project,
  starts: ArrayLike<number>,
  makespan: number,
): string[] {
  const broken: string[] = [];
  activities.forEach(({ duration, successors }, v) => {
    const start = starts[v]!;
    if (!Number.isInteger(start) || start < 0) broken.push(`${v} starts at ${start}`);
    if (start + duration > makespan) broken.push(`${v} ends after ${makespan}`);
    for (const w of successors)
      if (starts[w]! < start + duration) broken.push(`${w} starts before ${v} has ended`);
  });
  capacities.forEach((capacity, k) => {
    for (let t = 0; t < makespan; t++) {
      let asked = 0;
      activities.forEach(({ duration, demands }, v) => {
        if (starts[v]! <= t && t < starts[v]! + duration) asked += demands[k]!;
      });
      if (asked > capacity) broken.push(`resource ${k} gives ${asked} of ${capacity} at ${t}`);
    }
  });
  return broken;
}

/** Serial generation as its definition has it: each activity of the list at the first start that breaks nothing. */
export function serialStarts({ capacities, activities }: Project, list: ArrayLike<number>): number[] {
  const starts = activities.map(() => -1);
  const fits = (v: number, start: number) =>
    activities.every(
      ({ duration, successors }, u) =>
        !successors.includes(v) || (starts[u]! >= 0 && starts[u]! + duration <= start),
    ) &&
    capacities.every((capacity, k) => {
      for (let t = start; t < start + activities[v]!.duration; t++) {
        let asked = activities[v]!.demands[k]!;
        activities.forEach(({ duration, demands }, u) => {
          if (starts[u]! >= 0 && starts[u]! <= t && t < starts[u]! + duration) asked += demands[k]!;
        });
        if (asked > capacity) return false;
      }
      return true;
    });
  for (let i = 0; i < activities.length; i++) {
    const v = list[i]!;
    let start = 0;
    while (!fits(v, start)) start++;
    starts[v] = start;
  }
  return starts;
}
