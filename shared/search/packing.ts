/**
 * Several resources in one word. Each has a field of bits with a guard bit above it that is always set; taking a demand
 * away clears a guard just where too little is left, so one subtraction and one mask compare a whole word (L. Lamport,
 * "Multiple byte processing with full-word instructions", CACM 18:8, 1975).
 */

export interface Packing {
  /** Words for each unit of time. */
  readonly words: number;
  /** Per word: all guard bits. */
  readonly guards: Int32Array;
  /** Per word: everything free, guards set. */
  readonly free: Int32Array;
  /** Of activity v: from `v * words` on. */
  readonly demands: Int32Array;
}

const WORD = 32;

/** Resources that cannot run short take no room. @param demands of activity v for resource k: at `v * kinds + k` */
export function pack(capacities: Int32Array, demands: Int32Array): Packing {
  const kinds = capacities.length;
  const size = kinds === 0 ? 0 : demands.length / kinds;
  const guards: number[] = [];
  const free: number[] = [];
  const fields: { readonly k: number; readonly word: number; readonly shift: number }[] = [];
  let used = WORD;
  for (let k = 0; k < kinds; k++) {
    let asked = 0;
    for (let v = 0; v < size; v++) asked += demands[v * kinds + k]!;
    if (asked <= capacities[k]!) continue;
    const bits = WORD - Math.clz32(capacities[k]!);
    if (used + bits + 1 > WORD) {
      guards.push(0);
      free.push(0);
      used = 0;
    }
    const word = guards.length - 1;
    fields.push({ k, word, shift: used });
    guards[word]! |= 1 << (used + bits);
    free[word]! |= (1 << (used + bits)) | (capacities[k]! << used);
    used += bits + 1;
  }
  const words = guards.length;
  const packed = new Int32Array(size * words);
  for (const { k, word, shift } of fields)
    for (let v = 0; v < size; v++) packed[v * words + word]! |= demands[v * kinds + k]! << shift;
  return { words, guards: Int32Array.from(guards), free: Int32Array.from(free), demands: packed };
}
