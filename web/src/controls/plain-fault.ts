/**
 * The detail of a fault as a reader of a form says it: times and days in words, amounts without their minor units. What
 * is counted in minutes, cents or grams in the file was never typed like that, so its number is left out.
 */
import { dayWords, duration, instantWords } from '../drawing/words.ts';

type Rule = readonly [form: RegExp, words: string | ((...parts: string[]) => string)];

const RULES: readonly Rule[] = [
  [/^is no finite number: it must be/, 'cannot be read as it is typed: it must be'],
  [/^is "": it must be a key:.*/, 'is not chosen yet'],
  [/^is "": it must be one line of text.*/, 'is empty'],
  [/^is "":/, 'is empty:'],
  [/^is null\b/, 'is empty'],
  [
    /^\d+ is (more|less) than likely \((\d+)\): it must be \d+ or/,
    (how, likely) => `is ${how} than the likely: it must be ${duration(Number(likely))} or`,
  ],
  [
    /^is \d+, (more|less) than the (high|unit|low) price:.*/,
    (how, which) => `is ${how} than the ${which} price`,
  ],
  [/less than leadDays:/, 'less than the usual:'],
  [
    /^brings (\S+) to (\d+) minutes on (\S+): a day has 1440$/,
    (who, minutes, day) => `makes it ${duration(Number(minutes))} for ${who} on ${day}: a day has 24 h`,
  ],
  [
    /^is -?\d+: it must be a whole number of (minor units|minutes|person-minutes|grams)/,
    (of) => `must be a whole number of ${of}`,
  ],
  [/a whole number of minor units \(cents\)/, 'an amount'],
  [
    /a whole number of (?:person-)?minutes from ([\d ]+?) to ([\d ]+\d)(?: \([^)]*\))?/,
    (low, high) => `a time such as 3 h 15, from ${timeOf(low)} to ${timeOf(high)}`,
  ],
  [/a whole number of (?:person-)?minutes/, 'a time such as 3 h 15'],
  [/a whole number of grams from 0 to 100 000 000/, 'a mass from 0 to 100 000 kg'],
  [/a whole number of grams/, 'a mass in kg'],
  [/must be (?:how [^,]+|a bay from the front), a whole/, 'must be a whole'],
  [/, written [^,;()]+/, ''],
  [/, or null\b/, ', or empty'],
];

const YEAR = 527_040;

function timeOf(digits: string): string {
  const minutes = Number(digits.replaceAll(' ', ''));
  return minutes === 0 ? '0' : minutes === YEAR ? 'a year' : duration(minutes);
}

const INSTANT = /"?\b(\d{4}-\d\d-\d\d)T(\d\d:\d\d)\b"?/g;
const DAY = /"?\b(\d{4}-\d\d-\d\d)\b"?/g;

/** @param detail continues the name of a field: "is 99: it must be …" */
export function plainFault(detail: string): string {
  const told = RULES.reduce(
    (text, [form, words]) =>
      text.replace(form, (_all: string, ...parts: string[]) =>
        typeof words === 'string' ? words : words(...parts),
      ),
    detail,
  );
  return told
    .replace(INSTANT, (_all, day: string, time: string) =>
      safely(() => instantWords(`${day}T${time}`, ''), `${day} ${time}`),
    )
    .replace(DAY, (_all, day: string) => safely(() => dayWords(day, ''), day));
}

/** What was typed may be no day of the calendar. */
function safely(words: () => string, otherwise: string): string {
  try {
    return words();
  } catch {
    return otherwise;
  }
}
