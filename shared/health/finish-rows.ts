/** The checks of the finish: an unbroken way leads to it, a delay on that way moves it, and a plan was kept to compare. */
import type { BuildFile } from '../contract/build-file.ts';
import type { HealthRecord, HealthRow } from '../contract/plan-health.ts';
import { criticalChains } from '../schedule/critical-chains.ts';
import { criticalPath } from '../schedule/critical-path.ts';
import { floorOf, type Logic } from '../schedule/draft.ts';
import { DAY } from '../time/clock.ts';
import { DELAY_DAYS, delayTest, withoutUpper } from './delay-test.ts';
import { counted, NONE, rowOf, taskRecord } from './row.ts';

export function finishRows(file: BuildFile, logic: Logic): HealthRow[] {
  return [unbroken(logic), delay(logic), frozenPlan(file)];
}

/**
 * The longest way, without the target: it has to run from today to the end, not from a date somebody fixed. Waiting for
 * a part is part of the way; a purchase has its own time.
 */
function unbroken(logic: Logic): HealthRow {
  const { basis, graph } = logic;
  const net = withoutUpper(logic.net);
  const path = criticalPath(net, basis.calendar.sets, floorOf(basis), null);
  const chains = path.end === null ? [] : criticalChains(net, basis.calendar.sets, path);
  const taskOf = (v: number) => basis.taskOf.get(graph.ids[v]!)!;
  const breaks = chains.map((chain): HealthRecord[] => {
    const [first, last] = [chain[0]!, chain.at(-1)!];
    return [
      ...(beginsFixed(logic, first)
        ? [taskRecord(taskOf(first), 'the way begins here, on a fixed date')]
        : []),
      ...(path.early.ready[last] === path.end
        ? []
        : [taskRecord(taskOf(last), 'the way ends here, before the finish')]),
    ];
  });
  const isWhole = net.taskCount === 0 || breaks.some((found) => found.length === 0);
  const records = isWhole ? [] : breaks.flat();
  const row = rowOf({
    check: 'unbroken',
    group: 'finish',
    name: 'An unbroken way of tasks leads to the finish',
    of: chains.length,
    records,
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G'],
    none:
      net.taskCount === 0
        ? 'Nothing is left to do.'
        : 'From today to the finish each task follows from the one before.',
    some: `The way to the finish breaks in ${counted(records.length, 'place')}: what comes before it cannot move the finish.`,
  });
  if (isWhole || records.length > 0) return row;
  return { ...row, state: 'failed', sentence: 'The finish has no date, so no way leads to it.' };
}

/** Its date is what holds it: not today, nor a part that comes later. */
function beginsFixed({ basis, net, graph }: Logic, v: number): boolean {
  const { state, fixedStart } = basis.taskOf.get(graph.ids[v]!)!;
  const isFixed = state === 'not-started' && fixedStart !== null;
  return isFixed && net.lower[v] === net.upper[v] && net.lower[v]! > basis.asOf;
}

function delay(logic: Logic): HealthRow {
  const { basis, net, graph } = logic;
  const test = delayTest(logic, floorOf(basis));
  const task = (v: number) => basis.taskOf.get(graph.ids[v]!)!;
  const found = (test?.tested ?? []).filter(({ moved }) => moved !== DELAY_DAYS * DAY);
  const first = test?.tested[0];
  const row = rowOf({
    check: 'delay',
    group: 'finish',
    name: 'A delay moves the finish by as much',
    of: test?.tested.length ?? 0,
    records: found.map(({ node, moved }) =>
      taskRecord(task(node), `moved the finish by ${Math.round(moved / DAY)} days`),
    ),
    most: NONE,
    beyond: 'failed',
    sources: ['DCMA-EA PAM 200.1'],
    none:
      first === undefined
        ? net.taskCount === 0
          ? 'Nothing is left to do.'
          : 'Nothing that is left to do drives the finish.'
        : `${DELAY_DAYS} days on ${counted(test!.tested.length, 'driving task')}, one after another, move the finish by ${DELAY_DAYS} days each, counted on a clock that never stops${calendarWords(test!.onCalendar)}.`,
    some: `${DELAY_DAYS} days on a driving task do not move the finish by ${DELAY_DAYS} days: something holds it that is not in the plan.`,
  });
  if (test !== null || net.taskCount === 0) return row;
  return { ...row, state: 'failed', sentence: 'The finish has no date, so the test cannot be run.' };
}

function calendarWords(days: number | null): string {
  return days === null ? '' : `; with days off and seasons it comes to ${counted(days, 'day')}`;
}

function frozenPlan({ baselines }: BuildFile): HealthRow {
  const row = rowOf({
    check: 'frozen-plan',
    group: 'finish',
    name: 'A plan was frozen to compare with',
    of: baselines.length,
    records: [],
    most: NONE,
    beyond: 'look',
    sources: ['GAO-16-89G'],
    none: `${counted(baselines.length, 'frozen plan')} to see the drift against.`,
    some: '',
  });
  if (baselines.length > 0) return row;
  return {
    ...row,
    state: 'look',
    sentence: 'No plan was frozen, so nobody can say how far the build has drifted.',
  };
}
