import { type Finding, type HouseRule, lineAt, type SourceFile } from '../source-tree.ts';
import { isIdentifier, type SyntaxNode, syntaxTree, walk } from '../syntax-tree.ts';

/** On any of them a busy machine is slow. */
const CLOCKS = [
  ['performance', 'now'],
  ['process', 'hrtime'],
  ['process', 'cpuUsage'],
  ['process', 'threadCpuUsage'],
] as const;

function isMember(value: unknown, object: string, property: string): boolean {
  const node = value as SyntaxNode;
  return node.type === 'MemberExpression' && isIdentifier(node.object, object) && isIdentifier(node.property, property);
}

function namesSeed(options: unknown): boolean {
  const { type, properties } = (options ?? {}) as SyntaxNode;
  return type === 'ObjectExpression' && (properties as SyntaxNode[]).some(({ key }) => isIdentifier(key, 'seed'));
}

function brokenBy(node: SyntaxNode): string | null {
  if (node.type === 'CallExpression' && isMember(node.callee, 'fc', 'assert')) {
    const [, options] = node.arguments as unknown[];
    return namesSeed(options) ? null : 'without a seed it tries other cases each time: give fc.assert one';
  }
  return CLOCKS.some(([object, property]) => isMember(node, object, property))
    ? 'a test judges no time: npm run bench measures, tests tell what comes first'
    : null;
}

function check(file: SourceFile): Finding[] {
  const findings: Finding[] = [];
  walk(syntaxTree(file), (node) => {
    const message = brokenBy(node);
    if (message) findings.push({ path: file.path, line: lineAt(file.text, node.start), message });
  });
  return findings;
}

/** Campaigns, measurements and hands at real speed are bound by the clock. */
const IN_TESTS = /^tests\/(?!(end-to-end|bench|prove|demo-yard)\/).*\.tsx?$/;
/** Where the clock is the test's own it goes as that says. */
const OWN_CLOCK = "'performance'] })";

/** What would make a test fail now and then: cases drawn anew each time, and a clock. */
export const repeatableTests: HouseRule = (files) =>
  files.filter(({ path, text }) => IN_TESTS.test(path) && !text.includes(OWN_CLOCK)).flatMap(check);
