import { basename } from 'node:path';
import { type Finding, type HouseRule, isCode, type SourceFile } from '../source-tree.ts';
import { type SyntaxNode, syntaxTree } from '../syntax-tree.ts';

const SAYS_NOTHING = /^(utils?|helpers?|common|misc)$/;
const KEBAB = /^[a-z0-9]+(-[a-z0-9]+)*(\.(test|config|d))?\.(ts|mjs)$/;
const COMPONENT = /^[A-Z][A-Za-z0-9]*(\.test)?\.tsx$/;
/** The page's entry is a module that mounts a component, and is none itself. */
const ENTRY = 'renderer/main.tsx';

/** The names that a module exports by declaration. */
function exportedNames(file: SourceFile): Set<string> {
  const names = new Set<string>();
  for (const statement of syntaxTree(file).body as SyntaxNode[]) {
    if (statement.type !== 'ExportNamedDeclaration') continue;
    const declaration = statement.declaration as SyntaxNode | null;
    const declared = declaration?.declarations ? (declaration.declarations as SyntaxNode[]) : declaration ? [declaration] : [];
    for (const { id } of declared) if (id) names.add(String((id as SyntaxNode).name));
    for (const { exported } of statement.specifiers as SyntaxNode[]) names.add(String((exported as SyntaxNode).name));
  }
  return names;
}

function check(file: SourceFile): string[] {
  const problems: string[] = [];
  const parts = file.path.split('/');
  for (const part of parts) {
    const stem = part.replace(/\..*$/, '');
    if (SAYS_NOTHING.test(stem.toLowerCase())) problems.push(`the name "${stem}" says nothing; name the idea`);
  }
  const name = basename(file.path);
  if (!isCode(file.path) || file.path === ENTRY) return problems;
  if (!name.endsWith('.tsx')) {
    if (!KEBAB.test(name)) problems.push('a module is named in kebab-case');
  } else if (!COMPONENT.test(name)) {
    problems.push('a component file is named in PascalCase');
  } else if (!name.includes('.test.') && !exportedNames(file).has(name.replace('.tsx', ''))) {
    problems.push(`a component file exports the component that it is named for (${name.replace('.tsx', '')})`);
  }
  return problems;
}

/** Files are named for their idea: kebab-case modules, PascalCase components that export what they are named for. */
export const fileNames: HouseRule = (files) =>
  files.flatMap((file) => check(file).map((message): Finding => ({ path: file.path, line: 1, message })));
