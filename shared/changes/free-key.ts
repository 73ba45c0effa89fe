/** Keys for what is copied or split: the wanted one, else with the first number that is free. */

/** No key is longer than this before its number: 80 characters are the most. */
const LONGEST = 72;

/** @param wanted letters, digits, dots, dashes and underscores */
export function numbered(wanted: string, taken: { has: (key: string) => boolean }): string {
  const short = wanted.slice(0, LONGEST);
  if (!taken.has(short)) return short;
  let n = 2;
  while (taken.has(`${short}-${n}`)) n++;
  return `${short}-${n}`;
}
