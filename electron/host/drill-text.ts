import { createHash } from 'node:crypto';
import { DRILL_FORMAT_VERSION, DRILL_TEXT_LIMIT, type Drill, parseDrill, scanJson } from '../../sim-core/index.ts';
import type { DrillSummary } from '../contract.ts';
import { HostError } from './host-error.ts';

/** A drill file that was read and found good. */
export interface DrillText {
  text: string;
  drill: Drill;
  /** SHA-256 of the content, minified: the same drill laid out differently is the same version. */
  hash: string;
}

/**
 * Reads a drill file.
 * @throws HostError 'newer-version' or 'bad-file', with the place of the first problem and how many more there are
 */
export function readDrillText(given: string): DrillText {
  // A byte order mark is left by some editors and is no part of the drill; what reads the text later does not know it.
  const text = given.replace(/^\uFEFF/, '');
  const result = parseDrill(text);
  if (result.ok) return { text, drill: result.value, hash: contentHash(text) };
  const [first] = result.problems;
  const more = result.problems.length - 1;
  const rest = more > 0 ? ` (and ${more} more ${more === 1 ? 'problem' : 'problems'})` : '';
  const place = first && first.path !== '$' ? `At ${first.path}: ` : '';
  throw new HostError(
    isNewer(text) ? 'newer-version' : 'bad-file',
    `${place}${first?.sentence ?? 'This is not a drill.'}${rest}`,
  );
}

export function drillSummary(read: DrillText, source: DrillSummary['source'], draft = false): DrillSummary {
  const { drill } = read;
  return {
    id: drill.id,
    hash: read.hash,
    source,
    draft,
    title: drill.title,
    technique: drill.technique,
    material: drill.plate.material,
    thicknessMm: drill.plate.thicknessMm,
  };
}

export function contentHash(text: string): string {
  return createHash('sha256')
    .update(JSON.stringify(JSON.parse(text)))
    .digest('hex');
}

function isNewer(text: string): boolean {
  // Only what the core itself would read: a text of any length and depth may come here.
  const scan = text.length > DRILL_TEXT_LIMIT ? null : scanJson(text);
  if (!scan?.ok || typeof scan.value !== 'object' || scan.value === null || !('formatVersion' in scan.value)) return false;
  return typeof scan.value.formatVersion === 'number' && scan.value.formatVersion > DRILL_FORMAT_VERSION;
}
