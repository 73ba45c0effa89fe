/** The migrations a later version of this program would have: those of this one, and one more. */
import { cpSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const MIGRATIONS = fileURLToPath(new URL('../../migrations', import.meta.url));

/** What the store is called that was copied before the one migration more. */
export const COPY_BEFORE_LATER = `coverlast-before-migration-${sqlFiles() + 1}.db`;

function sqlFiles(): number {
  return readdirSync(MIGRATIONS).filter((name) => name.endsWith('.sql')).length;
}

interface Index {
  readonly entries: readonly { readonly idx: number; readonly when: number; readonly tag: string }[];
}

/** The migrations an earlier version had: the first so many. @returns their own folder in the one given */
export function earlierMigrations(folder: string, count: number): string {
  const earlier = join(folder, 'earlier-migrations');
  cpSync(MIGRATIONS, earlier, { recursive: true });
  const path = join(earlier, 'meta', '_journal.json');
  const index = JSON.parse(readFileSync(path, 'utf8')) as Index;
  writeFileSync(path, JSON.stringify({ ...index, entries: index.entries.slice(0, count) }));
  return earlier;
}

/** @param folder where they are put. @returns their own folder in it */
export function laterMigrations(folder: string, statements: readonly string[]): string {
  const later = join(folder, 'later-migrations');
  cpSync(MIGRATIONS, later, { recursive: true });
  const path = join(later, 'meta', '_journal.json');
  const index = JSON.parse(readFileSync(path, 'utf8')) as Index;
  const last = index.entries.at(-1)!;
  const entry = { ...last, idx: last.idx + 1, when: last.when + 1000, tag: '9999_later' };
  writeFileSync(path, JSON.stringify({ ...index, entries: [...index.entries, entry] }));
  writeFileSync(join(later, `${entry.tag}.sql`), statements.join(';\n--> statement-breakpoint\n'));
  return later;
}
