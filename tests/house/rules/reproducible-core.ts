import { type Finding, type HouseRule, isCode, lineAt, type SourceFile } from '../source-tree.ts';
import { isIdentifier, type SyntaxNode, syntaxTree, walk } from '../syntax-tree.ts';

/** Methods whose result depends on the place or the engine. */
const PLACE_DEPENDENT = /^(toLocale\w*|localeCompare)$/;

function isPlainName(value: unknown, parent: SyntaxNode | null): boolean {
  // `a.Math` and `{ Math: 1 }` name a property, not the global.
  if (parent?.type === 'MemberExpression' && parent.property === value && !parent.computed) return false;
  return !(parent?.type === 'Property' && parent.key === value && !parent.computed);
}

function isSquareRoot(parent: SyntaxNode | null): boolean {
  return parent?.type === 'MemberExpression' && !parent.computed && isIdentifier(parent.property, 'sqrt');
}

/** 2 ** n with both written out is exact in every engine; any other power may differ in its last bit. */
function isExactPower(node: SyntaxNode): boolean {
  const [base, exponent] = [node.left, node.right] as SyntaxNode[];
  return base?.type === 'Literal' && base.value === 2 && exponent?.type === 'Literal' && Number.isInteger(exponent.value);
}

function brokenBy(node: SyntaxNode, parent: SyntaxNode | null): string | null {
  switch (node.type) {
    case 'Identifier':
      if (node.name === 'Math' && isPlainName(node, parent) && !isSquareRoot(parent)) {
        return 'of Math the core may use Math.sqrt only: engines differ in the last bit of the rest; see sim-core/math';
      }
      return null;
    case 'BinaryExpression':
      return node.operator === '**' && !isExactPower(node)
        ? 'engines differ in the last bit of **; multiply, or see sim-core/math'
        : null;
    case 'AssignmentExpression':
      return node.operator === '**=' ? 'engines differ in the last bit of **=; multiply, or see sim-core/math' : null;
    case 'MemberExpression': {
      const property = node.property as SyntaxNode;
      const name = property.type === 'Identifier' && !node.computed ? property.name : property.value;
      return typeof name === 'string' && PLACE_DEPENDENT.test(name) ? `${name} depends on the place or the engine` : null;
    }
    default:
      return null;
  }
}

function check(file: SourceFile): Finding[] {
  const findings: Finding[] = [];
  walk(syntaxTree(file), (node, parent) => {
    const message = brokenBy(node, parent);
    if (message) findings.push({ path: file.path, line: lineAt(file.text, node.start), message });
  });
  return findings;
}

/**
 * What would give the core other bits on another engine. The clock and the like are banned beside this by the linter's list of
 * denied names, and by the core's own type check, which knows neither a page nor Node.
 */
export const reproducibleCore: HouseRule = (files) =>
  files.filter((file) => file.path.startsWith('sim-core/') && isCode(file.path)).flatMap(check);
