/** The checks of dates: all there, few of them fixed, none on the wrong side of today, none too long or too loose. */
import { byKey } from '../contract/by-key.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { HealthRecord, HealthRow } from '../contract/plan-health.ts';
import type { Plan } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { purchaseName } from '../purchases/name.ts';
import { clockFrom, DAY, instantOf } from '../time/clock.ts';
import { dayNumber } from '../time/days.ts';
import { dayWords, durationWords } from '../time/words.ts';
import { counted, FEW, NONE, knownOnly, rowOf, taskRecord } from './row.ts';

/** About two weekends of work: our choice in place of 44 working days. */
const LONG = 16 * 60;
/** Of the days that remain: our choice in place of 44 working days. */
const LOOSE = 0.25;

export function dateRows(file: BuildFile, plan: Plan): HealthRow[] {
  const open = file.tasks.filter(({ state }) => state !== 'finished').toSorted(byKey);
  return [
    placed(open, plan),
    fixedDates(open),
    fixedReasons(open),
    wrongSide(file, plan),
    longTasks(open, plan),
    largeSlack(file, open, plan),
    ...(file.build.targetFinishOn === null ? [] : [pastTarget(open, plan)]),
  ];
}

function placed(open: readonly Task[], plan: Plan): HealthRow {
  const found = open.filter(({ key }) => plan.tasks[key]!.dates === null);
  return rowOf({
    check: 'placed',
    group: 'dates',
    name: 'Every task has dates that people can keep',
    of: open.length,
    records: found.map((task) => taskRecord(task, plan.tasks[task.key]!.unplaced ?? 'it has no dates')),
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G'],
    none: 'Every task has dates, with nobody in two places at once.',
    some: `${counted(found.length, 'task')} ${found.length === 1 ? 'has' : 'have'} no dates, so the finish has none either.`,
  });
}

function fixedDates(open: readonly Task[]): HealthRow {
  const found = open.filter(isFixed);
  return rowOf({
    check: 'fixed-dates',
    group: 'dates',
    name: 'Few dates are fixed by hand',
    of: open.length,
    records: found.map((task) => taskRecord(task, `fixed to ${dayOf(task.fixedStart!)}`)),
    most: FEW,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'No date is fixed by hand: all follow from the work.',
    some: `${counted(found.length, 'task')} ${found.length === 1 ? 'stands' : 'stand'} on a fixed date and ${found.length === 1 ? 'does' : 'do'} not follow when something before moves.`,
  });
}

function fixedReasons(open: readonly Task[]): HealthRow {
  const fixed = open.filter(isFixed);
  const found = fixed.filter(({ fixedWhy }) => (fixedWhy ?? '').trim() === '');
  return rowOf({
    check: 'fixed-reasons',
    group: 'dates',
    name: 'Every fixed date has a reason',
    of: fixed.length,
    records: found.map((task) => taskRecord(task, `fixed to ${dayOf(task.fixedStart!)}, nobody knows why`)),
    most: NONE,
    beyond: 'look',
    sources: ['GAO-16-89G'],
    none: fixed.length === 0 ? 'No date is fixed.' : 'Every fixed date says why.',
    some: `${counted(found.length, 'fixed date does', 'fixed dates do')} not say why.`,
  });
}

/** What has been lies before the as-of instant, what is to come after it. */
function wrongSide(file: BuildFile, plan: Plan): HealthRow {
  const { asOf } = plan;
  const today = asOf.slice(0, 10);
  const facts = [...file.tasks].toSorted(byKey).flatMap((task) => taskFacts(task, asOf));
  const records = [...facts, ...purchaseFacts(file, today), ...hourFacts(file, today)];
  return rowOf({
    check: 'wrong-side',
    group: 'dates',
    name: 'Nothing done lies ahead, nothing to do lies behind',
    of: file.tasks.length + file.purchases.length + file.hours.length,
    records,
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'What is done lies before today, what is still to do after it.',
    some: `${counted(records.length, 'date lies', 'dates lie')} on the wrong side of ${dayOf(today)}: the plan goes by what is written, so it is wrong there.`,
  });
}

function taskFacts(task: Task, asOf: string): HealthRecord[] {
  const { startedAt, finishedAt, state, fixedStart, holdPoints } = task;
  const isAhead = (at: string | null) => at !== null && at > asOf;
  if (isAhead(finishedAt)) return [taskRecord(task, `finished on ${dayOf(finishedAt!)}, which is to come`)];
  if (isAhead(startedAt)) return [taskRecord(task, `begun on ${dayOf(startedAt!)}, which is to come`)];
  if (holdPoints.some(({ attempts }) => attempts.some(({ at }) => isAhead(at))))
    return [taskRecord(task, 'a check is signed on a day to come')];
  if (state === 'not-started' && fixedStart !== null && fixedStart < asOf)
    return [taskRecord(task, `fixed to ${dayOf(fixedStart)}, which is past`)];
  return [];
}

