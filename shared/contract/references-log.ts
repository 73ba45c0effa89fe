/** Hours, timers, records, decisions and baselines: references that lead somewhere, days in order. */
import type { BuildFile } from './build-file.ts';
import type { Checker, Keys } from './checker.ts';

export function logFaults(file: BuildFile, keys: Keys, check: Checker): void {
  hourFaults(file, keys, check);
  timerFaults(file, keys, check);
  const zones = new Map(file.zones.map((zone) => [zone.key, new Set(zone.depths)]));
  file.records.forEach(({ zone, depth, task }, i) => {
    check.one(zone, keys.zones, 'zone', 'records', i, 'zone');
    const depths = zones.get(zone);
    if (depths !== undefined) check.one(depth, depths, `depth in ${zone} called`, 'records', i, 'depth');
    check.one(task, keys.tasks, 'task', 'records', i, 'task');
  });
  file.decisions.forEach((decision, i) => {
    const at = ['decisions', i];
    check.once(decision.options, 'option', ...at, 'options');
    check.one(decision.chosen, new Set(decision.options), 'option', ...at, 'chosen');
    check.one(decision.by, keys.people, 'person', ...at, 'by');
    check.all(decision.locksTasks, keys.tasks, 'task', ...at, 'locksTasks');
    check.all(decision.locksPurchases, keys.purchases, 'purchase', ...at, 'locksPurchases');
  });
  file.baselines.forEach((baseline, i) => {
    for (const [task, { start, finish }] of Object.entries(baseline.tasks))
      check.order(['baselines', i, 'tasks', task, 'finish'], start, finish, 'it starts');
  });
}

/** A person has 24 hours a day. */
function hourFaults(file: BuildFile, keys: Keys, check: Checker): void {
  const worked = new Map<string, number>();
  file.hours.forEach(({ task, phase, person, on, minutes }, i) => {
    check.one(task, keys.tasks, 'task', 'hours', i, 'task');
    check.one(phase, keys.phases, 'phase', 'hours', i, 'phase');
    check.one(person, keys.people, 'person', 'hours', i, 'person');
    const id = `${person} ${on}`;
    const total = (worked.get(id) ?? 0) + minutes;
    worked.set(id, total);
    if (total > 1440 && total - minutes <= 1440)
      check.fault(['hours', i, 'minutes'], `brings ${person} to ${total} minutes on ${on}: a day has 1440`);
  });
}

/** Nobody works at two things at once. */
function timerFaults(file: BuildFile, keys: Keys, check: Checker): void {
  const running = new Map<string, number>();
  file.timers.forEach(({ task, phase, person }, i) => {
    check.one(task, keys.tasks, 'task', 'timers', i, 'task');
    check.one(phase, keys.phases, 'phase', 'timers', i, 'phase');
    check.one(person, keys.people, 'person', 'timers', i, 'person');
    const first = running.get(person);
    if (first === undefined) running.set(person, i);
    else
      check.fault(
        ['timers', i, 'person'],
        `"${person}" has a timer running already (/timers/${first}): stop that one first`,
      );
  });
}
