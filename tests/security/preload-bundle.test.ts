// A sandboxed preload is one CommonJS file that may require electron and nothing else of weight. This builds it as the shell's
// build does and runs it where only that is there.
import { builtinModules } from 'node:module';
import path from 'node:path';
import vm from 'node:vm';
import { build, type Rolldown } from 'vite';
import { expect, test } from 'vitest';
import { VERB_NAMES } from '../../electron/contract.ts';

const root = path.join(import.meta.dirname, '..', '..');

async function bundlePreload(): Promise<string> {
  const built = (await build({
    configFile: false,
    root,
    logLevel: 'warn',
    ssr: { noExternal: true },
    build: {
      ssr: path.join(root, 'electron', 'preload.ts'),
      write: false,
      target: 'node24',
      rolldownOptions: { external: ['electron', ...builtinModules, /^node:/], output: { format: 'cjs', codeSplitting: false } },
    },
  })) as Rolldown.RolldownOutput;
  expect(built.output).toHaveLength(1);
  return built.output[0].code;
}

test('the preload is one file that needs electron alone and hands out one function per verb', async () => {
  const code = await bundlePreload();
  const required: string[] = [];
  const exposed: Record<string, Record<string, (request: unknown) => unknown>> = {};
  const sent: unknown[][] = [];
  const electron = {
    contextBridge: {
      exposeInMainWorld: (name: string, verbs: (typeof exposed)[string]) => Object.assign(exposed, { [name]: verbs }),
    },
    ipcRenderer: { invoke: (...values: unknown[]) => sent.push(values) },
  };
  const require = (name: string) => {
    required.push(name);
    return electron;
  };
  // No process, no Buffer, no global of Node: what a sandboxed preload may count on.
  vm.runInNewContext(code, { require, module: { exports: {} }, exports: {} });
  expect(required).toEqual(['electron']);
  expect(Object.keys(exposed)).toEqual(['kerfhand']);
  expect(Object.keys(exposed.kerfhand ?? {})).toEqual(VERB_NAMES);
  exposed.kerfhand?.getRun?.({ runId: 'x' });
  expect(sent).toEqual([['kerfhand:call', 'getRun', { runId: 'x' }]]);
});
