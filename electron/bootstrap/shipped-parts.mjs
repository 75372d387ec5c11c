import { execFileSync } from 'node:child_process';
import { NPM } from './install.mjs';
import { root } from './root.mjs';

const DEVELOPMENT = 'cdx:npm:package:development';

/**
 * @typedef {{name: string, version: string, 'bom-ref': string, properties?: {name: string, value: string}[],
 *   licenses?: {license?: {id?: string}}[]}} Component
 */

/** @param {Component} component */
function isShipped({ name, properties }) {
  // Electron is installed as a tool and shipped as the program that runs the rest.
  return name === 'electron' || !properties?.some((property) => property.name === DEVELOPMENT && property.value === 'true');
}

/**
 * What a package of Kerfhand is made of, from the lock file: a software bill of materials in CycloneDX's JSON, as npm makes it,
 * without what is only there to build and to test. Throws where npm fails.
 * @returns {{components: Component[], dependencies: {ref: string, dependsOn: string[]}[]}}
 */
export function shippedParts() {
  const args = ['sbom', '--package-lock-only', '--sbom-format', 'cyclonedx'];
  const bill = JSON.parse(execFileSync(NPM.program, args, { cwd: root, encoding: 'utf8', shell: NPM.shell }));
  /** @type {Component[]} */
  const components = bill.components.filter(isShipped);
  const kept = new Set([bill.metadata.component['bom-ref'], ...components.map((component) => component['bom-ref'])]);
  /** @type {{ref: string, dependsOn: string[]}[]} */
  const dependencies = bill.dependencies;
  return {
    ...bill,
    components,
    dependencies: dependencies
      .filter(({ ref }) => kept.has(ref))
      .map(({ ref, dependsOn }) => ({ ref, dependsOn: dependsOn.filter((other) => kept.has(other)) })),
  };
}
