/**
 * The Electron shell: one sandboxed window on our own page, the host behind it. Everything with an idea of its own is in
 * shell/ and host/. The fuses are in packaging/: they are burnt into a package's binary, and a checkout has only the stock one.
 */
import path from 'node:path';
import { app, BrowserWindow, dialog, ipcMain, Menu, protocol, session } from 'electron';
import { findAppPaths } from './host/app-paths.ts';
import { dataFolder } from './host/data-folder.ts';
import type { Host } from './host/host.ts';
import { HostError } from './host/host-error.ts';
import { openYards } from './host/open-yards.ts';
import { listPageFiles } from './host/page-files.ts';
import { answerCalls } from './shell/answer-calls.ts';
import { answerPageRequest, PAGE_ADDRESS, PAGE_SCHEME } from './shell/page-protocol.ts';
import { restrictContents, restrictSession } from './shell/window-policy.ts';

let window: BrowserWindow | null = null;
let host: Host | null = null;

async function askWhereToSave(suggestedName: string): Promise<string | null> {
  const options = { defaultPath: path.join(app.getPath('documents'), suggestedName) };
  const answer = window ? await dialog.showSaveDialog(window, options) : await dialog.showSaveDialog(options);
  return answer.canceled ? null : answer.filePath;
}

function openWindow(): void {
  const opened = new BrowserWindow({
    width: 1440,
    height: 900,
    minWidth: 800,
    minHeight: 600,
    show: false,
    title: 'Kerfhand',
    webPreferences: {
      preload: path.join(import.meta.dirname, 'preload.cjs'),
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webSecurity: true,
      webviewTag: false,
      navigateOnDragDrop: false,
      spellcheck: false,
      devTools: !app.isPackaged,
    },
  });
  window = opened;
  opened.once('ready-to-show', () => opened.show());
  opened.once('closed', () => {
    window = null;
  });
  void opened.loadURL(PAGE_ADDRESS);
}

async function start(): Promise<void> {
  const paths = findAppPaths(import.meta.dirname);
  const files = listPageFiles(paths.pageFolder);
  await app.whenReady();
  restrictSession(session.defaultSession);
  if (process.platform !== 'darwin') Menu.setApplicationMenu(null);
  host = await openYards({
    folder: dataFolder(),
    scenariosFolder: paths.scenariosFolder,
    shell: 'electron',
    appVersion: paths.version,
    askWhereToSave,
    log: (line) => process.stderr.write(`${line}\n`),
    tell: (line) => process.stderr.write(`${line}\n`),
  });
  protocol.handle(PAGE_SCHEME, (request) => answerPageRequest(request, files));
  answerCalls(ipcMain, () => window?.webContents ?? null, host);
  openWindow();
}

function showFailure(error: unknown): void {
  const known = error instanceof HostError;
  if (!known) process.stderr.write(`${error instanceof Error ? error.stack : error}\n`);
  dialog.showErrorBox('Kerfhand cannot start', known || error instanceof Error ? error.message : String(error));
  app.exit(1);
}

app.enableSandbox();
protocol.registerSchemesAsPrivileged([
  { scheme: PAGE_SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, stream: true, codeCache: true } },
]);
app.on('web-contents-created', (_event, contents) => restrictContents(contents));
app.on('second-instance', () => {
  if (window?.isMinimized()) window.restore();
  window?.focus();
});
app.on('window-all-closed', () => app.quit());
app.on('will-quit', (event) => {
  const closing = host;
  if (!closing) return;
  // Records are closed first; then the app ends for good.
  event.preventDefault();
  host = null;
  void closing.close().finally(() => app.exit(0));
});

if (app.requestSingleInstanceLock()) start().catch(showFailure);
else app.quit();
