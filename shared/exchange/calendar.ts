/**
 * The plan as events of a calendar: sittings of tasks, closings, order-by days, checks and decide-by days. Each keeps its
 * name across edits and replanning, so that a calendar moves it instead of showing it twice. Times are local, without a
 * zone: a van is built in one place.
 */
import type { BuildFile } from '../contract/build-file.ts';
import { byKey } from '../contract/by-key.ts';
import type { Plan } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { isSigned } from '../covers/checks.ts';
import { namesOf, shortName, type Names } from '../covers/names.ts';
import { decideBy } from '../decisions/decide-by.ts';
import { purchaseName } from '../purchases/name.ts';
import { clockFrom, instantText } from '../time/clock.ts';
import { dayNumber, dayText } from '../time/days.ts';
import { listWords } from '../time/words.ts';

export type EventKind = 'work' | 'closing' | 'order' | 'check' | 'decision';

export interface CalendarEvent {
  /** Its name, the same after every edit: kind and keys. */
  readonly id: string;
  readonly kind: EventKind;
  /** The key of what it is about: a task, a purchase, a decision; the zone that closes. */
  readonly of: string;
  /** Written instants for work; days for what lasts all day, `end` the day after. */
  readonly start: string;
  readonly end: string;
  readonly title: string;
  /** Lines of text; may be empty. */
  readonly words: string;
}

/** By start, then by name. */
export function calendarEvents(file: BuildFile, plan: Plan): CalendarEvent[] {
  const names = namesOf(file);
  const events = [
    ...file.tasks.flatMap((task) => [...sittingsOf(task, file, plan, names), ...checksOf(task, plan)]),
    ...closings(plan, names),
    ...orders(file, plan),
    ...decisions(file, plan),
  ];
  return events.sort((a, b) =>
    a.start === b.start ? byKey({ key: a.id }, { key: b.id }) : a.start < b.start ? -1 : 1,
  );
}

function sittingsOf(task: Task, file: BuildFile, plan: Plan, names: Names): CalendarEvent[] {
  const clock = clockFrom(file.build.startOn);
  const { dates = null } = plan.tasks[task.key] ?? {};
  const sittings = dates?.sittings ?? [];
  const phase = file.phases.find(({ key }) => key === task.phase)?.name;
  const zones = [...new Set(task.places.map(({ zone }) => zone))];
  const words = [
    phase,
    zones.length === 0 ? undefined : zones.map((zone) => `${names.zone(zone)} (${zone})`).join(', '),
    dates === null || dates.people.length === 0 ? undefined : listWords(dates.people.map(names.person)),
    ...task.steps.filter(({ done }) => !done).map(({ text }) => `- ${text}`),
    task.note === '' ? undefined : task.note,
  ].filter((line) => line !== undefined);
  return sittings.map(([from, to], i) => ({
    id: `work.${task.key}.${i + 1}`,
    kind: 'work' as const,
    of: task.key,
    start: instantText(clock, from),
    end: instantText(clock, to),
    title: `${shortName(task.name)}${sittings.length === 1 ? '' : ` (${i + 1} of ${sittings.length})`}`,
    words: words.join('\n'),
  }));
}

/** Before its task starts, or once it is done. */
function checksOf(task: Task, plan: Plan): CalendarEvent[] {
  const dates = plan.tasks[task.key]?.dates ?? null;
  if (dates === null) return [];
  return task.holdPoints
    .filter((check) => !isSigned(check))
    .map((check) =>
      allDay(
        'check',
        task.key,
        `check.${task.key}.${check.key}`,
        (check.when === 'entry' ? dates.start : dates.finish).slice(0, 10),
        `Check: ${check.name}`,
        [
          `${check.when === 'entry' ? 'Before' : 'After'} ${shortName(task.name)}`,
          ...(check.expect === null ? [] : [`Should read: ${check.expect}`]),
        ],
      ),
    );
}

function closings({ closings: list }: Plan, names: Names): CalendarEvent[] {
  return list.flatMap(({ zone, depth, by, on, missing, unsigned, undelivered }) =>
    on === null
      ? []
      : [
          allDay(
            'closing',
            zone,
            `closing.${zone}.${depth}.${by}`,
            on,
            `Closes: ${names.zone(zone)} (${zone})`,
            [
              `${names.task(by)} puts ${names.depth(depth)} and all behind it out of reach.`,
              ...(missing.length === 0 ? [] : [`Not in yet: ${missing.map(names.task).join(', ')}`]),
              ...(unsigned.length === 0
                ? []
                : [`Not signed yet: ${unsigned.map(({ name }) => name).join(', ')}`]),
              ...(undelivered.length === 0
                ? []
                : [`Not here yet: ${undelivered.map(({ name }) => name).join(', ')}`]),
            ],
          ),
        ],
  );
}

function orders(file: BuildFile, plan: Plan): CalendarEvent[] {
  return file.purchases.flatMap((purchase) => {
    const on = plan.purchases[purchase.key]?.orderBy ?? null;
    if (on === null || (purchase.state !== 'wanted' && purchase.state !== 'quoted')) return [];
    const words = [
      ...(purchase.supplier === '' ? [] : [`From ${purchase.supplier}`]),
      ...purchase.lines.map(({ name, quantity, unit }) => `- ${name}, ${quantity} ${unit}`),
    ];
    return [
      allDay(
        'order',
        purchase.key,
        `order.${purchase.key}`,
        on,
        `Order by today: ${purchaseName(purchase)}`,
        words,
      ),
    ];
  });
}

function decisions(file: BuildFile, plan: Plan): CalendarEvent[] {
  return file.decisions.flatMap((decision) => {
    const on = decision.chosen === null ? decideBy(decision, plan) : null;
    if (on === null) return [];
    const options = decision.options.map((option) => `- ${option}`);
    return [
      allDay(
        'decision',
        decision.key,
        `decision.${decision.key}`,
        on,
        `Decide by today: ${decision.question}`,
        options,
      ),
    ];
  });
}

function allDay(
  kind: EventKind,
  of: string,
  id: string,
  start: string,
  title: string,
  words: readonly string[],
): CalendarEvent {
  return { id, kind, of, start, end: dayText(dayNumber(start) + 1), title, words: words.join('\n') };
}
