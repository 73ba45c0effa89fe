/** The number a check carries on every sheet: H1, H2… in the order of the build's tasks. */
import type { BuildFile } from '#shared/contract/build-file.ts';

const known = new WeakMap<BuildFile['tasks'], ReadonlyMap<string, string>>();

/** By `task key/check key`. */
export function checkCodes({ tasks }: BuildFile): ReadonlyMap<string, string> {
  let codes = known.get(tasks);
  if (codes === undefined) {
    let n = 0;
    codes = new Map(
      tasks.flatMap((task) =>
        task.holdPoints.map((hold): [string, string] => [`${task.key}/${hold.key}`, `H${++n}`]),
      ),
    );
    known.set(tasks, codes);
  }
  return codes;
}
