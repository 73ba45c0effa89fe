/** Links, checks and states in the words of the workshop. */
import type { HoldPoint, Link, LinkKind, LinkWhy, Task, TaskState } from '#shared/contract/task.ts';
import { waitWords } from '../../drawing/words.ts';

/** What each kind of link says of the second task. */
export const KIND_CHOICES: readonly { readonly key: LinkKind; readonly name: string }[] = [
  { key: 'FS', name: 'starts once the first is finished' },
  { key: 'SS', name: 'starts once the first has started' },
  { key: 'FF', name: 'finishes once the first is finished' },
  { key: 'SF', name: 'finishes once the first has started' },
];

const VERB: Readonly<Record<LinkKind, readonly [second: string, first: string]>> = {
  FS: ['starts', 'is finished'],
  SS: ['starts', 'has started'],
  FF: ['finishes', 'is finished'],
  SF: ['finishes', 'has started'],
};

/** "starts once that is finished, 12 h later": said of the task that comes second. */
export function kindWords({ kind, lagMinutes, lagOn }: Pick<Link, 'kind' | 'lagMinutes' | 'lagOn'>): string {
  const [second, first] = VERB[kind];
  const lag =
    lagMinutes === 0
      ? ''
      : lagOn === 'clock'
        ? `, ${waitWords(lagMinutes)} later`
        : `, ${waitWords(lagMinutes)} of work later`;
  return `${second} once that ${first}${lag}`;
}

/** The same said of the task that comes first: "must be finished before that starts". */
export function kindWordsFirst({
  kind,
  lagMinutes,
  lagOn,
}: Pick<Link, 'kind' | 'lagMinutes' | 'lagOn'>): string {
  const first = kind === 'FS' || kind === 'FF' ? 'must be finished' : 'must have started';
  const second = kind === 'FS' || kind === 'SS' ? 'starts' : 'finishes';
  const lag =
    lagMinutes === 0
      ? ''
      : lagOn === 'clock'
        ? `${waitWords(lagMinutes)} `
        : `${waitWords(lagMinutes)} of work `;
  return `${first} ${lag}before that ${second}`;
}

export const WHY_CHOICES: readonly { readonly key: LinkWhy; readonly name: string }[] = [
  { key: 'hidden-by', name: 'it gets hidden' },
  { key: 'needs-surface', name: 'needs the surface ready' },
  { key: 'needs-dry', name: 'needs it dry or hard' },
  { key: 'needs-access', name: 'needs the way free' },
  { key: 'needs-power-for-test', name: 'needs power for the test' },
  { key: 'heavy-first', name: 'the heavy part goes in first' },
  { key: 'legal', name: 'papers or rules ask for it' },
  { key: 'needs-decision', name: 'needs the decision' },
  { key: 'keeps-clean', name: 'keeps the work clean' },
];

export function whyWords(why: LinkWhy | null): string {
  return WHY_CHOICES.find(({ key }) => key === why)?.name ?? '';
}

export const CHECK_CHOICES: readonly { readonly key: HoldPoint['kind']; readonly name: string }[] = [
  { key: 'leak', name: 'leak test' },
  { key: 'continuity', name: 'continuity' },
  { key: 'insulation-resistance', name: 'insulation resistance' },
  { key: 'pull', name: 'pull test' },
  { key: 'pressure', name: 'pressure test' },
  { key: 'photo', name: 'photo' },
  { key: 'function', name: 'it works' },
  { key: 'visual', name: 'a good look' },
  { key: 'weighing', name: 'weighing' },
];

export function checkWords(kind: HoldPoint['kind']): string {
  return CHECK_CHOICES.find(({ key }) => key === kind)?.name ?? kind;
}

export const WHEN_CHOICES = [
  { key: 'exit', name: 'after it, before anything follows' },
  { key: 'entry', name: 'before it starts' },
] as const;

export const STATE_WORDS: Readonly<Record<TaskState, string>> = {
  'not-started': 'planned',
  started: 'under way',
  finished: 'done',
};

/** The zones a task works in, once each, as listed. */
export function zonesOf({ places }: Pick<Task, 'places'>): string[] {
  return [...new Set(places.map(({ zone }) => zone))];
}
