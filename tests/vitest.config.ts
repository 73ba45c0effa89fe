import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    root: 'tests',
    include: ['{unit,property,outside}/**/*.test.ts'],
    setupFiles: ['support/seed.ts'],
    testTimeout: 60_000,
  },
});
