/** The section of one zone: what stands at each depth, with dates, checks, runs and the parts still to come. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { PhotoRecord } from '#shared/contract/log.ts';
import type { Closing, Plan } from '#shared/contract/plan.ts';
import type { HoldPoint, Task } from '#shared/contract/task.ts';
import { isSigned } from '#shared/covers/checks.ts';
import { arrivalsOf } from '#shared/purchases/arrivals.ts';
import { dayNumber, dayText } from '#shared/time/days.ts';
import { shortName } from '../../drawing/fit.ts';
import { lengthWords, type Units } from '../../drawing/units.ts';
import { count, dayMonth, dayWords, hours, list, roughDay } from '../../drawing/words.ts';
import { purchaseIsAmber } from '../../state/amber.ts';
import { begunWords, type Band } from './bands.ts';

export type RunKind = 'cable' | 'conduit' | 'hose';
export type Tone = 'done' | 'amber' | 'plain' | 'next';

export interface PartLine {
  readonly id: string;
  readonly words: string;
  readonly amber: boolean;
}

export interface CheckLine {
  readonly id: string;
  /** What kind of check, for its stadium. */
  readonly code: string;
  readonly name: string;
  readonly signed: boolean;
  readonly words: string;
}

export interface TaskLine {
  readonly task: Task;
  readonly words: string;
  readonly done: boolean;
  /** "36 h, two at once", "Ines and Tor, 22 h". */
  readonly work: string;
  readonly checks: readonly CheckLine[];
  readonly parts: readonly PartLine[];
  readonly run: RunKind | null;
  /** Its balloon, where it is a run. */
  readonly number: number | null;
}

const CHECK_WORDS: Readonly<Record<HoldPoint['kind'], string>> = {
  leak: 'leak',
  continuity: 'continuity',
  'insulation-resistance': 'insulation',
  pull: 'pull',
  pressure: 'pressure',
  photo: 'photo',
  function: 'works',
  visual: 'look',
  weighing: 'weigh',
};

const RUNS: readonly (readonly [RunKind, readonly string[]])[] = [
  ['conduit', ['conduit', 'duct']],
  ['hose', ['hose', 'fuel', 'pipe']],
  ['cable', ['cable', 'mains', 'data']],
];

/** What a task lays, by its trade kinds; null where it lays nothing (a test, a label). */
export function runOf({ kinds }: Task): RunKind | null {
  return RUNS.find(([, words]) => words.some((word) => kinds.includes(word)))?.[0] ?? null;
}

/** What is looked up for every depth of a section, worked out once. */
export interface SectionIndex {
  readonly plan: Plan;
  readonly people: ReadonlyMap<string, string>;
  readonly parts: ReadonlyMap<string, readonly PartLine[]>;
  /** Person-minutes logged by task, and who logged them. */
  readonly logged: ReadonlyMap<string, { readonly minutes: number; readonly people: readonly string[] }>;
}

export function sectionIndex(file: BuildFile, plan: Plan): SectionIndex {
  const parts = new Map<string, PartLine[]>();
  for (const { purchase, line, inHand, day } of arrivalsOf(file, dayNumber(plan.asOf.slice(0, 10)))) {
    if (inHand) continue;
    const ordered = purchase.state === 'ordered' || purchase.state === 'part-received';
    const by = plan.purchases[purchase.key]?.orderBy ?? null;
    const amber = !ordered && purchaseIsAmber(plan, purchase.key);
    const words = `${ordered ? `due ${day === null ? 'some day' : dayWords(dayText(day), plan.asOf)}` : orderWords(by, plan.asOf)}: ${shortName(line.name, 60)}`;
    for (const task of line.neededBy)
      parts.set(task, [...(parts.get(task) ?? []), { id: `${purchase.key} ${line.key}`, words, amber }]);
  }
  const logged = new Map<string, { minutes: number; people: string[] }>();
  const people = new Map(file.people.map(({ key, name }) => [key, name]));
  for (const { task, person, minutes } of file.hours) {
    if (task === null) continue;
    const entry = logged.get(task) ?? { minutes: 0, people: [] };
    entry.minutes += minutes;
    const name = people.get(person) ?? person;
    if (!entry.people.includes(name)) entry.people.push(name);
    logged.set(task, entry);
  }
  return { plan, people, parts, logged };
}

/** The tasks of a depth; runs of a depth for wires and pipes are numbered from 1. */
export function taskLines(index: SectionIndex, band: Band): TaskLine[] {
  let number = 0;
  return band.tasks.map((task): TaskLine => {
    const run = band.hatch === 'wire' ? runOf(task) : null;
    return {
      task,
      words: taskWords(index.plan, task),
      done: task.state === 'finished',
      work: workWords(index, task),
      checks: task.holdPoints.map((hold) => checkLine(index, task, hold)),
      parts: task.state === 'finished' ? [] : (index.parts.get(task.key) ?? []),
      run,
      number: run === null ? null : ++number,
    };
  });
}

