import { callHost } from '../app/host-client.ts';

/** Saves a run as a file: the shell asks where, or the browser downloads it. */
export async function exportRun(runId: string): Promise<void> {
  const reply = await callHost('exportRun', { runId });
  if (reply.outcome !== 'text') return;
  const address = URL.createObjectURL(new Blob([reply.text], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = reply.fileName;
  link.click();
  URL.revokeObjectURL(address);
}
