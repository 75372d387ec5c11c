import { callHost } from '../app/host-client.ts';
import { offerFile } from './offer-file.ts';

/** Saves a run as a file: the shell asks where, or the browser downloads it. */
export async function exportRun(runId: string): Promise<void> {
  offerFile(await callHost('exportRun', { runId }));
}
