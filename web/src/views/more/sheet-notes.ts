/** One sentence a sheet: what is there, from the build as it stands. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { massWords } from '../../drawing/units.ts';
import { count, hours } from '../../drawing/words.ts';
import { errorCounts } from '../../state/error-counts.ts';

/** @returns '' for a sheet nobody has described */
export function sheetNote(view: string, file: BuildFile, plan: Plan): string {
  switch (view) {
    case 'today':
      return 'What can be done now, what closes next, what to order.';
    case 'shell':
      return `The van unfolded: ${count(file.zones.length, 'zone')}, what is covered, in and planned at every depth.`;
    case 'sequence':
      return `The order guard: ${errorCounts(plan.errors) || 'nothing is in the wrong order'}, ${count(plan.closings.length, 'closing')} ahead.`;
    case 'schedule':
      return `${count(file.tasks.length, 'task')} on the calendar, and why each starts when it does.`;
    case 'purchases':
      return `${count(file.purchases.length, 'purchase')}: what is ordered, on its way, in hand.`;
    case 'money':
      return 'Planned, paid, ordered and to buy, phase by phase.';
    case 'hours':
      return `${hours(plan.progress.logged)} h logged; what was worked, by whom, on which day.`;
    case 'mass': {
      const { left } = plan.mass.planned.gross;
      return left === null
        ? 'Payload left and axle loads; the plate or the weight of the van is still missing.'
        : left < 0
          ? `Axle loads and payload: ${massWords(-left, file.build.units)} over once everything is in and aboard.`
          : `Axle loads and payload: ${massWords(left, file.build.units)} left once everything is in and aboard.`;
    }
    case 'records':
      return file.records.length === 0
        ? 'Photos and measures of what lies behind each panel; none yet.'
        : `${count(file.records.length, 'photo and measure', 'photos and measures')} of what lies behind each panel.`;
    case 'decisions': {
      const open = file.decisions.filter(({ chosen }) => chosen === null).length;
      return open === 0
        ? 'Questions to settle before they block work; none is open.'
        : `${count(open, 'question')} to settle before ${open === 1 ? 'it blocks' : 'they block'} work or an order.`;
    }
    case 'odds':
      return 'When it will be done and what it will cost: even chance, four in five, and what decides it.';
    case 'what-if':
      return 'Try a change beside the plan: days, money, closings; keep it or drop it.';
    case 'drift':
      return file.baselines.length === 0
        ? 'Freeze the plan and see later how far it has moved; none is frozen yet.'
        : `How far the plan has moved from ${count(file.baselines.length, 'frozen plan')}, and when it slipped.`;
    case 'levers':
      return 'What would bring the finish forward most: single changes, tried against the odds.';
    case 'health':
      return 'How far the plan can be trusted: missing links, long tasks, guesses, parts without a price.';
    case 'trade': {
      const open = plan.trade.findings.filter(({ dismissed }) => dismissed === null).length;
      return open === 0
        ? 'What a builder who has done it would ask of the plan; nothing at the moment.'
        : `What a builder who has done it would ask of the plan: ${count(open, 'finding')}.`;
    }
    case 'history':
      return 'Every change, by whom and when; undo and redo.';
    case 'exchange':
      return 'Tables and build files in and out, a calendar to subscribe to, sheets to print.';
    case 'settings':
      return `The build itself, ${count(file.people.length, 'person', 'people')} and their weeks, phases, zones and depths, conditions, tools.`;
    default:
      return '';
  }
}
