/** Who converts Wagtail, and when: two evenings and Saturdays, with holidays, markets and races taken out. Invented. */
import { dayNumber, dayText } from '../time/days.ts';
import type { CalendarException, Person, Tool } from '../contract/calendar.ts';

const EVENING = ['18:30-21:00'];
const SATURDAY = ['09:00-12:30', '13:30-17:00'];
const FREE_DAY = ['09:00-12:30', '13:30-18:00'];

function week(parts: Partial<Person['week']>): Person['week'] {
  return { mon: [], tue: [], wed: [], thu: [], fri: [], sat: [], sun: [], ...parts };
}

function away(from: string, to: string, why: string): CalendarException {
  return { from, to, windows: [], why };
}

function free(from: string, to: string, why: string): CalendarException {
  return { from, to, windows: FREE_DAY, why };
}

const BOTH_AWAY = [
  away('2026-08-08', '2026-08-23', 'away'),
  away('2026-12-24', '2027-01-03', 'holidays'),
  away('2027-03-26', '2027-03-29', 'Easter'),
  away('2027-07-31', '2027-08-15', 'away'),
  away('2027-12-24', '2028-01-02', 'holidays'),
  away('2028-04-14', '2028-04-17', 'Easter'),
];

const BOTH_FREE = [
  free('2026-08-24', '2026-08-29', 'a free week for the van'),
  free('2026-10-12', '2026-10-17', 'a free week for the van'),
  free('2027-10-11', '2027-10-16', 'a free week for the van'),
];

/** Pottery markets on the second Saturday of a month, spring to December. */
const MARKETS = [
  '2026-06-13',
  '2026-07-11',
  '2026-09-12',
  '2026-11-14',
  '2026-12-12',
  '2027-03-13',
  '2027-04-10',
  '2027-05-08',
  '2027-06-12',
  '2027-07-10',
  '2027-09-11',
  '2027-11-13',
  '2027-12-11',
  '2028-03-11',
  '2028-04-08',
  '2028-05-13',
].map((day) => away(day, day, 'pottery market'));

/** Trail races in winter. */
const RACES = [
  '2026-11-21',
  '2026-12-05',
  '2027-01-16',
  '2027-02-06',
  '2027-02-27',
  '2027-11-20',
  '2027-12-04',
  '2028-01-15',
  '2028-02-05',
  '2028-02-26',
].map((day) => away(day, day, 'trail race'));

/** Every second Sunday, half a day, from the second one on. */
function sundays(from: string, to: string, taken: readonly CalendarException[]): CalendarException[] {
  const days: CalendarException[] = [];
  for (let day = dayNumber(from); day <= dayNumber(to); day += 14) {
    const text = dayText(day);
    if (taken.some((exception) => exception.from <= text && text <= exception.to)) continue;
    days.push({ from: text, to: text, windows: ['09:30-13:30'], why: 'every second Sunday' });
  }
  return days;
}

const SUNDAYS = sundays('2026-06-14', '2028-12-31', BOTH_AWAY);

export const PEOPLE: readonly Person[] = [
  {
    key: 'ines',
    name: 'Ines',
    sharedAs: null,
    byNameOnly: false,
    rate: 0,
    week: week({ tue: EVENING, thu: EVENING, sat: SATURDAY }),
    exceptions: [...BOTH_AWAY, ...BOTH_FREE, ...SUNDAYS, ...MARKETS],
  },
  {
    key: 'tor',
    name: 'Tor',
    sharedAs: null,
    byNameOnly: false,
    rate: 0,
    week: week({ tue: EVENING, thu: EVENING, sat: SATURDAY }),
    exceptions: [...BOTH_AWAY, ...BOTH_FREE, ...SUNDAYS, ...RACES],
  },
  {
    key: 'electrician',
    name: 'the electrician',
    sharedAs: null,
    byNameOnly: true,
    rate: 0,
    week: week({ fri: ['14:00-18:00'], sat: ['09:00-12:00'] }),
    exceptions: [away('2026-12-19', '2027-01-06', 'closed'), away('2027-12-18', '2028-01-06', 'closed')],
  },
];

export const TOOLS: readonly Tool[] = [
  { key: 'track-saw', name: 'track saw', only: [] },
  { key: 'insert-tool', name: 'threaded-insert tool', only: [] },
];
