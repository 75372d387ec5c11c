import type { Request } from '../../electron/contract.ts';
import type { TestPage } from './open-test-host.ts';
import { CHUNK_TICKS, sampleBegin, sampleChunk, sampleFinish } from './sample-hand.ts';

/** A run from begin to finish: one chunk of the sample hand, and a score that the page claims. */
export async function cutSampleRun(
  page: TestPage,
  begin: Partial<Request<'beginRun'>> = {},
  claimed: { score: number; passed: boolean } = { score: 81.5, passed: true },
): Promise<string> {
  const { runId } = await page.ask('beginRun', { ...sampleBegin(), ...begin });
  await page.ask('appendToRun', sampleChunk(runId, 0));
  const finish = sampleFinish(runId, CHUNK_TICKS);
  await page.ask('finishRun', { ...finish, score: { ...finish.score, ...claimed } });
  return runId;
}
