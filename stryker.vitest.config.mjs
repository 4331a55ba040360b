import { defineConfig } from 'vitest/config'

// Only what runs in process: a spawned program would run the bundle, which has no mutants in it.
export default defineConfig({
  test: {
    include: ['agronomy', 'facts', 'rules', 'published'].map((folder) => `tests/${folder}/**/*.test.ts`),
    testTimeout: 30_000,
    isolate: false,
    env: { ROWBOOK_RUNS: '5' },
  },
})
