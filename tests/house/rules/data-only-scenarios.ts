import { type Finding, type HouseRule, isCode } from '../source-tree.ts';

/** scenarios/ holds data; a drill that needs code is a measure or an effect in the core. */
export const dataOnlyScenarios: HouseRule = (files) =>
  files
    .filter((file) => file.path.startsWith('scenarios/') && isCode(file.path))
    .map((file): Finding => ({ path: file.path, line: 1, message: 'scenarios hold data, no code' }));
