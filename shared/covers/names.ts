/** Keys to the names a builder gave them: every sentence of the plan speaks in names. */
import type { BuildFile } from '../contract/build-file.ts';

export interface Names {
  readonly task: (key: string) => string;
  readonly zone: (key: string) => string;
  readonly depth: (key: string) => string;
  readonly person: (key: string) => string;
  readonly tool: (key: string) => string;
  readonly condition: (key: string) => string;
}

export function namesOf(file: BuildFile): Names {
  const lookup = (records: readonly { key: string; name: string }[]) => {
    const names = new Map(records.map(({ key, name }) => [key, name]));
    return (key: string) => names.get(key) ?? key;
  };
  const task = lookup(file.tasks);
  return {
    task: (key) => `“${task(key)}”`,
    zone: lookup(file.zones),
    depth: lookup(file.depths),
    person: lookup(file.people),
    tool: lookup(file.tools),
    condition: lookup(file.conditions),
  };
}
