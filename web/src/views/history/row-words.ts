/** A changed row by what it is called: "task “Rib fill”", "link from “Fill” to “Film”", "the build itself". */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { ChangedNoun, HistoryEntry } from '#shared/contract/changes.ts';
import { NOUNS } from '#shared/contract/nouns.ts';
import type { Fields, Naming } from './changed-fields.ts';

export type HistoryRow = HistoryEntry['rows'][number];

/** The names behind keys, as they are now; what is gone keeps its key. */
export function namingOf(file: BuildFile): Naming {
  type Names = ReadonlyMap<string | null, string>;
  const byKey = (records: readonly { readonly key: string | null; readonly name: string }[]): Names =>
    new Map(records.map(({ key, name }) => [key, name]));
  const [tasks, zones, depths] = [byKey(file.tasks), byKey(file.zones), byKey(file.depths)];
  const [people, tools] = [byKey(file.people), byKey(file.tools)];
  const [conditions, phases] = [byKey(file.conditions), byKey(file.phases)];
  const lists: Readonly<Record<string, Names | undefined>> = {
    from: tasks,
    to: tasks,
    inner: tasks,
    cover: tasks,
    task: tasks,
    neededBy: tasks,
    locksTasks: tasks,
    order: tasks,
    zone: zones,
    zones,
    depth: depths,
    hides: depths,
    depths,
    who: people,
    person: people,
    by: people,
    tools,
    conditions,
    waitConditions: conditions,
    phase: phases,
  };
  const { currency, units } = file.build;
  return { currency, units, nameOf: (field, key) => lists[field]?.get(key) ?? key };
}

export function rowWords({ noun, id, before, after }: HistoryRow, { nameOf }: Naming): string {
  if (noun === 'build') return 'the build itself';
  const { one } = NOUNS[noun];
  const record = (after ?? before) as Fields | null;
  const text = (field: string) => (typeof record?.[field] === 'string' ? record[field] : '');
  if (noun === 'links') return `link from “${nameOf('from', text('from'))}” to “${nameOf('to', text('to'))}”`;
  if (noun === 'exceptions')
    return `exception for “${nameOf('inner', text('inner'))}” behind “${nameOf('cover', text('cover'))}”`;
  if (noun === 'hours')
    return `hours of ${nameOf('person', text('person'))}${text('task') === '' ? '' : ` on “${nameOf('task', text('task'))}”`}`;
  if (noun === 'timers') return `timer of ${nameOf('person', text('person'))}`;
  if (noun === 'purchases') {
    const lines = Array.isArray(record?.['lines']) ? (record['lines'] as readonly Fields[]) : [];
    return `purchase “${String(lines[0]?.['name'] ?? id)}”`;
  }
  return `${one} “${text('name') || text('question') || id}”`;
}

/** Where a row is shown; null where no sheet shows it, or it is gone. */
export function rowAddress({ noun, id, after }: HistoryRow): readonly [string, ...string[]] | null {
  if (after === null) return null;
  const sheets: Partial<Record<ChangedNoun, readonly [string, ...string[]]>> = {
    tasks: ['task', id],
    zones: ['shell', id],
    purchases: ['purchases', id],
    decisions: ['decisions', id],
    people: ['settings', 'people', id],
    build: ['settings'],
  };
  return sheets[noun] ?? null;
}

/** An instant of the server, `2026-11-25T18:06:42.042Z`, as local civil time `2026-11-25T19:06`. */
export function localInstant(at: string): string {
  const date = new Date(at);
  if (Number.isNaN(date.getTime())) return at.slice(0, 16);
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}T${two(date.getHours())}:${two(date.getMinutes())}`;
}
