/** One press that changes one record: done at once, and what it did to finish and closings said with its undo. */
import { effectOf } from '#shared/changes/effect.ts';
import type { NounName, RecordOf } from '#shared/contract/nouns.ts';
import type { Build } from './build.svelte.ts';
import { effectWords } from './effect-words.ts';
import { messages } from './messages.svelte.ts';

/** @param label what the history says, without full stop */
export async function doneWith<N extends NounName>(
  build: Build,
  label: string,
  noun: N,
  id: string,
  value: RecordOf<N>,
): Promise<void> {
  const edits = [{ noun, id, value: value as Record<string, unknown> }];
  const before = build.plan;
  const refusal = await build.change(label, edits, { quiet: true });
  if (refusal !== null) build.say(label, refusal);
  else
    messages.done(`${label}. ${effectWords(effectOf(before, build.plan), build.plan.asOf)}`, { undo: true });
}
