/** The client's clock: this moment to the minute, local and without a zone. */

/** How often it is looked at; what follows from it is computed anew when the minute changes. */
const TICK_MS = 15_000;

export class Clock {
  now = $state(nowText());
  #ticking: ReturnType<typeof setInterval> | undefined;

  start(): void {
    this.look();
    this.#ticking = setInterval(() => {
      if (!document.hidden) this.look();
    }, TICK_MS);
  }

  stop(): void {
    clearInterval(this.#ticking);
  }

  look(): void {
    this.now = nowText();
  }
}

/** This moment, local: the client's only look at the clock. */
export function nowText(): string {
  const now = new Date();
  const two = (value: number) => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}T${two(now.getHours())}:${two(now.getMinutes())}`;
}
