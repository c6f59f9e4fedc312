import { defineConfig } from 'vitest/config';

export default defineConfig({
  // Components are compiled for Preact; tests under tests/web may render them.
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    // Two cores: more workers than that only make the system tests slower.
    maxWorkers: 2,
    testTimeout: 20_000,
    hookTimeout: 60_000,
  },
});
