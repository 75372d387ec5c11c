import { fromBase64 } from '../../sim-core/index.ts';

/** How the host answers where something is to become a file: the shell has written it, or the page has to offer it. */
export type FileReply =
  | { outcome: 'saved'; fileName: string }
  | { outcome: 'cancelled' }
  | { outcome: 'text'; fileName: string; text: string }
  | { outcome: 'bytes'; fileName: string; bytes: string };

/** Has the browser download what the host did not write itself. */
export function offerFile(reply: FileReply): void {
  if (reply.outcome === 'saved' || reply.outcome === 'cancelled') return;
  const content = reply.outcome === 'text' ? reply.text : new Uint8Array(fromBase64(reply.bytes));
  const address = URL.createObjectURL(new Blob([content], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = reply.fileName;
  link.click();
  URL.revokeObjectURL(address);
}
