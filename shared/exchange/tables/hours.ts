/** Logged hours as a table: one row an entry. Rows without a number are new entries. */
import type { Hours } from '../../contract/log.ts';
import { keyGiver } from '../../contract/new-key.ts';
import * as cells from '../cells.ts';
import type { Table } from '../table.ts';
import { assembleRecords, buildContext, withKey } from './plain.ts';

export const HOURS: Table = {
  name: 'hours',
  columns: [
    { name: 'number', also: ['key'], at: '/key', cell: cells.KEY },
    { name: 'day', also: ['on', 'date'], at: '/on', cell: cells.DAY },
    { name: 'person', also: ['who'], at: '/person', cell: cells.reference('people') },
    { name: 'time', also: ['hours', 'duration'], at: '/minutes', cell: cells.TIME },
    { name: 'task', at: '/task', cell: cells.reference('tasks') },
    { name: 'phase', at: '/phase', cell: cells.reference('phases') },
    { name: 'note', also: ['notes'], at: '/note', cell: cells.TEXT, blank: '' },
  ],
  shown: [
    {
      name: 'task name',
      show: (entry, file) => withKey(file.tasks, (entry as Hours).task ?? '')?.name ?? '',
    },
  ],
  rowsOf: (file) => file.hours,
  found: ({ number }, file) => withKey(file.hours, number === '' ? undefined : number),
  contextOf: buildContext,
  assemble: (rows, file) => {
    const given = rows.map(({ cells: { number = '' } }) => number.trim());
    const newKey = keyGiver([...file.hours.map(({ key }) => key ?? ''), ...given]);
    return assembleRecords<Hours>('hours', rows, (entry) => ({
      ...entry,
      key: entry.key ?? newKey(`h ${entry.on ?? ''}`),
    }));
  },
};
