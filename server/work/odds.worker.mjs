// A thread that reads TypeScript, as the server it belongs to does.
import { register } from 'tsx/esm/api';

register();
await import('./odds.worker.ts');
