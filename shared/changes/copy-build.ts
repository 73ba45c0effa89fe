/**
 * A build once more under another name: whole, or as a template, which keeps how a van is built and drops what happened
 * to this one: hours, records, dates, deliveries, answers. Running timers stay with the first in both: a person has one.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Purchase } from '../contract/purchase.ts';
import { notBegun } from './not-begun.ts';

export interface Copy {
  readonly name: string;
  /** The first day of a template, `2027-03-13`; a whole copy keeps its own. */
  readonly startOn: string;
  readonly as: 'whole' | 'template';
}

export function copyBuild(file: BuildFile, { name, startOn, as }: Copy): BuildFile {
  const whole: BuildFile = { ...file, build: { ...file.build, name }, timers: [] };
  return as === 'whole' ? whole : template(whole, startOn);
}

function template(file: BuildFile, startOn: string): BuildFile {
  return {
    ...file,
    build: { ...file.build, startOn, targetFinishOn: null, asOf: null, moneyIn: [] },
    // What was lent or ruled out for some days of the old calendar says nothing of the new one.
    tools: file.tools.map((tool) => ({ ...tool, only: [] })),
    conditions: file.conditions.map((condition) => ({ ...condition, not: [], overrides: [] })),
    tasks: file.tasks.map((task) => notBegun(task)),
    decisions: file.decisions.map((decision) => ({ ...decision, chosen: null, putOff: 0 })),
    purchases: file.purchases.map(wanted),
    hours: [],
    records: [],
    weighings: [],
    baselines: [],
    order: [],
  };
}

/** To be bought again: what it is, what it cost and how long it took stay. */
export function wanted(purchase: Purchase): Purchase {
  return {
    ...purchase,
    state: 'wanted',
    orderedOn: null,
    promisedOn: null,
    quotes: [],
    deliveries: [],
    returns: [],
    payments: [],
    receipts: [],
    // A new piece has a number of its own.
    lines: purchase.lines.map((line) => ({ ...line, serial: null })),
  };
}
