import { scoreAfterOverruling } from '../../sim-core/index.ts';
import type { ParsedRequest, RunRecord, ScoreRecord } from '../contract.ts';
import { type Caller, isStaff, signedIn } from './caller.ts';
import { HostError } from './host-error.ts';
import type { Moderation } from './moderation.ts';
import { type ReportExtras, reportOf } from './papers/report.ts';
import { reportPdf } from './papers/report-pdf.ts';
import { runDigestOf } from './papers/verdict.ts';
import { readRunText } from './read-run-text.ts';
import { runFileName, runFileText } from './run-exchange.ts';
import type { RunShelf } from './run-shelf.ts';
import type { RunTrusts } from './run-trust.ts';
import type { SettingsStore } from './settings-store.ts';
import { noVerdict, type Verdicts } from './verdicts.ts';

export interface ReportNeeds {
  shelf: RunShelf;
  verdicts: Verdicts;
  moderation: Moderation;
  trusts: RunTrusts;
  appVersion: string;
  settings: SettingsStore;
}

/**
 * The report of a run as the caller may have it.
 * @throws HostError 'not-found', 'forbidden' (not an own decided run), 'bad-request' or 'bad-file' (a picture)
 */
export async function runReport(
  { shelf, verdicts, moderation, trusts, appVersion, settings }: ReportNeeds,
  { runId, yardName, pictures, units }: ParsedRequest<'exportRunReport'>,
  caller: Caller,
): Promise<{ fileName: string; pdf: Uint8Array }> {
  const run = await shelf.get(runId);
  mustBeFor(caller, run);
  const me = signedIn(caller);
  const runText = runFileText(run);
  const isBlind = me.role === 'assessor' && (await moderation.blindRuns(me.id)).has(runId);
  const off = await trusts.offLedger(run);
  const report = reportOf(readRunText(runText), {
    yard: yardName || (await settings.get()).yardName,
    person: off ? off.handedInBy : run.personName,
    warning: off?.sentence ?? null,
    beganAt: run.beganAt,
    runDigest: runDigestOf(runText),
    verdict: isBlind ? null : await verdictOn(run.id, run.scoreRecord, verdicts),
    pictures: pictures.map(({ caption, png }) => ({ caption, png: Buffer.from(png.slice(png.indexOf(',') + 1), 'base64') })),
    units,
    madeAt: new Date().toISOString(),
    appVersion,
  });
  return { fileName: runFileName(run).replace(/\.[^.]+$/, '.pdf'), pdf: await reportPdf(report) };
}

function mustBeFor(caller: Caller, run: RunRecord): void {
  if (isStaff(caller)) return;
  if (run.personId === null || run.personId !== caller.person?.id)
    throw new HostError('forbidden', 'The report of a run of somebody else is not for apprentices.');
  if ((run.assessment?.decision ?? null) === null)
    throw new HostError('forbidden', 'The report of a run is handed out once an assessor has decided on it.');
}

/**
 * The verdict that counts. One whose signature does not fit is shown as not signed.
 * @throws HostError 'damaged': it cannot be read
 */
async function verdictOn(runId: string, score: ScoreRecord | null, verdicts: Verdicts): Promise<ReportExtras['verdict']> {
  const newest = (await verdicts.list(runId))[0];
  if (!newest) return null;
  if (newest.check === 'unreadable') throw noVerdict(newest.checkSentence);
  const { decision, reasons, assessor, at, overruled, check, keyId } = newest;
  const scoreAfter = score ? scoreAfterOverruling(score, overruled) : newest.score;
  return { decision, reasons, assessor, at, overruled, scoreAfter, keyId: check === 'fits' ? keyId : null };
}
