import { isBuiltin } from 'node:module';
import { type ImportEdge, importsOf } from '../imports-of.ts';
import { type Finding, type HouseRule, isCode, lineAt } from '../source-tree.ts';

const LAYERS = ['sim-core', 'scenarios', 'renderer', 'electron', 'tests'] as const;
type Layer = (typeof LAYERS)[number];

/** Where each layer's files may reach, beside their own layer. */
const MAY_REACH: Record<Layer, readonly Layer[]> = {
  'sim-core': [],
  scenarios: [],
  renderer: ['sim-core'],
  electron: ['sim-core'],
  tests: LAYERS,
};
const CONTRACT = 'electron/contract.ts';
/** The contract and the parts it is put together from: all of it is shared with the page. */
const OF_THE_CONTRACT = /^electron\/contract(\.ts|\/[^/]+\.ts)$/;
const CORE_DOOR = 'sim-core/index.ts';
/** The only files that know Electron; everything else must run without its binary. */
const ELECTRON_SHELL = /^electron\/(main|preload)\.ts$/;

function layerOf(path: string): Layer | null {
  return LAYERS.find((layer) => path.startsWith(`${layer}/`)) ?? null;
}

/** What is wrong with an arrow to another file of the project, or null. */
function wrongArrow(from: string, to: string): string | null {
  const layer = layerOf(from);
  const reached = layerOf(to);
  if (layer === null || layer === reached || layer === 'tests') return null;
  if (layer === 'renderer' && to === CONTRACT) return null;
  if (reached === null) return `${layer} reaches ${to}, outside the layers`;
  if (!MAY_REACH[layer].includes(reached)) {
    return layer === 'renderer' && reached === 'electron'
      ? `renderer may take ${CONTRACT} from electron, not ${to}`
      : `${layer} may not import ${reached} (${to})`;
  }
  if (reached === 'sim-core' && to !== CORE_DOOR) return `outside the core only ${CORE_DOOR} may be imported, not ${to}`;
  return null;
}

/** What is wrong with taking a package or a part of Node, or null. */
function wrongPackage(from: string, name: string): string | null {
  const layer = layerOf(from);
  if (name === 'electron' && layer === 'electron' && !ELECTRON_SHELL.test(from)) {
    return 'only electron/main.ts and electron/preload.ts may import electron';
  }
  if (layer === 'sim-core') {
    if (name === 'zod' && from.startsWith('sim-core/drill/')) return null;
    return `sim-core imports nothing but zod, and that only in drill/; not ${name}`;
  }
  if (layer === 'renderer' && (isBuiltin(name) || name === 'electron'))
    return `renderer runs in a page and may not import ${name}`;
  if (OF_THE_CONTRACT.test(from) && name !== 'zod')
    return `${from} is shared with the page: zod and types of the core only, not ${name}`;
  return null;
}

function wrongEdge(from: string, edge: ImportEdge): string | null {
  if (edge.specifier === null) {
    return layerOf(from) === 'sim-core' || layerOf(from) === 'renderer'
      ? 'a computed import cannot be checked; name the file'
      : null;
  }
  if (edge.target === null) return wrongPackage(from, edge.specifier);
  if (OF_THE_CONTRACT.test(from) && edge.target !== CORE_DOOR && !OF_THE_CONTRACT.test(edge.target))
    return `${from} is shared with the page and may not import ${edge.target}`;
  return wrongArrow(from, edge.target);
}

/** The arrows between the layers: who may import whom, through which door, and who may use a package or Node. */
export const layerArrows: HouseRule = (files) =>
  files
    .filter((file) => isCode(file.path))
    .flatMap((file) =>
      importsOf(file).flatMap((edge): Finding[] => {
        const message = wrongEdge(file.path, edge);
        return message ? [{ path: file.path, line: lineAt(file.text, edge.offset), message }] : [];
      }),
    );
