import { readFileSync } from 'node:fs';
import { beforeAll, expect, test } from 'vitest';
import { shippedParts } from '../../electron/bootstrap/shipped-parts.mjs';

/** Licences that let a part be handed on inside a program of ours, with its notice; a new one is read before it comes in. */
const FREE_TO_HAND_ON = ['MIT', 'Apache-2.0', 'ISC', '0BSD', 'BSD-2-Clause', 'BSD-3-Clause'];

let bill: ReturnType<typeof shippedParts>;

beforeAll(() => {
  bill = shippedParts();
});

test('the list of what is shipped holds every dependency at its version, and Electron', () => {
  const manifest = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  const wanted = { ...manifest.dependencies, electron: manifest.devDependencies.electron };
  const listed = Object.fromEntries(bill.components.map(({ name, version }) => [name, version]));
  expect(listed).toMatchObject(wanted);
});

test('it leaves out what only builds and tests', () => {
  const names = bill.components.map(({ name }) => name);
  expect(names).not.toContain('vitest');
  expect(names).not.toContain('typescript');
});

test('every part may be handed on', () => {
  const others = bill.components.flatMap(({ name, licenses }) => {
    const id = licenses?.[0]?.license?.id ?? 'none';
    return FREE_TO_HAND_ON.includes(id) ? [] : [`${name}: ${id}`];
  });
  expect(others).toEqual([]);
});
