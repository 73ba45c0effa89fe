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
    task: (key) => `“${shortName(task(key))}”`,
    zone: lookup(file.zones),
    depth: lookup(file.depths),
    person: lookup(file.people),
    tool: lookup(file.tools),
    condition: lookup(file.conditions),
  };
}

/** Catalogue names explain themselves at length; a sentence with four of them must still be read. */
const LONGEST = 48;

export function shortName(name: string): string {
  if (name.length <= LONGEST) return name;
  const [head = ''] = name.split(/[:;(]/, 1);
  if (head.length >= 8 && head.length <= LONGEST) return head.trim();
  const cut = name.slice(0, LONGEST);
  return `${cut.slice(0, Math.max(cut.lastIndexOf(' '), LONGEST / 2)).replace(/[ ,.;:]+$/, '')}…`;
}