/** "done 14 Feb", "begun 4 Mar", "starts 22 May". */
export function taskWords(plan: Plan, task: Task): string {
  if (task.state === 'finished')
    return task.finishedAt === null ? 'done' : `done ${roughPast(task.finishedAt, plan.asOf)}`;
  if (task.state === 'started') return begunWords([task], plan.asOf);
  const start = plan.tasks[task.key]?.dates?.start ?? null;
  return start === null ? 'no date' : `starts ${roughDay(start, plan.asOf)}`;
}

/** What the row of a depth says at its right. */
export function rowWords(band: Band, plan: Plan): { readonly words: string; readonly tone: Tone } {
  const { state, done, tasks, doneOn, starts } = band;
  if (state === 'empty') return { words: 'no task', tone: 'plain' };
  if (state === 'in' || state === 'covered')
    return { words: doneOn === null ? 'done' : `done ${roughPast(doneOn, plan.asOf)}`, tone: 'done' };
  if (state === 'part' && done > 0) return { words: `${done} of ${tasks.length} in`, tone: 'plain' };
  if (state === 'part') return { words: begunWords(tasks, plan.asOf), tone: 'plain' };
  return { words: starts === null ? 'no date' : `starts ${roughDay(starts, plan.asOf)}`, tone: 'plain' };
}

/** "Misses the sensor cable, the labels and 3 more, 2 checks and 4 parts."; "All is in." */
export function missesWords(
  { missing, unsigned, undelivered, undecided, behind }: Closing,
  taskOf: ReadonlyMap<string, Task>,
  most = 3,
): string {
  const names = missing.slice(0, most).map((key) => `“${shortName(taskOf.get(key)?.name ?? key, 34)}”`);
  const more = missing.length - names.length;
  const all = [
    ...names,
    ...(more > 0 ? [names.length === 0 ? count(more, 'task') : `${more} more`] : []),
    ...(unsigned.length > 0 ? [count(unsigned.length, 'check')] : []),
    ...(undelivered.length > 0 ? [count(undelivered.length, 'part')] : []),
    ...(undecided.length > 0 ? [count(undecided.length, 'decision')] : []),
  ];
  if (all.length > 0) return `Misses ${list(all)}.`;
  return behind === 0 ? 'Nothing has to be in behind it.' : 'All is in.';
}

/** What stands in the stadium of a check. */
export function checkWords(task: Task | undefined, holdPoint: string): string {
  const hold = task?.holdPoints.find(({ key }) => key === holdPoint);
  return hold === undefined ? 'check' : CHECK_WORDS[hold.kind];
}

/** A record's marks in words: "spare conduit: 3 720 mm along, 910 mm across". */
export function recordWords({ note, marks }: PhotoRecord, units: Units): string[] {
  return [
    ...(note.trim() === '' ? [] : [note]),
    ...marks.map(
      ({ what, x, y }) => `${what}: ${lengthWords(x, units)} along, ${lengthWords(y, units)} across`,
    ),
  ];
}

function checkLine({ people, plan }: SectionIndex, task: Task, hold: HoldPoint): CheckLine {
  const signed = isSigned(hold);
  const last = hold.attempts.toSorted((a, b) => (a.at < b.at ? -1 : 1)).at(-1);
  const who = last === undefined ? '' : (people.get(last.by) ?? last.by);
  return {
    id: `${task.key} ${hold.key}`,
    code: CHECK_WORDS[hold.kind],
    name: shortName(hold.name, 48),
    signed,
    words:
      last === undefined
        ? 'unsigned'
        : signed
          ? `signed by ${who}, ${roughPast(last.at, plan.asOf)}`
          : `failed ${roughPast(last.at, plan.asOf)}, unsigned`,
  };
}

function workWords({ logged }: SectionIndex, { key, state, minutes, people }: Task): string {
  const log = logged.get(key);
  if (state !== 'not-started') return log === undefined ? '' : `${list(log.people)}, ${hours(log.minutes)} h`;
  if (minutes.likely === 0) return '';
  return `${hours(minutes.likely * people)} h${people > 1 ? `, ${people} at once` : ''}`;
}

/** "order by Wed 10 Mar", "order now, was by Fri 20 Nov". */
function orderWords(by: string | null, now: string): string {
  if (by === null) return 'not ordered';
  return by < now.slice(0, 10) ? `order now, was by ${dayWords(by, now)}` : `order by ${dayWords(by, now)}`;
}

/** A day gone by: the year only where it is another. */
function roughPast(day: string, now: string): string {
  return day.slice(0, 4) === now.slice(0, 4) ? dayMonth(day) : `${dayMonth(day)} ${day.slice(0, 4)}`;
}
