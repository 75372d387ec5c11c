import { importsOf } from '../imports-of.ts';
import { type Finding, type HouseRule, isCode } from '../source-tree.ts';
import { isIdentifier, syntaxTree, walk } from '../syntax-tree.ts';

const RUNNER_OF = [
  { folder: 'tests/end-to-end/', runner: '@playwright/test' },
  { folder: 'tests/', runner: 'vitest' },
];

/** Tests stand under tests/, end in .test.ts(x), and use the runner of their folder: any other would never be run. */
export const testsAreRun: HouseRule = (files) =>
  files
    .filter((file) => isCode(file.path))
    .flatMap((file): Finding[] => {
      const used = new Set(importsOf(file).map((edge) => edge.specifier));
      let declaresTests = false;
      walk(syntaxTree(file), (node) => {
        if (node.type !== 'CallExpression') return;
        const callee = node.callee;
        if (isIdentifier(callee, 'test') || isIdentifier(callee, 'it') || isIdentifier(callee, 'describe')) declaresTests = true;
      });
      const usesRunner = used.has('vitest') || used.has('@playwright/test');
      const isNamedTest = /\.test\.tsx?$/.test(file.path);
      const say = (message: string): Finding[] => [{ path: file.path, line: 1, message }];
      if (declaresTests && usesRunner && !isNamedTest) return say('declares tests, but only *.test.ts is run');
      if (!isNamedTest) return [];
      const place = RUNNER_OF.find(({ folder }) => file.path.startsWith(folder));
      if (!place) return say('a test outside tests/ is never run');
      if (file.path.startsWith('tests/bench/')) return say('nothing in tests/bench/ is run as a test');
      return used.has(place.runner)
        ? []
        : say(`tests under ${place.folder} are run by ${place.runner}, which this file does not import`);
    });
