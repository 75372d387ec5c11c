import { describe, expect, test } from 'vitest';
import { dataOnlyScenarios } from './rules/data-only-scenarios.ts';
import { fileNames } from './rules/file-names.ts';
import { layerArrows } from './rules/layer-arrows.ts';
import { noLeftovers } from './rules/no-leftovers.ts';
import { pinnedPackages } from './rules/pinned-packages.ts';
import { repeatableTests } from './rules/repeatable-tests.ts';
import { reproducibleCore } from './rules/reproducible-core.ts';
import { testsAreRun } from './rules/tests-are-run.ts';
import { topFolder } from './rules/top-folder.ts';
import { type HouseRule, isCode, readSourceTree, showFindings } from './source-tree.ts';

const rules: Record<string, HouseRule> = {
  'arrows between the layers': layerArrows,
  'a core with the same bits everywhere': reproducibleCore,
  'scenarios without code': dataOnlyScenarios,
  'names of files': fileNames,
  'no leftovers': noLeftovers,
  'tests that are run': testsAreRun,
  'tests that end the same each time': repeatableTests,
  'pinned packages': pinnedPackages,
  'a tidy top folder': topFolder,
};

describe('the house as it stands keeps', () => {
  const files = readSourceTree();

  test('something in every room, so that the rules have something to look at', () => {
    for (const room of ['sim-core/', 'renderer/', 'electron/', 'scenarios/', 'tests/']) {
      expect(files.filter((file) => file.path.startsWith(room)).length, room).toBeGreaterThan(2);
    }
    expect(files.filter((file) => isCode(file.path)).length).toBeGreaterThan(50);
  });

  test.each(Object.entries(rules))('%s', (_, rule) => {
    expect(showFindings(rule(files))).toBe('');
  });
});
