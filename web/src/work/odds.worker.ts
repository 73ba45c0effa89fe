/** The odds, beside the page so that it stays at hand; how far they are is said ten times a second. */
import { oddsOf } from '#shared/odds/odds.ts';
import type { OddsAnswer, OddsQuestion } from './odds-messages.ts';

const EVERY_MS = 100;

addEventListener('message', ({ data }: MessageEvent<OddsQuestion>) => {
  let last = performance.now();
  const odds = oddsOf(data.file, {
    ...data.asked,
    onProgress: (done) => {
      const now = performance.now();
      if (now - last < EVERY_MS) return;
      last = now;
      tell({ kind: 'progress', done });
    },
  });
  tell({ kind: 'done', odds });
});

function tell(answer: OddsAnswer): void {
  postMessage(answer);
}
