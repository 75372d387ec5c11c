import { defineConfig } from '@playwright/test';
import { browserArguments, findBrowser } from './electron/bootstrap/find-browser.mjs';

/** Tests in which a hand works at real speed, or time is told: one at a time, with the machine to themselves. */
const AT_REAL_SPEED = [
  'calibration',
  'fault-finding',
  'hand-devices',
  'keyboard-cut',
  'long-replay',
  'newcomer',
  'rig-at-the-arc',
  'rolling-pierce',
  'sound',
  'unfinished-run',
].map((name) => `**/${name}.test.ts`);

/** The built page in a real browser; each test starts the host that it needs, so a restart is part of a test. */
export default defineConfig({
  testDir: 'tests/end-to-end',
  testMatch: '**/*.test.ts',
  outputDir: '.build/end-to-end',
  forbidOnly: true,
  fullyParallel: false,
  workers: 1,
  timeout: 120_000,
  // What is to come about is waited for by what the page shows; how long a machine takes that draws two rooms by its processor is not judged.
  expect: { timeout: 20_000 },
  projects: [
    { name: 'rooms', testIgnore: AT_REAL_SPEED },
    { name: 'hands', testMatch: AT_REAL_SPEED },
  ],
  reporter: 'list',
  use: {
    viewport: { width: 1280, height: 800 },
    trace: 'retain-on-failure',
    // Without an installed browser Playwright falls back to its own download.
    launchOptions: { executablePath: findBrowser() ?? undefined, args: browserArguments() },
  },
});
