/**
 * One set for the evening. Ready tasks are taken in the order of their rank, each whole where it fits, else cut where
 * that leaves at least its shortest sitting, else left out; of all evenings found that way the one that gives most
 * person-minutes to the best class, then to the second, and so on, then the one that leaves least unfinished. Branch
 * and bound: an evening is given up when filling all that is left of it with the best of what is left would not do.
 * What is found first stands, so the rank decides between equals. Bounded in tasks looked at and in evenings tried.
 */
import { Evening, type Piece } from './evening.ts';
import type { Ranked } from './rank.ts';

/** Of more ready tasks only the best by rank are thought of: more than ever fit an evening. */
const MOST_TASKS = 48;
const MOST_TRIES = 2000;

export interface Composed {
  readonly pieces: readonly Piece[];
  /** Every evening that can be found this way was ruled out or tried. */
  readonly exact: boolean;
}

/** @param evening with what is running in it; left as it was. @param ranked best first, without what is running */
export function compose(evening: Evening, people: number, ranked: readonly Ranked[]): Composed {
  const search = new Search(evening, people, ranked.slice(0, MOST_TASKS));
  search.from(0);
  return {
    pieces: search.best,
    exact: search.tries <= MOST_TRIES && ranked.length <= MOST_TASKS,
  };
}

class Search {
  best: readonly Piece[] = [];
  tries = 0;
  readonly #evening: Evening;
  readonly #ranked: readonly Ranked[];
  /** Person-minutes by class, of the evening at hand and of the best one; −1 before there is one. */
  readonly #given: number[];
  #bestGiven: number[];
  #cut = 0;
  #bestCut = Infinity;
  #left: number;

  constructor(evening: Evening, people: number, ranked: readonly Ranked[]) {
    this.#evening = evening;
    this.#ranked = ranked;
    const classes = (ranked.at(-1)?.class ?? -1) + 1;
    this.#given = Array.from({ length: classes + 1 }, () => 0);
    this.#bestGiven = this.#given.map(() => -1);
    const running = evening.pieces.reduce((sum, one) => sum + ahead(one, evening.now), 0);
    this.#left = people * (evening.hours - evening.now) - running;
  }

  /** Depth is bounded by `MOST_TASKS`. */
  from(i: number): void {
    if (++this.tries > MOST_TRIES && this.#bestCut !== Infinity) return;
    if (!this.#canBeat(i)) return;
    const one = this.#ranked[i];
    if (one === undefined) {
      this.best = [...this.#evening.pieces];
      this.#bestGiven = [...this.#given];
      this.#bestCut = this.#cut;
      return;
    }
    const piece = this.#evening.whole(one) ?? this.#evening.part(one);
    if (piece !== null) {
      this.#take(one, piece, 1);
      this.#evening.push(piece);
      this.from(i + 1);
      this.#evening.pop();
      this.#take(one, piece, -1);
      // What takes no time stands in nobody's way.
      if (piece.from === piece.to) return;
    }
    this.from(i + 1);
  }

  #take(one: Ranked, piece: Piece, sign: 1 | -1): void {
    const minutes = sign * (piece.to - piece.from) * piece.people.length;
    this.#given[one.class]! += minutes;
    if (!piece.finishes) this.#cut += minutes;
    this.#left -= minutes;
  }

  /** Would it be better even if all that is left went to the best of what is left? */
  #canBeat(i: number): boolean {
    let left = this.#left;
    const hoped = [...this.#given];
    for (let j = i; j < this.#ranked.length && left > 0; j++) {
      const { class: of, minutes, task } = this.#ranked[j]!;
      const more = Math.min(left, minutes * task.people);
      hoped[of]! += more;
      left -= more;
    }
    for (let c = 0; c < hoped.length; c++)
      if (hoped[c] !== this.#bestGiven[c]) return hoped[c]! > this.#bestGiven[c]!;
    return this.#cut < this.#bestCut;
  }
}

function ahead({ from, to, people }: Piece, now: number): number {
  return Math.max(0, to - Math.max(from, now)) * people.length;
}
