/** Tasks as a table: one row each, all that is not a list within a list. Checks, steps and their signatures stay as they are. */
import { keyGiver } from '../../contract/new-key.ts';
import { CAUTIONS, TASK_STATES, type Task } from '../../contract/task.ts';
import * as cells from '../cells.ts';
import type { Table } from '../table.ts';
import { assembleRecords, buildContext, withKey } from './plain.ts';

export const TASKS: Table = {
  name: 'tasks',
  columns: [
    { name: 'key', at: '/key', cell: cells.KEY },
    { name: 'name', also: ['task', 'what'], at: '/name', cell: cells.TEXT },
    { name: 'phase', at: '/phase', cell: cells.reference('phases') },
    { name: 'hours low', also: ['low', 'best case'], at: '/minutes/low', cell: cells.TIME },
    { name: 'hours likely', also: ['likely', 'hours', 'estimate'], at: '/minutes/likely', cell: cells.TIME },
    { name: 'hours high', also: ['high', 'worst case'], at: '/minutes/high', cell: cells.TIME },
    { name: 'people', at: '/people', cell: cells.WHOLE, blank: 1 },
    { name: 'who', at: '/who', cell: cells.references('people'), blank: [] },
    { name: 'tools', at: '/tools', cell: cells.references('tools'), blank: [] },
    { name: 'places', at: '/places', cell: cells.PLACES, blank: [] },
    { name: 'wait', also: ['wait hours'], at: '/waitMinutes', cell: cells.TIME, blank: 0 },
    {
      name: 'wait conditions',
      at: '/waitConditions',
      cell: cells.references('conditions'),
      blank: [],
    },
    { name: 'wait keeps zones shut', at: '/waitHoldsZones', cell: cells.FLAG, blank: false },
    { name: 'conditions', at: '/conditions', cell: cells.references('conditions'), blank: [] },
    { name: 'shortest sitting', at: '/shortestSitting', cell: cells.TIME, blank: 0 },
    { name: 'time to reopen', at: '/reopenMinutes', cell: cells.TIME },
    { name: 'kinds', at: '/kinds', cell: cells.KEYS, blank: [] },
    { name: 'state', at: '/state', cell: cells.oneOf(TASK_STATES), blank: 'not-started' },
    { name: 'started', also: ['started at'], at: '/startedAt', cell: cells.MOMENT },
    { name: 'finished', also: ['finished at'], at: '/finishedAt', cell: cells.MOMENT },
    { name: 'hours known', at: '/hoursKnown', cell: cells.FLAG, blank: true },
    { name: 'hours left', also: ['still to do'], at: '/remainingMinutes', cell: cells.TIME },
    { name: 'fixed start', at: '/fixedStart', cell: cells.MOMENT },
    { name: 'why fixed', at: '/fixedWhy', cell: cells.TEXT },
    { name: 'cautions', at: '/cautions', cell: cells.listOf(CAUTIONS), blank: [] },
    { name: 'option', at: '/option', cell: cells.TEXT },
    { name: 'note', also: ['notes'], at: '/note', cell: cells.TEXT, blank: '' },
  ],
  shown: [],
  rowsOf: (file) => file.tasks,
  found: ({ key }, file) => withKey(file.tasks, key),
  contextOf: buildContext,
  assemble: (rows, file) => {
    const given = rows.map(({ cells: { key = '' } }) => key.trim());
    const newKey = keyGiver([...file.tasks.map(({ key }) => key), ...given]);
    return assembleRecords<Task>('tasks', rows, (task) => ({
      ...task,
      key: task.key ?? newKey(task.name ?? ''),
      minutes: filledIn(task.minutes),
    }));
  },
};

/** One estimate stands for all three. */
function filledIn(minutes: Partial<Task['minutes']> | undefined): Task['minutes'] {
  const likely = minutes?.likely ?? null;
  return {
    low: minutes?.low ?? likely,
    likely,
    high: minutes?.high ?? likely,
  } as Task['minutes'];
}