function purchaseFacts({ purchases }: BuildFile, today: string): HealthRecord[] {
  return purchases.toSorted(byKey).flatMap((purchase): HealthRecord[] => {
    const { key, state, orderedOn, promisedOn, deliveries } = purchase;
    const came = deliveries.find(({ on }) => on > today);
    const isOpen = state === 'ordered' || state === 'part-received';
    const note =
      orderedOn !== null && orderedOn > today
        ? `ordered on ${dayOf(orderedOn)}, which is to come`
        : came !== undefined
          ? `came on ${dayOf(came.on)}, which is to come`
          : isOpen && promisedOn !== null && promisedOn < today
            ? `promised for ${dayOf(promisedOn)}, and not in`
            : null;
    return note === null ? [] : [{ noun: 'purchases', id: key, name: purchaseName(purchase), note }];
  });
}

function hourFacts({ hours, people }: BuildFile, today: string): HealthRecord[] {
  return hours
    .filter(({ on }) => on > today)
    .map(({ key, person, on }) => ({
      noun: 'hours',
      id: key ?? '',
      name: people.find((one) => one.key === person)?.name ?? person,
      note: `hours on ${dayOf(on)}, which is to come`,
    }));
}

function longTasks(open: readonly Task[], plan: Plan): HealthRow {
  const minutesOf = ({ key }: Task) => plan.tasks[key]!.minutes;
  const found = open.filter((task) => minutesOf(task) > LONG).toSorted((a, b) => minutesOf(b) - minutesOf(a));
  return rowOf({
    check: 'long-tasks',
    group: 'dates',
    name: 'Few tasks take longer than two weekends',
    of: open.length,
    records: found.map((task) => taskRecord(task, `${durationWords(minutesOf(task))} to go`)),
    most: FEW,
    beyond: 'look',
    sources: ['DCMA-EA PAM 200.1', 'our choice'],
    none: `No task takes more than ${LONG / 60} hours.`,
    some: `${counted(found.length, 'task takes', 'tasks take')} more than ${LONG / 60} hours, about two weekends: how far such a task is can only be guessed, so split it.`,
  });
}

/** Slack beyond that of the driving tasks, which a late target gives to all alike. */
function largeSlack({ build }: BuildFile, open: readonly Task[], plan: Plan): HealthRow {
  const days = open.map(({ key }) => plan.tasks[key]!.slackDays);
  const least = Math.max(
    0,
    days.reduce<number>((a, b) => (b === null ? a : Math.min(a, b)), Infinity),
  );
  const clock = clockFrom(build.startOn);
  const remains =
    plan.finish.early === null ? null : Math.ceil((plan.finish.early - instantOf(clock, plan.asOf)) / DAY);
  const most = remains === null ? Infinity : Math.max(1, remains * LOOSE);
  const slackOf = ({ key }: Task) => (plan.tasks[key]!.slackDays ?? least) - least;
  const found = open.filter((task) => slackOf(task) > most).toSorted((a, b) => slackOf(b) - slackOf(a));
  const row = rowOf({
    check: 'large-slack',
    group: 'dates',
    name: 'Few tasks could wait very long',
    of: open.length,
    records: found.map((task) => taskRecord(task, `could wait ${slackOf(task)} days`)),
    most: FEW,
    beyond: 'look',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1', 'our choice'],
    none: 'No task could wait for more than a quarter of what remains.',
    some: `${counted(found.length, 'task')} could wait for more than a quarter of the ${counted(remains ?? 0, 'day')} that remain by logic alone: often a link is missing there.`,
  });
  return knownOnly(row, plan.finish.early);
}

function pastTarget(open: readonly Task[], plan: Plan): HealthRow {
  const found = open.filter(({ key }) => (plan.tasks[key]!.totalFloat ?? 0) < 0);
  const row = rowOf({
    check: 'past-target',
    group: 'dates',
    name: 'The logic alone leaves time for the target',
    of: open.length,
    records: found.map((task) =>
      taskRecord(task, `${counted(-(plan.tasks[task.key]!.slackDays ?? 0), 'day')} too late`),
    ),
    most: NONE,
    beyond: 'look',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'With everybody always there, every task could be done in time for the target.',
    some: `${counted(found.length, 'task comes', 'tasks come')} too late for the target even if people were never busy elsewhere.`,
  });
  return knownOnly(row, plan.finish.early);
}

function isFixed({ state, fixedStart }: Task): boolean {
  return state === 'not-started' && fixedStart !== null;
}

function dayOf(instant: string): string {
  return dayWords(dayNumber(instant.slice(0, 10)));
}
