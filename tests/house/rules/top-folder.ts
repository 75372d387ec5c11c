import type { Finding, HouseRule } from '../source-tree.ts';

const ROOMS = new Set(['sim-core', 'scenarios', 'renderer', 'electron', 'tests', '.ci']);
const FILES = new Set([
  'README.md',
  'DEVELOPERS.md',
  'LICENSE',
  'package.json',
  'package-lock.json',
  'biome.json',
  'playwright.config.ts',
  'tsconfig.base.json',
  'tsconfig.json',
  'vite.config.ts',
  'vitest.config.ts',
  '.gitattributes',
  '.gitignore',
  '.npmrc',
]);

/** The top folder holds the rooms of the house, two pages to read, and what a tool insists on. */
export const topFolder: HouseRule = (files) => {
  const findings = new Map<string, Finding>();
  for (const file of files) {
    const [entry = ''] = file.path.split('/');
    const known = entry === file.path ? FILES : ROOMS;
    if (!known.has(entry))
      findings.set(entry, { path: entry, line: 1, message: 'has no place in the top folder; see DEVELOPERS.md' });
  }
  return [...findings.values()];
};
