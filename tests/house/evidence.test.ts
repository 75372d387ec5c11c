import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { withEvidence } from '../prove/evidence-section.ts';

test('what DEVELOPERS.md says of the campaigns is what their reports say', () => {
  const page = readFileSync(new URL('../../DEVELOPERS.md', import.meta.url), 'utf8');
  expect(page, 'run node tests/prove/write-section.ts').toBe(withEvidence(page));
});
