/** Stated orders as a table: one row a link, told from others by its two tasks and its kind. */
import { idOf } from '../../contract/nouns.ts';
import { LINK_KINDS, LINK_WHYS, type Link } from '../../contract/task.ts';
import type { BuildFile } from '../../contract/build-file.ts';
import * as cells from '../cells.ts';
import type { Table } from '../table.ts';
import { assembleRecords, buildContext, withKey } from './plain.ts';

const TASK = cells.reference('tasks');
const KIND = cells.oneOf(LINK_KINDS);

export const LINKS: Table = {
  name: 'links',
  columns: [
    { name: 'first', also: ['from', 'before'], at: '/from', cell: TASK },
    { name: 'then', also: ['to', 'after'], at: '/to', cell: TASK },
    { name: 'kind', at: '/kind', cell: KIND, blank: 'FS' },
    { name: 'time between', also: ['lag'], at: '/lagMinutes', cell: cells.TIME, blank: 0 },
    { name: 'counted on', at: '/lagOn', cell: cells.oneOf(['clock', 'working']), blank: 'clock' },
    { name: 'reason', at: '/reason', cell: cells.TEXT, blank: '' },
    { name: 'why', at: '/why', cell: cells.oneOf(LINK_WHYS) },
  ],
  shown: [
    { name: 'first task', show: (link, file) => nameOf((link as Link).from, file) },
    { name: 'then task', show: (link, file) => nameOf((link as Link).to, file) },
  ],
  rowsOf: (file) => file.links,
  found: ({ first = '', then = '', kind = '' }, file) => {
    const context = buildContext(null, file);
    const [from, to] = [TASK.read(first, context), TASK.read(then, context)];
    const known = kind.trim() === '' ? 'FS' : KIND.read(kind, context);
    return indexOf(file).get(`${String(from)}~${String(to)}~${String(known)}`) ?? null;
  },
  contextOf: buildContext,
  assemble: (rows) => assembleRecords<Link>('links', rows, (link) => link),
};

function nameOf(key: string, file: BuildFile): string {
  return withKey(file.tasks, key)?.name ?? '';
}

const indexes = new WeakMap<readonly Link[], ReadonlyMap<string | null, Link>>();

function indexOf({ links }: BuildFile): ReadonlyMap<string | null, Link> {
  let index = indexes.get(links);
  if (index === undefined)
    indexes.set(links, (index = new Map(links.map((link) => [idOf('links', link), link]))));
  return index;
}
