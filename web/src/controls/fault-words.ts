/** What is wrong with a change, in the words of the form instead of a pointer: "Hours, low is -1: it must be …". */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Edit } from '#shared/contract/changes.ts';
import { idOf, NOUNS, type AnyRecord, type NounName } from '#shared/contract/nouns.ts';
import { pointerSteps } from '#shared/contract/pointer.ts';
import type { FieldFault } from '#shared/errors.ts';
import { capital } from '../drawing/words.ts';
import { wordsOf } from './field-words.ts';
import { plainFault } from './plain-fault.ts';

/** As far as the words need it. */
type Made = Pick<Edit, 'noun' | 'id' | 'value'>;

const DAYS: Readonly<Record<string, string>> = {
  mon: 'Monday',
  tue: 'Tuesday',
  wed: 'Wednesday',
  thu: 'Thursday',
  fri: 'Friday',
  sat: 'Saturday',
  sun: 'Sunday',
};

/**
 * One sentence. @param edits the change: pointers lead into its one record, into one of several (`/edits/1/value/…`, as
 * the server says it), or into a record of the build that it spoils. @param after the build with the change made
 */
export function faultSentence(fault: FieldFault, edits: readonly Made[], after: BuildFile): string {
  const { record, noun, steps } = whereOf(fault.pointer, edits, after);
  const field = fieldName(noun, steps);
  const where = [record, field].filter((one) => one !== '').join(': ');
  return `${capital(where === '' ? 'it' : where)} ${plainFault(fault.detail)}.`;
}

/** The field by its names: "Hours, low", "Check 2, what". @param noun the list or field it stands in */
export function fieldName(noun: string, steps: readonly string[]): string {
  const parts: string[] = [];
  // The field "minutes" of a task is called as everywhere; only a frozen plan's is a plain number.
  let holder = noun === 'tasks' ? '' : noun;
  for (const step of steps) {
    const last = parts.length - 1;
    if (/^\d+$/.test(step) && last >= 0) parts[last] = `${single(parts[last]!)} ${Number(step) + 1}`;
    else {
      parts.push(DAYS[step] ?? wordsOf(holder, step).label);
      holder = step;
    }
  }
  return parts
    .map((part, i) =>
      i === 0 || Object.values(DAYS).includes(part.replace(/ \d+$/, '')) ? part : small(part),
    )
    .join(', ');
}

interface Where {
  /** The record by its name, where it is not the one at hand; '' where it is. */
  readonly record: string;
  readonly noun: string;
  readonly steps: readonly string[];
}

function whereOf(at: string, edits: readonly Made[], after: BuildFile): Where {
  const steps = pointerSteps(at);
  const [first = '', second = ''] = steps;
  if (first === 'edits' && edits[Number(second)] !== undefined) {
    const { noun, id, value } = edits[Number(second)]!;
    const record = edits.length > 1 && noun !== 'build' ? nameOf(noun, id, value) : '';
    return { record, noun, steps: steps.slice(3) };
  }
  const own = edits[0]?.noun ?? 'build';
  const isOther = first in NOUNS && steps.length > 1 && !(first in (edits[0]?.value ?? {}));
  if (!isOther) return { record: '', noun: own, steps };
  const noun = first as NounName;
  const list: readonly AnyRecord[] = after[noun];
  const record = /^\d+$/.test(second) ? list[Number(second)] : list.find((one) => idOf(noun, one) === second);
  return {
    record: record === undefined ? NOUNS[noun].one : nameOf(noun, idOf(noun, record) ?? second, record),
    noun,
    steps: steps.slice(2),
  };
}

function nameOf(noun: NounName, id: string, record: object | null): string {
  const { name, question } = (record ?? {}) as { name?: string; question?: string };
  return `${NOUNS[noun].one} “${name || question || id}”`;
}

/** "Checks" → "Check", "Tries" → "Try"; words of several parts stay. */
function single(label: string): string {
  if (/\s/.test(label)) return label;
  return label.replace(/ies$/, 'y').replace(/([^s])s$/, '$1');
}

function small(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
