import type { Answer, Verb } from '../contract.ts';
import { type Connection, newConnection } from '../host/caller.ts';
import type { Host } from '../host/host.ts';
import { CALL_CHANNEL } from './call-channel.ts';
import { isPageAddress } from './page-protocol.ts';

/** What is needed of Electron's IpcMainInvokeEvent. Only main.ts knows Electron itself. */
export interface CallEvent {
  readonly sender: unknown;
  readonly senderFrame: { readonly parent: unknown; readonly url: string } | null;
}

/** What is needed of Electron's IpcMain. */
export interface CallReceiver {
  handle(channel: string, listener: (event: CallEvent, ...values: unknown[]) => Promise<unknown>): void;
}

/**
 * Lets the page of one window, and nothing else, call the host. What it sends is parsed by the host.
 * @param ownContents the contents of our window, or null while there is none
 */
export function answerCalls(receiver: CallReceiver, ownContents: () => { readonly mainFrame: unknown } | null, host: Host): void {
  // A window that was closed takes its sign-in with it.
  const connections = new WeakMap<object, Connection>();
  receiver.handle(CALL_CHANNEL, async (event, verb, payload): Promise<Answer<Verb>> => {
    const own = ownContents();
    if (own === null || !isFromPage(event, own)) {
      return { ok: false, error: { code: 'forbidden', message: 'Only the Kerfhand page may call the host.' } };
    }
    const connection = connections.get(own) ?? newConnection();
    connections.set(own, connection);
    return await host.call(verb, payload, connection);
  });
}

/** Only the main frame of our own window counts, and only while it shows our page. */
function isFromPage(event: CallEvent, own: { readonly mainFrame: unknown }): boolean {
  const { sender, senderFrame } = event;
  if (sender !== own || senderFrame === null) return false;
  return senderFrame.parent === null && senderFrame === own.mainFrame && isPageAddress(senderFrame.url);
}
