import { describe, expect, test } from 'vitest';
import { layerArrows } from './rules/layer-arrows.ts';

const findings = (path: string, text: string) => layerArrows([{ path, text }]);

describe('an arrow against the house is caught', () => {
  test.each([
    ['sim-core/run/a.ts', "import { bench } from '../../renderer/bench/bench.ts';"],
    ['sim-core/run/a.ts', "export * from '../../electron/contract.ts';"],
    ['sim-core/run/a.ts', "import { z } from 'zod';"],
    ['sim-core/drill/a.ts', "import three from 'three';"],
    ['sim-core/run/a.ts', "import { readFileSync } from 'node:fs';"],
    ['sim-core/run/a.ts', "import drill from '../../scenarios/tab.json' with { type: 'json' };"],
    ['sim-core/run/a.ts', 'const part = await import(name);'],
    ['renderer/bench/a.ts', "import { createSimulation } from '../../sim-core/run/simulation.ts';"],
    ['renderer/bench/a.ts', "import type { Sample } from '../../sim-core/run/types.ts';"],
    ['renderer/bench/a.ts', "import { records } from '../../electron/host/records.ts';"],
    ['renderer/bench/a.ts', "const worker = new Worker(new URL('../../electron/host/worker.ts', import.meta.url));"],
    ['renderer/bench/a.ts', "const all = import.meta.glob('../../scenarios/*.json');"],
    ['renderer/bench/a.ts', "import { join } from 'node:path';"],
    ['renderer/bench/a.ts', "import fs from 'fs';"],
    ['renderer/bench/a.ts', "import { ipcRenderer } from 'electron';"],
    ['renderer/bench/a.ts', "let x: import('../../electron/host/records.ts').Records;"],
    ['electron/host/a.ts', "import { app } from 'electron';"],
    ['electron/host/a.ts', "import type { App } from 'electron';"],
    ['electron/loopback.ts', "import { app } from 'electron';"],
    ['electron/host/a.ts', "import { Bench } from '../../renderer/bench/Bench.tsx';"],
    ['electron/host/a.ts', "import { parseDrill } from '../../sim-core/drill/parse-drill.ts';"],
    ['electron/host/a.ts', "import { sample } from '../../tests/host/sample.ts';"],
    ['electron/contract.ts', "import { records } from './host/records.ts';"],
    ['electron/contract.ts', "import { join } from 'node:path';"],
    ['electron/contract/a.ts', "import { join } from 'node:path';"],
    ['electron/contract/a.ts', "import { records } from '../host/records.ts';"],
    ['renderer/bench/a.ts', "import { prices } from '../../electron/contract/prices.ts';"],
    ['electron/host/a.ts', "import manifest from '../../package.json' with { type: 'json' };"],
  ])('%s: %s', (path, text) => {
    expect(findings(path, text)).toHaveLength(1);
  });

  test('with its place', () => {
    const [finding] = findings('renderer/a.ts', "import '../sim-core/index.ts';\n\nimport fs from 'node:fs';");
    expect(finding).toEqual({ path: 'renderer/a.ts', line: 3, message: 'renderer runs in a page and may not import node:fs' });
  });
});

describe('an arrow of the house is left alone', () => {
  test.each([
    ['sim-core/run/a.ts', "import { jet } from '../physics/jet.ts';"],
    ['sim-core/drill/a.ts', "import { z } from 'zod';"],
    [
      'renderer/bench/a.ts',
      "import { TICK_HZ } from '../../sim-core/index.ts';\nimport type { Drill } from '../../electron/contract.ts';",
    ],
    ['renderer/bench/a.ts', "import { useFrame } from '@react-three/fiber';\nimport './bench.css';"],
    ['renderer/bench/a.ts', "const worker = new Worker(new URL('./simulation-worker.ts', import.meta.url), { type: 'module' });"],
    ['electron/main.ts', "import { app } from 'electron';\nimport { join } from 'node:path';"],
    ['electron/contract.ts', "import { z } from 'zod';\nimport type { RigId } from '../sim-core/index.ts';"],
    ['electron/contract.ts', "import { prices } from './contract/prices.ts';"],
    ['electron/contract/a.ts', "import { z } from 'zod';\nimport type { RigId } from '../../sim-core/index.ts';"],
    ['tests/golden/a.test.ts', "import { jet } from '../../sim-core/physics/jet.ts';"],
    ['sim-core/run/a.ts', 'const text = "import fs from \'node:fs\'";'],
  ])('%s: %s', (path, text) => {
    expect(findings(path, text)).toEqual([]);
  });
});
