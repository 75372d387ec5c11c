import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import {
  encodeRunFile,
  type FaultHandId,
  faultHand,
  parseDrill,
  type RunFile,
  referenceHand,
  runFileOf,
  runHand,
  windowOfDrill,
} from '../../sim-core/index.ts';

/** The text of a shipped drill. */
export function shippedDrill(drillId: string): string {
  return readFileSync(join(import.meta.dirname, '..', '..', 'scenarios', `${drillId}.json`), 'utf8');
}

/** A whole run of a synthetic hand on a drill, as it would come in from another machine. */
export function runOfText(drillText: string, fault: FaultHandId | null, seed: number): RunFile {
  const read = parseDrill(drillText);
  if (!read.ok) throw new Error('The drill cannot be read.');
  const window = windowOfDrill(read.value);
  const script = fault === null ? referenceHand(read.value, window) : faultHand(fault, read.value, window).script;
  const run = runHand(read.value, script, seed);
  return runFileOf(run, drillText, fault ?? 'reference');
}

/** The same on a shipped drill. */
export function runOfHand(drillId: string, fault: FaultHandId | null, seed: number): RunFile {
  return runOfText(shippedDrill(drillId), fault, seed);
}

/** Calls the host as the page does. Throws with the host's own sentence. */
export async function callHost<T>(page: Page, verb: string, request: unknown): Promise<T> {
  const answer = await page.evaluate(
    async ([name, body]) => {
      const response = await fetch(`/call/${name}`, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      });
      return (await response.json()) as { ok: boolean; reply: unknown; error?: { message: string } };
    },
    [verb, request] as const,
  );
  if (!answer.ok) throw new Error(`${verb}: ${answer.error?.message}`);
  return answer.reply as T;
}

/** Takes a run into the records; the id under which it is kept. */
export async function importRun(page: Page, run: RunFile): Promise<string> {
  const { run: summary } = await callHost<{ run: { id: string } }>(page, 'importRun', { text: encodeRunFile(run) });
  return summary.id;
}

export async function openRun(page: Page, runId: string): Promise<void> {
  await page.goto(new URL(`/#/run/${runId}`, page.url()).href);
}
