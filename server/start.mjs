// What `npm start` runs, on a fresh clone too: installs what is missing, builds the pages when they are stale, and
// becomes the server. One process all the way, so that a signal reaches the store and the second start is quick.
import { buildClient, install } from './bootstrap.mjs';

if (!install()) fail('The packages could not be installed: see above.');
if (!buildClient()) fail('The pages could not be built: see above.');

const { register } = await import('tsx/esm/api');
register();
await import('./main.ts');

function fail(sentence) {
  process.stderr.write(`${sentence}\n`);
  process.exit(1);
}
