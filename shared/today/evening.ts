/**
 * The hours at hand with what is taken of them: who is at what from when to when, counted in minutes from the beginning
 * of the evening, and what is in each room. Pieces are put in and taken out again, last in first out.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Task } from '../contract/task.ts';
import { LEAST_PIECE } from './ask.ts';
import type { Ranked } from './rank.ts';

export interface Piece {
  readonly task: Task;
  /** Minutes from the beginning of the evening. */
  readonly from: number;
  readonly to: number;
  readonly people: readonly string[];
  /** It is finished with this piece. */
  readonly finishes: boolean;
}

/** In its rooms longer than it is worked on: what is cut stays, what hardens may. */
interface Inside {
  readonly task: Task;
  readonly from: number;
  readonly to: number;
}

/** A zone, or zones that share room. */
interface Room {
  readonly isZone: boolean;
  readonly zones: readonly string[];
  readonly capacity: number;
}

const ALWAYS = Infinity;

export class Evening {
  readonly hours: number;
  /** Nothing new begins before: minutes of the evening that have gone by. */
  readonly now: number;
  readonly #rooms: readonly Room[];
  readonly #known = new Map<Task, readonly Room[]>();
  /** Under way: in its own zones till it is finished. */
  readonly #begun: readonly Task[];
  /** Hardening, and till when it bars its zones. */
  readonly #hardening: readonly Inside[];
  readonly #pieces: Piece[] = [];

  /** @param begun what is under way and in its rooms. @param hardening with when it lets go of them */
  constructor(
    file: Pick<BuildFile, 'zones' | 'zoneGroups'>,
    hours: number,
    now: number,
    begun: readonly Task[],
    hardening: readonly Inside[],
  ) {
    this.#rooms = [
      ...file.zones.map(({ key, capacity }) => ({ isZone: true, zones: [key], capacity })),
      ...file.zoneGroups.map(({ zones, capacity }) => ({ isZone: false, zones, capacity })),
    ];
    this.hours = hours;
    this.now = now;
    this.#begun = begun;
    this.#hardening = hardening;
  }

  get pieces(): readonly Piece[] {
    return this.#pieces;
  }

  push(piece: Piece): void {
    this.#pieces.push(piece);
  }

  pop(): void {
    this.#pieces.pop();
  }

  /** The whole task at the first moment at which its people, tools and rooms are free; null where it does not fit. */
  whole(one: Ranked): Piece | null {
    const { task, minutes, mayFinish } = one;
    if (!mayFinish) return null;
    for (const from of this.#moments()) {
      if (from + minutes > this.hours) return null;
      const piece = this.#fitted(one, from, from + minutes, true);
      if (piece !== null) return piece;
      if (minutes === 0 && task.places.length === 0) return null;
    }
    return null;
  }

  /** As much of it as fits from some moment to the end of the evening: of all such pieces the longest. */
  part(one: Ranked): Piece | null {
    const { minutes, least, mayFinish } = one;
    for (const from of this.#moments()) {
      const most = mayFinish ? minutes - 1 : minutes - LEFT;
      const length = Math.min(this.hours - from, most);
      if (length < least || length <= 0) return null;
      const piece = this.#fitted(one, from, from + length, false);
      if (piece !== null) return piece;
    }
    return null;
  }

  /** When something may begin: now, and whenever a person, tool or room comes free. */
  #moments(): number[] {
    const ends = [...this.#pieces, ...this.#hardening].map((one) => Math.max(this.now, one.to));
    return [...new Set([this.now, ...ends])].filter((end) => end <= this.hours).sort((a, b) => a - b);
  }

  #fitted({ task, people, minutes }: Ranked, from: number, to: number, finishes: boolean): Piece | null {
    const during = this.#pieces.filter((other) => other.from < to && from < other.to);
    if (during.some((other) => other.task.tools.some((tool) => task.tools.includes(tool)))) return null;
    const free = people.filter((key) => !during.some((other) => other.people.includes(key)));
    const need = minutes === 0 ? 0 : task.people;
    if (free.length < need || !this.#hasRoom(task, from, finishes ? Math.max(to, from + 1) : ALWAYS))
      return null;
    return { task, from, to, people: free.slice(0, need).sort(), finishes };
  }

  #hasRoom(task: Task, from: number, to: number): boolean {
    const rooms = this.#roomsOf(task);
    if (rooms.length === 0) return true;
    const end = task.waitHoldsZones && to !== ALWAYS ? to + task.waitMinutes : to;
    const working = [...this.#pieces.map(staying), ...this.#hardening];
    const own = this.#withBegun(working);
    return rooms.every((room) => {
      // What is under way is in its own zones already.
      if (room.isZone && task.state === 'started') return true;
      const others = (room.isZone ? own : working).filter(
        (one) =>
          one.task !== task && one.from < end && from < one.to && this.#roomsOf(one.task).includes(room),
      );
      if (others.length < room.capacity) return true;
      // As many as ever are in there at once: at its own start, or when one of them comes in.
      return [from, ...others.map((one) => Math.max(from, one.from))].every(
        (at) => others.filter((one) => one.from <= at && at < one.to).length < room.capacity,
      );
    });
  }

  /** Its zones and their groups, each once. */
  #roomsOf(task: Task): readonly Room[] {
    let rooms = this.#known.get(task);
    if (rooms === undefined) {
      rooms = this.#rooms.filter(({ zones }) => task.places.some(({ zone }) => zones.includes(zone)));
      this.#known.set(task, rooms);
    }
    return rooms;
  }

  /** With what is under way and is not worked on before it is finished. */
  #withBegun(working: readonly Inside[]): readonly Inside[] {
    const leaves = new Map(working.map((one) => [one.task, one.to]));
    const begun = this.#begun.map((task) => ({ task, from: -ALWAYS, to: leaves.get(task) ?? ALWAYS }));
    return [...begun, ...working.filter(({ task }) => task.state !== 'started')];
  }
}

/** Of what may not be finished yet so much is left for another day. */
const LEFT = LEAST_PIECE;

/** How long a piece keeps its rooms: what is cut to the end and beyond. */
function staying({ task, from, to, finishes }: Piece): Inside {
  return { task, from, to: !finishes ? ALWAYS : task.waitHoldsZones ? to + task.waitMinutes : to };
}
