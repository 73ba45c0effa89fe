/** Which of some further links a build can take without its work running in a circle. */
import type { BuildFile } from '../contract/build-file.ts';
import type { Link } from '../contract/task.ts';
import { compileGraph } from '../graph/compile.ts';
import { taskGraph } from '../graph/task-graph.ts';

/** One after another, in their order; finished tasks count like others. O(links × (tasks + links of the build)) */
export function acceptedLinks(
  file: BuildFile,
  links: readonly Link[],
): { readonly accepted: readonly Link[]; readonly refused: readonly Link[] } {
  const { indexOf, offsets, targets, size } = compileGraph(
    taskGraph(file),
    new Map(file.tasks.map(({ key }) => [key, true])),
  );
  const more = new Map<number, number[]>();
  const accepted: Link[] = [];
  const refused: Link[] = [];
  for (const link of links) {
    const [from, to] = [indexOf.get(link.from)!, indexOf.get(link.to)!];
    if (leads(to, from)) {
      refused.push(link);
      continue;
    }
    more.set(from, [...(more.get(from) ?? []), to]);
    accepted.push(link);
  }
  return { accepted, refused };

  function leads(start: number, end: number): boolean {
    const seen = new Uint8Array(size);
    const open = [start];
    for (let v = open.pop(); v !== undefined; v = open.pop()) {
      if (v === end) return true;
      if (seen[v] !== 0) continue;
      seen[v] = 1;
      for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) open.push(targets[arc]!);
      open.push(...(more.get(v) ?? []));
    }
    return false;
  }
}
