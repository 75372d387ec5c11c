import { posix } from 'node:path';
import type { SourceFile } from './source-tree.ts';
import { isIdentifier, literalText, type SyntaxNode, syntaxTree, walk } from './syntax-tree.ts';

/** One way in which a file reaches another: import, export from, import(), a glob, or the address of a worker. */
export interface ImportEdge {
  /** As written; null where it is computed and so cannot be checked. */
  specifier: string | null;
  /** Path from the top folder for a relative specifier, without a query such as `?worker`; else null. */
  target: string | null;
  offset: number;
}

/** The node that holds the specifier where this node reaches another file, else null. */
function specifierNode(node: SyntaxNode): unknown {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ExportAllDeclaration':
    case 'ImportExpression':
    case 'TSImportType':
      return node.source;
    case 'ExportNamedDeclaration':
      return node.source ?? null;
    case 'NewExpression': {
      const [address, base] = node.arguments as SyntaxNode[];
      const isBesideThisFile =
        isIdentifier(node.callee, 'URL') &&
        base?.type === 'MemberExpression' &&
        (base.object as SyntaxNode).type === 'MetaProperty';
      return isBesideThisFile ? address : null;
    }
    case 'CallExpression': {
      const callee = node.callee as SyntaxNode;
      const isGlob = callee.type === 'MemberExpression' && (callee.object as SyntaxNode).type === 'MetaProperty';
      return isGlob && isIdentifier(callee.property, 'glob') ? (node.arguments as SyntaxNode[])[0] : null;
    }
    default:
      return null;
  }
}

/** Every edge from a code file. */
export function importsOf(file: SourceFile): ImportEdge[] {
  const edges: ImportEdge[] = [];
  walk(syntaxTree(file), (node) => {
    const source = specifierNode(node);
    if (!source) return;
    const specifier = literalText(source);
    const target = specifier?.startsWith('.')
      ? posix.normalize(posix.join(posix.dirname(file.path), specifier.replace(/\?.*$/, '')))
      : null;
    edges.push({ specifier, target, offset: node.start });
  });
  return edges;
}
