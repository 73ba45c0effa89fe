/** Whatever is tried in a what-if, the store never hears of it; kept and taken back, the build is what it was. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { editsToKeep } from '#shared/whatif/keep.ts';
import { layOver } from '#shared/whatif/lay.ts';
import { readWhatIf, type WhatIfStep } from '#shared/whatif/what-if.ts';
import { startServer, type TestServer } from '../support/server.ts';
import { move, stepOf, type Move } from '../support/what-if-edits.ts';

const URL = '/api/builds/wagtail';

describe('a what-if', () => {
  it(
    'should leave the store byte for byte as it was, dropped or kept and undone, and be the plan in between',
    { timeout: 240_000 },
    async () => {
      const server = await startServer({ builds: [wagtail()] });
      const story = await all(server);
      let kept = 0;
      await fc.assert(
        fc.asyncProperty(fc.array(move, { minLength: 1, maxLength: 6 }), async (moves) => {
          const { file, versions } = await server.snapshot('wagtail');
          const before = await all(server);
          const steps = tryOut(file, moves);
          // As it comes back out of a browser's store.
          const text = JSON.stringify({ id: 'x', name: 'Try', madeAt: '2027-03-09T19:00', steps });
          const { steps: read } = readWhatIf(text)!;
          const { file: tried, clashes, misfits } = layOver(file, read);
          expect([clashes, misfits]).toEqual([[], []]);
          // Dropped: nobody has told the server anything.
          expect(await all(server)).toEqual(before);

          const edits = editsToKeep(file, tried, read, {
            of: (noun, id) => (Object.hasOwn(versions[noun]!, id) ? versions[noun]![id]! : null),
          });
          if (edits.length === 0) return;
          kept++;
          const { status, text: said } = await server.ask('POST', `${URL}/changes`, {
            body: { label: 'Keep the what-if “Try”', edits },
          });
          expect(status, said).toBe(200);
          const after = await server.snapshot('wagtail');
          expect(after.file).toEqual(tried);
          expect(after.canUndo).toBe('Keep the what-if “Try”');
          await server.ask('POST', `${URL}/undo`);
          expect((await all(server)).file).toBe(before.file);
        }),
        { numRuns: Number(process.env['FC_RUNS'] ?? 12) },
      );
      expect(kept).toBeGreaterThan(0);
      expect((await all(server)).file).toBe(story.file);
    },
  );
});

// Helpers

/** Each made in the build as the ones before left it. */
function tryOut(file: BuildFile, moves: readonly Move[]): WhatIfStep[] {
  const steps: WhatIfStep[] = [];
  for (const made of moves) {
    const step = stepOf(layOver(file, steps).file, made);
    if (step !== null) steps.push(step);
  }
  return steps;
}

/** What a program would save of the build, its revision and its whole history, as text. */
async function all(server: TestServer) {
  const [file, short, history] = await Promise.all([
    server.ask('GET', `${URL}/file`),
    server.ask('GET', URL),
    server.ask('GET', `${URL}/history?limit=999`),
  ]);
  return { file: file.text, revision: short.body['revision'], history: history.text };
}
