import { availableParallelism } from 'node:os'
import { defineConfig } from 'vitest/config'

/** Folders whose tests run what is built, or start other programs; all others run in the process of the tests. */
const BUILT = ['tests/commands/**', 'tests/faults/**', 'tests/ledger/cache/**']

// Long enough for a machine with much else to do: a limit only ends what hangs.
const each = {
  // Loading the program anew for each file takes longer than most files' tests; none changes what it loaded.
  isolate: false,
  testTimeout: 300_000,
  hookTimeout: 300_000,
  setupFiles: ['tests/seed.ts'],
}

export default defineConfig({
  test: {
    // A test that waits for a program leaves its processor to another.
    maxWorkers: Math.max(2, availableParallelism()),
    projects: [
      {
        test: {
          ...each,
          name: 'in-process',
          include: ['tests/**/*.test.ts'],
          exclude: BUILT,
        },
      },
      {
        test: {
          ...each,
          name: 'built',
          include: BUILT.map((folder) => `${folder}/*.test.ts`),
          globalSetup: ['tests/build-once.ts'],
        },
      },
    ],
  },
})
