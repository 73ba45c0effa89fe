/** Durations as people type them: "3 h 15", "3:15", "2.5 h", "45 min", "2 d". A bare number is hours. */
const FORMS: readonly (readonly [RegExp, (match: RegExpExecArray) => number])[] = [
  [/^(\d+)\s*:\s*([0-5]?\d)$/, ([, hours, minutes]) => Number(hours) * 60 + Number(minutes)],
  [/^(\d+)\s*h\s*(\d{1,2})(?:\s*m(?:in)?)?$/, ([, hours, minutes]) => Number(hours) * 60 + Number(minutes)],
  [/^(\d+(?:[.,]\d+)?)\s*(?:h|hours?)?$/, ([, hours]) => Math.round(decimal(hours!) * 60)],
  [/^(\d+)\s*m(?:in(?:utes?)?)?$/, ([, minutes]) => Number(minutes)],
  [/^(\d+(?:[.,]\d+)?)\s*d(?:ays?)?$/, ([, days]) => Math.round(decimal(days!) * 1440)],
  [/^(\d+)\s*d(?:ays?)?\s+(\d+)\s*h$/, ([, days, hours]) => Number(days) * 1440 + Number(hours) * 60],
];

/** Whole minutes, or null for what is not a duration. */
export function readDuration(text: string): number | null {
  const plain = text.replaceAll('\u2009', '').trim().toLowerCase();
  for (const [form, minutes] of FORMS) {
    const match = form.exec(plain);
    if (match !== null) return minutes(match);
  }
  return null;
}

function decimal(text: string): number {
  return Number(text.replace(',', '.'));
}
