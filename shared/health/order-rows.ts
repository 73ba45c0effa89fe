/** The checks of order: every task linked, no circles, no leads, waits as waits, links that say what they mean. */
import type { BuildFile } from '../contract/build-file.ts';
import { idOf } from '../contract/nouns.ts';
import type { HealthRecord, HealthRow } from '../contract/plan-health.ts';
import type { Plan } from '../contract/plan.ts';
import type { Link } from '../contract/task.ts';
import { byKey } from '../contract/by-key.ts';
import { shortName } from '../covers/names.ts';
import { durationWords } from '../time/words.ts';
import type { Neighbours } from './neighbours.ts';
import { counted, FEW, NONE, knownOnly, rowOf, taskRecord } from './row.ts';

/** A task that so many unfinished ones lead into is where delays meet: our choice. */
const MANY_BEFORE = 5;
const OTHER_KINDS = { share: 0.1 };

export function orderRows(file: BuildFile, plan: Plan, near: Neighbours): HealthRow[] {
  return [
    linked(file, plan, near),
    circles(file, plan),
    leads(file),
    waits(file),
    finishToStart(file),
    merges(file, plan, near),
  ];
}

function unfinished({ tasks }: BuildFile) {
  return tasks.filter(({ state }) => state !== 'finished').toSorted(byKey);
}

/** One task may be the first, as long as nothing has been finished, and one the last. */
function linked(file: BuildFile, plan: Plan, near: Neighbours): HealthRow {
  const open = unfinished(file);
  const noStart = open.filter(({ key }) => !near.startIsLinked(key));
  const noFinish = open.filter(({ key }) => !near.finishIsLinked(key));
  const startOf = (key: string) => plan.tasks[key]!.dates?.start ?? '9999';
  const endOf = (key: string) => plan.tasks[key]!.dates?.waitUntil ?? '';
  const [first] =
    file.tasks.length > open.length ? [] : noStart.toSorted((a, b) => order(startOf(a.key), startOf(b.key)));
  const [last] = noFinish.toSorted((a, b) => order(endOf(b.key), endOf(a.key)));
  const records = open.flatMap((task): HealthRecord[] => {
    const before = task !== first && noStart.includes(task);
    const after = task !== last && noFinish.includes(task);
    if (!before && !after) return [];
    const note =
      before && after
        ? 'nothing comes before it and nothing after it'
        : before
          ? 'nothing comes before its start'
          : 'nothing waits for its end';
    return [taskRecord(task, note)];
  });
  return rowOf({
    check: 'linked',
    group: 'order',
    name: 'Every task has something before it and after it',
    of: open.length,
    records,
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1', 'our choice'],
    none: 'Every task has something before it and after it, by a link or by what covers it.',
    some: `${counted(records.length, 'task')} ${records.length === 1 ? 'lacks' : 'lack'} something before or after: a delay there moves nothing, though it should.`,
  });
}

function circles(file: BuildFile, { errors }: Plan): HealthRow {
  const nameOf = new Map(file.tasks.map(({ key, name }) => [key, name]));
  const found = errors.filter(({ rule }) => rule === 'wrong-order' || rule === 'covers-in-a-circle');
  const records = found.map(({ tasks, sentence }) =>
    taskRecord({ key: tasks[0]!, name: nameOf.get(tasks[0]!) ?? tasks[0]! }, sentence),
  );
  return rowOf({
    check: 'circles',
    group: 'order',
    name: 'No task waits for itself in a circle',
    of: file.links.length,
    records,
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G'],
    none: 'No links go round in a circle.',
    some: `${counted(found.length, 'wrong order')}: the dates hold only once ${found.length === 1 ? 'it is' : 'they are'} repaired.`,
  });
}

/** The contract refuses links below zero; a build that came another way is looked at all the same. */
function leads(file: BuildFile): HealthRow {
  const found = file.links.filter(({ lagMinutes }) => lagMinutes < 0);
  return rowOf({
    check: 'leads',
    group: 'order',
    name: 'No link reaches back in time',
    of: file.links.length,
    records: found.map((link) => linkRecord(file, link, `reaches back ${durationWords(-link.lagMinutes)}`)),
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'Nothing begins before what it waits for.',
    some: `${counted(found.length, 'link')} let a task begin before what it waits for: split the first task instead.`,
  });
}

function waits(file: BuildFile): HealthRow {
  const found = file.links.filter(({ lagMinutes }) => lagMinutes > 0);
  return rowOf({
    check: 'waits',
    group: 'order',
    name: 'Waiting stands with the task that causes it',
    of: file.links.length,
    records: found.map((link) => linkRecord(file, link, `waits ${durationWords(link.lagMinutes)}`)),
    most: FEW,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'Curing, drying and the like are waits of their tasks; no link waits on its own.',
    some: `${counted(found.length, 'link waits', 'links wait')} on ${found.length === 1 ? 'its' : 'their'} own: if something hardens or dries, give the wait to its task, so that it counts for all that follows.`,
  });
}

function finishToStart(file: BuildFile): HealthRow {
  const found = file.links.filter(({ kind }) => kind !== 'FS');
  const backwards = found.filter(({ kind }) => kind === 'SF').length;
  const row = rowOf({
    check: 'finish-to-start',
    group: 'order',
    name: 'Links run from an end to a start',
    of: file.links.length,
    records: found.map((link) => linkRecord(file, link, KIND_WORDS[link.kind])),
    most: OTHER_KINDS,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'Every link runs from the end of one task to the start of the next.',
    some: `${counted(found.length, 'link joins', 'links join')} other ends; ${backwards === 0 ? 'as long as they are few, that is fine' : `${backwards} of them from a start to an end, which hardly ever says what is meant`}.`,
  });
  return backwards > 0 && row.state === 'passed' ? { ...row, state: 'look' } : row;
}

const KIND_WORDS: Record<Link['kind'], string> = {
  FS: 'from end to start',
  SS: 'from start to start',
  FF: 'from end to end',
  SF: 'from start to end',
};

function merges(file: BuildFile, plan: Plan, near: Neighbours): HealthRow {
  const open = unfinished(file);
  const isOpen = new Set(open.map(({ key }) => key));
  const meets = open.filter(
    ({ key }) => near.before(key, (before) => isOpen.has(before), MANY_BEFORE).size >= MANY_BEFORE,
  );
  const found = meets.filter(({ key }) => plan.tasks[key]!.critical);
  const row = rowOf({
    check: 'merges',
    group: 'order',
    name: 'Where many tasks meet, there is slack',
    of: meets.length,
    records: found.map((task) => taskRecord(task, `${MANY_BEFORE} or more lead to it, and it has no slack`)),
    most: NONE,
    beyond: 'look',
    sources: ['GAO-16-89G', 'our choice'],
    none: `Every task that ${MANY_BEFORE} or more unfinished ones lead into has slack.`,
    some: `${counted(found.length, 'task')} that ${MANY_BEFORE} or more lead into ${found.length === 1 ? 'has' : 'have'} no slack: whichever of them is late holds everything up.`,
  });
  return knownOnly(row, plan.finish.early);
}

function linkRecord({ tasks }: BuildFile, link: Link, note: string): HealthRecord {
  const name = (key: string) => shortName(tasks.find((task) => task.key === key)?.name ?? key);
  return { noun: 'links', id: idOf('links', link)!, name: `${name(link.from)} → ${name(link.to)}`, note };
}

function order(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
