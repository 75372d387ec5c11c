import { type Finding, type HouseRule, lineAt } from '../source-tree.ts';

const EXACT = /^\d+\.\d+\.\d+(-[0-9A-Za-z.-]+)?$/;
const DEPENDENCY_LISTS = ['dependencies', 'devDependencies', 'optionalDependencies', 'peerDependencies'];

/** Every dependency is pinned to one version, and the lock file names no host: it must install from any registry. */
export const pinnedPackages: HouseRule = (files) => {
  const findings: Finding[] = [];
  for (const { path, text } of files) {
    const name = path.split('/').at(-1);
    if (name === 'package.json') {
      const manifest = JSON.parse(text) as Record<string, Record<string, string> | undefined>;
      for (const list of DEPENDENCY_LISTS) {
        for (const [dependency, version] of Object.entries(manifest[list] ?? {})) {
          const line = lineAt(text, text.indexOf(`"${dependency}":`));
          if (!EXACT.test(version))
            findings.push({ path, line, message: `${dependency} is not pinned to one version (${version})` });
        }
      }
    }
    if (name === 'package-lock.json') {
      for (const match of text.matchAll(/"resolved"\s*:/g)) {
        findings.push({ path, line: lineAt(text, match.index), message: 'names the place a package came from; see .npmrc' });
      }
    }
    if (path === '.npmrc' && /^\s*(@[^=]*:)?registry\s*=|\/\//m.test(text)) {
      findings.push({ path, line: 1, message: 'names a registry; that is for the machine to say' });
    }
  }
  return findings;
};
