/**
 * The search for better dates, beside the page so that it stays at hand. It says how far it is ten times a second and
 * tells each better order at once; so whoever ends it keeps the best there is.
 */
import { improve } from '#shared/search/dates/improve.ts';
import type { Answer, Question } from './improve-messages.ts';

const EVERY_MS = 100;

addEventListener('message', ({ data }: MessageEvent<Question>) => {
  let last = performance.now();
  const { counts } = improve(data.file, {
    ...data.search,
    stop: (done) => {
      const now = performance.now();
      if (now - last >= EVERY_MS) {
        last = now;
        tell({ kind: 'progress', done });
      }
      return false;
    },
    onBetter: (found) => tell({ kind: 'better', found }),
  });
  tell({ kind: 'done', done: counts.still + counts.free });
});

function tell(answer: Answer): void {
  postMessage(answer);
}
