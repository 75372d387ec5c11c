/** How the host answers where something is to become a file: the shell has written it, or the page has to offer it. */
export type FileReply =
  | { outcome: 'saved'; fileName: string }
  | { outcome: 'cancelled' }
  | { outcome: 'text'; fileName: string; text: string };

/** Has the browser download what the host did not write itself. */
export function offerFile(reply: FileReply): void {
  if (reply.outcome !== 'text') return;
  const address = URL.createObjectURL(new Blob([reply.text], { type: 'application/octet-stream' }));
  const link = document.createElement('a');
  link.href = address;
  link.download = reply.fileName;
  link.click();
  URL.revokeObjectURL(address);
}
