import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

export interface AppPaths {
  version: string;
  scenariosFolder: string;
  /** The built page. */
  pageFolder: string;
}

/**
 * Finds the parts of Kerfhand on disk: upward from `start` to the folder whose package.json is Kerfhand's own. The same from
 * the sources and from a bundle, wherever the bundle lies inside the tree.
 */
export function findAppPaths(start: string): AppPaths {
  for (let folder = start; ; folder = path.dirname(folder)) {
    const manifest = readManifest(path.join(folder, 'package.json'));
    if (manifest) {
      return {
        version: manifest.version,
        scenariosFolder: path.join(folder, 'scenarios'),
        pageFolder: path.join(folder, '.build', 'renderer'),
      };
    }
    if (folder === path.dirname(folder)) throw new Error(`No folder above ${start} is Kerfhand's.`);
  }
}

function readManifest(file: string): { version: string } | null {
  if (!existsSync(file)) return null;
  const manifest: unknown = JSON.parse(readFileSync(file, 'utf8'));
  if (typeof manifest !== 'object' || manifest === null || !('name' in manifest) || manifest.name !== 'kerfhand') return null;
  return 'version' in manifest && typeof manifest.version === 'string' ? { version: manifest.version } : null;
}
