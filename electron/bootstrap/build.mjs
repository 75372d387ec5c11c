import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import process from 'node:process';
import { pathToFileURL } from 'node:url';
import { buildFolder, root } from './root.mjs';

/** @typedef {{name: string, output: string, sources: string[], build: () => Promise<unknown>}} Bundle */

/** @type {Bundle[]} */
const BUNDLES = [
  {
    name: 'page',
    output: join(buildFolder, 'renderer', 'index.html'),
    sources: [
      'renderer',
      'sim-core',
      'scenarios',
      'electron/contract.ts',
      'electron/contract',
      'vite.config.ts',
      'package-lock.json',
    ],
    build: buildPage,
  },
  {
    name: 'shell',
    output: join(buildFolder, 'electron', 'main.mjs'),
    sources: ['electron', 'sim-core', 'package-lock.json'],
    build: buildShell,
  },
];

async function buildPage() {
  // Started from a test runner this would be 'test', and the page would carry the libraries' development halves.
  process.env.NODE_ENV = 'production';
  const { build } = await import('vite');
  await build({ configFile: join(root, 'vite.config.ts'), logLevel: 'warn' });
}

/**
 * Electron's entries, each one file: the main process and the host's worker as modules, the preload as CommonJS, as a sandboxed
 * one must be.
 */
const SHELL_ENTRIES = /** @type {const} */ ([
  ['main.ts', 'es', 'main.mjs'],
  ['host/core-worker.ts', 'es', 'core-worker.mjs'],
  ['preload.ts', 'cjs', 'preload.cjs'],
]);

async function buildShell() {
  for (const [entry, format, fileName] of SHELL_ENTRIES) await buildEntry(entry, format, fileName, join(buildFolder, 'electron'));
}

/**
 * @param {string} entry below electron/
 * @param {'es' | 'cjs'} format
 * @param {string} fileName
 * @param {string} outDir
 */
export async function buildEntry(entry, format, fileName, outDir) {
  const { build } = await import('vite');
  await build({
    configFile: false,
    root,
    logLevel: 'warn',
    ssr: { noExternal: true },
    build: {
      ssr: join(root, 'electron', entry),
      outDir,
      emptyOutDir: false,
      license: { fileName: `licences-${fileName}.txt` },
      target: 'node24',
      rolldownOptions: {
        external: ['electron', ...builtinModules, /^node:/],
        output: { format, entryFileNames: fileName, codeSplitting: false },
      },
    },
  });
}

/** Names, sizes and times of every source: a new, changed or deleted file makes it another. @param {string[]} sources */
function fingerprint(sources) {
  const hash = createHash('sha256');
  /** @param {string} path */
  const add = (path) => {
    const full = join(root, path);
    if (!existsSync(full)) return;
    const info = statSync(full);
    if (info.isDirectory()) {
      for (const name of readdirSync(full).sort()) add(`${path}/${name}`);
    } else {
      hash.update(`${path} ${info.size} ${info.mtimeMs}\n`);
    }
  };
  for (const source of sources) add(source);
  return hash.digest('hex');
}

/**
 * Builds the bundles whose sources changed since they were last built; runs on Node 24 with the packages installed.
 * @param {(line: string) => void} say is told what is being built
 */
export async function buildStale(say) {
  for (const bundle of BUNDLES) {
    const stampPath = join(buildFolder, `${bundle.name}.stamp`);
    const wanted = fingerprint(bundle.sources);
    if (existsSync(bundle.output) && existsSync(stampPath) && readFileSync(stampPath, 'utf8') === wanted) continue;
    say(`building the ${bundle.name}`);
    await bundle.build();
    mkdirSync(buildFolder, { recursive: true });
    writeFileSync(stampPath, wanted);
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  await buildStale((line) => process.stdout.write(`Kerfhand: ${line}.\n`));
}
