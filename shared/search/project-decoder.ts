/**
 * The plain project as a decoder: serial schedule generation over a list (J. E. Kelley 1963; R. Kolisch, S. Hartmann
 * 1999) into a profile over time, forward or, with the arcs turned round, backward. Nothing is allocated per schedule.
 */
import type { Digraph } from '../graph/compile.ts';
import type { Decode, Decoder } from './decoder.ts';
import { pack, type Packing } from './packing.ts';
import type { CompiledProject } from './project.ts';
import { tailsOf } from './tails.ts';

/** @param bound a makespan that no schedule can beat. A decoder's scratch memory serves one search at a time. */
export function projectDecoder(project: CompiledProject, bound: number): Decoder {
  const { size, durations, after, before } = project;
  const { tails, length } = tailsOf(project);
  const generate = generatorOf(project);
  const forward: Decode = (list, { starts, finishes, objective }) => {
    objective[0] = generate(list, before, starts, finishes);
  };
  const backward: Decode = (list, { starts, finishes, objective }) => {
    const end = generate(list, after, finishes, starts);
    for (let v = 0; v < size; v++) {
      starts[v] = end - starts[v]!;
      finishes[v] = end - finishes[v]!;
    }
    objective[0] = end;
  };
  return {
    size,
    goals: 1,
    order: after,
    forward,
    backward,
    bound: Float64Array.of(bound),
    urgency: Float64Array.from(tails, (tail, v) => length - tail + durations[v]!),
  };
}

/** Fills starts and finishes. The list keeps the arcs that `before` holds turned round. @returns the last finish */
type Generate = (list: Int32Array, before: Digraph, starts: Int32Array, finishes: Int32Array) => number;

function generatorOf(project: CompiledProject): Generate {
  const packing = pack(project.capacities, project.demands);
  return packing.words === 1 ? narrow(project, packing) : wide(project, packing);
}

/** All resources in one word. */
function narrow({ durations, horizon }: CompiledProject, packing: Packing): Generate {
  const { demands } = packing;
  const guards = packing.guards[0]!;
  const free = packing.free[0]!;
  const left = new Int32Array(horizon).fill(free);
  let used = 0;
  return (list, { offsets, targets }, starts, finishes) => {
    left.fill(free, 0, used);
    let last = 0;
    for (let i = 0; i < list.length; i++) {
      const v = list[i]!;
      let start = 0;
      for (let arc = offsets[v]!, stop = offsets[v + 1]!; arc < stop; arc++) {
        const finish = finishes[targets[arc]!]!;
        if (finish > start) start = finish;
      }
      const duration = durations[v]!;
      const demand = demands[v]!;
      let finish = start + duration;
      if (demand !== 0) {
        // From the end of the stretch back: whatever is short of room pushes the start as far as it can, and what has
        // been found free is not looked at again.
        let known = start;
        let t = finish - 1;
        while (t >= known)
          if (((left[t]! - demand) & guards) === guards) t--;
          else {
            known = finish;
            finish = t + 1 + duration;
            t = finish - 1;
          }
        start = finish - duration;
        for (let t = start; t < finish; t++) left[t]! -= demand;
      }
      starts[v] = start;
      finishes[v] = finish;
      if (finish > last) last = finish;
    }
    used = last;
    return last;
  };
}

/** As many words as it takes, or none. */
function wide({ durations, horizon }: CompiledProject, packing: Packing): Generate {
  const { words, guards, free, demands } = packing;
  const left = new Int32Array(horizon * words);
  let used = horizon;
  const fits = (t: number, v: number): boolean => {
    for (let w = 0; w < words; w++)
      if (((left[t * words + w]! - demands[v * words + w]!) & guards[w]!) !== guards[w]!) return false;
    return true;
  };
  return (list, { offsets, targets }, starts, finishes) => {
    for (let t = 0; t < used; t++) left.set(free, t * words);
    let last = 0;
    for (let i = 0; i < list.length; i++) {
      const v = list[i]!;
      let start = 0;
      for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++)
        start = Math.max(start, finishes[targets[arc]!]!);
      const duration = durations[v]!;
      let known = start;
      let finish = start + duration;
      for (let t = finish - 1; t >= known;)
        if (fits(t, v)) t--;
        else {
          known = finish;
          finish = t + 1 + duration;
          t = finish - 1;
        }
      start = finish - duration;
      for (let t = start; t < finish; t++)
        for (let w = 0; w < words; w++) left[t * words + w]! -= demands[v * words + w]!;
      starts[v] = start;
      finishes[v] = finish;
      last = Math.max(last, finish);
    }
    used = last;
    return last;
  };
}
