import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { TOP } from './source-tree.ts';

interface Sample {
  path: string;
  /** The rule of biome.json that the sample breaks, at a path where it must hold; null where nothing is broken. */
  rule: string | null;
  text: string;
}

const bannedInCore = [
  'Date.now()',
  'performance.now()',
  'new Intl.NumberFormat()',
  'crypto.randomUUID()',
  'globalThis.x',
  'eval("1")',
];

const SAMPLES: Sample[] = [
  ...bannedInCore.map((expression, index) => ({
    path: `sim-core/physics/banned-${index}.ts`,
    rule: 'lint/style/noRestrictedGlobals',
    text: `export const answer = ${expression};\n`,
  })),
  { path: 'electron/host/clock.ts', rule: null, text: 'export const now = Date.now();\n' },
  { path: 'sim-core/physics/talk.ts', rule: 'lint/suspicious/noConsole', text: "console.log('talk');\n" },
  { path: 'renderer/scene/talk.ts', rule: 'lint/suspicious/noConsole', text: "console.log('talk');\n" },
  { path: 'sim-core/run/long.ts', rule: 'lint/style/noExcessiveLinesPerFile', text: linesOfCode(401) },
  { path: 'sim-core/run/long-enough.ts', rule: null, text: linesOfCode(400) },
  { path: 'electron/host/bare.ts', rule: 'lint/correctness/useImportExtensions', text: "export * from './clock';\n" },
  { path: 'sim-core/run/ring-a.ts', rule: 'lint/suspicious/noImportCycles', text: ring('a', 'b') },
  { path: 'sim-core/run/ring-b.ts', rule: 'lint/suspicious/noImportCycles', text: ring('b', 'a') },
  {
    path: 'tests/host/only.test.ts',
    rule: 'lint/suspicious/noFocusedTests',
    text: "import { test } from 'vitest';\n\ntest.only('a', () => {});\n",
  },
];

function linesOfCode(count: number): string {
  return Array.from({ length: count }, (_, index) => `export const row${index} = ${index};\n`).join('');
}

function ring(name: string, other: string): string {
  return `import { ${other} } from './ring-${other}.ts';\n\nexport const ${name} = () => ${other};\n`;
}

let folder = '';
/** Rules that the linter found broken, by path. */
const broken = new Map<string, string[]>();

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfhand-lint-'));
  copyFileSync(join(TOP, 'biome.json'), join(folder, 'biome.json'));
  copyFileSync(join(TOP, '.gitignore'), join(folder, '.gitignore'));
  for (const { path, text } of SAMPLES) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const biome = join(TOP, 'node_modules', '@biomejs', 'biome', 'bin', 'biome');
  const args = [biome, 'lint', '--reporter=json', '--max-diagnostics=none'];
  const { stdout } = spawnSync(process.execPath, args, { cwd: folder, encoding: 'utf8' });
  const report = JSON.parse(stdout) as { diagnostics: { category: string; severity: string; location: { path: string } }[] };
  for (const { category, severity, location } of report.diagnostics) {
    if (severity === 'error') broken.set(location.path, [...(broken.get(location.path) ?? []), category]);
  }
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

test.each(SAMPLES)('the linter on $path: $rule', ({ path, rule }) => {
  const found = broken.get(path) ?? [];
  if (rule === null) expect(found).toEqual([]);
  else expect(found).toContain(rule);
});
