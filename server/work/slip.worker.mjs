// A thread that reads TypeScript, as the server it belongs to does.
import { register } from 'tsx/esm/api';

register();
await import('./slip.worker.ts');
