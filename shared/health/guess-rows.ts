/** The checks of what is known: hours and their spread on every task, a price and a mass on every part. */
import { byKey } from '../contract/by-key.ts';
import type { BuildFile } from '../contract/build-file.ts';
import type { HealthRecord, HealthRow } from '../contract/plan-health.ts';
import type { Plan } from '../contract/plan.ts';
import type { Task } from '../contract/task.ts';
import { staying, withoutMass } from '../mass/lacking.ts';
import { unconfirmedPrices, withoutPrice } from '../purchases/without-price.ts';
import { counted, NONE, rowOf, taskRecord } from './row.ts';

export function guessRows(file: BuildFile, plan: Plan): HealthRow[] {
  const open = file.tasks.filter(({ state }) => state !== 'finished').toSorted(byKey);
  return [hours(open), spread(open), prices(file), confirmedPrices(file, plan), masses(file)];
}

/** What only waits (the office, the post) needs no hands. */
function hours(open: readonly Task[]): HealthRow {
  const found = open.filter(({ minutes, waitMinutes }) => minutes.likely === 0 && waitMinutes === 0);
  return rowOf({
    check: 'hours',
    group: 'guesses',
    name: 'Every task has hours',
    of: open.length,
    records: found.map((task) => taskRecord(task, 'no hours')),
    most: NONE,
    beyond: 'failed',
    sources: ['GAO-16-89G', 'DCMA-EA PAM 200.1'],
    none: 'Every task says how long it takes.',
    some: `${counted(found.length, 'task takes', 'tasks take')} no time at all: give ${found.length === 1 ? 'it' : 'them'} hours, or take ${found.length === 1 ? 'it' : 'them'} out.`,
  });
}

function spread(open: readonly Task[]): HealthRow {
  const guessed = open.filter(({ minutes }) => minutes.likely > 0);
  const found = guessed.filter(({ minutes: { low, high } }) => low === high);
  return rowOf({
    check: 'spread',
    group: 'guesses',
    name: 'Every guess of hours has a low and a high',
    of: guessed.length,
    records: found.map((task) => taskRecord(task, 'low and high are the same')),
    most: NONE,
    beyond: 'look',
    sources: ['GAO-16-89G', 'our choice'],
    none: 'Every guess of hours has a low and a high, so the odds can be worked out.',
    some: `${counted(found.length, 'task is', 'tasks are')} guessed as if nothing could go wrong or well: the odds count ${found.length === 1 ? 'it' : 'them'} as certain.`,
  });
}

function prices(file: BuildFile): HealthRow {
  const found = withoutPrice(file);
  return rowOf({
    check: 'prices',
    group: 'guesses',
    name: 'Every part has a price',
    of: boughtLines(file),
    records: found.map((line) => lineRecord(line, 'no price')),
    most: NONE,
    beyond: 'failed',
    sources: ['DCMA-EA PAM 200.1', 'our choice'],
    none: 'The money leaves nothing out for want of a price.',
    some: `${counted(found.length, 'part has', 'parts have')} no price, so the money is too low.`,
  });
}

function confirmedPrices(file: BuildFile, plan: Plan): HealthRow {
  const openOf = (key: string) => plan.money.purchases[key]?.open ?? 0;
  const found = unconfirmedPrices(file, openOf);
  const toPay = file.purchases.filter(({ key }) => openOf(key) > 0).flatMap(({ lines }) => lines).length;
  return rowOf({
    check: 'confirmed-prices',
    group: 'guesses',
    name: 'Prices still to pay are confirmed',
    of: toPay,
    records: found.map((line) => lineRecord(line, 'a guess so far')),
    most: NONE,
    beyond: 'look',
    sources: ['our choice'],
    none: 'Every price that is still to pay has been confirmed.',
    some: `${counted(found.length, 'price is', 'prices are')} a guess: nobody has asked for ${found.length === 1 ? 'it' : 'them'} yet.`,
  });
}

function masses(file: BuildFile): HealthRow {
  const found = withoutMass(file);
  return rowOf({
    check: 'masses',
    group: 'guesses',
    name: 'Every part that stays in the van has a mass',
    of: staying(file.purchases).length,
    records: found.map((line) => lineRecord(line, 'no mass')),
    most: NONE,
    beyond: 'look',
    sources: ['our choice'],
    none: 'The sum of the masses leaves nothing out.',
    some: `${counted(found.length, 'part that stays', 'parts that stay')} in the van ${found.length === 1 ? 'has' : 'have'} no mass: the van will weigh more than the sum says.`,
  });
}

function boughtLines({ purchases }: BuildFile): number {
  return purchases.filter(({ state }) => state !== 'returned').flatMap(({ lines }) => lines).length;
}

function lineRecord(
  { purchase, name }: { readonly purchase: string; readonly name: string },
  note: string,
): HealthRecord {
  return { noun: 'purchases', id: purchase, name, note };
}
