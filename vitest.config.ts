import { defineConfig } from 'vitest/config';

/** Everything that needs no built page; tests/end-to-end belongs to Playwright, tests/bench to `npm run bench`. */
export default defineConfig({
  test: {
    name: 'unit',
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/end-to-end/**', 'tests/bench/**'],
    // Ends what hangs. How long a machine takes that has other work as well is not judged.
    testTimeout: 240_000,
    hookTimeout: 240_000,
    expect: { poll: { timeout: 120_000 } },
    maxWorkers: 2,
    execArgv: ['--disable-warning=ExperimentalWarning'],
    allowOnly: false,
  },
});
