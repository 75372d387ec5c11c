// npm run package: the page, the shell, a list of what they are made of, and packages of it all for this system (or for those
// named: `npm run package -- --linux`). electron-builder fetches Electron's binaries, so it needs a line.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { buildStale } from './build.mjs';
import { installPackages } from './install.mjs';
import { buildFolder, root } from './root.mjs';
import { runChild } from './run-child.mjs';
import { shippedParts } from './shipped-parts.mjs';

const folder = join(root, 'electron', 'packaging');
const builder = join(folder, 'node_modules', 'electron-builder', 'cli.js');
const config = join(folder, 'electron-builder.yml');

await buildStale((line) => process.stdout.write(`Kerfhand: ${line}.\n`));
mkdirSync(buildFolder, { recursive: true });
writeFileSync(join(buildFolder, 'sbom.cdx.json'), `${JSON.stringify(shippedParts(), null, 2)}\n`);
await installPackages(folder, ['--include=dev', '--ignore-scripts']);
const args = [builder, '--projectDir', root, '--config', config, ...process.argv.slice(2)];
process.exitCode = await runChild(process.execPath, args, { cwd: root });
