/** The only look at the clock of the server and its commands. */

/** This moment as an ISO instant with its zone: when something was written down. */
export function stampText(): string {
  return new Date().toISOString();
}

/** This moment as a local instant, `2027-03-13T18:30`. */
export function nowText(): string {
  return localText(new Date());
}

/** The local day of an ISO instant with its zone: on which day something was written down. */
export function localDay(stamp: string): string {
  return localText(new Date(stamp)).slice(0, 10);
}

function localText(now: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}T${two(now.getHours())}:${two(now.getMinutes())}`;
}
