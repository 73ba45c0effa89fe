/** The levers, beside the page so that it stays at hand: each change is told as soon as it has been tried. */
import { leversOf } from '#shared/levers/levers.ts';
import type { Answer, Question } from './levers-messages.ts';

addEventListener('message', ({ data: { file, options } }: MessageEvent<Question>) => {
  const { before } = leversOf(file, {
    ...options,
    onProgress: (done, of) => tell({ kind: 'progress', done, of }),
    onRow: (row, found) => tell({ kind: 'row', row, before: found }),
  });
  tell({ kind: 'done', before });
});

function tell(answer: Answer): void {
  postMessage(answer);
}
