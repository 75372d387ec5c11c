import { existsSync, readdirSync, readFileSync } from 'node:fs';
import type { Evidence } from './evidence.ts';

export const SECTION_BEGINS = '<!-- evidence: made by tests/prove/write-section.ts -->';
export const SECTION_ENDS = '<!-- end of evidence -->';

/** A figure of a report in the section's words: lists and tables stay in the report. */
function figureOf(value: unknown): string | null {
  if (typeof value === 'number') return String(Math.round(value * 1000) / 1000);
  return typeof value === 'string' || typeof value === 'boolean' ? String(value) : null;
}

/** `speedControl` as "speed control". */
function spelled(key: string): string {
  return key.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}

function figures(record: Record<string, unknown>): string {
  return Object.entries(record)
    .flatMap(([key, value]) => {
      const figure = figureOf(value);
      return figure === null ? [] : [`${spelled(key)} ${figure}`];
    })
    .join('; ');
}

/** The evidence kept under tests/evidence/, one entry a campaign, with what each report says of its limits. */
export function evidenceSection(): string {
  const folder = new URL('../evidence/', import.meta.url);
  const names = existsSync(folder) ? readdirSync(folder).filter((name) => name.endsWith('.json')) : [];
  if (names.length === 0) return [SECTION_BEGINS, '', 'No campaign has left a report yet.', '', SECTION_ENDS].join('\n');
  const reports = names
    .sort()
    .map((name) => JSON.parse(readFileSync(new URL(name, folder), 'utf8')) as Evidence & { coreVersion: string });
  const entries = reports.flatMap(({ campaign, coreVersion, asked, got, holds, notes }) => [
    `- **\`prove:${campaign}\` ${holds ? 'holds' : 'does not hold'}** (core ${coreVersion}). Asked: ${figures(asked)}. Got: ${figures(got)}.`,
    ...notes.map((note) => `  - ${note}`),
  ]);
  return [SECTION_BEGINS, '', ...entries, '', SECTION_ENDS].join('\n');
}

/** A page with its section of evidence made anew. Throws where it has none. */
export function withEvidence(page: string): string {
  const [begins, ends] = [page.indexOf(SECTION_BEGINS), page.indexOf(SECTION_ENDS)];
  if (begins < 0 || ends < begins) throw new Error('The page has no section of evidence.');
  return page.slice(0, begins) + evidenceSection() + page.slice(ends + SECTION_ENDS.length);
}
