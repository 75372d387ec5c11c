import { parseSync } from 'vite';
import type { SourceFile } from './source-tree.ts';

/** A node of the syntax tree in the ESTree form. */
export interface SyntaxNode {
  type: string;
  start: number;
  end: number;
  [field: string]: unknown;
}

const parsed = new WeakMap<SourceFile, SyntaxNode>();

function isNode(value: unknown): value is SyntaxNode {
  return typeof value === 'object' && value !== null && typeof (value as SyntaxNode).type === 'string';
}

/** The syntax tree of a code file. Throws where it does not parse. */
export function syntaxTree(file: SourceFile): SyntaxNode {
  const known = parsed.get(file);
  if (known) return known;
  const { program, errors } = parseSync(file.path, file.text);
  if (errors.length > 0) throw new SyntaxError(`${file.path}: ${errors[0]?.message}`);
  const tree = program as unknown as SyntaxNode;
  parsed.set(file, tree);
  return tree;
}

/** Calls `visit` for every node, outer ones first, with the node that holds it. */
export function walk(node: SyntaxNode, visit: (node: SyntaxNode, parent: SyntaxNode | null) => void): void {
  const enter = (current: SyntaxNode, parent: SyntaxNode | null) => {
    visit(current, parent);
    for (const value of Object.values(current)) {
      for (const item of Array.isArray(value) ? value : [value]) if (isNode(item)) enter(item, current);
    }
  };
  enter(node, null);
}

export function isIdentifier(value: unknown, name: string): boolean {
  return isNode(value) && value.type === 'Identifier' && value.name === name;
}

/** The text of a string literal, or null. */
export function literalText(value: unknown): string | null {
  return isNode(value) && value.type === 'Literal' && typeof value.value === 'string' ? value.value : null;
}
