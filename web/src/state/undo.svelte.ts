/** The undo of the build at hand, for the frame's message line and keys, which stand above any view. */
import type { Build } from './build.svelte.ts';
import { messages } from './messages.svelte.ts';

let current: Build | null = null;

export function undoOf(build: Build | null): void {
  // What was said of another build offers to undo what is not at hand any more.
  if (build !== current) for (const { id, undo } of messages.list) if (undo) messages.dismiss(id);
  current = build;
}

export async function undoLast(): Promise<void> {
  await current?.undo();
}

export async function redoLast(): Promise<void> {
  await current?.redo();
}
