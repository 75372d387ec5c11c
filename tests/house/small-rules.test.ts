import { describe, expect, test } from 'vitest';
import { dataOnlyScenarios } from './rules/data-only-scenarios.ts';
import { fileNames } from './rules/file-names.ts';
import { noLeftovers } from './rules/no-leftovers.ts';
import { pinnedPackages } from './rules/pinned-packages.ts';
import { repeatableTests } from './rules/repeatable-tests.ts';
import { testsAreRun } from './rules/tests-are-run.ts';
import { topFolder } from './rules/top-folder.ts';
import type { HouseRule } from './source-tree.ts';

const count = (rule: HouseRule, path: string, text = '') => rule([{ path, text }]).length;

describe('names of files', () => {
  test.each([
    ['sim-core/math/sinTable.ts', ''],
    ['sim-core/math/SinTable.ts', ''],
    ['sim-core/utils/sin.ts', ''],
    ['renderer/ui/helpers.ts', ''],
    ['renderer/ui/bench-card.tsx', 'export function BenchCard() {}'],
    ['renderer/ui/BenchCard.tsx', 'export function Card() {}'],
    ['renderer/ui/BenchCard.tsx', 'export default function BenchCard() {}'],
  ])('%s is caught: %s', (path, text) => {
    expect(count(fileNames, path, text)).toBe(1);
  });

  test.each([
    ['sim-core/math/sha-256.ts', ''],
    ['tests/golden/sha-256.test.ts', ''],
    ['vite.config.ts', ''],
    ['renderer/main.tsx', ''],
    ['renderer/ui/BenchCard.tsx', 'export function BenchCard() {}'],
    ['renderer/ui/BenchCard.tsx', 'export const BenchCard = memo(Inner);'],
    ['scenarios/README.md', ''],
  ])('%s is left alone: %s', (path, text) => {
    expect(count(fileNames, path, text)).toBe(0);
  });
});

describe('leftovers', () => {
  const marker = ['TO', 'DO'].join('');
  test('a marker is caught, with its line', () => {
    expect(noLeftovers([{ path: 'sim-core/a.ts', text: `const a = 1;\n// ${marker}: more\n` }])[0]?.line).toBe(2);
    expect(count(noLeftovers, 'README.md', `${marker}`)).toBe(1);
  });
  test('a word that holds one is left alone', () => {
    expect(count(noLeftovers, 'sim-core/a.ts', `const my${marker}s = 1; // mastodon`)).toBe(0);
  });
});

describe('scenarios', () => {
  test('code among them is caught, data is not', () => {
    expect(count(dataOnlyScenarios, 'scenarios/tab.ts')).toBe(1);
    expect(count(dataOnlyScenarios, 'scenarios/tab.json')).toBe(0);
  });
});

describe('tests that end otherwise each time', () => {
  const path = 'tests/golden/window.test.ts';
  test.each([
    'fc.assert(fc.property(fc.nat(), () => true));',
    'fc.assert(fc.property(fc.nat(), () => true), { numRuns: 9 });',
    'expect(performance.now() - began).toBeLessThan(2000);',
    'const { user, system } = process.cpuUsage(began);',
  ])('%s is caught', (text) => {
    expect(count(repeatableTests, path, text)).toBe(1);
  });
  test('with a seed, in the browser, and by a clock of its own, it is left alone', () => {
    expect(count(repeatableTests, path, 'fc.assert(fc.property(fc.nat(), () => true), { numRuns: 9, seed: 1 });')).toBe(0);
    expect(count(repeatableTests, 'tests/end-to-end/hands.test.ts', 'const began = performance.now();')).toBe(0);
    const ownClock = "vi.useFakeTimers({ toFake: ['performance'] });\nconst began = performance.now();";
    expect(count(repeatableTests, path, ownClock)).toBe(0);
  });
});

describe('tests that would never be run', () => {
  const unit = "import { test } from 'vitest';\ntest('a', () => {});";
  const endToEnd = "import { test } from '@playwright/test';\ntest('a', () => {});";
  test.each([
    ['tests/golden/window.ts', unit],
    ['tests/golden/window.spec.ts', unit],
    ['sim-core/math/sin.test.ts', unit],
    ['tests/bench/window.test.ts', unit],
    ['tests/end-to-end/cut.test.ts', unit],
    ['tests/golden/cut.test.ts', endToEnd],
  ])('%s is caught: %s', (path, text) => {
    expect(count(testsAreRun, path, text)).toBe(1);
  });

  test.each([
    ['tests/golden/window.test.ts', unit],
    ['tests/end-to-end/cut.test.ts', endToEnd],
    [
      'tests/golden/sample.ts',
      "import { expect } from 'vitest';\nexport const isSmall = (x: number) => expect(x).toBeLessThan(1);",
    ],
    ['renderer/input/lean.ts', 'if (pattern.test(text)) it(1);'],
  ])('%s is left alone: %s', (path, text) => {
    expect(count(testsAreRun, path, text)).toBe(0);
  });
});

describe('packages', () => {
  test.each(['^1.2.3', '~1.2.3', '1.x', '*', 'latest', '>=1.0.0', 'github:a/b'])(
    'a version that floats is caught: %s',
    (version) => {
      expect(count(pinnedPackages, 'package.json', JSON.stringify({ devDependencies: { a: version, b: '1.0.0' } }))).toBe(1);
    },
  );
  test('exact versions are left alone', () => {
    expect(count(pinnedPackages, 'package.json', JSON.stringify({ dependencies: { a: '1.2.3', b: '2.0.0-rc.1' } }))).toBe(0);
  });
  test('a lock file that names hosts is caught', () => {
    const lock = { packages: { 'node_modules/a': { version: '1.0.0', resolved: 'https://example.test/a.tgz' } } };
    expect(count(pinnedPackages, 'package-lock.json', JSON.stringify(lock))).toBe(1);
    expect(
      count(pinnedPackages, 'package-lock.json', JSON.stringify({ packages: { 'node_modules/a': { version: '1.0.0' } } })),
    ).toBe(0);
  });
  test('an npm setting that names a registry is caught', () => {
    expect(count(pinnedPackages, '.npmrc', 'registry=https://example.test/')).toBe(1);
    expect(count(pinnedPackages, '.npmrc', 'save-exact=true\n')).toBe(0);
  });
});

describe('the top folder', () => {
  test('what has no place in it is caught', () => {
    expect(count(topFolder, 'notes.txt')).toBe(1);
    expect(count(topFolder, 'utilities/a.ts')).toBe(1);
    expect(count(topFolder, 'sim-core')).toBe(1);
  });
  test('rooms and known files are left alone', () => {
    expect(count(topFolder, 'sim-core/index.ts')).toBe(0);
    expect(count(topFolder, 'README.md')).toBe(0);
  });
});
