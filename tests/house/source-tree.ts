import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** One file of the project: its path from the top folder, with forward slashes, and its text (empty for pictures and the like). */
export interface SourceFile {
  path: string;
  text: string;
}

/** One place where a rule of the house is broken. `line` counts from 1. */
export interface Finding {
  path: string;
  line: number;
  message: string;
}

/** A rule looks at all files at once and says where it is broken. */
export type HouseRule = (files: readonly SourceFile[]) => Finding[];

export const TOP = fileURLToPath(new URL('../..', import.meta.url));

/** Folders that tools fill; nothing in them is ours. */
const NOT_OURS = new Set(['node_modules', '.git', '.build', 'test-results', 'playwright-report']);
const TEXT = /\.(ts|tsx|mjs|css|html|json|md|c|yml|yaml)$|^\.[a-z]+$|(^|\/)run$/;

/** Every file of the project, in the order of its path. */
export function readSourceTree(top = TOP): SourceFile[] {
  const files: SourceFile[] = [];
  const enter = (folder: string) => {
    for (const entry of readdirSync(join(top, folder), { withFileTypes: true })) {
      const path = folder ? `${folder}/${entry.name}` : entry.name;
      if (NOT_OURS.has(entry.name) || entry.name.endsWith('.log')) continue;
      if (entry.isDirectory()) enter(path);
      else files.push({ path, text: TEXT.test(path) ? readFileSync(join(top, path), 'utf8') : '' });
    }
  };
  enter('');
  return files.sort((a, b) => (a.path < b.path ? -1 : 1));
}

export function isCode(path: string): boolean {
  return /\.(ts|tsx|mjs)$/.test(path);
}

/** Line number, from 1, of a place in a text. */
export function lineAt(text: string, offset: number): number {
  return text.slice(0, offset).split('\n').length;
}

/** One line a finding, as the report of a failed check shows it. */
export function showFindings(findings: readonly Finding[]): string {
  return findings.map(({ path, line, message }) => `${path}:${line} ${message}`).join('\n');
}
