/**
 * Who does the work: whoever builds, the licensed trades this van needs, and for somebody alone a helping hand on the
 * long days. Trades and the helping hand do only what names them.
 */
import type { Person } from '../contract/calendar.ts';
import { keyGiver } from '../contract/new-key.ts';
import type { StarterHead } from './answers.ts';
import type { CatalogueTask } from './catalogue.ts';
import type { Facts } from './facts.ts';

type Week = Person['week'];

export interface Crew {
  readonly people: readonly Person[];
  /** The people who may do a task; empty: any of the builders. */
  readonly whoFor: (entry: CatalogueTask) => string[];
}

/** A Friday afternoon or a Saturday morning. Invented. */
const TRADE_WEEK: Week = {
  mon: [],
  tue: [],
  wed: [],
  thu: [],
  fri: ['14:00-18:00'],
  sat: ['09:00-12:00'],
  sun: [],
};
/** Minutes of windows from which a day is worth asking somebody to come. */
const LONG_DAY = 240;

export function crewFor({ people }: StarterHead, facts: Facts): Crew {
  const keyFor = keyGiver([]);
  const person = (name: string, week: Week, byNameOnly: boolean): Person => ({
    key: keyFor(name),
    name,
    sharedAs: null,
    byNameOnly,
    rate: 0,
    week,
    exceptions: [],
  });
  const builders = people.map(({ name, week }) => person(name, week, false));
  const [first] = builders as [Person];
  const helper = builders.length === 1 ? person('a helping hand', longDays(first.week), true) : null;
  const electrician = facts.mainsAboard ? person('the electrician', TRADE_WEEK, true) : null;
  const fitter = facts.gas ? person('the gas fitter', TRADE_WEEK, true) : null;
  return {
    people: [...builders, helper, electrician, fitter].filter((one) => one !== null),
    whoFor({ who, people: hands }) {
      if (who === 'licensed' && electrician !== null) return [electrician.key];
      if (who === 'licensed gas fitter' && fitter !== null) return [fitter.key];
      return helper !== null && hands > 1 ? [first.key, helper.key] : [];
    },
  };
}

/** The long days of a week; all of it where none is long. */
function longDays(week: Week): Week {
  const long = Object.entries(week).filter(([, windows]) => minutesOf(windows) >= LONG_DAY);
  if (long.length === 0) return week;
  return Object.fromEntries(
    Object.entries(week).map(([day, windows]) => [day, minutesOf(windows) >= LONG_DAY ? windows : []]),
  ) as Week;
}

function minutesOf(windows: readonly string[]): number {
  const minute = (clock: string) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  return windows.reduce((sum, window) => sum + minute(window.slice(6)) - minute(window.slice(0, 5)), 0);
}
