import { isPageAddress } from './page-protocol.ts';

/** The cut is steered with a locked pointer; the page may ask for nothing else. */
const ALLOWED_PERMISSION = 'pointerLock';

/** The one kind of file that the page makes itself: a run that could not be kept. All else is written by the host. */
const PAGE_FILE_ENDING = '.kerfhand-run';

interface Preventable {
  preventDefault(): void;
}

/** The part of Electron's DownloadItem that the policy looks at. */
interface Download {
  getURL(): string;
  getFilename(): string;
}

/** The part of Electron's Session that the policy sets. Only main.ts knows Electron itself. */
export interface RestrictedSession {
  setPermissionRequestHandler(
    handler: (
      contents: unknown,
      permission: string,
      answer: (granted: boolean) => void,
      details: { requestingUrl: string },
    ) => void,
  ): void;
  setPermissionCheckHandler(handler: (contents: { getURL(): string } | null, permission: string) => boolean): void;
  setDevicePermissionHandler(handler: () => boolean): void;
  on(event: 'will-download', listener: (event: Preventable, item: Download) => void): unknown;
  webRequest: {
    onBeforeRequest(
      filter: { urls: string[] },
      listener: (details: unknown, answer: (reply: { cancel: boolean }) => void) => void,
    ): void;
  };
}

/** The part of Electron's WebContents that the policy sets. */
export interface RestrictedContents {
  setWindowOpenHandler(handler: () => { action: 'deny' }): void;
  on(event: 'will-navigate', listener: (event: Preventable) => void): unknown;
  on(event: 'will-frame-navigate', listener: (event: Preventable) => void): unknown;
  on(event: 'will-redirect', listener: (event: Preventable) => void): unknown;
  on(event: 'will-attach-webview', listener: (event: Preventable) => void): unknown;
}

/** Whether a file is made of what our own page holds in memory, and is of the kind that it makes. */
function isOfPage(item: Download): boolean {
  const address = item.getURL();
  return (
    address.startsWith('blob:') && isPageAddress(address.slice('blob:'.length)) && item.getFilename().endsWith(PAGE_FILE_ENDING)
  );
}

/**
 * Denies every permission, device, download and network address but a locked pointer for our own page and a file of a run that it
 * made. No place is set for that file, so that Electron asks for one.
 */
export function restrictSession(session: RestrictedSession): void {
  const allowed = (permission: string, address: string) => permission === ALLOWED_PERMISSION && isPageAddress(address);
  session.setPermissionRequestHandler((_contents, permission, answer, details) =>
    answer(allowed(permission, details.requestingUrl)),
  );
  session.setPermissionCheckHandler((contents, permission) => contents !== null && allowed(permission, contents.getURL()));
  session.setDevicePermissionHandler(() => false);
  session.on('will-download', (event, item) => {
    if (!isOfPage(item)) event.preventDefault();
  });
  const elsewhere = { urls: ['http://*/*', 'https://*/*', 'ws://*/*', 'wss://*/*', 'ftp://*/*', 'file://*/*'] };
  session.webRequest.onBeforeRequest(elsewhere, (_details, answer) => answer({ cancel: true }));
}

/** Keeps what a window shows on our page: no navigation away, no new windows, no embedded ones. */
export function restrictContents(contents: RestrictedContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => event.preventDefault());
  contents.on('will-frame-navigate', (event) => event.preventDefault());
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
}
