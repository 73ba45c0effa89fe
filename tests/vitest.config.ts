import { defineConfig } from 'vitest/config';

export default defineConfig({
  cacheDir: '../node_modules/.vite/tests',
  test: {
    root: 'tests',
    include: ['{unit,property,outside}/**/*.test.ts'],
    setupFiles: ['support/seed.ts'],
    testTimeout: 60_000,
  },
});
