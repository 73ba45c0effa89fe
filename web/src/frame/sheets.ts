/** The sheets of a build: the words of navigation, and the component behind each, fetched when first looked at. */
import type { Component } from 'svelte';

export interface Sheet {
  /** Its word in the address. */
  readonly view: string;
  readonly name: string;
  /** In the words on top; the others stand under More. */
  readonly main: boolean;
  readonly load: () => Promise<{ readonly default: Component }>;
}

export const SHEETS: readonly Sheet[] = [
  { view: 'today', name: 'Today', main: true, load: () => import('../views/today/Today.svelte') },
  { view: 'shell', name: 'Shell', main: true, load: () => import('../views/shell/Shell.svelte') },
  { view: 'sequence', name: 'Sequence', main: true, load: () => import('../views/sequence/Sequence.svelte') },
  { view: 'schedule', name: 'Schedule', main: true, load: () => import('../views/schedule/Schedule.svelte') },
  {
    view: 'purchases',
    name: 'Purchases',
    main: true,
    load: () => import('../views/purchases/Purchases.svelte'),
  },
  { view: 'money', name: 'Money', main: true, load: () => import('../views/money/Money.svelte') },
  { view: 'hours', name: 'Hours', main: true, load: () => import('../views/hours/Hours.svelte') },
  { view: 'mass', name: 'Mass', main: false, load: () => import('../views/mass/Mass.svelte') },
  { view: 'records', name: 'Records', main: false, load: () => import('../views/records/Records.svelte') },
  {
    view: 'decisions',
    name: 'Decisions',
    main: false,
    load: () => import('../views/decisions/Decisions.svelte'),
  },
  { view: 'odds', name: 'Odds', main: false, load: () => import('../views/odds/Odds.svelte') },
  { view: 'what-if', name: 'What-if', main: false, load: () => import('../views/whatif/WhatIf.svelte') },
  { view: 'drift', name: 'Drift', main: false, load: () => import('../views/drift/Drift.svelte') },
  { view: 'levers', name: 'Levers', main: false, load: () => import('../views/levers/Levers.svelte') },
  { view: 'health', name: 'Health', main: false, load: () => import('../views/health/Health.svelte') },
  { view: 'trade', name: 'Trade check', main: false, load: () => import('../views/trade/Trade.svelte') },
  { view: 'history', name: 'History', main: false, load: () => import('../views/history/History.svelte') },
  {
    view: 'exchange',
    name: 'In and out',
    main: false,
    load: () => import('../views/exchange/Exchange.svelte'),
  },
  {
    view: 'settings',
    name: 'Settings',
    main: false,
    load: () => import('../views/settings/Settings.svelte'),
  },
];

/** Sheets that are reached from others. */
export const INNER: readonly Sheet[] = [
  { view: 'task', name: 'Task', main: false, load: () => import('../views/task/TaskPage.svelte') },
  { view: 'start', name: 'Your plan', main: false, load: () => import('../views/start/Start.svelte') },
  { view: 'where', name: 'Where are you?', main: false, load: () => import('../views/where/Where.svelte') },
  { view: 'print', name: 'Print', main: false, load: () => import('../views/print/Print.svelte') },
  { view: 'more', name: 'More', main: false, load: () => import('../views/more/More.svelte') },
];

/** Before there is a build: the questions that make one. */
export const STARTER: Sheet = {
  view: 'starter',
  name: 'The questions',
  main: false,
  load: () => import('../views/starter/Starter.svelte'),
};

export function sheetOf(view: string): Sheet | null {
  return [...SHEETS, ...INNER].find((sheet) => sheet.view === view) ?? null;
}
