import { defineConfig } from 'vitest/config';

/** What all projects share; each knows its own folders and its patience. */
const shared = { root: import.meta.dirname, setupFiles: ['support/seed.ts'] };

export default defineConfig({
  cacheDir: '../node_modules/.vite/tests',
  test: {
    root: import.meta.dirname,
    projects: [
      {
        extends: true,
        test: {
          ...shared,
          name: 'house',
          include: ['{unit,property,outside,api,trust}/**/*.test.ts'],
          testTimeout: 60_000,
          sequence: { groupOrder: 0 },
        },
      },
      {
        extends: true,
        test: {
          ...shared,
          name: 'browser',
          include: ['browser/**/*.test.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
          expect: { poll: { timeout: 5000 } },
          // One browser at a time, and alone: what they measure and wait for is real time.
          fileParallelism: false,
          maxWorkers: 1,
          sequence: { groupOrder: 1 },
        },
      },
    ],
  },
});
