import { describe, expect, test } from 'vitest';
import { reproducibleCore } from './rules/reproducible-core.ts';

const findings = (text: string, path = 'sim-core/physics/a.ts') => reproducibleCore([{ path, text }]);

describe('what another engine may answer differently is caught', () => {
  test.each([
    'const y = Math.sin(x);',
    'const y = Math.random();',
    'const y = Math.hypot(a, b);',
    "const y = Math['sqrt'](x);",
    'const { sin } = Math;',
    'const M = Math;',
    'const y = [1, 2].map(Math.abs);',
    'const holder = { Math };',
    'const y = x ** 2;',
    'const y = 10 ** -3;',
    'const y = 2 ** n;',
    'x **= 2;',
    'const text = x.toLocaleString();',
    'names.sort((a, b) => a.localeCompare(b));',
    "const text = name['toLocaleUpperCase']();",
  ])('%s', (text) => {
    expect(findings(text)).toHaveLength(1);
  });
});

describe('what is exact everywhere is left alone', () => {
  test.each([
    'const y = Math.sqrt(x) * 2;',
    'const largest = 2 ** 32 - 1;',
    'const y = x.Math.sin;',
    'const row = { Math: 1 };',
    '/** Math.sin is not used here. */ const y = sin(x);',
  ])('%s', (text) => {
    expect(findings(text)).toEqual([]);
  });

  test('outside the core', () => {
    expect(findings('const y = Math.sin(x);', 'renderer/scene/a.ts')).toEqual([]);
  });
});
