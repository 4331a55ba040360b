import { availableParallelism } from 'node:os'
import { defineConfig } from 'vitest/config'

// One project, so that a worker loads the program once for all its files; none changes what it loaded.
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/build-once.ts'],
    setupFiles: ['tests/seed.ts'],
    isolate: false,
    // A test that waits for a program leaves its processor to another.
    maxWorkers: Math.max(2, availableParallelism()),
    // Long enough for a machine with much else to do: a limit only ends what hangs.
    testTimeout: 300_000,
    hookTimeout: 300_000,
  },
})
