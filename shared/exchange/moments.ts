/** Days and moments as tables write them. A day that could be two is refused: 03/04/2027 is March to one, April to another. */
import { isInstant } from '../contract/formats.ts';
import { isDay } from '../time/days.ts';

/** `2027-03-13`, or null. */
export function readDay(text: string): string | null {
  const plain = text.trim();
  const iso = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(plain);
  if (iso !== null) return dayFrom(iso[1]!, iso[2]!, iso[3]!);
  const dotted = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/.exec(plain);
  if (dotted !== null) return dayFrom(dotted[3]!, dotted[2]!, dotted[1]!);
  const slashed = /^(\d{1,2})[/-](\d{1,2})[/-](\d{4})$/.exec(plain);
  if (slashed === null) return null;
  const [first, second, year] = [slashed[1]!, slashed[2]!, slashed[3]!];
  if (Number(first) > 12 || first === second) return dayFrom(year, second, first);
  return Number(second) > 12 ? dayFrom(year, first, second) : null;
}

function dayFrom(year: string, month: string, day: string): string | null {
  const text = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  return isDay(text) ? text : null;
}

/** `2027-03-13T18:30`, also with a space between or with seconds of nought, or null. */
export function readMoment(text: string): string | null {
  const found = /^(\S+?)(?:T|\s+)(\d{1,2}):(\d{2})(?::00)?$/.exec(text.trim());
  const day = found === null ? null : readDay(found[1]!);
  if (found === null || day === null) return null;
  const moment = `${day}T${found[2]!.padStart(2, '0')}:${found[3]!}`;
  return isInstant(moment) ? moment : null;
}
