/**
 * Dates as linear programs, in the text of the CPLEX LP format, solved by HiGHS: nothing here walks a graph, so it can
 * judge what does. (The critical path as a linear program: A. Charnes, W. W. Cooper, "A network interpretation and a
 * directed subdual algorithm for critical path scheduling", J. Industrial Engineering 13, 1962, from memory.)
 */
import highsLoader, { type Highs } from 'highs';

export interface Activity {
  readonly minutes: number;
  readonly wait: number;
}

/** `from`, `to`: indices of activities. */
export interface Tie {
  readonly from: number;
  readonly to: number;
  readonly kind: 'FS' | 'SS' | 'FF' | 'SF';
  readonly lag: number;
}

export interface Project {
  readonly activities: readonly Activity[];
  readonly ties: readonly Tie[];
}

export type Solver = (text: string, count: number) => number[];

/** @returns a function from a program's text to the values of s0, s1, …; it throws unless they are proven optimal */
export async function loadSolver(): Promise<Solver> {
  // The types are written as for CommonJS, where the default export would be one level down.
  const load = highsLoader as unknown as typeof highsLoader.default;
  const highs: Highs = await load();
  return (text, count) => {
    const solution = highs.solve(text, { output_flag: false });
    if (solution.Status !== 'Optimal') throw new Error(`the linear program is ${solution.Status}`);
    return Array.from({ length: count }, (_, i) => whole(solution.Columns[`s${i}`]!.Primal));
  };
}

/** The least starts from minute 0 on that keep every tie. */
export function earliestProgram({ activities, ties }: Project): string {
  return program(
    'Minimize',
    activities.length,
    ties.map((tie) => `s${tie.to} - s${tie.from} >= ${apart(activities, tie)}`),
    '>= 0',
  );
}

/** The greatest starts that keep every tie and let every wait be over by `end`; they may lie before minute 0. */
export function latestProgram({ activities, ties }: Project, end: number): string {
  return program(
    'Maximize',
    activities.length,
    [
      ...ties.map((tie) => `s${tie.to} - s${tie.from} >= ${apart(activities, tie)}`),
      ...activities.map(({ minutes, wait }, i) => `s${i} <= ${end - minutes - wait}`),
    ],
    'free',
  );
}

/** The greatest starts of each activity while all others stay where they are and the end does too. */
export function freeProgram({ activities, ties }: Project, starts: readonly number[], end: number): string {
  return program(
    'Maximize',
    activities.length,
    [
      ...ties.map((tie) => `s${tie.from} <= ${starts[tie.to]! - apart(activities, tie)}`),
      ...activities.map(({ minutes, wait }, i) => `s${i} <= ${end - minutes - wait}`),
    ],
    'free',
  );
}

/** When the last wait is over. */
export function endOf({ activities }: Project, starts: readonly number[]): number {
  return activities
    .map(({ minutes, wait }, i) => starts[i]! + minutes + wait)
    .reduce((a, b) => Math.max(a, b));
}

// Helpers

/** What a tie asks between the two starts: `s_to ≥ s_from + apart`. */
function apart(activities: readonly Activity[], { from, to, kind, lag }: Tie): number {
  const before = kind === 'SS' || kind === 'SF' ? 0 : activities[from]!.minutes;
  const wait = kind === 'FS' ? activities[from]!.wait : 0;
  const after = kind === 'FF' || kind === 'SF' ? activities[to]!.minutes : 0;
  return before + wait + lag - after;
}

/** @param bound of each variable */
function program(goal: string, count: number, constraints: readonly string[], bound: string): string {
  const names = Array.from({ length: count }, (_, i) => `s${i}`);
  return [
    goal,
    ` total: ${names.join('\n + ')}`,
    'Subject To',
    ...constraints.map((constraint, i) => ` c${i}: ${constraint}`),
    'Bounds',
    ...names.map((name) => ` ${name} ${bound}`),
    'End',
    '',
  ].join('\n');
}

/** A basic solution of whole-numbered ties is whole; the solver's own tolerance is all that is rounded away. */
function whole(value: number): number {
  const rounded = Math.round(value);
  if (Math.abs(value - rounded) > 1e-6) throw new Error(`${value} is not a whole minute`);
  return rounded + 0;
}
