// Mutation testing of the arithmetic and the rules: `npm run mutants`, or `npm run mutants -- --mutate FILE`.
/** @type {import('@stryker-mutator/api/core').PartialStrykerOptions} */
export default {
  testRunner: 'vitest',
  vitest: { configFile: 'stryker.vitest.config.mjs', related: true },
  mutate: ['src/agronomy/**/*.ts', 'src/facts/**/*.ts', 'src/rules/**/*.ts'],
  ignorePatterns: ['/dist'],
  coverageAnalysis: 'perTest',
  ignoreStatic: true,
  concurrency: 1,
  timeoutMS: 10_000,
  reporters: ['clear-text', 'json'],
  clearTextReporter: { allowColor: false, logTests: false, reportTests: false },
  jsonReporter: { fileName: '.stryker-tmp/mutation.json' },
  thresholds: { high: 90, low: 85, break: 85 },
}
