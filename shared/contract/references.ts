/**
 * What fields say about each other: keys unique in their list, references that lead somewhere, days in order,
 * a state that agrees with its dates. The schema has already vouched for each field by itself.
 */
import type { FieldFault } from '../errors.ts';
import type { BuildFile } from './build-file.ts';
import { logFaults } from './references-log.ts';
import { purchaseFaults } from './references-purchases.ts';
import { taskFaults } from './references-tasks.ts';
import { Checker, type Keys } from './checker.ts';

/** Every fault, in the order of the document; empty when all is well. */
export function referenceFaults(file: BuildFile): FieldFault[] {
  const check = new Checker();
  const keys: Keys = {
    people: check.unique('people', file.people),
    tools: check.unique('tools', file.tools),
    conditions: check.unique('conditions', file.conditions),
    depths: check.unique('depths', file.depths),
    zones: check.unique('zones', file.zones),
    zoneGroups: check.unique('zoneGroups', file.zoneGroups),
    phases: check.unique('phases', file.phases),
    tasks: check.unique('tasks', file.tasks),
    purchases: check.unique('purchases', file.purchases),
    decisions: check.unique('decisions', file.decisions),
    baselines: check.unique('baselines', file.baselines),
  };
  check.unique('hours', file.hours);
  check.unique('timers', file.timers);
  check.unique('records', file.records);
  check.unique('weighings', file.weighings);
  check.unique('dismissals', file.dismissals);
  headFaults(file, check);
  calendarFaults(file, check);
  shellFaults(file, keys, check);
  taskFaults(file, keys, check);
  purchaseFaults(file, keys, check);
  logFaults(file, keys, check);
  return check.faults;
}

function headFaults({ build }: BuildFile, check: Checker): void {
  check.order(['build', 'targetFinishOn'], build.startOn, build.targetFinishOn, 'the build starts');
  check.order(['build', 'asOf'], build.startOn, build.asOf, 'the build starts');
}

function calendarFaults(file: BuildFile, check: Checker): void {
  const ranges = (list: readonly { from: string; to: string }[], ...at: (string | number)[]) =>
    list.forEach((range, i) => check.order([...at, i, 'to'], range.from, range.to, 'the range starts'));
  file.people.forEach((person, i) => ranges(person.exceptions, 'people', i, 'exceptions'));
  file.tools.forEach((tool, i) => ranges(tool.only, 'tools', i, 'only'));
  file.conditions.forEach((condition, i) => {
    ranges(condition.not, 'conditions', i, 'not');
    check.once(
      condition.overrides.map((override) => override.on),
      'day',
      'conditions',
      i,
      'overrides',
    );
  });
}

function shellFaults(file: BuildFile, keys: Keys, check: Checker): void {
  file.zones.forEach((zone, i) => {
    check.all(zone.depths, keys.depths, 'depth', 'zones', i, 'depths');
    check.once(zone.depths, 'depth', 'zones', i, 'depths');
  });
  file.zoneGroups.forEach((group, i) => {
    check.all(group.zones, keys.zones, 'zone', 'zoneGroups', i, 'zones');
    check.once(group.zones, 'zone', 'zoneGroups', i, 'zones');
  });
}
