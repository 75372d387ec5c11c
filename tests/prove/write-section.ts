// Writes the section of evidence in DEVELOPERS.md from the reports under tests/evidence/.
import { readFileSync, writeFileSync } from 'node:fs';
import { withEvidence } from './evidence-section.ts';

const page = new URL('../../DEVELOPERS.md', import.meta.url);
writeFileSync(page, withEvidence(readFileSync(page, 'utf8')));
