import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, test } from 'vitest';
import { TOP } from './source-tree.ts';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** What the compiler says about one file under a layer's own settings. */
function compile(layer: string, text: string): string {
  // Inside the project, so that the layer's settings find the packages and the kind of module that they mean.
  mkdirSync(join(TOP, '.build'), { recursive: true });
  const folder = mkdtempSync(join(TOP, '.build', 'layer-types-'));
  folders.push(folder);
  writeFileSync(join(folder, 'sample.ts'), text);
  const settings = { extends: join(TOP, layer, 'tsconfig.json'), compilerOptions: { incremental: false, tsBuildInfoFile: null } };
  writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ ...settings, files: ['sample.ts'], include: [] }));
  const compiler = join(TOP, 'node_modules', 'typescript', 'bin', 'tsc');
  return spawnSync(process.execPath, [compiler, '-p', folder], { encoding: 'utf8' }).stdout;
}

describe('the compiler keeps a layer to what is there where it runs', () => {
  test.each([
    ['sim-core', 'window'],
    ['sim-core', 'document'],
    ['sim-core', 'process'],
    ['sim-core', 'console'],
    ['sim-core', 'setTimeout'],
    ['sim-core', 'TextEncoder'],
    ['renderer', 'process'],
    ['renderer', 'Buffer'],
    ['electron', 'document'],
  ])('%s knows no %s', (layer, name) => {
    expect(compile(layer, `export const taken = ${name};\n`)).toContain(`Cannot find name '${name}'`);
  });

  test.each([
    ['sim-core', 'export const taken = new Float64Array(8);\n'],
    ['renderer', 'export const taken = document.title;\n'],
    ['electron', 'export const taken = process.pid;\n'],
  ])('%s knows its own', (layer, text) => {
    expect(compile(layer, text)).toBe('');
  });

  test.each(['export enum Part { nozzle }', 'export class Torch { constructor(private readonly lean: number) {} }'])(
    'syntax that Node cannot strip is refused: %s',
    (text) => {
      expect(compile('sim-core', text)).toContain('erasableSyntaxOnly');
    },
  );
});
