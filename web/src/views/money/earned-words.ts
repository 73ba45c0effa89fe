/** The figures of earned value, each with the sentence that says what it means; in hours or in money. */
import type { EarnedFigures } from '#shared/contract/plan-money.ts';

export interface EarnedRow {
  readonly code: string;
  readonly name: string;
  /** In hours, in money. */
  readonly figures: readonly [string, string];
  readonly says: string;
}

interface Units {
  readonly hours: (minutes: number) => string;
  readonly money: (minor: number) => string;
}

const NONE = 'no figure yet';

export function earnedRows(hours: EarnedFigures, money: EarnedFigures, units: Units): EarnedRow[] {
  const amount = (of: 'bac' | 'pv' | 'ev' | 'ac' | 'sv' | 'cv' | 'eac' | 'vac'): [string, string] => [
    hours[of] === null ? NONE : units.hours(hours[of]),
    money[of] === null ? NONE : units.money(money[of]),
  ];
  const index = (of: 'spi' | 'cpi' | 'tcpi'): [string, string] => [plain(hours[of]), plain(money[of])];
  return [
    {
      code: 'BAC',
      name: 'budget at completion',
      figures: amount('bac'),
      says: 'What the frozen plan comes to in all.',
    },
    { code: 'PV', name: 'planned value', figures: amount('pv'), says: 'What of it should be done by today.' },
    {
      code: 'EV',
      name: 'earned value',
      figures: amount('ev'),
      says: 'What of it is done, at what the plan gave it.',
    },
    {
      code: 'AC',
      name: 'actual cost',
      figures: amount('ac'),
      says: 'What was logged, or paid less refunds, so far.',
    },
    {
      code: 'SV',
      name: 'schedule variance',
      figures: amount('sv'),
      says: 'Done less planned: below nothing is behind.',
    },
    {
      code: 'CV',
      name: 'cost variance',
      figures: amount('cv'),
      says: 'Done less spent: below nothing is dearer than planned.',
    },
    {
      code: 'SPI',
      name: 'schedule index',
      figures: index('spi'),
      says: 'Done for each unit planned: below 1 is behind.',
    },
    {
      code: 'CPI',
      name: 'cost index',
      figures: index('cpi'),
      says: 'Done for each unit spent: below 1 is dearer than planned.',
    },
    {
      code: 'EAC',
      name: 'estimate at completion',
      figures: amount('eac'),
      says: 'What it comes to in all if the rest costs as the work so far did.',
    },
    {
      code: 'VAC',
      name: 'variance at completion',
      figures: amount('vac'),
      says: 'The frozen plan less that: below nothing is over.',
    },
    {
      code: 'TCPI',
      name: 'index to complete',
      figures: index('tcpi'),
      says: 'The cost index the rest must keep to end on the frozen plan.',
    },
  ];
}

function plain(value: number | null): string {
  return value === null ? NONE : value.toFixed(2);
}
