import { defineConfig } from 'vitest/config'

// Only what runs in process: a spawned program would run the bundle, which has no mutants in it.
export default defineConfig({
  test: {
    include: ['tests/agronomy/**/*.test.ts', 'tests/rules/**/*.test.ts', 'tests/published/**/*.test.ts'],
    testTimeout: 30_000,
    isolate: false,
    env: { ROWBOOK_RUNS: '5' },
  },
})
