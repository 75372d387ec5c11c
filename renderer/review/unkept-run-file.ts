import { encodeRunFile } from '../../sim-core/index.ts';
import type { ReviewedRun } from './fresh-run.ts';
import type { FileReply } from './offer-file.ts';

/**
 * The file of a run that is nowhere but on this page, as the host would write it; named for its drill and the moment it is saved (UTC).
 * @param drillText text of the drill's very version
 */
export function unkeptRunFile(run: ReviewedRun, drillText: string, savedAt: Date): FileReply {
  const saved = savedAt.toISOString().slice(0, 19).replace(/[-:]/g, '').replace('T', '-');
  return {
    outcome: 'text',
    fileName: `${run.drill.id}-${saved}.kerfhand-run`,
    text: encodeRunFile({
      ...run,
      drillText,
      finished: run.state === 'finished',
      digests: run.recorded?.digests ?? [],
      finalDigest: run.recorded?.finalDigest ?? null,
    }),
  };
}
